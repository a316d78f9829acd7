/** A channel cut from its side by a disc: a slitting saw, a keyseat or T-slot cutter. */

import type { Forms } from '../../model/feature-kinds';
import type { Face, Part } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import { formOfTool, homeOfTool } from '../../model/tool-kinds';
import type { Disc } from '../../model/tool-kinds/kind';
import { SAME } from '../../tolerance';
import { SAME_MM } from '../cutters';
import { type DiscWay, discWaysOf } from '../disc-ways';
import type { PartInShop } from '../part-in-shop';
import { widestFor } from '../room';
import { toolAsked } from './asked';
import type { FormCut, Missing } from './types';

/** Between arbor, nut or flange and the work. Common practice, no source. */
const HUB_CLEARANCE_MM = 0.5;
/** More passes side by side are milled. Common practice, no source. */
const MOST_PASSES = 3;
/** A run-out is as round as its cutter, to so much. */
const RUN_OUT_MM = 0.05;

/** How deep its rim goes before arbor, nut or flange touch the work, mm. */
export function discReachMm(tool: Tool, disc: Disc): number {
  return tool.diameterMm / 2 - disc.hubRadiusMm - HUB_CLEARANCE_MM;
}

interface Chosen {
  readonly tool: FormCut['tool'];
  readonly disc: Disc;
  readonly way: DiscWay;
  readonly passes: number;
}

/** The disc that takes fewest passes; of those the smallest, which is the stiffest. */
function chosenFor(channel: Forms['channel'], ways: readonly DiscWay[], part: Part, shop: Shop): Chosen | undefined {
  const asked = toolAsked(channel.name, part, shop);
  const tools = asked && homeOfTool(asked).disc(asked) ? [asked] : shop.tools;
  const found = tools.flatMap((tool) => {
    const disc = homeOfTool(tool).disc(tool);
    if (!disc || disc.thicknessMm > widestOf(tool, channel, part) + SAME_MM) return [];
    const passes = Math.ceil(channel.width.mm / disc.thicknessMm - 0.01);
    if (passes > MOST_PASSES) return [];
    return ways
      .filter((way) => discReachMm(tool, disc) >= way.deepMm - SAME)
      .filter(({ runOutMm }) => runOutMm === undefined || Math.abs(tool.diameterMm / 2 - runOutMm) <= RUN_OUT_MM)
      .map((way): Chosen => ({ tool: tool as FormCut['tool'], disc, way, passes }));
  });
  const rank = (c: Chosen) => c.passes * 1e6 + c.tool.diameterMm * 1e2 + c.way.deepMm / 1e3;
  return found.sort((a, b) => rank(a) - rank(b))[0];
}

/** A saw wobbles, and so is never made thinner for a tolerance: how wide it cuts is judged. Others leave stock to finish. */
function widestOf(tool: Tool, channel: Forms['channel'], part: Part): number {
  return formOfTool(tool) === 'saw' ? channel.width.mm : widestFor(channel, channel.width.mm, part);
}

/** Undefined where it cannot be cut so, whatever the shop has. `up`: only with one of these faces up, where set-ups say. */
export function discOperation(
  channel: Forms['channel'],
  { part, solid, shop }: PartInShop,
  up?: Face,
): FormCut | Missing | undefined {
  const ways = discWaysOf(channel, solid.voidsOf(channel.name), solid).filter((w) => !up || w.ups.includes(up));
  const [first] = ways;
  if (!first) return undefined;
  const times = channel.places.length;
  const chosen = chosenFor(channel, ways, part, shop);
  if (!chosen) return { feature: channel, times, does: 'missing', lacks: 'disc', wanted: wantedFor(channel, ways) };
  const { tool, disc, way, passes } = chosen;
  const radiusMm = tool.diameterMm / 2;
  // To come in, and to be through: each time half the chord of the rim at the surface.
  const runMm =
    way.runOutMm === undefined ? 2 * Math.sqrt(Math.max(0, 2 * radiusMm * way.deepMm - way.deepMm ** 2)) : 0;
  return {
    feature: channel,
    times,
    does: 'slot',
    tool,
    wayMm: passes * (Math.abs(way.toMm - way.fromMm) + runMm),
    depthMm: Math.min(disc.thicknessMm, channel.width.mm),
    wideMm: way.deepMm,
    how: `from ${up ?? way.ups.join(' or ')}, in at ${way.enters}`,
  };
}

function wantedFor({ width, runOutMm }: Forms['channel'], ways: readonly DiscWay[]): string {
  const deepMm = Math.min(...ways.map((w) => w.deepMm));
  const thick = Number(width.mm.toFixed(3));
  if (runOutMm !== undefined)
    return `keyseat cutter of ${Number((2 * runOutMm).toFixed(2))} mm, at most ${thick} mm thick`;
  return `slitting saw at most ${thick} mm thick, cutting ${Number(deepMm.toFixed(2))} mm beside its arbor`;
}
