/**
 * The roughness that a feature's last cuts leave by their feed and shape, at the feed the plan would use: floors under the
 * end of a mill, walls along its side, bores under the point of a boring bar. Drills and reamers leave what the table of
 * processes says: no formula tells it.
 */

import { materialOf } from '../../model/material-of';
import type { Feature } from '../../model/model';
import type { Mill, Shop } from '../../model/shop-model';
import {
  endRidgeMm,
  feedForRidgeMm,
  feedForSideMm,
  raOfRidgeUm,
  scallopMm,
  sideRidgeMm,
  stepoverMm,
} from '../cutting/roughness';
import { type Operation, operationsOf } from '../operations';
import { finishSetting, hasFloor } from '../operations/finish-feed';
import { machineFor } from '../operations/machine';
import { priceOf } from '../operations/priced';
import type { PartInShop } from '../part-in-shop';

export interface Surface {
  readonly what: 'floor' | 'wall' | 'bore';
  readonly tool: string;
  /** By its name in the table of processes. */
  readonly process: 'fine-milling' | 'boring';
  /** Of the plan, mm; and in what. For a ball: how far its passes lie apart. */
  readonly feedMm: number;
  readonly per: 'tooth' | 'turn' | 'pass';
  /** Chips thinner than that are not cut but rubbed, mm; 0 where the tables say nothing. */
  readonly leastFeedMm: number;
  /** `f² / 8r, r = 0.4 mm`. */
  readonly formula: string;
  /** By geometry alone, and as it is measured at the least. */
  readonly ridgeMm: number;
  readonly geometricRaUm: number;
  readonly raUm: number;
  /** The feed (or step) that would reach a roughness, mm. */
  feedFor(raUm: number): number;
}

/** How far a ball’s finishing passes lie apart, as a share of its diameter. Common practice, no source. */
const BALL_STEP = 0.05;

/** Nothing without a known material or machine, or where nothing on hand cuts it. */
export function surfacesOf(feature: Feature, inShop: PartInShop): readonly Surface[] {
  const { part, shop } = inShop;
  const material = materialOf(part);
  const machine = machineFor(part, shop, feature.name);
  if (!material || !machine) return [];
  return operationsOf(feature, inShop).flatMap((o): readonly Surface[] => {
    if (o.does !== 'bore' && o.does !== 'finish' && o.does !== 'face') return [];
    const { conditions, milling } = priceOf(o, material, machine);
    if (o.does === 'bore') {
      const nose = finishSetting('nose', shop);
      return conditions ? [underPoint('bore', o, conditions.feedMmPerMin / conditions.rpm, nose, shop)] : [];
    }
    if (!milling) return [];
    const { feedPerToothMm, chipRangeMm } = milling;
    const made = [
      ...(hasFloor(feature) || o.does === 'face' ? [floor(o, feedPerToothMm, shop)] : []),
      ...(o.does === 'finish' ? [alongSide(o.tool, feedPerToothMm, shop)] : []),
    ];
    return made.map((s) => (s.per === 'tooth' ? { ...s, leastFeedMm: chipRangeMm[0] } : s));
  });
}

function floor(o: Extract<Operation, { does: 'finish' | 'face' }>, feedMm: number, shop: Shop): Surface {
  const { tool } = o;
  const isBall = tool.cornerRadiusMm >= tool.diameterMm / 2 - 0.01;
  return isBall ? underBall(tool, shop) : underPoint('floor', o, feedMm, tool.cornerRadiusMm, shop);
}

function underPoint(
  what: 'floor' | 'bore',
  o: Extract<Operation, { does: 'bore' | 'finish' | 'face' }>,
  feedMm: number,
  cornerMm: number,
  shop: Shop,
): Surface {
  const endDeg = finishSetting('end', shop);
  const ridgeMm = endRidgeMm(feedMm, cornerMm, endDeg);
  const round = feedMm <= 2 * cornerMm * Math.sin((endDeg * Math.PI) / 180);
  return {
    ...surface(ridgeMm, shop, (ridge) => feedForRidgeMm(ridge, cornerMm, endDeg)),
    what,
    tool: o.tool.name,
    process: what === 'bore' ? 'boring' : 'fine-milling',
    feedMm,
    per: what === 'bore' ? 'turn' : 'tooth',
    formula: round
      ? `f² / 8r, r = ${cornerMm} mm`
      : cornerMm > 0
        ? `the arc of r = ${cornerMm} mm and the end that falls away by ${endDeg}°`
        : `f · tan ${endDeg}°, a sharp corner`,
  };
}

function alongSide({ name, diameterMm }: Mill, feedMm: number, shop: Shop): Surface {
  return {
    ...surface(sideRidgeMm(feedMm, diameterMm), shop, (ridge) => feedForSideMm(ridge, diameterMm)),
    what: 'wall',
    tool: name,
    process: 'fine-milling',
    feedMm,
    per: 'tooth',
    formula: `f² / 4D, D = ${diameterMm} mm`,
  };
}

function underBall({ name, diameterMm }: Mill, shop: Shop): Surface {
  const radiusMm = diameterMm / 2;
  const stepMm = BALL_STEP * diameterMm;
  return {
    ...surface(scallopMm(stepMm, radiusMm), shop, (ridge) => stepoverMm(Math.min(ridge, radiusMm), radiusMm)),
    what: 'floor',
    tool: name,
    process: 'fine-milling',
    feedMm: stepMm,
    per: 'pass',
    formula: `R − √(R² − s²/4), R = ${radiusMm} mm`,
  };
}

function surface(
  ridgeMm: number,
  shop: Shop,
  feedForRidge: (ridgeMm: number) => number,
): Pick<Surface, 'ridgeMm' | 'geometricRaUm' | 'raUm' | 'feedFor' | 'leastFeedMm'> {
  const real = finishSetting('real', shop);
  const geometricRaUm = raOfRidgeUm(ridgeMm);
  return {
    ridgeMm,
    geometricRaUm,
    raUm: real * geometricRaUm,
    leastFeedMm: 0,
    feedFor: (raUm) => feedForRidge((4 * raUm) / real / 1000),
  };
}
