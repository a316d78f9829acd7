/**
 * Whether a holder keeps the shank of a cutter. A helix pulls the cutter out of a collet while the cut turns it there: both
 * are borne by the same friction, and it goes where they push it together. Forces in N, lengths in mm.
 */
import type { Mill, Tool } from '../../model/shop-model';
import { COLLET_SLIP } from '../../tables/cutting.data';
import type { HeldIn } from './bend';
import type { MillingLoad } from './force';

type Shank = Pick<Mill, 'diameterMm' | 'shankMm'>;

/** Around the shank and along it together, N, where that is most over the helixes that the cutter may have. */
export function shankForceN({ tangentialN, axialN }: Pick<MillingLoad, 'tangentialN' | 'axialN'>, tool: Shank): number {
  return Math.hypot((tangentialN * tool.diameterMm) / tool.shankMm, axialN);
}

/** Where the shank slips, N: as the shop says of the holder, or by the shank. A face mill is bolted to its arbor. */
export function slipsAtN(
  { kind, shankMm }: { readonly kind: Tool['kind']; readonly shankMm: number },
  holder?: HeldIn,
): number {
  if (kind === 'face-mill') return Number.POSITIVE_INFINITY;
  return holder?.slipsAtN ?? COLLET_SLIP.nPerMm * shankMm;
}
