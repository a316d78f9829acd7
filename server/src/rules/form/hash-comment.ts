import type { Span, TextTree } from '../../text/tree';
import { edited, tidying } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Fix, Rule } from '../kit/rule';

const BAD = `part: cover
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
`;

/** Raised while the text is read. */
export const hashComment: Rule = defineRule({
  name: 'form/hash-comment',
  severity: 'error',
  summary: 'A value that begins with # is a comment in YAML, so it is not read.',
  why: 'Drawings name screws #10-24. In YAML everything from a # behind a space is a comment. The value is then missing, and the hole is made without its thread.',
  formula: 'A key has no value, and a `#` follows it on the same line.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['    diameter: 3.8\n    thread: #10-24\n', '    thread: "#10-24 UNC"\n']),
  when: 'read',
  mends: 'Put the value in quotes.',
  find: () => [],
  tell: (hit: never) => hit,
});

/** What stands behind the `#`, in quotes. */
export function inQuotes(span: Span, tree: TextTree): Fix | undefined {
  const { start, end } = tree.locate(span);
  const line = tree.text.slice(start, end);
  const written = /#.*$/.exec(line)?.[0].trimEnd();
  if (!written) return undefined;
  const from = span.from + line.indexOf(written);
  return tidying(`Put it in quotes: "${written}"`, {
    span: { block: span.block, from, to: from + written.length },
    newText: JSON.stringify(written),
  });
}
