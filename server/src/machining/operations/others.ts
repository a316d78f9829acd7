/** The cuts that make broken edges, undercuts and marks: one pass of a cutter that has the shape. */
import { lengthOf } from '../../geometry/edge';
import { regionEdges } from '../../geometry/moments';
import type { Solid } from '../../geometry/types';
import type { Chamfer, Engraving, Feature, Groove, Part, Round, Slot } from '../../spec/model';
import type { ChamferMill, Mill, Shop, UndercutMill } from '../../spec/shop-model';
import { SAME_MM } from '../cutters';
import type { Operation } from './types';

/** Length of the edges broken: of each void the longer way round its outline, halved, since it is a thin strip, or the sweep. */
function wayOf(feature: Feature, solid: Solid): number {
  return solid.voidsOf(feature.name).reduce((sum, v) => {
    const around = regionEdges(v.region).reduce((way, e) => way + lengthOf(e), 0);
    // A chamfer along an edge is a triangle swept along it; round a rim it is a taper whose outline is the rim.
    return sum + (v.role === 'edge' && v.profile.type === 'straight' ? v.to - v.from : around);
  }, 0);
}

export function chamferOperations(feature: Chamfer, solid: Solid, shop: Shop): readonly Operation[] {
  const included = 2 * feature.angle.deg;
  const tool = shop.tools.find(
    (t): t is ChamferMill =>
      (t.kind === 'chamfer-mill' || t.kind === 'countersink') && Math.abs(t.angleDeg - included) < 1,
  );
  if (!tool) return [{ feature, times: 1, does: 'missing', wanted: `chamfer mill of ${included}°` }];
  return [{ feature, times: 1, does: 'chamfer', tool, wayMm: wayOf(feature, solid), depthMm: feature.size.mm }];
}

export function roundOperations(feature: Round, solid: Solid, shop: Shop): readonly Operation[] {
  const tool = shop.tools.find(
    (t): t is Mill => t.kind === 'corner-rounder' && Math.abs(t.cornerRadiusMm - feature.radius.mm) <= SAME_MM,
  );
  const ball = shop.tools.find(
    (t): t is Mill => t.kind === 'end-mill' && t.cornerRadiusMm >= t.diameterMm / 2 - SAME_MM,
  );
  const wayMm = wayOf(feature, solid);
  if (tool) return [{ feature, times: 1, does: 'round', tool, wayMm, depthMm: feature.radius.mm }];
  // Without the form it is stepped round with a ball: a pass every sixth of the radius.
  if (ball)
    return [
      {
        feature,
        times: 1,
        does: 'round',
        tool: ball,
        wayMm: wayMm * Math.ceil((Math.PI / 2) * 6),
        depthMm: feature.radius.mm,
      },
    ];
  return [
    {
      feature,
      times: 1,
      does: 'missing',
      wanted: `corner rounder of ${feature.radius.mm} mm, or a ball-nosed end mill`,
    },
  ];
}

export function engravingOperations(feature: Engraving, solid: Solid, shop: Shop): readonly Operation[] {
  const tool = shop.tools.find(
    (t): t is Mill => (t.kind === 'engraver' || t.kind === 'end-mill') && t.diameterMm <= feature.stroke.mm + SAME_MM,
  );
  if (!tool) return [{ feature, times: 1, does: 'missing', wanted: `engraver of ${feature.stroke.mm} mm` }];
  return [{ feature, times: 1, does: 'engrave', tool, wayMm: wayOf(feature, solid) / 2, depthMm: feature.depth.mm }];
}

/** The undercutter of a T-slot, dovetail or ring groove; its neck and entry are `access/undercut`'s. */
export function undercutOperations(feature: Slot | Groove, part: Part, solid: Solid, shop: Shop): readonly Operation[] {
  const undercutters = shop.tools.filter((t): t is UndercutMill =>
    ['tee-cutter', 'dovetail-cutter', 'ball-undercutter'].includes(t.kind),
  );
  const wayMm = solid
    .voidsOf(feature.name)
    .filter((v) => v.role === 'undercut' || v.role === 'groove')
    .reduce((sum, v) => sum + regionEdges(v.region).reduce((way, e) => way + lengthOf(e), 0), 0);
  const wanted = (t: UndercutMill): boolean => {
    if (feature.kind === 'slot' && feature.tee)
      return (
        t.kind === 'tee-cutter' &&
        t.diameterMm <= feature.tee.width.mm + SAME_MM &&
        t.thicknessMm <= feature.tee.height.mm + SAME_MM &&
        t.neckMm <= feature.width.mm
      );
    if (feature.kind === 'slot')
      return t.kind === 'dovetail-cutter' && Math.abs((t.angleDeg ?? 0) - (feature.dovetail?.angle.deg ?? 0)) < 0.5;
    const hole = feature.in && part.featureByName.get(feature.in.name);
    return (
      t.kind !== 'dovetail-cutter' &&
      t.thicknessMm <= feature.width.mm + SAME_MM &&
      (hole?.kind !== 'hole' || t.diameterMm <= hole.diameter.mm + SAME_MM)
    );
  };
  const tool = undercutters.find(wanted);
  if (!tool)
    return [
      {
        feature,
        times: 1,
        does: 'missing',
        wanted: feature.kind === 'groove' ? 'grooving cutter' : feature.tee ? 'T-slot cutter' : 'dovetail cutter',
      },
    ];
  const depthMm = feature.kind === 'slot' ? feature.depth.mm : feature.width.mm;
  return [{ feature, times: 1, does: 'undercut', tool, wayMm, depthMm }];
}
