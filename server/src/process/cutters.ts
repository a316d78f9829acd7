/** What a shop has that fits: end mills for a corner and a gap, drills, reamers, boring heads and mills for a hole, taps. */

import { memo, memoByValue } from '../memo';
import type { Boring, Drill, Mill, Reamer, Shop, Tap, Tool } from '../model/shop-model';
import { type ByHoleWay, homeOfTool, ofHoleWay } from '../model/tool-kinds';
import type { HoleWay } from '../model/tool-kinds/kind';
import { pointLengthMm } from '../tables/drill-point';
import { findThread } from '../tables/thread-names';
import { SAME } from '../tolerance';

/** A cutter as large as the gap still goes through it: sizes are compared to a hundredth. */
export const SAME_MM = 0.01;
/** A tool that is a thousandth short of a depth reaches it: nobody makes less, and no message tells less. */
export const SAME_REACH_MM = 1e-3;
/** Corner radius on a cutter's end that still leaves a floor corner called sharp (ISO 13715 edges are of that size; common practice). */
export const SHARP_MM = 0.2;

/** The shop's end mills that leave a finished wall, largest first; of one size the shortest, which is the stiffest, first. */
export const endMills = memo((shop: Shop): readonly Mill[] => ofThem(shop, false));
/** Those for roughing alone, in the same order. */
export const roughers = memo((shop: Shop): readonly Mill[] => ofThem(shop, true));

function ofThem(shop: Shop, roughing: boolean): readonly Mill[] {
  return shop.tools
    .filter((t): t is Mill => t.kind === 'end-mill' && t.taperDeg === undefined && (t.roughing ?? false) === roughing)
    .sort((a, b) => b.diameterMm - a.diameterMm || a.reachMm - b.reachMm);
}

/** Those whose sides lean, for walls that do; the thickest tip first. */
export const taperedMills = memo((shop: Shop): readonly Mill[] =>
  shop.tools
    .filter((t): t is Mill => t.kind === 'end-mill' && t.taperDeg !== undefined)
    .sort((a, b) => b.diameterMm - a.diameterMm || a.reachMm - b.reachMm),
);

export interface Gap {
  /** Of the tightest inside corner; infinite where there is none. */
  readonly radiusMm: number;
  /** The narrowest place the cutter passes; infinite where it is open. */
  readonly neckMm: number;
  /** Between wall and floor; infinite where there is no floor (a through cut). */
  readonly floorRadiusMm: number;
}

/** Whether a mill makes this shape exactly, its reach aside. */
export function fits(mill: Mill, gap: Gap): boolean {
  return (
    mill.diameterMm <= 2 * gap.radiusMm + SAME_MM &&
    mill.diameterMm <= gap.neckMm + SAME_MM &&
    mill.cornerRadiusMm <= Math.max(SHARP_MM, gap.floorRadiusMm + SAME_MM)
  );
}

/** The mills that fit, largest first. */
export function fitting(shop: Shop, gap: Gap): readonly Mill[] {
  return endMills(shop).filter((m) => fits(m, gap));
}

/** Room a mill's shank needs around its axis where it is thicker than the cut, mm. */
export function shankRadius(mill: Mill): number {
  return Math.max(mill.shankMm, mill.diameterMm) / 2;
}

export type Maker = Drill | Reamer | Boring | Mill;

export function isMaker(tool: Tool): tool is Maker {
  return homeOfTool(tool).hole !== undefined;
}

/** Diameters that are good, mm. */
export interface Bore {
  readonly fromMm: number;
  readonly toMm: number;
  readonly nominalMm: number;
}

/** A mill must be this much smaller than a hole to bore it on a circle. Common practice, no source. */
export const CIRCLE = 0.9;

/** A shop lives as long as its file is open: of more sizes a hand that drags a dimension must not fill the memory. */
const SIZES = 64;

/** Every tool of the shop that makes a round hole of this size, its reach aside: drills first, then reamers, bores, mills. */
export const makersOf = memo(findMakers, {
  size: SIZES,
  by: (_, { fromMm, toMm, nominalMm }) => [fromMm, toMm, nominalMm],
});

function findMakers(shop: Shop, bore: Bore): readonly Maker[] {
  const found = shop.tools.filter((t): t is Maker => ofHoleWay(MAKES, t, bore) === true);
  const rank = (t: Maker) => ORDER.indexOf(homeOfTool(t).hole!) + (coned(t) ? 0 : 0.5);
  return found.sort((a, b) => rank(a) - rank(b));
}
const ORDER: readonly HoleWay[] = ['as-wide', 'to-limits', 'set', 'round'];
/** A drill with a point wanders less and is at hand: one with a flat end comes after it. */
const coned = (t: Maker) => !('pointDeg' in t) || t.pointDeg < 180;

const MAKES: ByHoleWay<[Bore], boolean> = {
  'as-wide': ({ diameterMm }, bore) => isWithin(diameterMm, bore),
  'to-limits': ({ diameterMm }, bore) => isWithin(diameterMm, bore),
  set: ({ diameterMm, largestMm }, { nominalMm }) =>
    nominalMm >= diameterMm - SAME_MM && nominalMm <= largestMm + SAME_MM,
  round: ({ diameterMm, cornerRadiusMm, roughing }, { nominalMm }) =>
    !roughing && cornerRadiusMm <= SHARP_MM && diameterMm <= CIRCLE * nominalMm,
};
const isWithin = (d: number, { fromMm, toMm }: Bore) => d >= fromMm - SAME && d <= toMm + SAME;

export { reachOf } from '../model/tool-kinds';

/** How far a drill's point goes on below the full diameter that it must make, mm; where a flat floor follows, the point stays above it. */
export function pointBelowMm(tool: Tool, floorIsFlat: boolean): number {
  return tool.kind === 'drill' && !floorIsFlat ? pointLengthMm(tool.diameterMm, tool.pointDeg) : 0;
}

/** The shop's drills, smallest first. */
export function drillsOf(shop: Shop): readonly Drill[] {
  return shop.tools.filter((t): t is Drill => t.kind === 'drill').sort((a, b) => a.diameterMm - b.diameterMm);
}

/** The taps for a thread, however each is written: `M5`, `M5x0.8`. */
export function tapsFor(shop: Shop, designation: string): readonly Tap[] {
  return tapsByThread(shop).get(key(designation)) ?? [];
}

const tapsByThread = memo((shop: Shop): ReadonlyMap<string, readonly Tap[]> => {
  const found = new Map<string, Tap[]>();
  for (const t of tapsOf(shop)) found.set(key(t.thread), [...(found.get(key(t.thread)) ?? []), t]);
  return found;
});

export function tapsOf(shop: Shop): readonly Tap[] {
  return shop.tools.filter((t): t is Tap => t.kind === 'tap');
}

/** Each threaded hole is asked for its taps by several rules; a part has few threads. */
const key = memoByValue(
  (designation: string) => findThread(designation)?.designation ?? designation.toLowerCase().replace(/\s/g, ''),
  64,
);
