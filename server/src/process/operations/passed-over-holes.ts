/** Why drills, reamers, boring heads, mills and taps on hand do not make a hole. */

import type { Hole } from '../../model/model';
import type { Shop, Tap, ThreadMill, Tool } from '../../model/shop-model';
import { type ByHoleWay, ofHoleWay } from '../../model/tool-kinds';
import { gradeOf } from '../../tables/fits';
import { SAME } from '../../tolerance';
import { boreSize } from '../bore-size';
import { type Bore, CIRCLE, pointBelowMm, reachOf, SAME_REACH_MM } from '../cutters';
import { gradeHeld } from '../grades';
import type { PartInShop } from '../part-in-shop';
import { tapsOfHole } from '../tapping';
import { threadMillsOf } from '../thread-milling';
import { makesLimits, PLAIN_MM } from './hole-makers';
import { boresSeen } from './seen';
import type { PassedOver } from './types';

type Reason = Pick<PassedOver, 'why' | 'all'>;

export function passedOverBores(
  hole: Hole,
  { part, solid, shop }: PartInShop,
  chosen: ReadonlySet<Tool>,
): readonly PassedOver[] {
  const bore = boreSize(hole, part, PLAIN_MM);
  const depthMm = Math.max(0, ...boresSeen(hole, part, solid).all.map((b) => b.spanMm));
  const off = (t: Tool) => Math.abs(t.diameterMm - bore.nominalMm);
  const found = shop.tools
    .filter((t) => !chosen.has(t))
    .sort((a, b) => off(a) - off(b))
    .flatMap((tool) => {
      const reason = ofHoleWay(REASONS, tool, { bore, depthMm, hole, shop });
      return reason ? [{ tool, ...reason }] : [];
    });
  return [...taps(hole, depthMm, shop, chosen), ...found];
}

interface Asked {
  readonly bore: Bore;
  readonly depthMm: number;
  readonly hole: Hole;
  readonly shop: Shop;
}

const REASONS: ByHoleWay<[Asked], Reason | undefined> = {
  'as-wide': (tool, { bore, depthMm, hole, shop }) =>
    sizeReason(tool.diameterMm, bore) ??
    reachReason(tool, depthMm + pointBelowMm(tool, hole.bottom === 'flat' && !hole.depth.through)) ??
    (hole.thread ? undefined : gradeReason(bore, gradeHeld(shop, 'drilling'), 'a drill')) ??
    same('works as well: another is nearer the size'),
  'to-limits': (tool, { bore, depthMm }) => {
    if (Math.abs(tool.diameterMm - bore.nominalMm) > 0.5) return undefined;
    if (!makesLimits(tool, bore)) return same(`made to ${tool.fit} of ${mm(tool.diameterMm)}: other limits`);
    return reachReason(tool, depthMm) ?? same('works, and a drill holds it');
  },
  set: (tool, { bore, depthMm, shop }) => {
    if (bore.nominalMm < tool.diameterMm || bore.nominalMm > tool.largestMm)
      return same(`bores ${mm(tool.diameterMm)} to ${mm(tool.largestMm)}`);
    return (
      reachReason(tool, depthMm) ??
      gradeReason(bore, gradeHeld(shop, 'boring'), 'a boring head') ??
      same('works, but is slower')
    );
  },
  round: (tool, { bore, depthMm, shop }) => {
    if (tool.diameterMm > CIRCLE * bore.nominalMm) return same(`no room to go round in ${mm(bore.nominalMm)}`);
    if (tool.cornerRadiusMm > 0.2) return same('its rounded corner leaves a round floor');
    return (
      reachReason(tool, depthMm) ??
      gradeReason(bore, gradeHeld(shop, 'milling'), 'a mill') ??
      same('works, but is slower')
    );
  },
};

function sizeReason(diameterMm: number, bore: Bore): Reason | undefined {
  const range = `${mm(bore.fromMm)} to ${mm(bore.toMm)}`;
  if (diameterMm < bore.fromMm - SAME)
    return { why: `${mm(bore.fromMm - diameterMm)} under the least diameter`, all: `smaller than ${range}` };
  if (diameterMm > bore.toMm + SAME)
    return { why: `${mm(diameterMm - bore.toMm)} over the largest diameter`, all: `larger than ${range}` };
  return undefined;
}

function reachReason(tool: Tool, depthMm: number): Reason | undefined {
  const reachMm = reachOf(tool);
  if (reachMm >= depthMm - SAME_REACH_MM) return undefined;
  return {
    why: `reaches ${mm(reachMm)}, and ${mm(depthMm)} are needed`,
    all: `too short: ${mm(depthMm)} are needed`,
  };
}

function gradeReason(bore: Bore, holds: number, what: string): Reason | undefined {
  const grade = gradeOf(bore.nominalMm, bore.toMm - bore.fromMm);
  return grade !== undefined && grade < holds
    ? same(`${what} holds IT${holds}, and IT${grade} is asked for`)
    : undefined;
}

function taps(hole: Hole, depthMm: number, shop: Shop, chosen: ReadonlySet<Tool>): readonly PassedOver[] {
  const spec = hole.thread?.spec;
  if (!spec) return [];
  const threadMm = Math.min(hole.threadDepth?.mm ?? depthMm, depthMm);
  const first = (tool: Tap | ThreadMill) => ('chamfer' in tool ? `${tool.chamfer}: another` : 'a tap or another');
  return [...tapsOfHole(hole, shop), ...threadMillsOf(hole, shop)]
    .filter((t) => !chosen.has(t))
    .map((tool) => ({
      tool,
      ...(reachReason(tool, threadMm) ?? same(`${first(tool)} in the shop comes first`)),
    }));
}

function same(all: string): Reason {
  return { why: all, all };
}

function mm(value: number): string {
  return `${Number(value.toFixed(3))} mm`;
}
