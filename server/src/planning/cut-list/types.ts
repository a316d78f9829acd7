/** What is sawn from what: pieces that are asked for, bars that there are or that can be bought, and how each is cut. */
import type { Saw } from '../../model/job-model';

/** So many pieces of one length. */
export interface Demand {
  readonly mm: number;
  readonly times: number;
}

/** Bars of one length: offcuts on the rack, so many; or bars to buy, as many as are wanted. */
interface BarKind {
  readonly mm: number;
  /** Of one, in any unit, not below 0. What lies on the rack costs nothing more. */
  readonly cost: number;
  /** Absent: as many as are wanted. */
  readonly count?: number;
}

export interface CutListAsk {
  readonly pieces: readonly Demand[];
  readonly bars: readonly BarKind[];
  readonly saw: Saw;
}

/** Bars that are cut alike. */
export interface SawnBar {
  /** How many. */
  readonly times: number;
  readonly lengthMm: number;
  /** Off the rack: not bought. */
  readonly offcut?: true;
  /** From its first end, the longest first. */
  readonly cutsMm: readonly number[];
  /** What is left of each behind the last cut, mm: 0 where it is exactly used up. */
  readonly leftMm: number;
}

export interface CutList {
  readonly bars: readonly SawnBar[];
  /** Of all bars, in the unit of `BarKind.cost`. */
  readonly cost: number;
  /** No cut list costs less than this. */
  readonly bound: number;
  /** Nothing is cheaper: cost and bound are one. */
  readonly proven: boolean;
  /** Longer than every bar, or more than all bars there are hold. */
  readonly unplaced: readonly Demand[];
}

/** Lengths in whole thousandths of a millimetre, so that sums are exact: an exactly full bar is told from one that is not. */
export interface Problem {
  /** With the kerf, the longest first; no two alike. */
  readonly sizes: readonly number[];
  readonly times: readonly number[];
  readonly kinds: readonly Kind[];
}

export interface Kind extends BarKind {
  /** What the pieces of one bar, each with its kerf, may come to. The last cut may run out of the bar. */
  readonly room: number;
  /** No more than that can be of use. */
  readonly most: number;
}

/** One bar's pieces: how many of each size of the problem. */
export type Pattern = readonly number[];

/** So many bars of one kind, cut alike. */
export interface Cutting {
  readonly kind: number;
  readonly pattern: Pattern;
  readonly bars: number;
}

export const THOUSANDTHS = 1000;
