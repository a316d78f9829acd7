/**
 * How a workpiece can be held: in the shop's vises, every face up, each pair of faces in the jaws, and for each the
 * parallels on hand in the order in which a careful machinist would try them; where no vise does, on a plate or the table.
 */

import type { BodyShape, Box, Solid } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, type Face } from '../model/model';
import type { Shop, Vise } from '../model/shop-model';
import { fitsIn, roundBarOf } from '../process/workholding/v-block';
import { HAIR, ROUNDING } from '../tolerance';
import { DIRECTIONS, type Mask, maskOf } from './directions';
import type { Item } from './item';
import { jawPairs } from './items';

interface Up {
  readonly up: Face;
  readonly bit: Mask;
}

export interface ViseHeld extends Up {
  readonly by?: undefined;
  readonly jaws: readonly [Face, Face];
  readonly vise: Vise;
}

/** Lies in V-blocks or on its lowest face: screwed down through its own holes, under clamps, in its stock by tabs; or stands against an angle plate. */
export interface LaidDown extends Up {
  readonly by: OtherWay;
  readonly jaws: readonly [];
  readonly vise?: undefined;
}
export type Pose = ViseHeld | LaidDown;

/**
 * Ways of holding without a vise, the one that costs least first: round work lies in a V as well as in a vise; holes are
 * there already, clamps must be moved about, an angle plate set up, tabs filed off.
 */
const OTHER_WAYS = ['v-block', 'screws', 'clamps', 'angle-plate', 'tabs'] as const;
type OtherWay = (typeof OTHER_WAYS)[number];

/**
 * Every pose: for each face up the narrower way between the jaws first, where more of the work lies against them and less
 * of it stands out at the ends; the widest vise first.
 */
export function posesOf(shop: Shop, body: Box): readonly ViseHeld[] {
  const vises = [...shop.vises].sort((a, b) => b.jawWidthMm - a.jawWidthMm);
  return DIRECTIONS.flatMap((up) =>
    jawPairs(up)
      .toSorted((a, b) => extent(body, a[0]) - extent(body, b[0]))
      .flatMap((jaws) => vises.map((vise) => ({ up, bit: maskOf([up]), jaws, vise }))),
  );
}

/** Every face up, in every way that no vise is needed for; V-blocks are `inVees`, angle plates where the shop has one. */
export function laidDown({ anglePlates }: Shop): readonly LaidDown[] {
  return OTHER_WAYS.filter((by) => by !== 'v-block' && (by !== 'angle-plate' || anglePlates.length > 0)).flatMap(
    layings,
  );
}

function layings(by: OtherWay): readonly LaidDown[] {
  return DIRECTIONS.map((up) => ({ up, bit: maskOf([up]), by, jaws: [] as const }));
}

/** Round stock lying in V-blocks of the shop that take it. */
export function inVees({ vBlocks }: Shop, stock: BodyShape): readonly LaidDown[] {
  const bar = roundBarOf(stock);
  if (!bar || !vBlocks.some((v) => fitsIn(v, 2 * bar.radiusMm))) return [];
  return layings('v-block').filter(({ up }) => AXIS_INDEX[FACE_AXIS[up].axis] !== bar.axis);
}

/** How much less one likes to hold work that way, for choosing between plans: 0 in a vise or V-blocks, which are there anyway. */
export function costOf(pose: Pose): number {
  return pose.by ? OTHER_WAYS.indexOf(pose.by) : 0;
}

const INDEX = { x: 0, y: 1, z: 2 } as const;

export function extent(box: Box, face: Face): number {
  const i = INDEX[FACE_AXIS[face].axis];
  return box.max[i] - box.min[i];
}

export interface Seat {
  readonly gripMm: number;
  /** Height of the pair under the work; absent where it lies on the bed of the vise. */
  readonly parallelsMm?: number;
}

/** Seats that leave less than this above the jaws are not worth a setup. */
const LEAST_ABOVE_MM = 0.5;

/**
 * Seats for work of this height: first those that leave all that must stand clear above the jaws, the deepest grip
 * first; then the others, the shallowest first. `sunk`: what is cut stands beside the jaws, and may lie below their tops.
 */
export function seatsFor(
  pose: ViseHeld,
  heightMm: number,
  clearMm: number,
  shop: Shop,
  { leastGripMm, sunk = false }: { readonly leastGripMm: number; readonly sunk?: boolean },
): readonly Seat[] {
  const { jawHeightMm } = pose.vise;
  const seats: Seat[] = [0, ...shop.parallelsMm]
    .filter((p) => p < jawHeightMm)
    .map((p) => ({ gripMm: jawHeightMm - p, ...(p > 0 && { parallelsMm: p }) }))
    .filter((s) => s.gripMm >= leastGripMm - ROUNDING && (sunk || heightMm - s.gripMm >= LEAST_ABOVE_MM));
  const clear = seats.filter((s) => heightMm - s.gripMm >= clearMm).sort((a, b) => b.gripMm - a.gripMm);
  const others = seats.filter((s) => heightMm - s.gripMm < clearMm).sort((a, b) => a.gripMm - b.gripMm);
  return [...clear, ...others];
}

/** How far below the face that looks up the deepest of these is cut at a side of the body, where jaws or the stop stand. */
export function deepestAtSides(cut: readonly Item[], up: Face, solid: Solid): number {
  const { min, max } = solid.body.box;
  const { axis, sign } = FACE_AXIS[up];
  const i = INDEX[axis];
  let deepest = 0;
  for (const { feature, face, share } of cut) {
    // Half from each side goes a little beyond the middle.
    const part = share ? 0.5 : 1;
    // A side is milled down to where the body ends.
    if (face && FACE_AXIS[face].axis !== axis) deepest = Math.max(deepest, part * (max[i] - min[i]));
    // A hole that comes near a side opens nothing there, and broken edges are shallow where they matter.
    if (!feature || feature.kind === 'hole') continue;
    for (const { bounds, role } of solid.voidsOf(feature.name)) {
      if (role === 'edge') continue;
      const inside = [0, 1, 2].every(
        (k) => k === i || (bounds.min[k]! > min[k]! + HAIR && bounds.max[k]! < max[k]! - HAIR),
      );
      if (!inside) deepest = Math.max(deepest, part * (sign > 0 ? max[i] - bounds.min[i] : bounds.max[i] - min[i]));
    }
  }
  return deepest;
}
