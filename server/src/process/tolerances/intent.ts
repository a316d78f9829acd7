/** What a plain hole is for, read from its tolerance: the seat of something, or room for a screw. */

import type { Hole } from '../../model/model';
import { clearanceOf } from '../../tables/clearance';
import { fitLimits } from '../../tables/fits';
import { screwSize } from '../../tables/screw-size';
import { ROUNDING } from '../../tolerance';

/** ISO 273 gives clearance holes the fields H12, H13 and H14: fine, medium, coarse. */
const FINEST_CLEARANCE = 12;

/** A field other than H, or limits closer than H12: the seat of a pin, bush or bearing, and no clearance hole. */
export function isSeat({ diameter }: Pick<Hole, 'diameter'>): boolean {
  const { tolerance } = diameter;
  if (!tolerance) return false;
  if (tolerance.fit) return tolerance.fit.letter !== 'H' || tolerance.fit.grade < FINEST_CLEARANCE;
  const limits = fitLimits(diameter.mm, 'H', FINEST_CLEARANCE);
  if (!limits || tolerance.upperMm === undefined || tolerance.lowerMm === undefined) return false;
  return tolerance.upperMm - tolerance.lowerMm < limits.upperMm - limits.lowerMm - ROUNDING;
}

/** The screw that a hole is the clearance for by its diameter alone; undefined for threads, seats and other diameters. */
export function screwByDiameter(hole: Pick<Hole, 'diameter' | 'thread'>): string | undefined {
  return hole.thread || isSeat(hole) ? undefined : clearanceOf(hole.diameter.mm)?.screw;
}

interface ThroughScrew {
  readonly screw: string;
  /** By the text; else it is the one whose clearance hole has this diameter. */
  readonly named: boolean;
}

/** The screw that goes through a hole; undefined for tapped holes, seats that name none, and diameters of no clearance hole. */
export function screwThrough(hole: Hole): ThroughScrew | undefined {
  if (hole.thread) return undefined;
  const written = hole.clearance?.screw ?? hole.counterbore?.screw ?? hole.countersink?.screw;
  if (written) {
    const screw = screwSize(written);
    return screw === undefined ? undefined : { screw, named: true };
  }
  const guessed = screwByDiameter(hole);
  return guessed === undefined ? undefined : { screw: guessed, named: false };
}
