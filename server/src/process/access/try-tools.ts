/** One cut tried with one tool after the other: the first that reaches and meets nothing; else why the best did not. */
import { inward } from '../../geometry/frame';
import type { Vec3 } from '../../geometry/types';
import type { Face } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import { reachOf, SAME_REACH_MM } from '../cutters';
import type { Workpiece } from '../stock/types';
import { marginOf } from '../workholding/margin';
import { clashOf, type Near, nearestTo, needsOf, outForObstacles, type Standing } from './collision';
import { shapeOf, type ToolShape } from './shape';
import type { FixtureMeets, HolderMeets, ToolUse, Verdict } from './verdict';

/** A cut as a tool meets it. */
export interface Task {
  readonly up: Face;
  /** Gathered when asked for. */
  readonly place: Workpiece;
  /** The stock, whose plane depths count from. */
  readonly body: Workpiece['body'];
  readonly obstacles: readonly Standing[];
  /** Depth below the stock's own plane of the highest material at all. */
  readonly topMm: number;
  /** Depth of the deepest tip, for a quick answer. */
  readonly tipMm: number;
  readonly does: ToolUse['does'];
  /** Where the axis stands, for a cutter of this radius. */
  stands(radiusMm: number): readonly Vec3[];
  /** What it passes over where it comes out at a side, far from its walls. */
  sweeps?(near: readonly Standing[], marginMm: number): Near | undefined;
  /** How far a tool must cut whatever stands beside it: a drill its hole. */
  readonly leastReachMm: number;
  /** How much deeper its tip goes than `tipMm`: a drill's point. Left out: no deeper. */
  belowMm?(tool: Tool): number;
}

export interface Tried {
  readonly use?: ToolUse;
  /** The least reach that any of them would need, where none reaches. */
  readonly neededMm?: number;
  readonly holder?: HolderMeets;
  readonly fixture?: FixtureMeets;
}

export function tryTools(tools: readonly Tool[], task: Task, shop: Shop): Tried {
  let tried: Tried = {};
  /** The first that runs into nothing, though it passes nearer than the margin. */
  let close: ToolUse | undefined;
  /** No thicker cutter need be tried: a thinner one met the same. */
  let thinnestMm = Number.POSITIVE_INFINITY;
  for (const tool of tools) {
    const shape = shapeOf(tool, shop);
    if (shape.cutRadiusMm >= thinnestMm) continue;
    const one = tryOne(shape, task, shop);
    if (one.use && !one.use.near) return { use: one.use };
    close ??= one.use;
    if (one.fixture?.clash.by === 'cutter') {
      // Told of the tool that would be taken first.
      if (!tried.fixture && hopeless(tools, task, one.near, shop)) return { fixture: one.fixture };
      thinnestMm = Math.min(thinnestMm, shape.cutRadiusMm);
    }
    tried = worthTelling(tried, one);
  }
  return close ? { use: close } : tried;
}

/** Of what was in the way of several tools: the least reach, the holder that lacks least, the first that meets something. */
function worthTelling(before: Tried, { neededMm, holder, fixture }: Tried): Tried {
  const lacks = (h: HolderMeets) => h.neededMm - h.outMm;
  const least = Math.min(before.neededMm ?? Number.POSITIVE_INFINITY, neededMm ?? Number.POSITIVE_INFINITY);
  const slimmest = holder && (!before.holder || lacks(holder) < lacks(before.holder)) ? holder : before.holder;
  const met = before.fixture ?? fixture;
  return {
    ...(Number.isFinite(least) && { neededMm: least }),
    ...(slimmest && { holder: slimmest }),
    ...(met && { fixture: met }),
  };
}

/** One tool: its use, or the one thing that keeps it from the cut; `near`: what stands higher than its tip. */
function tryOne(shape: ToolShape, task: Task, shop: Shop): Tried & { readonly near: readonly Standing[] } {
  const { tool } = shape;
  const { up } = task;
  const marginMm = marginOf(shop);
  const below = task.belowMm?.(tool) ?? 0;
  const deepest = below + Math.max(task.leastReachMm, task.tipMm - task.topMm);
  const near = task.obstacles.filter((o) => standsAbove(o, task, below + marginMm));
  const out = shape.outMm ?? shape.mostOutMm;
  const clear = shape.reachMm >= deepest - SAME_REACH_MM && (!shape.holder || out >= deepest - SAME_REACH_MM);
  if (clear && near.length === 0) return { use: useOf(shape, task, deepest, deepest), near };
  const stands = lowered(task.stands(shape.cutRadiusMm), up, below);
  const needs = needsOf(shape, stands, task);
  const reachMm = Math.max(below + task.leastReachMm, needs.reachMm);
  if (shape.reachMm < reachMm - SAME_REACH_MM) return { neededMm: reachMm, near };
  if (shape.holder && out < needs.outMm - SAME_REACH_MM) {
    const { holder } = shape;
    return {
      holder: { tool, neededMm: needs.outMm, outMm: out, holder, ...(needs.outAt && { at: needs.outAt }) },
      near,
    };
  }
  const clash = clashOf({ shape, stands, up }, near);
  if (clash) return { fixture: { tool, clash }, near };
  const outMm = Math.max(needs.outMm, clearOf(outForObstacles({ shape, stands, up }, near), marginMm, out));
  const use = useOf(shape, task, reachMm, outMm);
  const path = { shape: { ...shape, outMm: use.outMm }, stands, up };
  const passes = nearestTo(path, near, () => task.place, marginMm) ?? task.sweeps?.(near, marginMm);
  return { use: passes ? { ...use, near: passes } : use, near };
}

/** Why none of them does it; undefined where one does. `neededMm`: the reach that is needed where trying did not tell. */
export function troubleOf(
  tried: Tried,
  tools: readonly Tool[],
  what: string,
  neededMm: number,
): Partial<Pick<Verdict, 'short' | 'holder' | 'fixture'>> | undefined {
  if (tried.use) return undefined;
  if (tried.fixture) return { fixture: tried.fixture };
  if (tried.holder) return { holder: tried.holder };
  const longest = tools.reduce((best, t) => (reachOf(t) > reachOf(best) ? t : best));
  return {
    short: { what, neededMm: tried.neededMm ?? neededMm, longest: { name: longest.name, mm: reachOf(longest) } },
  };
}

/** A holder is pulled out past what stands there by the margin, as far as the tool can be. */
function clearOf(outMm: number, marginMm: number, mostMm: number): number {
  return outMm > 0 ? Math.max(outMm, Math.min(mostMm, outMm + marginMm)) : 0;
}

function lowered(stands: readonly Vec3[], up: Face, byMm: number): readonly Vec3[] {
  if (byMm === 0) return stands;
  const down = inward(up);
  return stands.map((p) => [p[0] + down[0] * byMm, p[1] + down[1] * byMm, p[2] + down[2] * byMm]);
}

/** Even the slimmest of those that reach for certain runs into it: then no other need be asked. */
function hopeless(tools: readonly Tool[], task: Task, near: readonly Standing[], shop: Shop): boolean {
  const deepest = Math.max(task.leastReachMm, task.tipMm - task.topMm);
  const reaching = tools.filter((t) => reachOf(t) >= deepest - SAME_REACH_MM);
  const slim = reaching.reduce<Tool | undefined>((s, t) => (s && s.diameterMm <= t.diameterMm ? s : t), undefined);
  if (!slim) return false;
  const shape = shapeOf(slim, shop);
  const stands = task.stands(shape.cutRadiusMm);
  return clashOf({ shape, stands, up: task.up }, near)?.by === 'cutter';
}

/** Its top is higher than the deepest tip. */
function standsAbove({ box, axes }: Standing, { up, body, tipMm }: Task, belowMm: number): boolean {
  if (axes) return true;
  const i = up === 'left' || up === 'right' ? 0 : up === 'front' || up === 'back' ? 1 : 2;
  const positive = up === 'right' || up === 'back' || up === 'top';
  const { min, max } = body.box;
  const depth = positive ? max[i] - box.max[i] : box.min[i] - min[i];
  return depth < tipMm + belowMm - 0.01;
}

function useOf(shape: ToolShape, task: Task, reachMm: number, outMm: number): ToolUse {
  return {
    tool: shape.tool,
    does: task.does,
    reachMm,
    outNeededMm: outMm,
    outMm: shape.outMm ?? Math.max(outMm, reachMm, Math.min(shape.reachMm, shape.mostOutMm)),
  };
}
