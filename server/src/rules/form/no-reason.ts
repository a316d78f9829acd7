/** form/no-reason – an accepted finding without a word why. */
import { at } from '../../text/tree';
import type { Rule } from '../kit/rule';

const NAME = 'form/no-reason';

const text = (because: string) => `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: 7.5
accept:
  - { rule: wall/thin, of: window${because} }
`;

/** The entry holds all the same: it takes its finding away, and this asks for the reason. */
export const noReason: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A finding is accepted, and nothing says why.',
  why: 'Who reads the part next, and mills it, does not know whether a thin wall was thought about or clicked away. One line of reason is what makes an exception safe to pass on.',
  limits: [],
  bad: text(''),
  good: text(', because: only a cover'),
  when: 'last',
  *find({ part, tree }) {
    for (const accept of part.accept) {
      if (accept.because?.trim()) continue;
      const of = accept.of ? ` of \`${accept.of.name}\`` : '';
      yield {
        rule: NAME,
        severity: 'warning',
        message: `${accept.rule.name}${of} is accepted without a reason. Say why it is all right: \`because: …\`.`,
        of: [],
        span: reasonSpan(accept.span, tree) ?? accept.span,
        related: [],
        facts: { rule: accept.rule.name, ...(accept.of ? { feature: accept.of.name } : {}) },
      };
    }
  },
};

/** Where the empty reason stands, if it does. */
function reasonSpan(
  entry: { readonly block: string; readonly from: number },
  tree: Parameters<Rule['find']>[0]['tree'],
) {
  const list = at(tree.root, 'accept');
  const item =
    list?.type === 'list'
      ? list.items.find((i) => i.span.block === entry.block && i.span.from === entry.from)
      : undefined;
  return at(item, 'because')?.span;
}
