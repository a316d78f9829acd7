/** Which pair of parallels lies under the work, and how much of it is then between the jaws. */

import type { Hold } from '../../model/model';
import type { Shop, Vise } from '../../model/shop-model';
import { marginOf } from './margin';
import type { InVise, Seating } from './seating-types';
import { WITHIN } from './within';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;
type Chosen = Pick<InVise, 'parallelsMm' | 'parallelsWritten' | 'parallelsWantedMm' | 'gripMm'>;

/** Pairs are taken for the height wanted when they are within this of it, mm. */
const SAME_MM = 0.5;
/** The least grip that a choice or a fix of ours leaves. Common practice, no source. */
export const LEAST_GRIP_MM = 3;

/**
 * The grip is what is written, and the pair the one on hand that makes it. With a pair written and no grip, the grip
 * follows; with neither, the deepest grip that leaves what is cut at the sides clear of the jaws.
 */
export function chooseParallels(base: Base, hold: Hold, vise: Vise, shop: Shop): Chosen {
  const written = hold.parallels?.mm;
  const grip = hold.grip?.mm;
  if (grip !== undefined) {
    const parallelsWantedMm = Math.max(0, vise.jawHeightMm - grip);
    const parallelsMm = written ?? onHand(parallelsWantedMm, shop);
    return { parallelsMm, parallelsWritten: written !== undefined, parallelsWantedMm, gripMm: grip };
  }
  const parallelsMm = written ?? (hold.type === 'vise' ? chosen(base, vise, shop) : 0);
  return {
    parallelsMm,
    parallelsWritten: written !== undefined,
    parallelsWantedMm: parallelsMm,
    gripMm: Math.max(0, vise.jawHeightMm - parallelsMm),
  };
}

/** The pair of that height, or the next lower one; the bed where there is none. */
function onHand(wantedMm: number, shop: Shop): number {
  const close = shop.parallelsMm.filter((p) => Math.abs(p - wantedMm) <= SAME_MM);
  if (close.length > 0)
    return close.reduce((best, p) => (Math.abs(p - wantedMm) < Math.abs(best - wantedMm) ? p : best));
  return Math.max(0, ...shop.parallelsMm.filter((p) => p <= wantedMm));
}

function chosen({ of, heightMm, lowestMm, upAxis, upSign }: Base, vise: Vise, shop: Shop): number {
  const floors = of.cuts
    .flatMap((c) => c.removes.filter((v) => !WITHIN.has(v.role)))
    .map((v) => {
      const lowest = upSign > 0 ? v.bounds.min[upAxis] : v.bounds.max[upAxis];
      return (lowest - lowestMm) * upSign;
    });
  const clear = Math.min(heightMm, ...floors) - marginOf(shop);
  const grips = [0, ...shop.parallelsMm]
    .map((p) => ({ p, grip: vise.jawHeightMm - p }))
    .filter((g) => g.grip >= LEAST_GRIP_MM && g.grip < heightMm);
  const below = grips.filter((g) => g.grip <= clear).sort((a, b) => b.grip - a.grip)[0];
  const least = grips.sort((a, b) => a.grip - b.grip)[0];
  return (below ?? least)?.p ?? 0;
}
