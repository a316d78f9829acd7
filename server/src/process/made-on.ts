/** Which holes are made beside the mill, by `made-on`. */
import type { Feature, Hole } from '../model/model';
import type { DrillPress } from '../model/shop-benches';
import type { Shop } from '../model/shop-model';
import type { Operation } from './operations/types';

/** As `made-on` names it. */
export const BENCH = 'bench';

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

/** What hands do to a hole that was drilled. */
export const BY_HAND: ReadonlySet<Operation['does']> = new Set(['tap', 'ream']);

/** Of a hole's cuts those that its set-up makes. */
export function onMill(hole: Hole, all: readonly Operation[]): readonly Operation[] {
  return isAtBench(hole) ? all.filter((o) => !BY_HAND.has(o.does)) : all;
}
