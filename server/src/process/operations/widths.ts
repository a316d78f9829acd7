/**
 * How wide the metal is that a cut finds, and how much of it each pass takes: no pass is wider than what is there, and
 * those of one cut are alike. The widest place of what is removed is that of the largest circle in it, of the stock as it
 * is when the cut begins.
 */

import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { inscribed } from '../../geometry/distance/neck';
import { outlineOf } from '../../geometry/distance/outline';
import { bodyPrism } from '../../geometry/solid/body';
import { sectionOf } from '../../geometry/solid/section';
import { stockBody } from '../../geometry/solid/stock-body';
import type { BodyShape, Region, Void } from '../../geometry/types';
import { memo } from '../../memo';
import { FACES, type Part } from '../../model/model';
import type { Mill } from '../../model/shop-model';
import { ROUNDING } from '../../tolerance';
import { beside, type Place } from '../column';
import { leftInSharpMm } from '../corners';
import type { MilledVoid } from '../milling';
import { stockLeft } from '../room';
import { carriedOn } from '../stock/extend-to-stock';
import { cutBefore } from './asked';

/** What roughing leaves on the wall where there is room. Common practice: 0.1 to 0.3 mm. */
export const FINISH_MM = 0.2;
/** So much is left to finish at least, also of a slot that its cutter fills: what the cutter bent away by. Common practice, no source. */
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

/** What stands when a cut begins: the finished body, the stock round it, and what was cut from it. */
interface Standing {
  readonly body: BodyShape;
  readonly stock: BodyShape;
  readonly earlier: readonly Void[];
}

/** Of a closed opening its own; of one that is open at a side, what is metal of it and of the stock beside it. */
export function roomIn(m: MilledVoid, closed: boolean, then: () => Standing): Room {
  const { minU, maxU, minV, maxV } = outlineOf(m.of.region);
  const longMm = Math.max(maxU - minU, maxV - minV);
  if (closed) return { neckMm: m.neckMm, widestMm: Math.max(m.neckMm, widestIn(m.of.region)), longMm };
  const widestMm = metalWidth(m.of, then()) ?? widestIn(m.of.region);
  // Narrower than from wall to wall: it lies along one of them.
  return { neckMm: widestMm < m.neckMm - FINE_MM ? Number.POSITIVE_INFINITY : m.neckMm, widestMm, longMm };
}
/** Widths are told to a hundredth. */
const FINE_MM = 5e-3;

/** Diameter of the largest circle in an outline, mm. */
const widestIn = memo((region: Region) => 2 * inscribed(outlineOf(region), FINE_MM).radius);

/** The stock as the set-ups have it when a cut begins: without what they cut before, faces and features. */
export class StockInSetup {
  /** `asked`: told that something depends on it. */
  constructor(
    private readonly part: Part,
    private readonly asked: () => void,
  ) {}

  at(m: MilledVoid, place: Place): Standing {
    this.asked();
    const { body } = place;
    const { part } = this;
    const before = cutBefore(m.feature.name, part);
    const earlier = before.size === 0 ? [] : beside(m.of, place).filter((v) => before.has(v.feature));
    const faced = FACES.filter((face) => before.has(face));
    const extra = { ...part.stock.extra, ...Object.fromEntries(faced.map((face) => [face, undefined])) };
    const stock = faced.length === 0 ? part.stock : { ...part.stock, extra };
    return { body, stock: stockBody({ ...part, stock } as Part), earlier };
  }
}

/** Of work that is held at an angle: seen turned, all of it is the body. */
export function turnedWork({ body }: Place): Standing {
  return { body, stock: body, earlier: [] };
}

const AXES = [0, 1, 2] as const;

/** Diameter of the largest circle in what is there half way down; undefined where that cannot be followed. */
const metalWidth = memo(findMetalWidth, {
  size: 4,
  by: (_v, { body, stock, earlier }) => [JSON.stringify(body), JSON.stringify(stock), earlier],
});

function findMetalWidth(v: Void, { body, stock, earlier }: Standing): number | undefined {
  const axis = AXES.find((i) => Math.abs(v.frame.w[i]) > 1 - ROUNDING);
  if (axis === undefined) return undefined;
  const at = v.frame.origin[axis] + v.frame.w[axis] * ((v.from + v.to) / 2);
  const sheet = (of: Parameters<typeof sectionOf>[0]) => sectionOf(of, axis, at).sheet;
  const cut = earlier.map(sheet);
  let widest = 0;
  for (const own of carriedOn(v, stock, body, undefined)) {
    const loops = chainLoops(boundaryOf([sheet(own), sheet(bodyPrism(stock))], cut));
    const regions = loops && regionsOfLoops(loops);
    if (!regions) return undefined;
    for (const r of regions) widest = Math.max(widest, widestIn(r));
  }
  return widest;
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
  return Number.isFinite(wideMm) ? wideMm / Math.max(1, Math.ceil(wideMm / mostMm - ROUNDING)) : mostMm;
}

/** By how much passes `aeMm` wide overlap over a width: the last takes only what is left. */
export function overlap(wideMm: number, aeMm: number): number {
  return Number.isFinite(wideMm) && wideMm > 0 ? (Math.ceil(wideMm / aeMm - ROUNDING) * aeMm) / wideMm : 1;
}
