/** Which holes are made beside the mill, by `made-on`. */
import type { Feature, Hole } from '../model/model';
import type { DrillPress } from '../model/shop-benches';
import type { Shop } from '../model/shop-model';

/** As `made-on` names it. */
const BENCH = 'bench';

/** No set-up cuts it: it is made on a drill press after them. */
export function isOffMill(feature: Feature | undefined): feature is Hole & Required<Pick<Hole, 'madeOn'>> {
  return feature?.kind === 'hole' && feature.madeOn !== undefined && feature.madeOn.name !== BENCH;
}

export function isAtBench(feature: Feature | undefined): feature is Hole & Required<Pick<Hole, 'madeOn'>> {
  return feature?.kind === 'hole' && feature.madeOn?.name === BENCH;
}

export function pressOf(hole: Hole, shop: Shop): DrillPress | undefined {
  return isOffMill(hole) ? shop.drillPresses.find((p) => p.name === hole.madeOn.name) : undefined;
}
