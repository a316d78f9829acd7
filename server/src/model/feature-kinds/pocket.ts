/** Milled recesses with their islands: what is cut inside an outline; a cutout when it goes through. */

import { at, entry, type ListNode, type MapEntry, type MapNode, mapAt } from '../../text/tree';
import { ROUNDING, SAME } from '../../tolerance';
import type { Angle, Depth, FeatureBase, Length, Named, Place, Shape } from '../base';
import { baseOf, drawnSpan, type Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { cornersOf, floorRadiusOf, relativeTo, shapeOf, unwritten } from '../resolve/outline';
import { depthOf, positionOf } from '../resolve/places';
import { replace } from '../resolve/problem';
import { angle, length, list, map, named, optional, words } from '../schema/common';
import { depth, path, pattern, position } from '../schema/places';
import { CENTRE, circle, floorRadius, kind, outline, at as place, what, where } from './fields';
import { closedPaths, type FeatureKindHome, type SizeOf, shapeSizes, shapeWidths } from './kind';
import { type Relief, reliefOf } from './pocket-relief';

export interface Island extends Named {
  readonly shape: Shape;
  /** Relative to the pocket's place. */
  readonly place: Place;
  /** Above the pocket's floor; the full depth where not written. */
  readonly height: Length;
  /** Of a rib: how thick it is, and the radius in the corners where it meets walls. */
  readonly rib?: { readonly thickness: Length; readonly root?: Length };
}

export interface Pocket extends FeatureBase {
  readonly kind: 'pocket';
  readonly shape: Shape;
  readonly depth: Depth;
  readonly floorRadius: Length;
  /**
   * `corner`: a round cut of this diameter through each square inside corner, so that a square mate can seat. Where
   * the text gives no diameter it is the one of `reliefDiameterMm`.
   */
  readonly relief?: Relief;
  /** How far its walls lean outward: the outline is that of the mouth. Left out: upright. */
  readonly draft?: Angle;
  readonly islands: readonly Island[];
}

const island = map(
  {
    ...outline,
    diameter: circle('a round island'),
    path: optional(path('Corners of the island, closed.')),
    ends: optional(
      list(position('One end of the rib’s centre line.'), 'The two ends of a rib’s centre line.', {
        example: '[{ x: 10, y: 20 }, { x: 50, y: 20 }]',
      }),
    ),
    thickness: optional(length('Thickness of a rib.', { example: '3' })),
    root: optional(
      length('Radius where a rib meets walls; a round cutter leaves one.', {
        example: '3',
        fallback: '0, square corners',
      }),
    ),
    at: place('Where the island’s centre is (or by how much its path is shifted).'),
    height: optional(
      length('Height above the pocket’s floor.', {
        example: '4',
        fallback: 'up to where the pocket starts',
      }),
    ),
  },
  'Material that stays standing in the pocket: a boss, or a rib between two ends.',
  { one: [['size', 'diameter', 'path', 'ends']] },
);

const RELIEFS = {
  corner:
    'a round cut through each square inside corner, as deep as the pocket. A square mate can then seat. Its centre is on the corner’s bisector. A corner with its own radius keeps it',
} as const;

const schema = map(
  {
    kind: kind('pocket', 'A milled recess: rectangular, round or along a path; a cutout when it goes through.'),
    ...where,
    at: place(`${CENTRE} A path is shifted by it.`),
    pattern: optional(pattern),
    ...outline,
    diameter: circle('a round pocket'),
    path: optional(path('Corners of the outline, closed.')),
    depth: depth('How deep, or `through`.'),
    'floor-radius': floorRadius,
    draft: optional(
      angle('Angle by which the walls slope outward, widest at the mouth. It needs a tapered end mill.', {
        example: '3',
        fallback: '0, upright walls',
      }),
    ),
    relief: optional(
      words(RELIEFS, 'What is done where a square mate must seat in a corner.', {
        fallback: 'corners stay as they are drawn',
      }),
    ),
    'relief-diameter': optional(
      length(
        'Diameter of the round cuts of `relief`. Each leaves a gap beside the mate: choose the smallest cutter that reaches the floor.',
        {
          example: '4',
          fallback:
            'a quarter of the outline’s smaller side, at most 6 mm. With a `floor-radius`: at least twice the radius, at most half the smaller side',
        },
      ),
    ),
    islands: optional(named(island, 'Material that stays standing in the pocket, by name.')),
    ...what,
  },
  'A milled recess; open where it crosses the body’s edge.',
  { one: [['size', 'diameter', 'path']] },
);

function resolve(work: Evaluation, head: Head, map: MapNode): Pocket | undefined {
  const base = baseOf(work, head, map, drawnSpan(map, 'path'));
  const depth = depthOf(work, map, base);
  if (!base) return undefined;
  const shape = shapeOf(work, map, base.face, head.span);
  const floorRadius = floorRadiusOf(work, map, head);
  if (!shape || !depth || !floorRadius) return undefined;
  const relief = reliefOf(work, map, shape, floorRadius.mm);
  const islands = islandsOf(work, map, base.face, base.places[0]!, depth.mm);
  const draft = at(map, 'draft') ? draftOf(work, map, { shape, depth, islands }) : undefined;
  if (work.broken) return undefined;
  return {
    ...base,
    kind: 'pocket',
    shape,
    depth,
    floorRadius,
    ...(relief && { relief }),
    ...(draft && { draft }),
    islands,
  };
}

/** Steeper is no draft but a slope. Common practice, no source: 1 to 10°. */
const MOST_DRAFT_DEG = 30;

/** Its one volume leans all the way: what would make it two is refused. */
function draftOf(
  work: Evaluation,
  map: MapNode,
  { shape, depth, islands }: Pick<Pocket, 'shape' | 'depth' | 'islands'>,
): Angle | undefined {
  const draft = work.angle(map, 'draft', 0, MOST_DRAFT_DEG);
  if (!draft) return undefined;
  for (const key of ['floor-radius', 'relief', 'tilt'] as const)
    if (at(map, key))
      work.fail(`A pocket with \`draft\` has no \`${key}\` here. Delete one of them.`, entry(map, key)!.key.span);
  if (depth.through)
    work.fail('A pocket with `draft` has a floor here. Write its `depth`, or delete `draft`.', draft.span);
  const low = islands.find((i) => i.height.mm < depth.mm - ROUNDING);
  if (low)
    work.fail('In a pocket with `draft` an island is as high as its walls. Delete its `height`.', low.height.span);
  const inMm = depth.mm * Math.tan((draft.deg * Math.PI) / 180);
  const acrossMm = Math.min(Number.POSITIVE_INFINITY, ...shapeWidths(shape).map((l) => l.mm));
  if (2 * inMm > acrossMm - ROUNDING)
    work.fail(
      'At this draft nothing of the floor is left. Make the pocket wider or less deep, or the draft smaller.',
      draft.span,
    );
  return draft;
}

function islandsOf(work: Evaluation, map: MapNode, face: Pocket['face'], place: Place, depthMm: number): Island[] {
  const found: Island[] = [];
  for (const e of mapAt(map, 'islands')?.entries ?? []) {
    const island = islandOf(work, e, face, place, depthMm);
    if (island) found.push(island);
  }
  return found;
}

/** What only a rib has, or only another island. */
function oddKeys(work: Evaluation, map: MapNode, isRib: boolean): void {
  for (const key of isRib ? (['at', 'corner-radius', 'rotate'] as const) : (['thickness', 'root'] as const)) {
    const odd = entry(map, key);
    if (!odd) continue;
    // The other's word for the same: the radius that a round cutter leaves.
    const own = key === 'corner-radius' ? 'root' : key === 'root' && at(map, 'size') ? 'corner-radius' : undefined;
    const to = own && !entry(map, own) ? own : undefined;
    const whose = isRib ? 'a rib, which has' : 'an island without';
    work.remark(
      `\`${key}\` does not belong to ${whose} \`ends\`. ${to ? `Write \`${to}\`.` : 'Delete it.'}`,
      odd.key.span,
      to ? { fixes: [replace(odd.key.span, to)] } : {},
    );
  }
}

function islandOf(
  work: Evaluation,
  e: MapEntry,
  face: Pocket['face'],
  pocketPlace: Place,
  depthMm: number,
): Island | undefined {
  const map = e.value as MapNode;
  const ends = at(map, 'ends');
  const rib = ends?.type === 'list' ? ribOf(work, map, ends, face) : undefined;
  const shape = ends ? rib?.shape : shapeOf(work, map, face, e.span);
  const where = mapAt(map, 'at');
  const origin: Place = rib?.middle ?? { u: 0, v: 0, span: e.span };
  oddKeys(work, map, ends !== undefined);
  if (!where && !ends && shape?.type !== 'path' && shape) {
    return work.fail('An island needs `at`: where its centre is. Write it like `at: { x: 30, y: 20 }`.', e.key.span);
  }
  const place = where && !ends ? positionOf(work, where, face) : origin;
  const height = at(map, 'height')
    ? work.length(map, 'height')
    : unwritten(depthMm, e.span, 'no `height` is given: up to where the pocket starts');
  if (!shape || !place || !height) return undefined;
  if (height.mm > depthMm + ROUNDING)
    return work.fail('This island is higher than the pocket is deep. Make its `height` smaller.', height.span);
  const named = { name: String(e.key.value), span: e.key.span };
  return { ...named, shape, place: relativeTo(place, pocketPlace), height, ...(rib && { rib: rib.rib }) };
}

interface Rib extends Required<Pick<Island, 'rib'>> {
  readonly shape: Shape;
  readonly middle: Place;
}

/** A rectangle along the line between its ends, as wide as the rib is thick. */
function ribOf(work: Evaluation, map: MapNode, ends: ListNode, face: Pocket['face']): Rib | undefined {
  const thickness = work.length(map, 'thickness');
  const root = at(map, 'root') ? work.length(map, 'root', 'from-zero') : undefined;
  if (!at(map, 'thickness')) return work.fail('A rib needs its `thickness`. Write it like `thickness: 3`.', ends.span);
  if (ends.items.length !== 2)
    return work.fail(
      `A rib has two ends; this gives ${ends.items.length}. Write two, or a \`path\` round it.`,
      ends.span,
    );
  const [a, b] = cornersOf(work, ends, face, false) ?? [];
  if (!a || !b || !thickness) return undefined;
  const [du, dv] = [b.u - a.u, b.v - a.v];
  const long = unwritten(Math.hypot(du, dv), ends.span, 'the distance between its ends');
  const square = unwritten(0, ends.span, 'a rib has square ends');
  // Along an axis it is drawn as one writes a rectangle.
  const upright = Math.abs(du) < SAME;
  const rotateDeg = upright || Math.abs(dv) < SAME ? 0 : (Math.atan2(dv, du) * 180) / Math.PI;
  const [u, v] = upright ? [thickness, long] : [long, thickness];
  const shape: Shape = { type: 'rectangle', u, v, cornerRadius: square, rotateDeg, span: ends.span };
  return {
    shape,
    middle: { u: (a.u + b.u) / 2, v: (a.v + b.v) / 2, span: ends.span },
    rib: { thickness, ...(root && { root }) },
  };
}

function* sizes(pocket: Pocket): Generator<SizeOf> {
  yield* shapeSizes(pocket.shape, 'inside', pocket.depth.mm);
  yield ['depth', pocket.depth.length, 'neither', 'mill'];
  for (const island of pocket.islands) {
    if (island.rib) yield ['thickness', island.rib.thickness, 'outside', 'mill'];
    else yield* shapeSizes(island.shape, 'outside');
    yield ['height', island.height, 'neither', 'mill'];
  }
}

export const pocket: FeatureKindHome<Pocket, 'opening'> = {
  form: 'opening',
  schema,
  resolve,
  plural: 'pockets',
  snippets: [
    [
      'pocket',
      'a rectangular pocket with round corners',
      [
        'kind: pocket',
        'face: ${2:top}',
        'at: { x: ${3:center}, y: ${4:center} }',
        'size: { x: ${5:20}, y: ${6:12} }',
        'corner-radius: ${7:3.5}',
        'depth: ${8:6}',
      ],
    ],
  ],
  stands: ({ depth, shape }) => ({
    floor: depth,
    rim: true,
    ...(shape.type === 'circle' && { boreMm: shape.diameter.mm }),
  }),
  sizes,
  across: ({ shape }) => shapeWidths(shape),
  shapes: ({ shape }) => [shape],
  paths: ({ shape, islands }) => [shape, ...islands.map((i) => i.shape)].flatMap(closedPaths),
  needs: () => [],
};
