/** The cuts that make broken edges, undercuts and marks: one pass of a cutter that has the shape. */

import { inward } from '../../geometry/frame';
import type { Void } from '../../geometry/types';
import { dot } from '../../geometry/vector';
import { isChannel } from '../../model/feature-kinds';
import type { Chamfer, EdgeRound, Engraving, Groove, Slot } from '../../model/model';
import type { Mill, UndercutMill } from '../../model/shop-model';
import { isCone } from '../../model/tool-kinds';
import { SAME } from '../../tolerance';
import { endMills, SAME_MM, SAME_REACH_MM, SHARP_MM } from '../cutters';
import { facesToJudge } from '../milling';
import type { PartInShop } from '../part-in-shop';
import { BELOW_MM, widestFor } from '../room';
import { dovetailFloorMm, makesDovetail, makesRing, makesTee, undercutLayers, undercuttersOf } from '../undercutters';
import { askedOf, toolAsked } from './asked';
import { edgeWayOf, wayOf } from './edge-way';
import { ROUND_STEPS } from './priced';
import type { Operation } from './types';

export function chamferOperations(feature: Chamfer, inShop: PartInShop): readonly Operation[] {
  const { part, solid, shop } = inShop;
  const sideways = uprightEdges(feature, inShop);
  if (sideways) return sideways;
  // By its half angle from the face it is measured from, or from the other: the spindle may look at either.
  const { deg } = feature.angle;
  const included = [180 - 2 * deg, 2 * deg];
  const sizeMm = Math.max(feature.size.mm, feature.size.mm * Math.tan((deg * Math.PI) / 180));
  const asked = askedOf(toolAsked(feature.name, part, shop), 'chamfer-mill', 'countersink');
  const cones = shop.tools
    .filter(isCone)
    .filter((t) => included.some((a) => Math.abs(t.angleDeg - a) < 1))
    .filter((t) => (t.diameterMm - t.tipMm) / 2 >= Math.min(sizeMm, feature.size.mm) - SAME_MM)
    // A countersink is made for rims; along edges a chamfer mill is the stiffer.
    .sort((a, b) => Number(a.kind === 'countersink') - Number(b.kind === 'countersink'));
  const tool = asked ?? cones[0];
  const wanted = `chamfer mill of ${round(180 - 2 * deg)}°, over ${round(2 * feature.size.mm)} mm wide`;
  if (!tool) return [{ feature, times: 1, does: 'missing', lacks: 'chamfer', wanted }];
  return [{ feature, times: 1, does: 'chamfer', tool, wayMm: wayOf(feature, solid), depthMm: feature.size.mm }];
}

/** The sloped sides of a slot's mouth: a chamfer mill round its rim, whose tip goes down between the walls. */
export function sinkOperation(
  slot: Slot,
  { width, angle }: NonNullable<Slot['countersink']>,
  { part, solid, shop }: PartInShop,
): Operation {
  const besideMm = (width.mm - slot.width.mm) / 2;
  const half = (angle.deg / 2) * (Math.PI / 180);
  const asked = askedOf(toolAsked(slot.name, part, shop), 'chamfer-mill', 'countersink');
  const tool =
    asked ??
    shop.tools
      .filter(isCone)
      .filter((t) => Math.abs(t.angleDeg - angle.deg) < 1 && (t.diameterMm - t.tipMm) / 2 >= besideMm - SAME_MM)
      .filter((t) => t.tipMm / 2 + BELOW_MM * Math.tan(half) <= slot.width.mm / 2 + SAME_MM)
      .sort((a, b) => Number(a.kind === 'countersink') - Number(b.kind === 'countersink'))[0];
  const base = { feature: slot, times: 1, seat: 'countersink' } as const;
  const wanted = `chamfer mill of ${round(angle.deg)}°, over ${round(2 * besideMm)} mm wide`;
  if (!tool) return { ...base, does: 'missing', lacks: 'chamfer', wanted };
  const rims = solid.voidsOf(slot.name).filter((v) => v.role === 'countersink');
  const wayMm = rims.reduce((sum, v) => sum + edgeWayOf(v), 0);
  return { ...base, does: 'chamfer', tool, wayMm, depthMm: besideMm };
}

export function roundOperations(feature: EdgeRound, inShop: PartInShop): readonly Operation[] {
  const { part, solid, shop } = inShop;
  const sideways = uprightEdges(feature, inShop);
  if (sideways) return sideways;
  const asked = askedOf(toolAsked(feature.name, part, shop), 'corner-rounder', 'end-mill');
  const form = shop.tools.find(
    (t): t is Mill => t.kind === 'corner-rounder' && Math.abs(t.cornerRadiusMm - feature.radius.mm) <= SAME_MM,
  );
  const ball = shop.tools.find(
    (t): t is Mill => t.kind === 'end-mill' && !t.roughing && t.cornerRadiusMm >= t.diameterMm / 2 - SAME_MM,
  );
  const tool = asked ?? form ?? ball;
  const depthMm = feature.radius.mm;
  const wanted = `corner rounder of ${round(depthMm)} mm, or a ball-nosed end mill`;
  if (!tool) return [{ feature, times: 1, does: 'missing', lacks: 'round', wanted }];
  // Without the form it is stepped round: so many passes over a quarter of a circle.
  const passes = tool.kind === 'corner-rounder' ? 1 : Math.ceil((Math.PI / 2) * ROUND_STEPS);
  return [{ feature, times: 1, does: 'round', tool, wayMm: wayOf(feature, solid) * passes, depthMm }];
}

/** Where the set-ups see its edges end on, the side of an end mill follows them; undefined where any lies level. */
function uprightEdges(
  feature: Chamfer | EdgeRound,
  { part, solid, shop }: PartInShop,
): readonly Operation[] | undefined {
  if (!(part.setups ?? []).some((s) => s.cuts.some((c) => c.name === feature.name))) return undefined;
  const [up] = facesToJudge(feature, part, solid);
  const voids = solid.voidsOf(feature.name).filter((v) => v.role === 'edge');
  if (!up || voids.length === 0) return undefined;
  const upright = (v: Void) => v.profile.type === 'straight' && Math.abs(dot(v.frame.w, inward(up))) > 1 - SAME;
  if (!voids.every(upright)) return undefined;
  const depthMm = Math.max(...voids.map((v) => v.to - v.from));
  const asked = askedOf(toolAsked(feature.name, part, shop), 'end-mill');
  const tool = asked ?? endMills(shop).find((m) => m.reachMm >= depthMm - SAME_REACH_MM);
  if (!tool) return undefined;
  const sizeMm = feature.kind === 'chamfer' ? feature.size.mm : feature.radius.mm;
  return [
    {
      feature,
      times: voids.length,
      does: 'finish',
      tool,
      wayMm: Math.SQRT2 * sizeMm,
      depthMm,
      // As thick as the corner is high that comes off: of a chamfer half its width, of a round less.
      wideMm: feature.kind === 'chamfer' ? sizeMm / Math.SQRT2 : sizeMm * (Math.SQRT2 - 1),
      how: `along the edge, from ${up}`,
    },
  ];
}

export function engravingOperations(feature: Engraving, { part, solid, shop }: PartInShop): readonly Operation[] {
  const asked = askedOf(toolAsked(feature.name, part, shop), 'engraver', 'end-mill');
  const { stroke, depth } = feature;
  const thin = shop.tools
    .filter((t): t is Mill => t.kind === 'engraver' || (t.kind === 'end-mill' && !t.roughing))
    .filter((t) => t.diameterMm <= stroke.mm + SAME_MM && t.reachMm >= depth.mm - SAME_REACH_MM)
    .sort((a, b) => b.diameterMm - a.diameterMm);
  const tool = asked ?? thin[0];
  const wanted = `engraver of ${round(stroke.mm)} mm`;
  if (!tool) return [{ feature, times: 1, does: 'missing', lacks: 'engraver', wanted }];
  // A stroke's outline runs along both its sides; a cutter thinner than the stroke goes beside itself.
  const beside = Math.max(1, Math.ceil(stroke.mm / tool.diameterMm - SAME));
  const wayMm = (beside * wayOf(feature, solid)) / 2;
  return [{ feature, times: 1, does: 'engrave', tool, wayMm, depthMm: depth.mm }];
}

/** The undercutter of a T-slot, dovetail or ring groove; how it gets in is `access/undercut`'s. */
export function undercutOperations(feature: Slot | Groove, inShop: PartInShop): readonly Operation[] {
  const { part, solid, shop } = inShop;
  const wayMm = solid
    .voidsOf(feature.name)
    .filter((v) => v.role === 'undercut' || v.role === 'groove')
    .reduce((sum, v) => sum + edgeWayOf(v), 0);
  const hole = feature.kind === 'groove' && feature.in ? part.featureByName.get(feature.in.name) : undefined;
  const makes = (t: UndercutMill): boolean => {
    if (isChannel(feature)) return feature.tee ? makesTee(t, feature) : makesDovetail(t, feature);
    return hole?.kind === 'hole' && makesRing(t, feature, hole);
  };
  const asked = askedOf(toolAsked(feature.name, part, shop), 'tee-cutter', 'dovetail-cutter', 'ball-undercutter');
  const tool = asked ?? undercuttersOf(shop).find(makes);
  const wanted = feature.kind === 'groove' ? 'grooving cutter' : feature.tee ? 'T-slot cutter' : 'dovetail cutter';
  if (!tool) return [{ feature, times: 1, does: 'missing', lacks: 'undercutter', wanted }];
  const before = isChannel(feature) && feature.dovetail ? dovetailNeck(feature, inShop) : [];
  const wideMm = besideMm(feature, hole?.kind === 'hole' ? hole.diameter.mm : undefined);
  const deepMm = isChannel(feature) ? (feature.tee?.height.mm ?? feature.depth.mm) : feature.width.mm;
  const layers = undercutLayers(tool, deepMm);
  const base = { feature, times: 1, does: 'undercut', tool, depthMm: deepMm / layers } as const;
  if (isChannel(feature) && feature.tee && tool.diameterMm >= feature.tee.width.mm - SAME_MM)
    return [...before, { ...base, wayMm: (layers * wayMm) / 2, wideMm: 2 * wideMm, once: true }];
  return [...before, { ...base, wayMm: layers * wayMm, wideMm }];
}

/** A dovetail's neck is milled out to its floor first: the cutter of its angle takes only the sides. */
function dovetailNeck(feature: Slot, { part, solid, shop }: PartInShop): readonly Operation[] {
  const depthMm = feature.depth.mm;
  const neckMm = feature.width.mm;
  const widestMm = widestFor(feature, neckMm, part);
  const mill = endMills(shop).find(
    (m) => m.cornerRadiusMm <= SHARP_MM && m.diameterMm <= widestMm + SAME_MM && m.reachMm >= depthMm - SAME_REACH_MM,
  );
  const wanted = `end mill of at most ${round(widestMm)} mm, reaching ${round(depthMm)} mm`;
  if (!mill) return [{ feature, times: 1, does: 'missing', lacks: 'mill', wanted }];
  // Of the trapezoid across, the neck's share.
  const share = (2 * neckMm) / (neckMm + dovetailFloorMm(feature));
  const volumeMm3 = share * solid.voidsOf(feature.name).reduce((sum, v) => sum + solid.insideMm3(v), 0);
  return [{ feature, times: 1, does: 'rough', tool: mill, volumeMm3, depthMm, neckMm, wideMm: neckMm }];
}

/** How far it cuts beside the neck, the slot or the bore. */
function besideMm(feature: Slot | Groove, boreMm: number | undefined): number {
  if (feature.kind === 'groove') return boreMm === undefined ? feature.width.mm : (feature.diameter.mm - boreMm) / 2;
  if (feature.tee) return (feature.tee.width.mm - feature.width.mm) / 2;
  return (dovetailFloorMm(feature) - feature.width.mm) / 2;
}

function round(value: number): number {
  return Number(value.toFixed(2));
}
