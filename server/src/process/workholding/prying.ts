/**
 * Work levered out of the jaws by a cut high above them. Plain statics of a rigid block: no jaw bends or lifts, the vise goes
 * on pressing with its force. The push may come from any side; across the jaws and along them are looked at.
 *
 * Across: when the work begins to tip, the jaw that is pushed against touches at its top edge only, and the work turns about
 * that. Against it stand the other jaw, which presses half the grip lower, and its friction, the width of the work away.
 *
 * Along: the work lies on parallels or the bed, so that it can only rise at one end and turns about the other. Against it
 * stands the friction of both jaws, which is directed square to the way from that end.
 *
 * A helix lifts besides: with its lever from where the block turns to the farther side of the cut, at the least favourable
 * moment, all of the push and all of the lift at once.
 */

import { rectOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { materialOf } from '../../model/material-of';
import type { PartInShop } from '../part-in-shop';
import { boxLeft } from '../stock/in-process-stock';
import type { Cut } from '../stock/types';
import { machineOf, mostForceN, passesOf } from './forces';
import type { InJaws } from './in-jaws';
import { aboveLowest } from './seating';

export interface Block {
  readonly gripMm: number;
  /** Between the jaws. */
  readonly wideMm: number;
  /** What the jaws share along them, and from its nearer end to where the work turns. */
  readonly longMm: number;
  readonly offMm: number;
}

/** The helix lifts while the tooth pushes: so much of the push, so far from where the block turns. */
interface Lift {
  readonly share: number;
  readonly acrossMm: number;
  readonly alongMm: number;
}
const NO_LIFT: Lift = { share: 0, acrossMm: 0, alongMm: 0 };

/** The most that a push at a height above the jaws' tops may be before the block tips, N. */
export function tipsAt(
  highMm: number,
  { gripMm, wideMm, longMm, offMm }: Block,
  clampN: number,
  mu: number,
  lift = NO_LIFT,
): { readonly acrossN: number; readonly alongN: number } {
  // P h + L x = (F − P) (g / 2 + μ b): pushed away from the jaw that does not give, that one presses less.
  const arm = gripMm / 2 + mu * wideMm;
  const acrossN = (clampN * arm) / (highMm + arm + lift.share * lift.acrossMm);
  const holds = 2 * mu * clampN * (offMm + cornerMm(longMm, gripMm));
  const alongN = holds / (highMm + gripMm + lift.share * lift.alongMm);
  return { acrossN, alongN };
}

/** The mean way from a corner of a rectangle to its places: ∬ √(x² + y²) / (a b), in closed form. */
export function cornerMm(a: number, b: number): number {
  if (!(a > 0) || !(b > 0)) return Math.max(a, b, 0) / 2;
  const d = Math.hypot(a, b);
  return d / 3 + ((a * a) / (6 * b)) * Math.asinh(b / a) + ((b * b) / (6 * a)) * Math.asinh(a / b);
}

export interface Pry {
  readonly cut: Cut;
  readonly tool: string;
  readonly forceN: number;
  /** Middle of the cutter's engagement above the tops of the jaws. */
  readonly highMm: number;
  readonly how: 'across' | 'along';
  /** The push that would tip it there, with what lifts beside it. */
  readonly tipsN: number;
  readonly lift: Lift;
}

export function blockOf(x: InJaws): Block {
  const { inVise: h, contact, gripMm } = x;
  const edges = contact.opposed.regions.flatMap(regionEdges);
  if (edges.length === 0) return { gripMm, wideMm: h.openingMm, longMm: 0, offMm: 0 };
  const rect = rectOf(edges);
  const alongU = (h.jawAxis + 1) % 3 === h.alongAxis;
  const [from, to] = alongU ? [rect.u0, rect.u1] : [rect.v0, rect.v1];
  const [workFrom, workTo] = [Math.max(h.workFromMm, h.jawFromMm), Math.min(h.workToMm, h.jawToMm)];
  return {
    gripMm,
    wideMm: h.openingMm,
    longMm: to - from,
    offMm: Math.max(0, Math.min(from - workFrom, workTo - to)),
  };
}

/** The cut of a set-up that comes nearest to levering the work out, by push over what tips; undefined where nothing is known. */
export function worstPry(x: InJaws, { part, solid, shop }: PartInShop, mu: number, safety: number): Pry | undefined {
  const material = materialOf(part);
  const machine = machineOf(x.inTime.setup, shop);
  if (!material || !machine || !x.contact.known || !(x.gripMm > 0)) return undefined;
  const block = blockOf(x);
  const clampN = x.inVise.vise.forceN;
  // No cut of this shop, at the very top and as far off as the work goes, would do it.
  const farthest = { share: 1, acrossMm: block.wideMm, alongMm: x.inVise.workToMm - x.inVise.workFromMm };
  const least = tipsAt(Math.max(0, x.aboveMm), block, clampN, mu, farthest);
  if (safety * mostForceN(shop, machine, material) <= Math.min(least.acrossN, least.alongN)) return undefined;
  let worst: Pry | undefined;
  for (const cut of x.inTime.cuts) {
    const top = topOf(cut, x);
    for (const { forceN, liftN, tool, apMm } of passesOf(cut, { part, solid, shop, machine, material })) {
      const highMm = top - apMm / 2 - x.gripMm;
      if (!(highMm > 0)) continue;
      const lift = liftOf(cut, x, liftN / forceN);
      const tips = tipsAt(highMm, block, clampN, mu, lift);
      const how = tips.acrossN <= tips.alongN ? 'across' : 'along';
      const tipsN = tips[`${how}N`];
      if (!worst || forceN / tipsN > worst.forceN / worst.tipsN)
        worst = { cut, tool, forceN, highMm, how, tipsN, lift };
    }
  }
  return worst;
}

/** How far a cut goes from the jaw, and from the end of the work, about which it would turn: the farther side of each. */
function liftOf({ removes }: Cut, { inVise: h }: InJaws, share: number): Lift {
  const [jaw0, jaw1] = [Math.min(h.fixedAtMm, h.movingAtMm), Math.max(h.fixedAtMm, h.movingAtMm)];
  const far = (axis: number, from: number, to: number) => {
    const low = Math.min(...removes.map((v) => v.bounds.min[axis]!));
    const high = Math.max(...removes.map((v) => v.bounds.max[axis]!));
    return Math.max(0, Math.min(high, to) - from, to - Math.max(low, from));
  };
  if (removes.length === 0) return { share, acrossMm: 0, alongMm: 0 };
  return { share, acrossMm: far(h.jawAxis, jaw0, jaw1), alongMm: far(h.alongAxis, h.workFromMm, h.workToMm) };
}

/** Above the lowest surface: where a cut begins. */
function topOf({ removes, before }: Cut, { seating }: InJaws): number {
  const { upAxis, upSign } = seating;
  const at = (b: { min: readonly number[]; max: readonly number[] }) =>
    aboveLowest(seating, (upSign > 0 ? b.max : b.min)[upAxis]!);
  return Math.min(at(boxLeft(before)), Math.max(...removes.map((v) => at(v.bounds)), 0));
}
