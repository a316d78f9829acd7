/** A roughness that is asked for slows the feed of the pass that leaves it: the ridge formulae turned round. */
import type { Feature } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { feedForRidgeMm, feedForSideMm } from '../cutting/roughness';
import type { Operation } from './types';

export const FINISH = [
  {
    name: 'real',
    value: 1.5,
    unit: 'ratio',
    what: 'How much rougher a surface is measured than the cutter’s shape and feed leave by themselves, at the least',
    source: '1.5 to 3 times, from memory: run-out, wear, built-up edge',
  },
  {
    name: 'nose',
    value: 0.4,
    unit: 'mm',
    what: 'Corner radius of a boring bar’s insert',
    source: 'common practice, no source: 0.2 to 0.8, sizes of ISO 1832',
  },
  {
    name: 'end',
    value: 1.5,
    unit: 'deg',
    what: 'How far the end of a square mill falls away to its middle',
    source: 'common practice, no source: 1 to 2°',
  },
] as const;

type FinishSetting = (typeof FINISH)[number]['name'];

export function finishSetting(name: FinishSetting, shop: Shop): number {
  return shop.limits.get('tol/finish')?.get(name) ?? FINISH.find((f) => f.name === name)!.value;
}

/** A flat that the end of the cutter leaves. */
export function hasFloor(feature: Feature): boolean {
  if (feature.kind === 'hole') return feature.bottom === 'flat' && !feature.depth.through;
  return 'depth' in feature && feature.depth !== undefined && !feature.depth.through;
}

/** Finer than that a boring bar rubs. Common practice, no source. */
const LEAST_BORE_MM = 0.01;

/** The operation with the most it may be fed, mm a tooth or a turn, where its feature asks for a roughness. */
export function asFinished<T extends Operation>(o: T, shop: Shop): T {
  const most = o.feature.finish && feedFor(o, o.feature.finish.raUm, shop);
  return most === undefined ? o : { ...o, finishFeedMm: most };
}

function feedFor(o: Operation, raUm: number, shop: Shop): number | undefined {
  // Ra is a quarter of the ridge, and is measured coarser than geometry has it.
  const ridgeMm = (4 * raUm) / finishSetting('real', shop) / 1000;
  const endDeg = finishSetting('end', shop);
  if (o.does === 'bore') return Math.max(LEAST_BORE_MM, feedForRidgeMm(ridgeMm, finishSetting('nose', shop), endDeg));
  if (o.does !== 'finish' && o.does !== 'face') return undefined;
  const { tool, feature } = o;
  const ball = tool.cornerRadiusMm >= tool.diameterMm / 2 - 0.01;
  const floor = (hasFloor(feature) || o.does === 'face') && !ball;
  return Math.min(
    o.does === 'finish' ? feedForSideMm(ridgeMm, tool.diameterMm) : Number.POSITIVE_INFINITY,
    floor ? feedForRidgeMm(ridgeMm, tool.cornerRadiusMm, endDeg) : Number.POSITIVE_INFINITY,
  );
}
