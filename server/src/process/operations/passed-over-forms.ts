/** Why the form cutters on hand do not make an edge, a slope, an undercut or a mark. */

import { type ByForm, ofForm } from '../../model/feature-kinds';
import type { Feature, Part } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import { isUndercutter } from '../../model/tool-kinds';
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
      const all = ofForm(REASONS, feature, tool, part);
      return all === undefined ? [] : [{ tool, why: all, all }];
    });
}

/** Undefined for tools that nobody would take for it. */
const REASONS: ByForm<[tool: Tool, part: Part], string | undefined> = {
  hole: () => undefined,
  opening: () => undefined,
  shoulder: () => undefined,
  outside: () => undefined,
  slope: (slope, tool) => ofCone(tool, slope.angle.deg, Math.min(slope.widthMm, slope.depthMm)),
  edge: (edge, tool) => {
    if (edge.kind === 'chamfer') return ofCone(tool, edge.angle.deg, edge.size.mm);
    if (tool.kind !== 'corner-rounder') return undefined;
    return Math.abs(tool.cornerRadiusMm - edge.radius.mm) <= SAME_MM ? 'works as well' : 'rounds another radius';
  },
  letters: ({ stroke, depth }, tool) => {
    if (tool.kind !== 'engraver') return undefined;
    if (tool.diameterMm > stroke.mm + SAME_MM) return `wider than a stroke of ${mm(stroke.mm)}`;
    return tool.reachMm < depth.mm ? `too short: ${mm(depth.mm)} are needed` : 'works as well';
  },
  channel: (channel, tool) => {
    if (!isUndercutter(tool) || (!channel.tee && !channel.dovetail)) return undefined;
    const makes = channel.tee ? makesTee(tool, channel) : makesDovetail(tool, channel);
    return makes ? 'works as well' : `another shape than this ${channel.tee ? 'T-slot' : 'dovetail'}`;
  },
  ring: (ring, tool, part) => {
    const hole = ring.in && part.featureByName.get(ring.in.name);
    if (!isUndercutter(tool) || hole?.kind !== 'hole') return undefined;
    return makesRing(tool, ring, hole) ? 'works as well' : 'another shape than this ring';
  },
};

function ofCone(tool: Tool, deg: number, sizeMm: number): string | undefined {
  if (tool.kind !== 'chamfer-mill' && tool.kind !== 'countersink') return undefined;
  const flank = [2 * deg, 180 - 2 * deg].some((a) => Math.abs(tool.angleDeg - a) < 1);
  if (!flank) return `its flank is not ${Number(deg.toFixed(2))}°`;
  if ((tool.diameterMm - tool.tipMm) / 2 < sizeMm - SAME_MM) return `too small for ${mm(sizeMm)}`;
  return 'works as well';
}

function mm(value: number): string {
  return `${Number(value.toFixed(2))} mm`;
}
