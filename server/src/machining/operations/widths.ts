/**
 * How wide the metal is that a cut finds, and how much of it each pass takes: no pass is wider than what is there, and
 * those of one cut are alike. The widest place of what is removed is that of the largest circle in it, of the stock as it
 * is when the cut begins.
 */
import { bodyPrism } from '../../geometry/body';
import { chainLoops, regionsOfLoops } from '../../geometry/chain';
import { boundaryOf } from '../../geometry/combine';
import { inscribed } from '../../geometry/distance/neck';
import { outlineOf } from '../../geometry/distance/outline';
import { sectionOf } from '../../geometry/section';
import type { BodyShape, Region, Void } from '../../geometry/types';
import type { Part } from '../../spec/model';
import type { Mill } from '../../spec/shop-model';
import { beside, type Place } from '../column';
import { leftInSharpMm } from '../corners';
import type { MilledVoid } from '../milling';
import { stockLeft } from '../room';
import { cutBefore } from './asked';

/** What roughing leaves on the wall where there is room. Common practice: 0.1 to 0.3 mm. */
export const FINISH_MM = 0.2;
/** Of a slot that its cutter fills nothing is left to finish but what the cutter bent away by. Common practice, no source. */
export const SPRUNG_MM = 0.05;
/** Less metal than this is not roughed by itself. Common practice, no source. */
const LEAST_ROUGHED_MM = 0.05;

export interface Room {
  /** Between walls that face each other; infinite where there are none. */
  readonly neckMm: number;
  /** Of the metal, at its widest. */
  readonly widestMm: number;
  /** Of the opening, from end to end. */
  readonly longMm: number;
}

/** Of a closed opening its own; of one that is open at a side, what of it lies in `stock` and was not cut `earlier`. */
export function roomIn(m: MilledVoid, closed: boolean, stock: BodyShape, earlier: readonly Void[]): Room {
  const { minU, maxU, minV, maxV } = outlineOf(m.of.region);
  const longMm = Math.max(maxU - minU, maxV - minV);
  const whole = () => 2 * inscribed(outlineOf(m.of.region), FINE_MM).radius;
  if (closed) return { neckMm: m.neckMm, widestMm: Math.max(m.neckMm, whole()), longMm };
  const widestMm = metalWidth(m.of, stock, earlier) ?? whole();
  // Narrower than from wall to wall: it lies along one of them.
  return { neckMm: widestMm < m.neckMm - FINE_MM ? Number.POSITIVE_INFINITY : m.neckMm, widestMm, longMm };
}
/** Widths are told to a hundredth. */
const FINE_MM = 1e-3;

/** What the set-ups cut before it and meets it. */
export function earlierIn(m: MilledVoid, part: Pick<Part, 'setups'>, place: Place): readonly Void[] {
  const before = cutBefore(m.feature.name, part);
  return before.size === 0 ? [] : beside(m.of, place).filter((v) => before.has(v.feature));
}

const AXES = [0, 1, 2] as const;

/** Diameter of the largest circle in what is there half way down; undefined where that cannot be followed. */
function metalWidth(v: Void, stock: BodyShape, earlier: readonly Void[]): number | undefined {
  const axis = AXES.find((i) => Math.abs(v.frame.w[i]) > 1 - 1e-9);
  if (axis === undefined) return undefined;
  const at = v.frame.origin[axis] + v.frame.w[axis] * ((v.from + v.to) / 2);
  const sheet = (of: Parameters<typeof sectionOf>[0]) => sectionOf(of, axis, at).sheet;
  const pieces = boundaryOf([sheet(v), sheet(bodyPrism(stock))], earlier.map(sheet));
  const loops = chainLoops(pieces);
  const regions: readonly Region[] | undefined = loops && regionsOfLoops(loops);
  return regions?.reduce((most, r) => Math.max(most, 2 * inscribed(outlineOf(r), FINE_MM).radius), 0);
}

/** How wide a cutter finds what it roughs, and what it leaves on each wall. `open`: it stays out of the narrowest place. */
export function roughedIn(room: Room, mill: Mill, open: boolean): { readonly wideMm: number; readonly leftMm: number } {
  if (!open && Number.isFinite(room.neckMm)) {
    const leftMm = stockLeft(room.neckMm, mill.diameterMm, FINISH_MM);
    return { wideMm: room.neckMm - 2 * leftMm, leftMm };
  }
  const wideMm = room.widestMm - (open ? 2 : 1) * FINISH_MM;
  return wideMm > LEAST_ROUGHED_MM ? { wideMm, leftMm: FINISH_MM } : { wideMm: 0, leftMm: room.widestMm };
}

/** The widest of what a large cutter leaves for a small one: in corners on the bisector, else in the narrowest place. */
export function restWidth(m: MilledVoid, room: Room, large: Mill, small: Mill): number {
  const left = m.corners.map(
    (c) => leftInSharpMm(c, large.diameterMm / 2) - leftInSharpMm(c, Math.max(c.radiusMm, small.diameterMm / 2)),
  );
  const corner = Math.max(0, ...left);
  const neck = large.diameterMm > m.widestMm && Number.isFinite(room.neckMm) ? room.neckMm : 0;
  return Math.max(corner, neck) || Math.min(room.widestMm, small.diameterMm);
}

/** Passes of equal width side by side, none wider than `mostMm`. */
export function passWidth(wideMm: number, mostMm: number): number {
  return Number.isFinite(wideMm) ? wideMm / Math.max(1, Math.ceil(wideMm / mostMm - 1e-9)) : mostMm;
}

/** By how much passes `aeMm` wide overlap over a width: the last takes only what is left. */
export function overlap(wideMm: number, aeMm: number): number {
  return Number.isFinite(wideMm) && wideMm > 0 ? (Math.ceil(wideMm / aeMm - 1e-9) * aeMm) / wideMm : 1;
}
