/** A thread from the side into a plain bore is for the screw that holds what lies in it: it must get there. */

import type { Solid, Void } from '../geometry/types';
import type { Hole, Part } from '../model/model';
import { crossedBores } from './drill-path';
import { type Bored, boresOf } from './drilling';

/** Tapped, into the bore of a hole that is not. */
export function isForScrewOnto(hole: Hole, to: Void, part: Part): boolean {
  const other = part.featureByName.get(to.feature);
  return hole.thread !== undefined && other?.kind === 'hole' && !other.thread;
}

/** How deep such a thread must be for its screw to come out into the first bore that it meets, mm; of several members the most. */
export function setScrewDepthMm(hole: Hole, part: Part, solid: Solid): number | undefined {
  const depths = boresOf(hole, part, solid)
    .filter((b) => crossedBores(b).some((to) => isForScrewOnto(hole, to, part)))
    .map(meetsAtMm);
  return depths.length > 0 ? Math.max(...depths) : undefined;
}

/** Where the first material that it goes through ends. */
function meetsAtMm({ core, startMm }: Bored): number {
  return Math.max(0, (core[0]?.to ?? startMm) - startMm);
}
