/**
 * What room an opening leaves a cutter: stock on both walls to finish, and a way in. A cutter as wide as the opening bends
 * and wanders in the full cut and leaves what it leaves; only a plain slot that bears so much is made by one.
 */

import { isChannel } from '../model/feature-kinds';
import type { Feature, Part } from '../model/model';
import type { Mill } from '../model/shop-model';
import { generalLinear, parseGeneralTolerance } from '../tables/general-tolerances';
import { ROUNDING } from '../tolerance';

/** A chamfer mill's tip goes so far below the edge it leaves. Common practice, no source. */
export const BELOW_MM = 0.5;

/** Left on each wall to finish, at least. Common practice: 0.1 to 0.3 mm. */
export const LEAST_STOCK_MM = 0.1;
/** How much wider than itself a cutter makes a slot that it fills, at most. Common practice, no source: 0.03 to 0.1 mm. */
const SLOTTED_MM = 0.1;
/** ± of a size for which neither it nor the part says a tolerance: ISO 2768-1 m for sizes to 6 mm. */
const PLAIN_MM = 0.1;

/** The widest cutter that may go through an opening `neckMm` wide. */
export function widestFor(feature: Feature, neckMm: number, part: Pick<Part, 'tolerance'>): number {
  if (!Number.isFinite(neckMm) || atSize(feature, neckMm, part)) return neckMm;
  return Math.max(0, neckMm - 2 * LEAST_STOCK_MM);
}

/** A slot or groove whose width bears what a cutter leaves that fills it; or a floor as round as only that cutter is. */
function atSize(feature: Feature, neckMm: number, part: Pick<Part, 'tolerance'>): boolean {
  if ('floorRadius' in feature && feature.floorRadius.mm >= neckMm / 2 - LEAST_STOCK_MM) return true;
  if (!isChannel(feature) && feature.kind !== 'groove') return false;
  if (feature.width.tolerance || (feature.kind === 'groove' && feature.diameter.tolerance)) return false;
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  const halfMm = (general && generalLinear(feature.width.mm, general.linear, feature.width.text)?.value) ?? PLAIN_MM;
  return halfMm >= SLOTTED_MM - ROUNDING;
}

/** What a cutter leaves on each wall of an opening `neckMm` wide that it roughs: `wantedMm` where there is room. */
export function stockLeft(neckMm: number, diameterMm: number, wantedMm: number): number {
  return Math.min(wantedMm, Math.max(0, (neckMm - diameterMm) / 2));
}

/** How a cutter gets into an opening that is closed all round. */
export type WayIn = 'helix' | 'ramp' | 'plunge';

/** A helix takes a hole so much wider than the cutter, so that no core stands under its middle. Common practice, no source: 1.2 to 1.9. */
const HELIX = 1.2;
/** A ramp goes to and fro over at least so much of the cutter's diameter. Common practice, no source. */
const RAMP = 0.5;

/** The gentlest that there is room for; undefined where it must be drilled for it. `longMm`: the opening's length. */
export function wayIn(mill: Mill, wideMm: number, longMm: number): WayIn | undefined {
  if (wideMm >= (mill.leastHoleMm ?? HELIX * mill.diameterMm)) return 'helix';
  if (longMm - mill.diameterMm >= RAMP * mill.diameterMm) return 'ramp';
  return mill.centreCutting ? 'plunge' : undefined;
}
