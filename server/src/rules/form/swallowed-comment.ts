import type { Rule } from '../kit/rule';

/** Raised while the text is read. */
export const swallowedComment: Rule = {
  name: 'form/swallowed-comment',
  severity: 'error',
  summary: 'A value that begins with # is a comment to YAML, so it is not there.',
  why: 'Numbered screws are written #10-24 on drawings. In YAML everything from a # behind a space is a comment: the value is silently gone and the hole would be made without its thread.',
  limits: [],
  bad: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 3.8
    thread: #10-24
    depth: through
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: "#10-24 UNC"
    depth: through
`,
  when: 'read',
  mends: 'The value in quotes.',
  *mend(finding, { tree }) {
    const { start, end } = tree.locate(finding.span);
    const line = tree.text.slice(start, end);
    const written = /#.*$/.exec(line)?.[0].trimEnd();
    if (!written) return;
    const from = finding.span.from + line.indexOf(written);
    yield {
      title: `Put it in quotes: "${written}"`,
      safe: true,
      edits: [
        { span: { block: finding.span.block, from, to: from + written.length }, newText: JSON.stringify(written) },
      ],
    };
  },
  find: () => [],
};
