/**
 * How a workpiece can be held: in the shop's vises, every face up, each pair of faces in the jaws, and for each the
 * parallels on hand in the order in which a careful machinist would try them; where no vise does, on a plate or the table.
 */

import type { BodyShape, Box } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, type Face } from '../model/model';
import type { Shop, Vise } from '../model/shop-model';
import { extent, jawPairs } from '../process/workholding/seats';
import { fitsIn, roundBarOf } from '../process/workholding/v-block';
import { DIRECTIONS, type Mask, maskOf } from './directions';

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
export const OTHER_WAYS = ['v-block', 'screws', 'clamps', 'angle-plate', 'tabs'] as const;
export type OtherWay = (typeof OTHER_WAYS)[number];

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
