/**
 * How much a tapped hole holds: the load at which the screw breaks against the loads at which its threads, or those of the
 * hole, shear off. Machinery's Handbook, "Lengths of Engagement of Screw Threads" (after FED-STD-H28/2B), by least material
 * as it says: the least screw in the widest hole that the everyday limits allow. Tensile stress area, shear areas of both
 * threads, shear strength taken as half the tensile strength.
 */

import { isUnified, type Thread } from './thread-form';
import { limitsOf } from './thread-limits';

export const STRENGTH_SOURCE =
  "Machinery's Handbook, lengths of engagement of screw threads (after FED-STD-H28); stress area ISO 898-1, ASME B1.1; limits ISO 965-1 6H/6g, ASME B1.1 2B/2A";

/** tan 30°: how fast a thread of 60° grows wider towards its root. */
const TAN_30 = 0.57735;
/** Shear strength of tensile strength, as the handbook takes it: a little under what ductile metals have. */
const SHEAR = 0.5;

/** Cross section that carries a screw's pull, mm²: ISO 898-1 for metric threads, ASME B1.1 for unified ones. */
export function stressAreaMm2(thread: Thread): number {
  const less = isUnified(thread) ? 0.9743 : 0.9382;
  return (Math.PI / 4) * (thread.diameterMm - less * thread.pitchMm) ** 2;
}

interface ShearAreas {
  /** Where the hole's thread shears: along the screw's major diameter. mm² per mm of engagement. */
  readonly holeMm2: number;
  /** Where the screw's thread shears: along the widest bore that the thread allows, or a wider one that was drilled. */
  readonly screwMm2: number;
}

/** Shear areas per mm of full engagement, of a thread in a hole bored to `boreMm` before tapping; undefined for what is no screw thread. */
export function shearAreas(thread: Thread, boreMm: number): ShearAreas | undefined {
  const limits = limitsOf(thread);
  if (!limits) return undefined;
  const { leastMajorMm, leastScrewPitchMm, mostHolePitchMm, mostMinorMm } = limits;
  // Of the pitch what is thread at a diameter so far from the pitch diameter.
  const area = (d: number, fromPitch: number) => Math.PI * d * Math.max(0, 0.5 + (TAN_30 * fromPitch) / thread.pitchMm);
  const minorMm = Math.max(boreMm, mostMinorMm);
  return {
    holeMm2: area(leastMajorMm, leastMajorMm - mostHolePitchMm),
    screwMm2: area(minorMm, leastScrewPitchMm - minorMm),
  };
}

export interface Engaged {
  /** The pull at which the screw breaks, N. */
  readonly breaksN: number;
  /** The pull at which the weaker thread shears, N. */
  readonly stripsN: number;
  readonly weaker: 'hole' | 'screw';
  /** Length of full thread at which both are equal, mm: more holds nothing, less strips first. */
  readonly equalMm: number;
}

/** A screw of `screwMPa` tensile strength in a hole of `materialMPa`, engaged over `lengthMm` of full thread. */
export function engaged(
  thread: Thread,
  boreMm: number,
  lengthMm: number,
  { screwMPa, materialMPa }: { readonly screwMPa: number; readonly materialMPa: number },
): Engaged | undefined {
  const areas = shearAreas(thread, boreMm);
  if (!areas) return undefined;
  const hole = SHEAR * materialMPa * areas.holeMm2;
  // In an insert it is the insert's own thread that the screw's is in, and that one is stronger than the hole's.
  const screw = thread.screw ? Number.POSITIVE_INFINITY : SHEAR * screwMPa * areas.screwMm2;
  const perMm = Math.min(hole, screw);
  const breaksN = screwMPa * stressAreaMm2(thread.screw ?? thread);
  return {
    breaksN,
    stripsN: perMm * lengthMm,
    weaker: hole <= screw ? 'hole' : 'screw',
    equalMm: perMm > 0 ? breaksN / perMm : Number.POSITIVE_INFINITY,
  };
}
