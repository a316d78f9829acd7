/**
 * The cuts that make a pocket, slot, step or contour: one cutter that does all of it, or a larger one to rough and the one
 * that its corners allow to finish, whichever takes less time with the change of tool.
 */
import { lengthOf, pointAt } from '../../geometry/edge';
import { regionEdges } from '../../geometry/moments';
import type { Solid } from '../../geometry/types';
import { findMaterial } from '../../reference/materials';
import type { Feature, Part } from '../../spec/model';
import type { Mill, Shop } from '../../spec/shop-model';
import { choiceForCorner, cornerReach, outlineReach, reachingAlong } from '../choice';
import { isWall } from '../corners';
import { endMills, fits, fitting, type Gap, SAME_MM, shankRadius } from '../cutters';
import { type MilledVoid, milledVoids } from '../milling';
import { priceOf } from './priced';
import type { Operation, PassedOver } from './types';

export interface Cutters {
  /** Those that pass the narrowest place and reach, largest first. */
  readonly rough: readonly Mill[];
  /** The largest that also makes every corner and the floor. */
  readonly finish?: Mill;
}

/** Which end mills rough and finish one volume. */
export function cuttersFor(m: MilledVoid, solid: Solid, shop: Shop): Cutters {
  const gap: Gap = { radiusMm: Number.POSITIVE_INFINITY, neckMm: m.neckMm, floorRadiusMm: 0 };
  const rough = reachingAlong(m, fitting(shop, gap), solid);
  let finish = rough.find((mill) => floorFits(m, mill)) ?? reachingFloor(m, solid, shop);
  for (const corner of m.corners) {
    const { reaching } = choiceForCorner(m, corner, solid, shop);
    if (!reaching) return { rough };
    if (finish && reaching.diameterMm < finish.diameterMm) finish = reaching;
  }
  return { rough, ...(finish && { finish }) };
}

function floorFits(m: MilledVoid, mill: Mill): boolean {
  return (
    !(m.floorRadiusMm > 0) || !Number.isFinite(m.floorRadiusMm) || Math.abs(mill.cornerRadiusMm - m.floorRadiusMm) < 0.2
  );
}

function reachingFloor(m: MilledVoid, solid: Solid, shop: Shop): Mill | undefined {
  const gap: Gap = { radiusMm: Number.POSITIVE_INFINITY, neckMm: m.neckMm, floorRadiusMm: m.floorRadiusMm };
  return endMills(shop).find(
    (mill) =>
      fits(mill, gap) &&
      mill.cornerRadiusMm > 0.2 &&
      mill.reachMm >= outlineReach(m, solid, mill.diameterMm / 2, shankRadius(mill), mill.reachMm) - 1e-6,
  );
}

export function outlineOperations(feature: Feature, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  const all = milledVoids(feature, part, solid);
  const first = all[0];
  if (!first) return [];
  // Members of a pattern are alike: the first stands for all; layers of one pocket are added up.
  const members = new Set(all.map((m) => m.of.member)).size;
  const one = all.filter((m) => m.of.member === first.of.member);
  return one.flatMap((m) => ofVolume(m, feature, part, solid, shop, members));
}

function ofVolume(
  m: MilledVoid,
  feature: Feature,
  part: Part,
  solid: Solid,
  shop: Shop,
  times: number,
): readonly Operation[] {
  const { rough, finish } = cuttersFor(m, solid, shop);
  const depthMm = m.of.to - m.of.from;
  // Only along what stands: a step's or an open slot's outline also runs through air.
  const wayMm = regionEdges(m.of.region)
    .filter((e) => isWall(pointAt(e, 0.5), m.of, solid, m.face))
    .reduce((sum, e) => sum + lengthOf(e), 0);
  if (rough.length === 0 || !finish) {
    const least = m.corners.reduce((r, c) => Math.min(r, c.radiusMm), m.neckMm / 2);
    const thick = Number.isFinite(least) ? ` of at most ${Number((2 * least).toFixed(2))} mm` : '';
    return [{ feature, times, does: 'missing', wanted: `end mill${thick}, reaching ${Number(m.tipMm.toFixed(2))} mm` }];
  }
  const cut = { feature, times, does: 'rough', volumeMm3: solid.insideMm3(m.of), depthMm, neckMm: m.neckMm } as const;
  return [
    { ...cut, tool: quickest(cut, rough, finish, part, shop) },
    { feature, times, does: 'finish', tool: finish, wayMm, depthMm },
  ];
}

/** The cutter that roughs soonest, the change of tool counted where it is not the one that finishes. */
function quickest(
  cut: Omit<Extract<Operation, { does: 'rough' }>, 'tool'>,
  mills: readonly Mill[],
  finish: Mill,
  part: Part,
  shop: Shop,
): Mill {
  const material = part.material && findMaterial(part.material.name);
  const machine = shop.machines[0];
  if (!material || !machine) return mills[0]!;
  let best: { mill: Mill; minutes: number } | undefined;
  for (const mill of mills) {
    const change = mill === finish ? 0 : machine.toolChangeS / 60;
    const minutes = priceOf({ ...cut, tool: mill }, material, machine).minutes[0] + change;
    if (!best || minutes < best.minutes - 1e-9) best = { mill, minutes };
  }
  return best!.mill;
}

/** Why each end mill larger than the one that finishes was passed over, the nearest in size first. */
export function passedOver(m: MilledVoid, solid: Solid, shop: Shop, chosen: Mill | undefined): readonly PassedOver[] {
  const found: PassedOver[] = [];
  const mm = (value: number) => `${Number(value.toFixed(2))} mm`;
  for (const tool of [...endMills(shop)].reverse()) {
    if (chosen && tool.diameterMm <= chosen.diameterMm) continue;
    const corner = m.corners.find((c) => tool.diameterMm > 2 * c.radiusMm + SAME_MM);
    if (tool.diameterMm > m.neckMm + SAME_MM)
      found.push({ tool, why: `wider than the narrowest place, ${mm(m.neckMm)}` });
    else if (corner)
      found.push({
        tool,
        why: `its radius of ${mm(tool.diameterMm / 2)} does not go into a corner of ${mm(corner.radiusMm)}`,
      });
    else {
      const need = Math.max(
        outlineReach(m, solid, tool.diameterMm / 2, shankRadius(tool)),
        ...m.corners.map((c) => cornerReach(m, c, solid, tool.diameterMm / 2, shankRadius(tool))),
      );
      if (tool.reachMm < need - 1e-6)
        found.push({ tool, why: `reaches ${mm(tool.reachMm)}, and ${mm(need)} are needed` });
    }
  }
  return found;
}
