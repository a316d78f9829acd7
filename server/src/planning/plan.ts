/**
 * The plan with the fewest setups: from the part and the shop, every setup judged by the rules themselves on the
 * workpiece as it is then. Among plans with as few, the one with the fewest warnings.
 */
import type { CheckedPart } from '../rules/check';
import type { Finding } from '../rules/rule';
import type { Setup } from '../spec/model';
import { attemptSetup, type Made, type Trial } from './attempt';
import { type Item, itemsOf } from './items';
import { type Pose, posesOf } from './poses';
import { reachable } from './reachable';
import { type Move, type Searched, search } from './search';
import { type PlanTime, timeOf } from './times';

export interface Plan {
  /** All there is to cut. */
  readonly items: readonly Item[];
  readonly setups: readonly PlannedSetup[];
  /** Directions alone need so many. */
  readonly bound: number;
  readonly proof: Searched<unknown>['proof'];
  /** Setups tried, for the curious. */
  readonly attempts: number;
  readonly time: PlanTime;
  /** What no setup cuts, and why not; empty for a whole plan. */
  readonly left: readonly Left[];
}

export interface PlannedSetup {
  readonly setup: Setup;
  readonly items: readonly Item[];
  readonly warnings: readonly Finding[];
}

export interface Left {
  readonly item: Item;
  readonly why?: Finding;
  /** What would have to be cut before it, and is not. */
  readonly waits?: Item;
}

export interface PlanOptions {
  readonly mostAttempts?: number;
}

const MOST_SETUPS = 6;
const MOST_PLANS = 12;
const MOST_ATTEMPTS = 300;
const MOST_AFTER = 16;

/** Undefined where there is no body or no vise to plan with. */
export function planOf(checked: CheckedPart, options: PlanOptions = {}): Plan | undefined {
  const { part, shop, solid, tree } = checked;
  if (!part.body || shop.vises.length === 0) return undefined;
  const items = itemsOf(part, solid);
  const trial: Trial = { part, shop, solid, tree, items, refusals: new Map(), unheld: new Map() };
  const poses = posesOf(shop, solid.body.box);
  const within = reachable(items, trial);
  const cutFirst = (item: Item) => item.after.every((a) => within[a]!.from !== 0);
  for (const item of items)
    if (item.from !== 0 && within[item.index]!.from === 0 && cutFirst(item)) refuse(item, poses, trial);
  const found = search<Made>(within, poses, (ask) => attemptSetup(trial, ask), {
    mostSetups: MOST_SETUPS,
    mostPlans: MOST_PLANS,
    mostAttempts: options.mostAttempts ?? MOST_ATTEMPTS,
    mostAfter: MOST_AFTER,
  });
  const best = bestOf(found.plans, checked) ?? found.furthest;
  const cut = new Set(best.flatMap((m) => m.cut.map((i) => i.index)));
  const setups = best.map((m) => m.made.setup);
  return {
    items: items.map((item, i) => (within[i]!.from === 0 ? item : within[i]!)),
    time: timeOf(setups, { ...checked, part: { ...part, setups } }),
    setups: best.map((m) => ({ setup: m.made.setup, items: m.cut, warnings: m.made.warnings })),
    bound: found.bound,
    proof: found.proof,
    attempts: found.attempts,
    left: items.filter((i) => !cut.has(i.index)).map((item) => leftOf(item, cut, trial)),
  };
}

/** Asks why it is not reached, from the first face it could be cut from. */
function refuse(item: Item, poses: readonly Pose[], trial: Trial): void {
  for (const pose of poses.filter((p) => p.bit & item.from)) {
    if (trial.refusals.has(item.index)) return;
    attemptSetup(trial, { before: [], done: new Set(), pose, candidates: [item], enough: () => true });
  }
}

function leftOf(item: Item, cut: ReadonlySet<number>, trial: Trial): Left {
  const refused = trial.refusals.get(item.index)?.why;
  const before = item.after.find((a) => !cut.has(a));
  if (!refused && before !== undefined) return { item, waits: trial.items[before]! };
  const why = refused ?? trial.unheld.values().next().value;
  return { item, ...(why && item.from !== 0 && { why }) };
}

/** The fewest warnings about holding and reaching, then the fewest changes of tool, then the least time. */
function bestOf(plans: readonly (readonly Move<Made>[])[], checked: CheckedPart): readonly Move<Made>[] | undefined {
  let best: { plan: readonly Move<Made>[]; cost: readonly number[] } | undefined;
  for (const plan of plans) {
    const setups = plan.map((m) => m.made.setup);
    const time = timeOf(setups, { ...checked, part: { ...checked.part, setups } });
    const warnings = plan.reduce((sum, m) => sum + m.made.warnings.length, 0);
    const cost = [warnings, time.toolChanges, time.firstPiece[0] + time.firstPiece[1]];
    if (!best || less(cost, best.cost)) best = { plan, cost };
  }
  return best?.plan;
}

function less(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((x, k) => Math.abs(x - b[k]!) > 1e-6);
  return i >= 0 && a[i]! < b[i]!;
}
