/** What a screw allows of where its holes are: from the hole's own limits and the screw that goes through. */

import { featureNameOf } from '../../model/member-name';
import type { GeometricTolerance, Hole, Part } from '../../model/model';
import { type ClearanceClass, clearanceHole } from '../../tables/clearance';
import { fixedZoneMm, floatingZoneMm } from '../../tables/position';
import { screwDiameterMm, screwSize } from '../../tables/screw-size';
import { screwThrough } from './intent';
import { limitsOf, type SizeLimits } from './limits';

export interface Fastened {
  readonly hole: Hole;
  readonly screw: string;
  /** The screw is named in the text; else it is the one whose clearance hole has this diameter. */
  readonly named: boolean;
  /** Largest fastener and smallest hole, mm; and where the hole's least size comes from. */
  readonly fastenerMm: number;
  readonly holeMm: number;
  readonly largestHoleMm: number;
  readonly how: string;
  /** Round zones, mm: with clearance holes in every part; with the other part tapped, and the zone shared evenly. */
  readonly floatingMm: number;
  readonly fixedMm: number;
}

/** Of a plain hole that a screw passes through; undefined for tapped holes, seats, and diameters of no clearance hole. */
export function fastenedOf(hole: Hole, part: Part): Fastened | undefined {
  const through = screwThrough(hole);
  const fastenerMm = through && screwDiameterMm(through.screw);
  if (!through || fastenerMm === undefined) return undefined;
  const { leastMm, mostMm, how } = holeLimits(hole, part);
  return {
    hole,
    ...through,
    fastenerMm,
    holeMm: leastMm,
    largestHoleMm: mostMm,
    how,
    floatingMm: floatingZoneMm(leastMm, fastenerMm),
    fixedMm: fixedZoneMm(leastMm, fastenerMm),
  };
}

/** Its own tolerance, or the general one; a hole that follows from the screw has its nominal size at least (ISO 273: H12 to H14). */
export function holeLimits({ diameter, clearance }: Hole, part: Part): SizeLimits {
  const { mm } = diameter;
  return limitsOf(diameter, clearance ? undefined : part) ?? { leastMm: mm, mostMm: mm, how: 'nominal' };
}

export interface TappedFor {
  readonly hole: Hole;
  readonly screw: string;
  readonly fastenerMm: number;
  /** Clearance holes of the standard, close to loose, with what the tapped hole's zone and theirs may add up to. */
  readonly holes: readonly { readonly fit: ClearanceClass; readonly diameterMm: number; readonly bothMm: number }[];
}

/** Of a tapped hole: what the other part's clearance hole leaves for the two zones together. */
export function tappedFor(hole: Hole): TappedFor | undefined {
  const spec = hole.thread?.spec;
  const screw = spec && screwSize((spec.screw ?? spec).designation);
  const fastenerMm = screw ? screwDiameterMm(screw) : undefined;
  if (!screw || fastenerMm === undefined) return undefined;
  const holes = (['fine', 'medium', 'coarse'] as const).flatMap((fit) => {
    const found = clearanceHole(screw, fit);
    return found ? [{ fit, diameterMm: found.diameterMm, bothMm: floatingZoneMm(found.diameterMm, fastenerMm) }] : [];
  });
  return holes.length > 0 ? { hole, screw, fastenerMm, holes } : undefined;
}

/** Position tolerances of holes that screws go through or into. */
export function* positioned(part: Part): Generator<{ readonly tolerance: GeometricTolerance; readonly hole: Hole }> {
  for (const tolerance of part.tolerances) {
    if (tolerance.characteristic !== 'position') continue;
    for (const { name } of tolerance.of) {
      const hole = part.featureByName.get(featureNameOf(name));
      if (hole?.kind === 'hole') yield { tolerance, hole };
    }
  }
}
