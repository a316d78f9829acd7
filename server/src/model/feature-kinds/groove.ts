/** Rings: on a face (seal grooves), or inside a hole (snap-ring grooves). */
import { at, entry, type MapNode, scalarAt } from '../../text/tree';
import type { Depth, FeatureBase, Length, Named } from '../base';
import { baseOf, finishOf, type Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { depthOf } from '../resolve/places';
import { length, map, name, optional, text, words } from '../schema/common';
import { depth, pattern } from '../schema/places';
import { kind, at as place, what, where } from './fields';
import { type RingSeal, ringGroove } from './groove-ring';
import type { FeatureKindHome } from './kind';

export interface Groove extends FeatureBase {
  readonly kind: 'groove';
  /** On a face: the inner diameter, and the width outward. In a hole: the diameter reached, and the width along the axis. */
  readonly diameter: Length;
  readonly width: Length;
  /** On a face only. */
  readonly depth?: Depth;
  readonly in?: Named;
  /** The O-ring that lies in it, on a face. */
  readonly ring?: RingSeal;
  /** In a hole: from `face` to the groove's near side. */
  readonly below?: Length;
}

const PRESSURE = {
  inside: 'the ring lies at the outer wall',
  outside: 'the ring lies at the inner wall',
} as const;

const schema = map(
  {
    kind: kind('groove', 'A ring: on a face, or inside a hole.'),
    ...where,
    at: place('Centre of a ring on a face.'),
    pattern: optional(pattern),
    in: optional(
      name('feature', 'The hole it is cut in; left out for a ring on a face.', {
        example: 'bearing-seat',
      }),
    ),
    ring: optional(
      text(
        'On a face: the O-ring that lies in it, by inside diameter and thickness in mm. Or its size code of ISO 3601-1: `214`.',
        {
          example: '24x2',
        },
      ),
    ),
    pressure: optional(words(PRESSURE, 'Of an O-ring: where the pressure is.', { fallback: 'inside' })),
    diameter: optional(
      length('On a face: the inner diameter. In a hole: the diameter it reaches.', {
        example: '24',
        fallback: 'by `ring`',
      }),
    ),
    width: optional(
      length('On a face: outward from the diameter. In a hole: along its axis.', {
        example: '1.3',
        fallback: 'by `ring`',
      }),
    ),
    depth: optional(depth('On a face only: how deep. Left out: by `ring`.')),
    below: optional(length('In a hole only: from the face down to the groove.', { example: '5' })),
    ...what,
  },
  'A ring on a face (seal groove), or inside a hole (snap-ring groove).',
  { some: [['ring', 'diameter']] },
);

function resolve(work: Evaluation, head: Head, map: MapNode): Groove | undefined {
  const diameter = work.length(map, 'diameter');
  const width = work.length(map, 'width');
  const ring = scalarAt(map, 'ring');
  if (!ring && !at(map, 'width'))
    work.fail('A groove needs `width`. Write it like `width: 1.3`, or name its O-ring: `ring: 24x2`.', head.nameSpan);
  if (at(map, 'in')) return inHole(work, head, map, diameter, width);
  const below = entry(map, 'below');
  if (below)
    return work.fail(
      '`below` is for a groove inside a hole. Name the hole with `in`, as `in: bore`, or delete `below`.',
      below.key.span,
    );
  if (!ring && !at(map, 'depth'))
    work.fail(
      'A groove on a face needs `depth`. Write it like `depth: 1.5`; one inside a hole needs `in` and `below`.',
      head.nameSpan,
    );
  const base = baseOf(work, head, map);
  const depth = at(map, 'depth') || !ring ? depthOf(work, map, base) : undefined;
  if (ring) {
    const sized = ringGroove(work, map, { diameter, width, depth });
    return base && sized && { ...base, kind: 'groove', ...sized };
  }
  return base && diameter && width && depth && { ...base, kind: 'groove', diameter, width, depth };
}

function inHole(work: Evaluation, head: Head, map: MapNode, diameter?: Length, width?: Length): Groove | undefined {
  for (const key of ['face', 'from', 'at', 'pattern', 'depth', 'tilt', 'ring']) {
    const odd = entry(map, key);
    if (odd) work.remark(`A groove inside a hole is where the hole is. Delete \`${key}\`.`, odd.key.span);
  }
  const node = scalarAt(map, 'in')!;
  if (!at(map, 'below'))
    work.fail(
      'A groove inside a hole needs `below`: how far under the face it begins. Write it like `below: 3`.',
      head.nameSpan,
    );
  const below = work.length(map, 'below', 'from-zero');
  const finish = finishOf(work, map);
  const found = work.feature(node);
  if (!found)
    return work.circle === undefined
      ? undefined
      : work.fail('A groove cannot be inside itself. Name a hole in `in`.', node.span);
  const { boreMm } = found.stands;
  if (boreMm === undefined)
    return work.fail(
      `\`${found.named.name}\` is not a round hole, and a ring is cut only in one. Name a hole in \`in\`.`,
      node.span,
    );
  if (!diameter || !width || !below) return undefined;
  if (diameter.mm <= boreMm)
    return work.fail('The groove is not wider than the hole it is in. Make its `diameter` larger.', diameter.span);
  const { face, startMm, places, tilt, pattern } = found.feature;
  const where = { face, faceSpan: node.span, startMm, places, ...(tilt && { tilt }), ...(pattern && { pattern }) };
  return { ...head, ...finish, ...where, kind: 'groove', diameter, width, in: found.named, below };
}

export const groove: FeatureKindHome<Groove, 'ring'> = {
  form: 'ring',
  schema,
  resolve,
  plural: 'grooves',
  snippets: [
    [
      'O-ring groove',
      'a groove in a face, by the O-ring that lies in it',
      ['kind: groove', 'face: ${2:top}', 'at: { x: ${3:center}, y: ${4:center} }', 'ring: ${5:24x2}'],
    ],
    [
      'groove',
      'a ring in a face',
      [
        'kind: groove',
        'face: ${2:top}',
        'at: { x: ${3:center}, y: ${4:center} }',
        'diameter: ${5:20}',
        'width: ${6:3}',
        'depth: ${7:2}',
      ],
    ],
  ],
  stands: ({ depth, in: hole }) => ({ ...(depth && { floor: depth }), rim: !hole }),
  sizes: ({ diameter, width, depth }) => [
    ['diameter', diameter, 'neither', 'form'],
    ['width', width, 'inside', 'mill'],
    ['depth', depth?.length, 'neither', 'mill'],
  ],
  across: ({ diameter, width }) => [diameter, width],
  shapes: () => [],
  paths: () => [],
  needs: ({ in: hole }) => (hole ? [hole] : []),
};
