/**
 * What stands out of the jaws past their end, as a beam held at one end: how far the cut that lies farthest out bends it.
 * The whole stock's section counts, so it bends by that at least (F L³ / 3 E I).
 */

import { AXIS_INDEX } from '../../geometry/vector';
import { materialOf } from '../../model/material-of';
import { FACE_AXIS, FACES, type Face } from '../../model/model';
import type { PartInShop } from '../part-in-shop';
import type { Cut } from '../stock/types';
import { heaviestOf } from './forces';
import type { InJaws } from './in-jaws';
import { bothOf } from './two-pieces';

export interface StandsOut {
  readonly face: Face;
  /** Of the workpiece, and of the cut, past the end of the jaws. */
  readonly outMm: number;
  readonly leverMm: number;
  readonly cut: Cut;
  readonly forceN: number;
  readonly bendsMm: number;
}

/** Of a round section, π d⁴ / 64 for d⁴ / 12. */
const ROUND = (12 * Math.PI) / 64;
/** Shorter than so many times its smaller side it is no beam. */
const LEAST_RATIO = 2;

/** Of either end the cut that bends it most. */
export function standsOut(x: InJaws, inShop: PartInShop): readonly StandsOut[] {
  const { inVise: h, seating, inTime: s } = x;
  const youngMPa = materialOf(inShop.part)?.youngMPa;
  const [low, high] = [seating.heightMm, h.openingMm];
  if (youngMPa === undefined || !(Math.min(low, high) > 0)) return [];
  const form = s.before.body.form === 'round' ? ROUND : 1;
  const [fromMm, toMm] = bothOf([h.workFromMm, h.workToMm], h.secondMm);
  return FACES.filter((f) => AXIS_INDEX[FACE_AXIS[f].axis] === h.alongAxis).flatMap((face) => {
    const { sign } = FACE_AXIS[face];
    const outMm = sign > 0 ? toMm - h.jawToMm : h.jawFromMm - fromMm;
    if (outMm < LEAST_RATIO * Math.min(low, high)) return [];
    const [most] = s.cuts
      .flatMap((cut): StandsOut[] => {
        const ends = cut.removes.map(({ bounds: { min, max } }) =>
          sign > 0 ? Math.min(max[h.alongAxis], toMm) - h.jawToMm : h.jawFromMm - Math.max(min[h.alongAxis], fromMm),
        );
        const leverMm = Math.max(0, ...ends);
        if (leverMm < LEAST_RATIO * Math.min(low, high)) return [];
        const push = heaviestOf({ ...s, cuts: [cut] }, inShop);
        if (!push) return [];
        const bends = (forceN: number, wide: number, deep: number) =>
          (forceN * leverMm ** 3) / (3 * youngMPa * ((form * wide * deep ** 3) / 12));
        const bendsMm = Math.max(bends(push.sidewaysN, low, high), bends(push.liftN, high, low));
        return [{ face, outMm, leverMm, cut, forceN: push.forceN, bendsMm }];
      })
      .sort((a, b) => b.bendsMm - a.bendsMm);
    return most ? [most] : [];
  });
}
