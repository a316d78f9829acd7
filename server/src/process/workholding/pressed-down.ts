/**
 * Work that a drill presses down beyond the end of the jaws. Plain statics of a rigid block: it turns about the jaws' end,
 * where it lies on what is under it. Against that stands the friction of both jaws, square to the way from there.
 */
import { findMaterial } from '../../tables/materials';
import { operationsOf } from '../operations';
import { priceOf } from '../operations/priced';
import type { PartInShop } from '../part-in-shop';
import type { Cut } from '../stock/types';
import { machineOf } from './forces';
import type { InJaws } from './in-jaws';
import { blockOf, cornerMm } from './prying';

export interface PressedDown {
  readonly cut: Cut;
  readonly tool: string;
  readonly thrustN: number;
  /** From the jaws’ end to the middle of the hole. */
  readonly beyondMm: number;
  /** The thrust that would tip it there. */
  readonly tipsN: number;
}

/** The hole that comes nearest to tipping it, by thrust over what tips; undefined where none is beyond the jaws. */
export function worstPressed(x: InJaws, asked: PartInShop, mu: number): PressedDown | undefined {
  const { part, shop } = asked;
  const material = part.material && findMaterial(part.material.name);
  const machine = machineOf(x.inTime.setup, shop);
  if (!material || !machine || !x.contact.known || !(x.gripMm > 0)) return undefined;
  const { longMm, offMm } = blockOf(x);
  const holds = 2 * mu * x.inVise.vise.forceN * (offMm + cornerMm(longMm, x.gripMm));
  let worst: PressedDown | undefined;
  for (const cut of x.inTime.cuts) {
    const beyondMm = beyondJaws(cut, x);
    if (!(beyondMm > 0) || cut.feature?.kind !== 'hole') continue;
    for (const operation of operationsOf(cut.feature, asked)) {
      if (operation.does === 'missing') continue;
      const { thrustN } = priceOf(operation, material, machine);
      const tipsN = holds / beyondMm;
      if (thrustN && (!worst || thrustN / tipsN > worst.thrustN / worst.tipsN))
        worst = { cut, tool: operation.tool.name, thrustN, beyondMm, tipsN };
    }
  }
  return worst;
}

/** How far the farthest hole of a cut is beyond what of the work is between the jaws. */
function beyondJaws({ removes }: Cut, { inVise: h }: InJaws): number {
  const k = h.alongAxis;
  const [from, to] = [Math.max(h.workFromMm, h.jawFromMm), Math.min(h.workToMm, h.jawToMm)];
  const middles = removes.map(({ bounds }) => (bounds.min[k] + bounds.max[k]) / 2);
  return Math.max(0, ...middles.map((at) => Math.max(from - at, at - to)));
}
