/**
 * The plan with the fewest setups: from the part and the shop, every setup judged by the rules themselves on the
 * workpiece as it is then. Among plans with as few, the one with the fewest warnings.
 */

import type { ReadPart } from '../rules/judging';
import type { Finding } from '../rules/kit/rule';
import { attemptSetup } from './attempt';
import { attemptsFor } from './attempt-cache';
import { withCovered } from './covered';
import { halved, halvedAtJaws } from './halves';
import { type Item, needed } from './item';
import { itemsOf } from './items';
import { sawnOffLast } from './on-bar';
import { whereTaken, withMachine } from './on-machine';
import type { Plan } from './planned';
import { polished, warningsIn } from './polish';
import { laidDown, type Pose } from './poses';
import { availableIn, type Move } from './search';
import { type Found, isWhole, MOST_ATTEMPTS, type PlanOptions, SHORT_TRY, type Task, takenOf, taskOf } from './sought';
import { stoodUp } from './stood-up';
import { leaningGroups, leaningMoves } from './tilted';
import { timeOf } from './times';
import type { Made, Trial } from './trial';
import { blockedBy, uncutOf } from './uncut';

export type { Plan, PlanOptions };

/** Undefined where there is no body or no vise to plan with. */
export function planOf(checked: ReadPart, options: PlanOptions = {}): Plan | undefined {
  if (!checked.part.body || checked.shop.vises.length === 0) return undefined;
  const there = whereTaken(checked);
  const plan = planThere(there, options);
  // What is only asked in passing is for the same machine, whatever it is called.
  return options.mostAttempts === undefined && !options.without ? withMachine(plan, checked, there) : plan;
}

function planThere(checked: ReadPart, options: PlanOptions): Plan {
  const { part, shop, solid } = checked;
  const items = lessOf(halved(itemsOf({ part, solid, shop }), checked), options.without);
  const bar = sawnOffLast(part, items);
  const onBar = bar && planWith(bar.items, { ...checked, part: bar.part }, options).plan;
  if (onBar?.uncut.length === 0) return onBar;
  const first = planWith(items, checked, options);
  if (options.mostSetups !== undefined) return first.plan;
  const plan = throughHalves(first, checked, options);
  // What is only asked in passing need not be told with all that would do.
  if (options.mostAttempts !== undefined || options.without) return plan;
  const best = polished(plan, checked);
  return options.inVises ? best : heldBetter(best, items, checked);
}

/** Where the rules still warn of how vises hold it: with as many set-ups held in other ways, if fewer warnings are left. */
function heldBetter(plan: Plan, items: readonly Item[], checked: ReadPart): Plan {
  const wrong = plan.setups.some((s) => s.warnings.some(isOfHolding));
  if (!wrong || plan.uncut.length > 0) return plan;
  const limits = { mostSetups: plan.setups.length, mostAttempts: SHORT_TRY, anyWay: 'clamped' } as const;
  const { plan: found } = planWith(items, checked, limits);
  const attempts = plan.attempts + found.attempts;
  const other = found.uncut.length === 0 && polished(found, checked);
  return other && warningsIn(other, checked) < warningsIn(plan, checked)
    ? { ...other, bound: plan.bound, proof: plan.proof, attempts, ...(plan.blocked && { blocked: plan.blocked }) }
    : { ...plan, attempts };
}

/** Another way to hold it could do without. */
function isOfHolding({ rule }: Finding): boolean {
  return rule.startsWith('hold/');
}

/**
 * Where something is left, or set-ups are more than faces ask for, and jaws were in the way of what can be cut half from
 * each side: planned again so. The plan as it was where that is no better; then only if all was tried, all was.
 */
function throughHalves({ plan, trial }: Planned, checked: ReadPart, options: PlanOptions): Plan {
  const { length } = plan.setups;
  const whole = plan.uncut.length === 0;
  if (whole && (plan.proof === 'bound' || length <= plan.bound)) return plan;
  const items = halvedAtJaws(trial.items, trial.refusals, checked);
  if (!items) return plan;
  const inVises = plan.setups.every((s) => s.setup.hold?.vise !== undefined);
  const fewer = { ...options, mostSetups: length - 1, mostAttempts: SHORT_TRY, inVises };
  const within = { ...options, mostAttempts: Math.min(2 * SHORT_TRY, options.mostAttempts ?? MOST_ATTEMPTS) };
  const how = whole ? fewer : within;
  const other = planWith(items, checked, how).plan;
  const attempts = plan.attempts + other.attempts;
  if (other.uncut.length < (whole ? 1 : plan.uncut.length)) return { ...other, attempts };
  return { ...plan, attempts, proof: other.attempts >= how.mostAttempts ? 'open' : plan.proof };
}

interface Planned {
  readonly plan: Plan;
  readonly trial: Trial;
}

function planWith(items: readonly Item[], checked: ReadPart, options: PlanOptions): Planned {
  const { part, shop, solid, tree } = checked;
  const attempts = attemptsFor(shop);
  const trial: Trial = { part, shop, solid, tree, items, attempts, refusals: new Map(), unheld: new Map() };
  const task = taskOf(trial, checked, options);
  const found = takenOf(task);
  return { plan: planFrom(task, found, completed(task, found)), trial };
}

/** What the search left: the rest in whatever way it goes, stood up where that helps, and what leans. */
function completed(task: Task, { taken }: Found): readonly Move<Made>[] {
  const { trial, options, level, leaning, reached, vises } = task;
  const mayGoOn = options.mostSetups === undefined;
  let moves = taken.moves ?? [];
  if (!taken.moves && taken.rest && mayGoOn) moves = goOn(taken.rest.from, reached, taken.rest.ways, trial);
  if (mayGoOn && !isWhole(moves, level))
    for (const item of needed(level))
      if (!trial.refusals.has(item.index)) refuse(item, moves, taken.rest?.ways ?? vises, trial);
  moves = stoodUp(moves, options.inVises ? [] : laidDown(trial.shop), task.ask);
  const tilted = leaningMoves(leaning, moves, trial);
  return tilted.length > moves.length ? goOn(tilted, trial.items, vises, trial) : moves;
}

function planFrom(task: Task, { taken, bound, proof, attempts }: Found, moves: readonly Move<Made>[]): Plan {
  const { trial, checked, level, leaning, reached } = task;
  const setups = moves.map((m) => m.made.setup);
  const lots = moves.map((m) => m.cut);
  const ups = moves.map((m) => m.pose.up);
  const blocked = proof === 'bound' || !taken.moves ? undefined : blockedBy(lots, ups, trial);
  const directions = leaningGroups(leaning, trial).length;
  const isAllLeaning = needed(level).length === 0;
  const onlyLeaning = isAllLeaning && moves.length === directions;
  return {
    items: trial.items.map((item, i) => (reached[i]!.from === 0 ? item : reached[i]!)),
    time: timeOf(setups, { ...checked, part: { ...checked.part, setups } }),
    setups: moves.map((m) => ({ setup: m.made.setup, items: m.cut, warnings: m.made.warnings })),
    bound: bound + directions,
    proof: onlyLeaning ? 'bound' : taken.moves || isAllLeaning ? proof : 'open',
    attempts,
    uncut: uncutOf(task.must, withCovered(lots.flat()), trial),
    ...(blocked && { blocked }),
  };
}

/** Counted as before, so that memories of attempts serve; nothing waits for what is not cut. */
function lessOf(items: readonly Item[], names: ReadonlySet<string> = new Set()): readonly Item[] {
  const gone = new Set(items.filter((i) => names.has(i.name)).map((i) => i.index));
  if (gone.size === 0) return items;
  return items.map((i) => ({
    ...i,
    after: i.after.filter((a) => !gone.has(a)),
    ...(gone.has(i.index) && { from: 0 }),
  }));
}

/** Set-ups beyond this are not a plan. */
const MOST_IN_ALL = 8;

/** From where a search ended without a whole plan: whatever else can be cut, the largest lot first. */
function goOn(
  from: readonly Move<Made>[],
  items: readonly Item[],
  poses: readonly Pose[],
  trial: Trial,
): readonly Move<Made>[] {
  const moves = [...from];
  const done = withCovered(moves.flatMap((m) => m.cut));
  while (moves.length < MOST_IN_ALL) {
    const remaining = items.filter((i) => i.from !== 0 && !done.has(i.index));
    let best: Move<Made> | undefined;
    for (const pose of poses) {
      const candidates = availableIn(remaining, done, pose);
      const most = best ? needed(best.cut).length : 0;
      if (needed(candidates).length <= most) continue;
      const move = attemptSetup(trial, { before: moves, done, pose, candidates, enough: () => true });
      if (move && move !== 'too-little' && needed(move.cut).length > most) best = move;
    }
    if (!best) break;
    moves.push(best);
    for (const index of withCovered(best.cut)) done.add(index);
  }
  return moves;
}

/** Asks why it is not cut, alone and last of all, from every face it could be cut from. */
function refuse(item: Item, before: readonly Move<Made>[], poses: readonly Pose[], trial: Trial): void {
  const done = withCovered(before.flatMap((m) => m.cut));
  if (done.has(item.index)) return;
  for (const pose of poses.filter((p) => p.bit & item.from))
    attemptSetup(trial, { before, done, pose, candidates: [item], enough: () => true });
}
