/**
 * What stands out of the jaws past their end, as a beam held at one end: how far the cut that lies farthest out bends it,
 * by the sections that are left when it is cut.
 */

import { AXIS_INDEX } from '../../geometry/vector';
import { materialOf } from '../../model/material-of';
import { FACE_AXIS, FACES, type Face } from '../../model/model';
import type { PartInShop } from '../part-in-shop';
import type { Cut, Workpiece } from '../stock/types';
import { atMostLimber, limberOf } from './beam';
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
  /** The same where this cut were the set-up's first. */
  readonly firstMm: number;
}

/** Shorter than so many times its thinnest it is no beam. */
const LEAST_RATIO = 2;

/** Of either end the cut that bends it most, where that can be more than `overMm`. */
export function standsOut(x: InJaws, inShop: PartInShop, overMm: number): readonly StandsOut[] {
  const { inVise: h, inTime: s } = x;
  const youngMPa = materialOf(inShop.part)?.youngMPa;
  if (youngMPa === undefined) return [];
  const axis = h.alongAxis;
  const [fromMm, toMm] = bothOf([h.workFromMm, h.workToMm], h.secondMm);
  return FACES.filter((f) => AXIS_INDEX[FACE_AXIS[f].axis] === axis).flatMap((face) => {
    const { sign } = FACE_AXIS[face];
    // The second piece is judged where the first is told: it lies only so far on.
    const { secondMm = 0 } = h;
    const onMm = sign === Math.sign(secondMm) ? secondMm : 0;
    const [rootMm, tipMm] = sign > 0 ? [h.jawToMm - onMm, toMm - onMm] : [h.jawFromMm - onMm, fromMm - onMm];
    const outMm = sign * (tipMm - rootMm);
    if (outMm <= 0) return [];
    // Mostly it is plain that nothing bends so far; then no section is looked at.
    const limber = atMostLimber(s.after, axis, rootMm, tipMm);
    const unlessN = limber ? (overMm * youngMPa) / Math.max(limber.u, limber.v) : 0;
    if ((heaviestOf(s, inShop, unlessN)?.forceN ?? 0) <= unlessN) return [];
    const [most] = s.cuts
      .flatMap((cut): StandsOut[] => {
        const ends = cut.removes.map(({ bounds: { min, max } }) =>
          sign > 0 ? Math.min(max[axis], tipMm) - rootMm : rootMm - Math.max(min[axis], tipMm),
        );
        const leverMm = Math.max(0, ...ends);
        if (leverMm <= 0) return [];
        const push = heaviestOf({ ...s, cuts: [cut] }, inShop);
        if (!push || push.forceN <= unlessN) return [];
        const beam = beamOf(cut.before, x, rootMm, rootMm + sign * leverMm);
        if (!beam || leverMm < LEAST_RATIO * beam.thinnestMm) return [];
        const bends = ({ across, upward }: Beam) => Math.max(push.sidewaysN * across, push.liftN * upward) / youngMPa;
        const bendsMm = bends(beam);
        if (bendsMm <= overMm) return [];
        const first = beamOf(s.before, x, rootMm, rootMm + sign * leverMm);
        return [{ face, outMm, leverMm, cut, forceN: push.forceN, bendsMm, firstMm: bends(first ?? beam) }];
      })
      .sort((a, b) => b.bendsMm - a.bendsMm);
    return most ? [most] : [];
  });
}

interface Beam {
  /** What 1 N bends it, times E, 1/mm: towards a jaw, and up. */
  readonly across: number;
  readonly upward: number;
  readonly thinnestMm: number;
}

function beamOf(w: Workpiece, { inVise: h, inTime }: InJaws, rootMm: number, endMm: number): Beam | undefined {
  const axis = h.alongAxis;
  const limber = limberOf(w, axis, rootMm, endMm);
  if (!limber || !inTime.up) return undefined;
  const upIsFirst = AXIS_INDEX[FACE_AXIS[inTime.up].axis] === (axis + 1) % 3;
  const [upward, across] = upIsFirst ? [limber.u, limber.v] : [limber.v, limber.u];
  return { across, upward, thinnestMm: limber.thinnestMm };
}
