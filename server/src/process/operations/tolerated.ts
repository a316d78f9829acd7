/** How far a finishing cutter may bend: a part of the closest tolerance across the walls that it makes, or common practice. */
import { type Feature, homeOf } from '../../model/feature-kinds';
import type { FeatureKindHome } from '../../model/feature-kinds/kind';

/** Where no tolerance says. Common practice, no source. */
const FINISH_BEND_MM = 0.02;
/** Of the tolerance's half width: what the bending may take; the rest is the machine's and the measuring's. Common practice, no source. */
const SHARE = 0.5;
/** Closer is not milled by going gently. */
const LEAST_MM = 0.002;

/** mm; never more than common practice allows a wall without a tolerance. */
export function finishBendMm(feature: Feature): number {
  // A face that is milled goes by its name, and is no feature of a kind.
  if (!('kind' in feature)) return FINISH_BEND_MM;
  let most = FINISH_BEND_MM;
  // A face that is milled off goes by its name alone: it is of no kind, and nothing is toleranced across it.
  const home: FeatureKindHome<Feature> | undefined = homeOf(feature);
  for (const { tolerance } of home?.across(feature) ?? []) {
    if (tolerance?.upperMm === undefined || tolerance.lowerMm === undefined) continue;
    most = Math.min(most, (SHARE * (tolerance.upperMm - tolerance.lowerMm)) / 2);
  }
  return Math.max(LEAST_MM, most);
}
