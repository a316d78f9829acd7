/** form/no-reason – an accepted finding without a word why. */
import { at, type Span, type TextTree } from '../../text/tree';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

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
export const noReason: Rule = defineRule({
  name: 'form/no-reason',
  severity: 'warning',
  summary: 'A finding is accepted without a reason.',
  why: 'The next person who reads or mills the part does not know whether somebody thought about it. One line of reason makes an exception safe to hand on.',
  formula: 'Each entry under `accept` needs words under `because`.',
  limits: [],
  bad: text(''),
  good: text(', because: only a cover'),
  when: 'last',
  find: ({ part }) => part.accept.filter((a) => !a.because?.trim()),
  tell({ rule: { name }, of, span }, { tree }) {
    return {
      message: `${name}${of ? ` of ${of.name}` : ''} is accepted without a reason. Write why: \`because: …\`.`,
      of: [],
      span: reasonSpan(span, tree) ?? span,
      facts: { rule: name, feature: of?.name },
    };
  },
});

/** Where the empty reason stands, if it does. */
function reasonSpan(entry: Span, tree: TextTree): Span | undefined {
  const list = at(tree.root, 'accept');
  const item =
    list?.type === 'list'
      ? list.items.find((i) => i.span.block === entry.block && i.span.from === entry.from)
      : undefined;
  return at(item, 'because')?.span;
}
