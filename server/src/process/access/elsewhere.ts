/** Where else a cut could be made: last in its own set-up, or last in another whose face up it can be got at from. */

import type { Solid } from '../../geometry/types';
import type { Face } from '../../model/model';
import type { PartInShop } from '../part-in-shop';
import { isCutFrom } from '../stock/extend-to-stock';
import { removedBy } from '../stock/removes';
import { asRunOut } from '../stock/sawn-off';
import { lessOf, timelineOf } from '../stock/timeline';
import type { Cut, SetupInTime, Timeline, Workpiece } from '../stock/types';
import { verdictOf } from './';

/** All of it that is got at from one face is got at from the other. */
function takesAll(cut: Cut, to: Face, from: Face | undefined, solid: Solid): boolean {
  if (cut.face || to === from || !from) return true;
  return solid.voidsOf(cut.name).every((v) => isCutFrom(v, to) || !isCutFrom(v, from));
}

/**
 * The work at the end of each set-up, had the cut not been made. What it took is told by the cut, not by the same volumes
 * worked out again: seen from another face, or no longer kept, those are other objects, and the cut would be taken for made.
 */
function withoutIt(cut: Cut, { stock, setups }: Timeline): readonly Workpiece[] {
  let now = stock;
  return setups.map(({ cuts, sawnOff }) => {
    for (const c of cuts) if (c !== cut) now = lessOf(now, c.removes);
    const held = now;
    if (sawnOff) now = lessOf(now, sawnOff.removes);
    return held;
  });
}

/** Set-ups in which the cut, made last, meets nothing and is reached; its own first where another order is enough. */
export function elsewhere(cut: Cut, inShop: PartInShop): readonly SetupInTime[] {
  const { part, solid } = inShop;
  const timeline = timelineOf(part, solid);
  const { setups } = timeline;
  const own = setups.filter((s) => s.index === cut.setup);
  const others = setups.filter((s) => s.index !== cut.setup);
  const work = withoutIt(cut, timeline);
  return [...own, ...others].filter((s) => {
    const last = s.cuts[s.cuts.length - 1];
    if (!s.up || last === cut || !takesAll(cut, s.up, setups[cut.setup]?.up, solid)) return false;
    // Listed there as well, it is cut there already.
    if (s.cuts.some((c) => c !== cut && c.name === cut.name)) return false;
    const before = work[s.index]!;
    const what = cut.feature ?? cut.face!;
    const run = asRunOut(before, what, s.index, part, solid.body);
    const removes = removedBy(what, s.up, undefined, run, solid);
    const after = lessOf(before, removes);
    const moved: Cut = { ...cut, setup: s.index, order: s.cuts.length, removes, before, after };
    const verdict = verdictOf(moved, s, inShop);
    return verdict !== undefined && verdict.uses.length > 0 && !verdict.short && !verdict.holder && !verdict.fixture;
  });
}
