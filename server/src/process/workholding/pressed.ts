/**
 * How far the block itself is pressed together between the jaws, and what an opening cut meanwhile is out by when the vise
 * is opened. The force enters where the jaws touch and spreads into the work at 45 degrees; the block is shorter by F L / (A E)
 * with the area that bears at each depth. An opening in it springs back as an ellipse in a pressed plate does,
 * σ (w + 2 l) / E for its width along the force and its length across: 3 σ D / E for a bore (Kirsch; Inglis; Timoshenko and
 * Goodier, Theory of Elasticity, from memory).
 */

import type { Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import type { InJaws } from './in-jaws';

export interface Pressed {
  readonly of: Void;
  /** For each newton of clamping force: how much the opening is out, and how much shorter the block is, mm. */
  readonly mmPerN: number;
  readonly blockMmPerN: number;
  /** Under the jaws, and where the opening is, MPa for each newton. */
  readonly mPaPerN: number;
  readonly therePerN: number;
  /** Of the opening along the force, and between the jaws in all. */
  readonly widthMm: number;
  readonly lengthMm: number;
}

/** What bears the force at a depth under a jaw: it spreads along the jaws to both sides, and upwards. */
interface Spread {
  readonly touchedMm: number;
  readonly highMm: number;
  readonly workMm: number;
  readonly workHighMm: number;
}

export function bearingMm2({ touchedMm, highMm, workMm, workHighMm }: Spread, depthMm: number): number {
  return Math.min(workMm, touchedMm + 2 * depthMm) * Math.min(workHighMm, highMm + depthMm);
}

const STEPS = 40;

/** Of a block between two jaws, for each newton: 2 ∫ da / (A(a) E) to its middle, by Simpson between the places where A bends. */
export function shorterMmPerN(spread: Spread, lengthMm: number, youngMPa: number): number {
  const { touchedMm, highMm, workMm, workHighMm } = spread;
  const bends = [(workMm - touchedMm) / 2, workHighMm - highMm].filter((a) => a > 0 && a < lengthMm / 2);
  const ends = [0, ...bends.sort((a, b) => a - b), lengthMm / 2];
  let sum = 0;
  for (let i = 1; i < ends.length; i++) {
    const [from, h] = [ends[i - 1]!, (ends[i]! - ends[i - 1]!) / STEPS];
    for (let k = 0; k <= STEPS; k++)
      sum += ((k === 0 || k === STEPS ? 1 : k % 2 ? 4 : 2) * h) / 3 / bearingMm2(spread, from + k * h);
  }
  return (2 * sum) / youngMPa;
}

/** An opening cut under a stress, when that is taken away: an ellipse in a plate. Open at its ends it moves with the block. */
export function openingMm(stressMPa: number, widthMm: number, lengthMm: number, youngMPa: number): number {
  return (stressMPa * (widthMm + 2 * lengthMm)) / youngMPa;
}

/** Every opening of the work as it is after the set-up that lies where the force goes through. */
export function pressedIn(x: InJaws, youngMPa: number): readonly Pressed[] {
  const { inVise: h, seating, contact, inTime: s } = x;
  const area = contact.opposed.areaMm2;
  const { body, voids } = s.after;
  // A tube that stands between flat jaws is pressed along two lines: a ring.
  if (area < 1 || (body.form === 'round' && body.axis === seating.upAxis)) return [];
  const touchedMm = Math.min(h.jawToMm, h.workToMm) - Math.max(h.jawFromMm, h.workFromMm);
  if (!(touchedMm > 0)) return [];
  const { box } = seating;
  const spread: Spread = {
    touchedMm,
    highMm: area / touchedMm,
    workMm: Math.max(touchedMm, box.max[h.alongAxis] - box.min[h.alongAxis]),
    workHighMm: Math.max(area / touchedMm, seating.heightMm),
  };
  const lengthMm = Math.abs(h.fixedAtMm - h.movingAtMm);
  const blockMmPerN = shorterMmPerN(spread, lengthMm, youngMPa);
  return voids.flatMap((of): readonly Pressed[] => {
    const at = openingOf(of, x, spread);
    if (!at) return [];
    const therePerN = 1 / bearingMm2(spread, at.depthMm);
    const long = at.open ? 0 : at.longMm;
    const mmPerN = openingMm(therePerN, at.widthMm, long, youngMPa);
    // Round work is touched along a line: it dents there, which hold/parallel tells; what counts is where the opening is.
    const mPaPerN = body.form === 'round' ? therePerN : 1 / area;
    return [{ of, mmPerN, blockMmPerN, mPaPerN, therePerN, widthMm: at.widthMm, lengthMm }];
  });
}

interface Opening {
  readonly widthMm: number;
  readonly longMm: number;
  /** Open at an end across the force. */
  readonly open: boolean;
  /** Of metal between it and the nearer jaw. */
  readonly depthMm: number;
}

/** How an opening lies in the force; undefined where it is no hole across it, open to a jaw, or above where the force goes. */
function openingOf(v: Void, { inVise: h, seating }: InJaws, spread: Spread): Opening | undefined {
  if (v.role === 'edge') return undefined;
  const { min, max } = v.bounds;
  const deep = ([0, 1, 2] as const).find((i) => Math.abs(v.frame.w[i]) > 1 - ROUNDING);
  if (deep === undefined || deep === h.jawAxis) return undefined;
  const across = (3 - h.jawAxis - deep) as AxisIndex;
  const toJaw = (face: Face, at: number) => (FACE_AXIS[face].sign > 0 ? at - max[h.jawAxis] : min[h.jawAxis] - at);
  const depthMm = Math.min(toJaw(h.fixed, h.fixedAtMm), toJaw(h.moving, h.movingAtMm));
  if (depthMm < 0.05) return undefined;
  const up = seating.upAxis;
  const [a, b] = [min[up], max[up]].map((at) => (at - seating.lowestMm) * seating.upSign) as [number, number];
  if (Math.min(a, b) > Math.min(spread.workHighMm, spread.highMm + depthMm) - 0.05) return undefined;
  const { box } = seating;
  const open = min[across] < box.min[across] + 0.05 || max[across] > box.max[across] - 0.05;
  return { widthMm: max[h.jawAxis] - min[h.jawAxis], longMm: max[across] - min[across], open, depthMm };
}
