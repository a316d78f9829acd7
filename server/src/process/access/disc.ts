/** A channel cut from its side in its set-up: whether arbor and nut clear the work, and what disc, nut and holder meet. */

import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import type { Feature } from '../../model/feature-kinds';
import { FACE_AXIS, type Face } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import { homeOfTool } from '../../model/tool-kinds';
import type { Disc } from '../../model/tool-kinds/kind';
import { SAME } from '../../tolerance';
import { type DiscWay, discWaysOf } from '../disc-ways';
import { operationsOf } from '../operations';
import { discReachMm } from '../operations/disc-cuts';
import type { Cut } from '../stock/types';
import { marginOf } from '../workholding/margin';
import type { Case } from './case';
import { type Clash, clashOf, type Near, nearestTo, needsOf, type Path } from './collision';
import { shapeOf, type ToolShape } from './shape';
import type { Verdict } from './verdict';

/** Undefined where the cut is no channel seen from its side. */
export function discVerdict(c: Case, feature: Feature): Verdict | undefined {
  const { cut, up, part, solid, shop } = c;
  const ways = discWaysOf(feature, cut.removes, cut.before).filter((w) => w.ups.includes(up));
  if (ways.length === 0) return undefined;
  const none: Verdict = { cut, up, uses: [], asked: c.asked !== undefined };
  const planned = operationsOf(feature, { part, solid, shop }).find((o) => o.does === 'slot');
  const tool = planned?.does === 'slot' ? planned.tool : undefined;
  const disc = tool && homeOfTool(tool).disc(tool);
  if (!tool || !disc) return none;
  const reachMm = discReachMm(tool, disc);
  // What stock still stands there counts: the deeper of two ways may be the only one by then.
  const way = ways.filter((w) => w.deepMm <= reachMm + SAME).sort((a, b) => a.deepMm - b.deepMm)[0];
  if (!way) {
    const neededMm = Math.min(...ways.map((w) => w.deepMm));
    return { ...none, short: { what: 'disc beside its arbor', neededMm, longest: { name: tool.name, mm: reachMm } } };
  }
  const shape = shapeOf(tool, shop);
  const stands = standsOf(way, cut, c.up, tool.diameterMm / 2);
  const clash = worstOf(shape, disc, stands, c);
  if (clash) return { ...none, fixture: { tool, clash } };
  // What begins above its reach overhangs the work as far as it is wider than the axis stands off.
  const needs = needsOf(shape, stands, {
    up,
    body: cut.before.body,
    get place() {
      return c.place;
    },
    topMm: c.topMm,
  });
  const upMm = Math.max(disc.thicknessMm, needs.reachMm);
  if (upMm > shape.reachMm + SAME)
    return { ...none, short: { what: 'disc', neededMm: upMm, longest: { name: tool.name, mm: shape.reachMm } } };
  const outMm = Math.max(disc.thicknessMm, needs.outMm);
  if (shape.holder && outMm > (shape.outMm ?? shape.mostOutMm) + SAME) {
    const { holder } = shape;
    return { ...none, holder: { tool, neededMm: outMm, outMm: shape.outMm ?? shape.mostOutMm, holder } };
  }
  const standsOut = shape.outMm ?? Math.max(outMm, Math.min(shape.reachMm, shape.mostOutMm));
  const near = passing(shape, disc, stands, c);
  const use = { tool, does: 'form', reachMm: way.deepMm, outNeededMm: outMm, outMm: standsOut } as const;
  return { ...none, uses: [{ ...use, ...(near && { near }) }] };
}

/** Where the disc's axis stands, at the height of its lower side: all along its way, beyond both ends as far as it runs out. */
function standsOf({ members }: DiscWay, cut: Cut, up: Face, radiusMm: number): readonly Vec3[] {
  return members.flatMap((way) => standsAlong(way, cut, up, radiusMm));
}

function standsAlong(way: Omit<DiscWay, 'members'>, cut: Cut, up: Face, radiusMm: number): readonly Vec3[] {
  const { box } = cut.before.body;
  const enters = FACE_AXIS[way.enters];
  const i = AXIS_INDEX[enters.axis];
  const plane = enters.sign > 0 ? box.max[i] : box.min[i];
  const at: [number, number, number] = [0, 0, 0];
  at[i] = plane + enters.sign * (radiusMm - way.deepMm);
  const u = AXIS_INDEX[FACE_AXIS[up].axis];
  at[u] = FACE_AXIS[up].sign > 0 ? way.of.bounds.min[u] : way.of.bounds.max[u];
  // With a run-out the rim is deepest only where the floor is level.
  const run =
    Math.sqrt(Math.max(0, 2 * radiusMm * way.deepMm - way.deepMm ** 2)) * (way.runOutMm === undefined ? 1 : -1);
  const [low, high] = [Math.max(way.fromMm, box.min[way.along]) - run, Math.min(way.toMm, box.max[way.along]) + run];
  const steps = Math.max(2, Math.ceil((high - low) / Math.max(1, radiusMm / 4)));
  return Array.from({ length: steps + 1 }, (_, k): Vec3 => {
    const p: [number, number, number] = [...at];
    p[way.along] = low + ((high - low) * k) / steps;
    return p;
  });
}

/** Half way along; undefined where the cut is not a disc's. */
export function discStand(cut: Cut, up: Face, tool: Tool): Vec3 | undefined {
  const disc = homeOfTool(tool).disc(tool);
  const [way] = discWaysOf(cut.feature, cut.removes, cut.before)
    .filter((w) => w.ups.includes(up) && disc && discReachMm(tool, disc) >= w.deepMm - SAME)
    .sort((a, b) => a.deepMm - b.deepMm);
  const stands = way && standsOf(way, cut, up, tool.diameterMm / 2);
  return stands?.[Math.floor(stands.length / 2)];
}

/** The nut below meets jaws first, then the disc, then arbor and holder. */
function worstOf(shape: ToolShape, disc: Disc, stands: readonly Vec3[], { up, obstacles }: Case): Clash | undefined {
  const cutter =
    clashOf({ shape: withHub(shape, disc), stands, up }, obstacles) ??
    clashOf({ shape: { ...shape, cutRadiusMm: disc.hubRadiusMm }, stands, up }, obstacles);
  if (cutter || disc.belowMm <= 0) return cutter;
  return clashOf(nutPath(shape, disc, stands, up), obstacles);
}

/** What of them passes steel nearer than the margin: the nut below first, for it hangs lowest. */
function passing(shape: ToolShape, disc: Disc, stands: readonly Vec3[], c: Case): Near | undefined {
  const { up, obstacles } = c;
  const margin = marginOf(c.shop);
  const place = () => c.place;
  const nut = disc.belowMm > 0 && nearestTo(nutPath(shape, disc, stands, up), obstacles, place, margin);
  return nut || nearestTo({ shape: withHub(shape, disc), stands, up }, obstacles, place, margin);
}

/** The nut alone, and where its lower end is. */
function nutPath({ holder: _, ...bare }: ToolShape, disc: Disc, stands: readonly Vec3[], up: Face): Path {
  const { axis, sign } = FACE_AXIS[up];
  const lower = stands.map((p): Vec3 => {
    const q: [number, number, number] = [...p];
    q[AXIS_INDEX[axis]] -= sign * disc.belowMm;
    return q;
  });
  const shape = { ...bare, cutRadiusMm: disc.hubRadiusMm, shankRadiusMm: disc.hubRadiusMm };
  return { shape, stands: lower, up };
}

/** Above the disc it is no thicker than its hub. */
function withHub(shape: ToolShape, disc: Disc): ToolShape {
  return { ...shape, reachMm: disc.thicknessMm, shankRadiusMm: disc.hubRadiusMm };
}
