/** tol/datum-order – the first datum is a short hole, though a face is named too. */
import { FACE_AXIS, type GeometricTolerance, type Part } from '../../model/model';
import { at } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';

interface Swapped {
  readonly tolerance: GeometricTolerance;
  /** The feature that comes first, and the face that should. */
  readonly first: string;
  readonly hole: string;
  readonly ratio: number;
  readonly face: string;
  readonly letter: string;
}

function* swapped(part: Part): Generator<Swapped> {
  for (const tolerance of part.tolerances) {
    const targets = tolerance.datums.map((d) => part.datums.get(d.name)?.target.name);
    const [first] = targets;
    const hole = first === undefined ? undefined : part.featureByName.get(first);
    if (hole?.kind !== 'hole') continue;
    const ratio = hole.depth.mm / hole.diameter.mm;
    const later = targets.findIndex((t, i) => i > 0 && t !== undefined && t in FACE_AXIS);
    if (ratio >= 1 || later < 0) continue;
    yield {
      tolerance,
      first: tolerance.datums[0]!.name,
      hole: hole.name,
      ratio,
      face: targets[later]!,
      letter: tolerance.datums[later]!.name,
    };
  }
}

const BAD = `part: hub
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 8 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: through }
  mount: { kind: hole, face: top, at: { x: center, y: center }, pattern: { bolt-circle: { diameter: 44, count: 4, start: 45 } }, diameter: 5.5, depth: through }
datums: { A: seat, B: bottom }
tolerances:
  - { position: 0.2, of: mount, datums: [A, B] }
`;

export const datumOrder: Rule = defineRule({
  name: 'tol/datum-order',
  severity: 'warning',
  summary: 'A short hole is the first datum, and a face comes after it.',
  why: 'The first datum is what the part rests on: it fixes three of its freedoms. A hole that is shorter than its diameter gives no direction. Resting on it first, the part rocks, and two people measure two values. ISO 5459: the first datum constrains orientation.',
  formula:
    'The depth over the diameter of the hole that is named first. Reported under 1 (rule of thumb), where one of the other datums is a face.',
  bounds: 'A depth of one diameter: a rule of thumb.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['[A, B]', '[B, A]']),
  when: 'text',
  mends: 'Name the face first.',
  find: ({ part }) => swapped(part),
  tell: ({ tolerance, first, hole, ratio, face, letter }) => ({
    message: `Datum ${first} (${hole}) comes first. Its depth is ${ratio.toFixed(2)} times its diameter, too short to give a direction. Name ${letter} (${face}) first.`,
    of: [hole],
    span: tolerance.datums[0]!.span,
    facts: { ratio, first, face },
  }),
  keep({ tolerance, letter }, { part }) {
    const names = tolerance.datums.map((d) => d.name).filter((name) => name !== letter);
    return { index: part.tolerances.indexOf(tolerance), ordered: [letter, ...names] };
  },
  mend({ index, ordered }, { tree }) {
    const node = at(tree.root, 'tolerances');
    const list = node?.type === 'list' ? at(node.items[index], 'datums') : undefined;
    if (list?.type !== 'list') return [];
    const edits = list.items.map((item, i) => ({ span: item.span, newText: ordered[i]! }));
    return [change(`Name ${ordered[0]} first`, edits)];
  },
});
