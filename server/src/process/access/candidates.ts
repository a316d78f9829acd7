/** Which tools of a shop would make a cut, in the order they would be taken: the one a set-up names, or those that fit. */

import type { Void } from '../../geometry/types';
import { isChannel } from '../../model/feature-kinds';
import type { Face, Feature, Setup } from '../../model/model';
import type { Mill, Shop, Tool } from '../../model/shop-model';
import { endMills, fitting } from '../cutters';
import { coreOf, MILLED, type MilledVoid, milledVoids } from '../milling';
import { operationsOf } from '../operations';
import type { PartInShop } from '../part-in-shop';
import { widestFor } from '../room';
import type { Cut } from '../stock/types';

/** The tool a set-up asks for by name. */
export function toolAskedFor(setup: Setup, name: string, shop: Shop): Tool | undefined {
  const asked = setup.tools.find((t) => t.of.name === name)?.tool.name;
  return asked === undefined ? undefined : shop.tools.find((t) => t.name === asked);
}

/** How a feature's walls limit the mill that finishes it. */
interface MillGap {
  readonly neckMm: number;
  /** The widest cutter that may pass there. */
  readonly widestMm: number;
  /** Of the tightest rounded inside corner. */
  readonly cornerMm: number;
  readonly floorRadiusMm: number;
}

export function gapOf(milled: readonly MilledVoid[]): MillGap {
  const none = Number.POSITIVE_INFINITY;
  let [neckMm, widestMm, cornerMm, floorRadiusMm] = [none, none, none, 0];
  for (const m of milled) {
    neckMm = Math.min(neckMm, m.neckMm);
    widestMm = Math.min(widestMm, m.widestMm);
    // A radius between wall and floor is judged by its own rule: here any cutter's end will do.
    if (m.floorRadiusMm > 0) floorRadiusMm = Number.POSITIVE_INFINITY;
    for (const c of m.corners) if (c.radiusMm > 0) cornerMm = Math.min(cornerMm, c.radiusMm);
  }
  return { neckMm, widestMm, cornerMm, floorRadiusMm };
}

interface Mills {
  /** Those that make all of it: the one that its operations finish with first, then the others, largest first. */
  readonly all: readonly Mill[];
  /** Where inside corners let only thinner ones in: all that go round. */
  readonly round?: readonly Mill[];
  readonly cornerMm: number;
}

/** Mills for a feature's outline. Where none is thin enough for its corners (`corner/*` tells) those that follow the outline. */
export function millsFor(feature: Feature, inShop: PartInShop, sideways: boolean): Mills {
  const { part, solid, shop } = inShop;
  const milled = milledVoids(feature, part, solid);
  const gap = gapOf(milled);
  const open = sideways && feature.kind === 'step';
  const across = isChannel(feature) ? widestFor(feature, feature.width.mm, part) : gap.widestMm;
  const neckMm = open ? Number.POSITIVE_INFINITY : sideways ? across : Math.min(across, gap.widestMm);
  const outline = fitting(shop, { radiusMm: Number.POSITIVE_INFINITY, neckMm, floorRadiusMm: gap.floorRadiusMm });
  // Along a slot its rounded floor is the corner.
  const along = isChannel(feature) && feature.floorRadius.mm > 0 ? feature.floorRadius.mm : Number.POSITIVE_INFINITY;
  const radiusMm = sideways ? along : gap.cornerMm;
  const corners = fitting(shop, { radiusMm, neckMm, floorRadiusMm: gap.floorRadiusMm });
  const fit = corners.length > 0 ? corners : outline;
  const planned = operationsOf(feature, inShop).find((o) => o.does === 'finish');
  const first = planned?.does === 'finish' && fit.includes(planned.tool) ? [planned.tool] : [];
  const all = [...first, ...fit.filter((m) => m !== first[0])];
  const thin = corners.length > 0 && corners.length < outline.length;
  return { all, ...(thin && { round: outline }), cornerMm: radiusMm };
}

/** For facing: from above the widest cutter with a flat end, with a mill's side the stiffest, which is the thickest. */
export function facersFor(face: Face, up: Face, shop: Shop): readonly Mill[] {
  const ends = endMills(shop).filter((m) => m.cornerRadiusMm <= 0.25 * m.diameterMm);
  if (face !== up) return ends;
  const wide = shop.tools.filter((t): t is Mill => t.kind === 'face-mill');
  return [...wide.sort((a, b) => b.diameterMm - a.diameterMm), ...ends];
}

/** The volumes of a cut that a mill goes round in, and those a drill goes down in. */
export function milledOf(cut: Cut): readonly Void[] {
  return cut.removes.filter((v) => MILLED.has(v.role)).map(coreOf);
}
