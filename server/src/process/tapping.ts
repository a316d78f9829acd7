/** Which taps are for a hole: those that cut, or those that form, by how wide it is drilled. */

import type { Hole } from '../model/model';
import type { Shop, Tap } from '../model/shop-model';
import { formHoleMm, formPercent } from '../tables/form-taps';
import { formOf, type Thread } from '../tables/thread-form';
import { minorLimits } from '../tables/thread-limits';
import { threadPercent } from '../tables/threads';
import { tapsFor } from './cutters';

/** Form taps for a hole too wide to be full of a formed thread, where the shop has one; else those that cut. */
export function tapsOfHole(hole: Hole, shop: Shop): readonly Tap[] {
  const thread = hole.thread?.spec;
  if (!thread) return [];
  const all = tapsFor(shop, thread.designation);
  const forming = all.filter((t) => t.forming);
  if (forming.length === 0) return all;
  return formPercent(thread, hole.diameter.mm) <= 100 ? forming : all.filter((t) => !t.forming);
}

interface ThreadShare {
  /** Of full thread; of a thread on a cone it is none, for it falls along the hole. */
  readonly percent?: number;
  /** The hole that is usual, and its share. */
  readonly usualMm: number;
  readonly usualPercent?: number;
  /** What the thread's standard allows the hole: where that is asked, and no share of 60° threads. */
  readonly allowed?: ReturnType<typeof minorLimits>;
  readonly forming: boolean;
  /** In words: `(D − d) / (1.299 P)`. */
  readonly by: string;
}

/** How much of the thread its hole gives, by the taps that it is tapped with. */
export function threadShare(thread: Thread, holeMm: number, taps: readonly Tap[]): ThreadShare {
  const form = formOf(thread);
  if (form.name === 'cone')
    return { usualMm: thread.tapDrillMm, forming: false, by: form.by, allowed: minorLimits(thread) };
  const forming = taps.length > 0 && taps.every((t) => t.forming);
  const share = forming ? formPercent : threadPercent;
  const usualMm = forming ? Number(formHoleMm(thread).toFixed(2)) : thread.tapDrillMm;
  return {
    percent: share(thread, holeMm),
    usualMm,
    usualPercent: share(thread, usualMm),
    forming,
    by: forming ? '(D − d) / (0.0068 P), a form tap' : form.by,
    ...(form.name !== '60°' && { allowed: minorLimits(thread) }),
  };
}

/** The share in words for a label: `, 77 % of thread`; nothing where it is none. */
export function shareText({ percent }: ThreadShare): string {
  return percent === undefined ? '' : `${Math.round(percent)} % of thread`;
}

/** What the thread's own sides are bored to, for its strength: a formed one rises to its full height above its hole. */
export function boreOf(hole: Hole, shop: Shop): number {
  const taps = tapsOfHole(hole, shop);
  return taps.length > 0 && taps.every((t) => t.forming) ? 0 : hole.diameter.mm;
}
