/** Why the form cutters on hand do not make an edge, a slope, an undercut or a mark. */
import type { Feature, Part } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import { SAME_MM } from '../cutters';
import { makesDovetail, makesRing, makesTee } from '../undercutters';
import type { PassedOver } from './types';

export function passedOverForms(
  feature: Feature,
  part: Part,
  shop: Shop,
  chosen: ReadonlySet<Tool>,
): readonly PassedOver[] {
  return shop.tools
    .filter((t) => !chosen.has(t))
    .flatMap((tool) => {
      const all = reasonFor(tool, feature, part);
      return all === undefined ? [] : [{ tool, why: all, all }];
    });
}

/** Undefined for tools that nobody would take for it. */
function reasonFor(tool: Tool, feature: Feature, part: Part): string | undefined {
  switch (feature.kind) {
    case 'chamfer':
    case 'incline': {
      if (tool.kind !== 'chamfer-mill' && tool.kind !== 'countersink') return undefined;
      const { deg } = feature.angle;
      const flank = [2 * deg, 180 - 2 * deg].some((a) => Math.abs(tool.angleDeg - a) < 1);
      if (!flank) return `its flank is not ${Number(deg.toFixed(2))}°`;
      const sizeMm = feature.kind === 'chamfer' ? feature.size.mm : Math.min(feature.widthMm, feature.depthMm);
      if ((tool.diameterMm - tool.tipMm) / 2 < sizeMm - SAME_MM) return `too small for ${mm(sizeMm)}`;
      return 'would do as well';
    }
    case 'round':
      if (tool.kind !== 'corner-rounder') return undefined;
      return Math.abs(tool.cornerRadiusMm - feature.radius.mm) <= SAME_MM
        ? 'would do as well'
        : 'rounds another radius';
    case 'engraving':
      if (tool.kind !== 'engraver') return undefined;
      if (tool.diameterMm > feature.stroke.mm + SAME_MM) return `wider than a stroke of ${mm(feature.stroke.mm)}`;
      return tool.reachMm < feature.depth.mm ? `too short: ${mm(feature.depth.mm)} are needed` : 'would do as well';
    case 'slot':
    case 'groove': {
      if (tool.kind !== 'tee-cutter' && tool.kind !== 'dovetail-cutter' && tool.kind !== 'ball-undercutter')
        return undefined;
      if (feature.kind === 'slot') {
        if (!feature.tee && !feature.dovetail) return undefined;
        const makes = feature.tee ? makesTee(tool, feature) : makesDovetail(tool, feature);
        return makes ? 'would do as well' : `another shape than this ${feature.tee ? 'T-slot' : 'dovetail'}`;
      }
      const hole = feature.in && part.featureByName.get(feature.in.name);
      if (hole?.kind !== 'hole') return undefined;
      return makesRing(tool, feature, hole) ? 'would do as well' : 'another shape than this ring';
    }
    default:
      return undefined;
  }
}

function mm(value: number): string {
  return `${Number(value.toFixed(2))} mm`;
}
