/** Slots: plain, T and dovetail. */
import { at, type MapNode, mapAt, type Span } from '../../text/tree';
import type { Angle, Depth, FeatureBase, Length, PathCorner } from '../base';
import { baseOf, drawnSpan, type Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { cornersOf, floorRadiusOf } from '../resolve/outline';
import { depthOf } from '../resolve/places';
import { angle, length, list, map, optional } from '../schema/common';
import { depth, path, pattern, position } from '../schema/places';
import { floorRadius, kind, at as place, SHIFT, what, where } from './fields';
import type { FeatureKindHome, SizeOf } from './kind';
import { recessFields, recessOf, type SlotCounterbore, type SlotCountersink } from './slot-recess';

export interface Slot extends FeatureBase {
  readonly kind: 'slot';
  /** Centre line, relative to the place, at least two corners, open. */
  readonly line: readonly PathCorner[];
  readonly width: Length;
  readonly depth: Depth;
  readonly floorRadius: Length;
  readonly tee?: { readonly width: Length; readonly height: Length; readonly span: Span };
  readonly dovetail?: { readonly angle: Angle; readonly span: Span };
  /** What widens its mouth all along it; one of them at most. */
  readonly counterbore?: SlotCounterbore;
  readonly countersink?: SlotCountersink;
  /** Never: its ends are as round as it is wide. */
  readonly runOutMm?: undefined;
}

const schema = map(
  {
    kind: kind('slot', 'A groove as wide as its cutter or wider: straight or along a path.'),
    ...where,
    at: place(SHIFT),
    pattern: optional(pattern),
    ends: optional(
      list(position('One end of the centre line.'), 'The two ends of the centre line.', {
        example: '[{ x: 10, y: 20 }, { x: 40, y: 20 }]',
      }),
    ),
    path: optional(path('Corners of the centre line, open.')),
    width: length('Width of the slot.', { example: '8' }),
    depth: depth('How deep, or `through`.'),
    'floor-radius': floorRadius,
    tee: optional(
      map(
        {
          width: length('Width of the wide part.', { example: '14' }),
          height: length('Height of the wide part, up from the floor.', { example: '6' }),
        },
        'A wider part at the floor: a T-slot.',
      ),
    ),
    dovetail: optional(
      map(
        { angle: angle('Between the flank and the floor.', { example: '60' }) },
        'Sloped flanks, wider toward the floor, below the neck.',
      ),
    ),
    ...recessFields,
    ...what,
  },
  'A slot: round ends inside the body, open where it runs out of it.',
  { one: [['ends', 'path']] },
);

function resolve(work: Evaluation, head: Head, map: MapNode): Slot | undefined {
  const base = baseOf(work, head, map, drawnSpan(map, 'ends', 'path'));
  const width = work.length(map, 'width');
  const depth = depthOf(work, map, base);
  if (!base) return undefined;
  const line = lineOf(work, map, base.face);
  const floorRadius = floorRadiusOf(work, map, head);
  const tee = teeOf(work, map);
  const dovetail = dovetailOf(work, map);
  const recess = recessOf(work, map, head, width, depth);
  if (!line || !width || !depth || !floorRadius || work.broken) return undefined;
  if (tee && dovetail) return work.fail('A slot has a tee or a dovetail, not both. Delete one of them.', dovetail.span);
  if (tee && tee.width.mm <= width.mm)
    return work.fail('The tee is not wider than the slot’s neck. Make the tee’s `width` larger.', tee.width.span);
  if (tee && tee.height.mm >= depth.mm)
    return work.fail(
      'The tee is as high as the slot is deep, so no neck is left. Make the tee’s `height` smaller.',
      tee.height.span,
    );
  const below = { ...(tee && { tee }), ...(dovetail && { dovetail }) };
  return { ...base, kind: 'slot', line, width, depth, floorRadius, ...below, ...recess };
}

function lineOf(work: Evaluation, map: MapNode, face: Slot['face']): readonly PathCorner[] | undefined {
  const ends = at(map, 'ends');
  if (ends?.type === 'list') {
    if (ends.items.length === 2) return cornersOf(work, ends, face, false);
    return work.fail(
      `A slot has two ends; this gives ${ends.items.length}. Write two, or \`path\` for a bent slot.`,
      ends.span,
    );
  }
  const path = at(map, 'path');
  return path?.type === 'list' ? cornersOf(work, path, face, false) : undefined;
}

function teeOf(work: Evaluation, map: MapNode): Slot['tee'] {
  const tee = mapAt(map, 'tee');
  const width = work.length(tee, 'width');
  const height = work.length(tee, 'height');
  return tee && width && height && { width, height, span: tee.span };
}

function dovetailOf(work: Evaluation, map: MapNode): Slot['dovetail'] {
  const dovetail = mapAt(map, 'dovetail');
  const angle = work.angle(dovetail, 'angle', 0, 90);
  return dovetail && angle && { angle, span: dovetail.span };
}

function* sizes({ width, depth, counterbore, countersink }: Slot): Generator<SizeOf> {
  yield ['width', width, 'inside', 'mill'];
  yield ['depth', depth.length, 'neither', 'mill'];
  yield ['counterbore', counterbore?.width, 'inside', 'mill'];
  yield ['counterbore depth', counterbore?.depth, 'neither', 'mill'];
  yield ['countersink', countersink?.width, 'neither', 'form'];
}

export const slot: FeatureKindHome<Slot, 'channel'> = {
  form: 'channel',
  schema,
  resolve,
  plural: 'slots',
  snippets: [
    [
      'slot',
      'a slot between two ends',
      [
        'kind: slot',
        'face: ${2:top}',
        'ends: [{ x: ${3:10}, y: ${4:10} }, { x: ${5:30}, y: ${6:10} }]',
        'width: ${7:6}',
        'depth: ${8:4}',
      ],
    ],
    [
      'countersunk slot',
      'a slot for the shank of a flat-head screw, and its head',
      [
        'kind: slot',
        'face: ${2:top}',
        'ends: [{ x: ${3:10}, y: ${4:10} }, { x: ${5:30}, y: ${6:10} }]',
        'width: ${7:5.5}',
        'depth: through',
        'countersink: ${8:M5}',
      ],
    ],
  ],
  stands: ({ depth }) => ({ floor: depth, rim: true }),
  sizes,
  across: ({ width }) => [width],
  shapes: () => [],
  paths: ({ line, nameSpan }) => [{ corners: line, closed: false, span: line[0]?.span ?? nameSpan }],
  needs: () => [],
};
