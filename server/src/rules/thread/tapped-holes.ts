/** What the thread rules share: tapped holes, the taps for them, how much of the hole is threaded. */

import type { Hole } from '../../model/model';
import type { Tap } from '../../model/shop-model';
import { type Bored, boresOf } from '../../process/drilling';
import { tapsOfHole, threadShare } from '../../process/tapping';
import type { Thread } from '../../tables/thread-form';
import type { Span } from '../../text/tree';
import { HAIR } from '../../tolerance';
import { spanOf } from '../kit/message';
import type { RuleContext } from '../kit/rule';

interface Tapped {
  readonly hole: Hole;
  readonly thread: Thread;
  readonly taps: readonly Tap[];
}

/** Holes whose thread is known. */
export function* tapped({ part, shop }: Pick<RuleContext, 'part' | 'shop'>): Generator<Tapped> {
  for (const hole of part.features) {
    if (hole.kind !== 'hole' || !hole.thread?.spec) continue;
    yield { hole, thread: hole.thread.spec, taps: tapsOfHole(hole, shop) };
  }
}

type Share = Tapped & ReturnType<typeof threadShare>;

/** How much of its thread each tapped hole leaves whose diameter is written. */
export function* shares(context: Pick<RuleContext, 'part' | 'shop'>): Generator<Share> {
  for (const t of tapped(context))
    if (t.hole.diameterGiven) yield { ...t, ...threadShare(t.thread, t.hole.diameter.mm, t.taps) };
}

/** Whether a hole can be no tap hole of its thread: by its share, or where that is none or another form's by its own standard. */
export function misfit({ hole, percent, allowed }: Share, least: number, most: number): 'wide' | 'narrow' | undefined {
  const mm = hole.diameter.mm;
  if (percent === undefined)
    return mm > allowed!.maxMm + HAIR ? 'wide' : mm < allowed!.minMm - HAIR ? 'narrow' : undefined;
  if (percent < least) return 'wide';
  return (allowed ? mm < allowed.minMm - HAIR : percent > most) ? 'narrow' : undefined;
}

/** Threads that a tap's tapered end does not cut in full. Of a plug tap 3 to 5, a bottoming tap 1 to 2, a taper tap 7 to 10 (TM 9-254): their middle. */
export const CHAMFER_PITCHES: Readonly<Record<Tap['chamfer'], number>> = { taper: 8.5, plug: 4, bottoming: 1.5 };

/** Blind in the finished part: the bore ends on a floor, not in the open or in another cavity. */
export function isBlind(b: Bored): boolean {
  const last = b.core[b.core.length - 1];
  return !b.of.through && last !== undefined && last.to >= b.endMm - HAIR;
}

/** Length of full thread a screw can use, mm: as written, else the material drilled through. */
function engagement(hole: Hole, { part, solid }: RuleContext): number | undefined {
  const bores = boresOf(hole, part, solid);
  if (bores.length === 0) return undefined;
  const drilled = Math.min(...bores.map((b) => b.drilledMm));
  return hole.threadDepth ? Math.min(hole.threadDepth.mm, drilled) : drilled;
}

interface Measured {
  readonly hole: Hole;
  readonly thread: Thread;
  readonly lengthMm: number;
  readonly ratio: number;
}

/** Each tapped hole with its length of thread, in diameters. */
export function* measured(context: RuleContext): Generator<Measured> {
  for (const { hole, thread } of tapped(context)) {
    const lengthMm = engagement(hole, context);
    if (lengthMm !== undefined && lengthMm > 0) yield { hole, thread, lengthMm, ratio: lengthMm / thread.diameterMm };
  }
}

/** Where the length of a thread is written. */
export function lengthSpan(hole: Hole): Span {
  return spanOf(hole, 'threadDepth', 'depth');
}
