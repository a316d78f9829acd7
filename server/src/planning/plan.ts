/**
 * The plan with the fewest setups: from the part and the shop, every setup judged by the rules themselves on the
 * workpiece as it is then. Among plans with as few, the one with the fewest warnings.
 */

import { memo } from '../memo';
import type { Setup } from '../model/model';
import { timelineOf } from '../process/stock';
import type { ReadPart } from '../rules/judging';
import type { Finding } from '../rules/kit/rule';
import { SAME } from '../tolerance';
import { attemptSetup } from './attempt';
import { attemptsFor } from './attempt-cache';
import { reordered } from './better-order';
import { warningsOfWhole } from './check-setup';
import { withCovered, withoutCovered } from './covered';
import { againstCraft } from './craft';
import { halved, halvedAtJaws } from './halves';
import { type Item, needed } from './item';
import { itemsOf } from './items';
import { sawnOffLast } from './on-bar';
import type { Plan } from './planned';
import { polished, warningsIn } from './polish';
import { costOf, inVees, type LaidDown, laidDown, type OtherWay, type Pose, posesOf } from './poses';
import { inVises, reachable } from './reachable';
import { type Ask, availableIn, type Move, type Searched, search, type Tried } from './search';
import { stoodUp } from './stood-up';
import { leaningGroups, leaningItems, leaningMoves } from './tilted';
import { type PlanTime, timeOf } from './times';
import type { Made, Trial } from './trial';
import { blockedBy, uncutOf } from './uncut';

export type { Plan };

export interface PlanOptions {
  readonly mostAttempts?: number;
  /** Only a plan with no more than these is of use. */
  readonly mostSetups?: number;
  /** No other way to hold is looked for. */
  readonly inVises?: boolean;
  /** Screws, clamps and tabs from the first, not only where no vise does; `clamped`: only what is as quick as a vise; or this one alone. */
  readonly anyWay?: true | 'clamped' | OtherWay;
  /** Features that are not cut at all: to see what they cost. */
  readonly without?: ReadonlySet<string>;
}

/** No tabs to be filed off, no plate to be set up. */
const CLAMPED: ReadonlySet<Pose['by']> = new Set(['screws', 'clamps']);

function isAllowed({ by }: LaidDown, anyWay: PlanOptions['anyWay']): boolean {
  if (anyWay === undefined || anyWay === true) return true;
  return anyWay === 'clamped' ? CLAMPED.has(by) : by === anyWay;
}

const MOST_SETUPS = 6;
const MOST_PLANS = 12;
const MOST_ATTEMPTS = 300;
const MOST_AFTER = 16;
const SHORT_TRY = 60;
/** With more items than this a set-up takes long to try, and what a better plan saves is little against its cutting. */
const MANY = 80;

/** Undefined where there is no body or no vise to plan with. */
export function planOf(checked: ReadPart, options: PlanOptions = {}): Plan | undefined {
  const { part, shop, solid } = checked;
  if (!part.body || shop.vises.length === 0) return undefined;
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
  const limits = {
    mostSetups: options.mostSetups ?? MOST_SETUPS,
    mostPlans: MOST_PLANS,
    mostAttempts: options.mostAttempts ?? MOST_ATTEMPTS,
    mostAfter: items.length > MANY ? MOST_AFTER / 4 : MOST_AFTER,
  };
  const wanted = items.filter((i) => !options.without?.has(i.name));
  const must = needed(wanted);
  const all = reachable(items, trial);
  const leaning = leaningItems(must, all, trial);
  // What is planned last, with the work held at an angle, is no matter for the six faces up.
  const reached = all.map((i) => (leaning.some((l) => l.index === i.index) ? { ...i, from: 0 } : i));
  const vises = posesOf(shop, solid.body.box);
  // Round work lies in a V as soon as in a vise.
  const firstWays = [...inVees(shop, timelineOf(part, solid).stock.body), ...vises];
  const ask = (a: Ask<Made>) => attemptSetup(trial, a);
  const level = wanted.filter((i) => !leaning.some((l) => l.index === i.index));
  const whole = (moves: readonly Move<Made>[]) => {
    const done = withCovered(moves.flatMap((m) => m.cut));
    return needed(level).every((i) => done.has(i.index));
  };
  const sought = (among: readonly Item[], mostAttempts: number, mostSetups = limits.mostSetups): Sought => {
    const within = { ...limits, mostSetups, mostAttempts };
    const first = options.anyWay ? [] : inVises(among, vises, solid.body.box);
    const between = search<Made>(first, firstWays, ask, within);
    const moves = bestOf(between.plans, checked, ask, firstWays);
    if ((moves && whole(moves)) || options.inVises) return { moves, found: between, attempts: between.attempts };
    // Only where no vise does: screws, clamps, tabs.
    const ways = [...firstWays, ...laidDown(shop).filter((p) => isAllowed(p, options.anyWay))];
    const found = search<Made>(among, ways, ask, within);
    return {
      moves: bestOf(found.plans, checked, ask, ways),
      found,
      attempts: between.attempts + found.attempts,
      rest: { from: longer(found.furthest, between.furthest), ways },
    };
  };
  // First without cutting off by itself what an outline takes off; then, where that is not the least, with it.
  const apart = withoutCovered(reached);
  const both = (mostAttempts: number) => {
    const first = sought(apart, mostAttempts);
    const least = first.moves !== undefined && first.found.proof === 'bound';
    const fewer = (first.moves?.length ?? limits.mostSetups + 1) - 1;
    return { first, second: apart === reached || least ? undefined : sought(reached, mostAttempts, fewer) };
  };
  // Of two ways to look, one may lead nowhere for long: each has a short try before either has a long one.
  const short = apart === reached ? undefined : both(Math.min(SHORT_TRY, limits.mostAttempts));
  const settled = short && [short.second, short.first].some((s) => s?.moves && s.found.proof === 'bound');
  const { first, second } = short && (settled || limits.mostAttempts <= SHORT_TRY) ? short : both(limits.mostAttempts);
  const taken = second?.moves || !first.moves ? (second ?? first) : first;
  const bound = Math.min(first.found.bound, second?.found.bound ?? first.found.bound);
  let { proof } = (second && taken === first ? second : taken).found;
  // What counts for the one way of looking is no bound for the other.
  if (proof === 'bound' && taken.moves && taken.moves.length > bound) proof = first.found.proof;
  let moves = taken.moves ?? [];
  if (!taken.moves && taken.rest && options.mostSetups === undefined)
    moves = goOn(taken.rest.from, reached, taken.rest.ways, trial);
  if (!whole(moves) && options.mostSetups === undefined)
    for (const item of needed(level))
      if (!trial.refusals.has(item.index)) refuse(item, moves, taken.rest?.ways ?? vises, trial);
  moves = stoodUp(moves, options.inVises ? [] : laidDown(shop), ask);
  const tilted = leaningMoves(leaning, moves, trial);
  if (tilted.length > moves.length) moves = goOn(tilted, items, vises, trial);
  const cut = withCovered(moves.flatMap((m) => m.cut));
  const setups = moves.map((m) => m.made.setup);
  const lots = moves.map((m) => m.cut);
  const ups = moves.map((m) => m.pose.up);
  const blocked = proof === 'bound' || !taken.moves ? undefined : blockedBy(lots, ups, trial);
  const directions = leaningGroups(leaning, trial).length;
  const onlyLeaning = needed(level).length === 0 && moves.length === directions;
  const plan: Plan = {
    items: items.map((item, i) => (reached[i]!.from === 0 ? item : reached[i]!)),
    time: timeOf(setups, { ...checked, part: { ...part, setups } }),
    setups: moves.map((m) => ({ setup: m.made.setup, items: m.cut, warnings: m.made.warnings })),
    bound: bound + directions,
    proof: onlyLeaning ? 'bound' : taken.moves || needed(level).length === 0 ? proof : 'open',
    attempts: first.attempts + (second?.attempts ?? 0),
    uncut: uncutOf(must, cut, trial),
    ...(blocked && { blocked }),
  };
  return { plan, trial };
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

interface Sought {
  readonly moves: readonly Move<Made>[] | undefined;
  readonly found: Searched<Made>;
  readonly attempts: number;
  /** From where to go on without a whole plan. */
  readonly rest?: { readonly from: readonly Move<Made>[]; readonly ways: readonly Pose[] };
}

function longer(a: readonly Move<Made>[], b: readonly Move<Made>[]): readonly Move<Made>[] {
  const count = (moves: readonly Move<Made>[]) => moves.reduce((n, m) => n + m.cut.length, 0);
  return count(b) > count(a) ? b : a;
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

/**
 * The fewest warnings about holding and reaching, in vises where they do as well, the least against the order of craft, plain jaws rather than milled ones, the fewest
 * edges left to the file; then the fewest changes of tool, the fewest hints (one zero for a batch, none from a sawn face), the least time.
 */
function bestOf(
  plans: readonly (readonly Move<Made>[])[],
  checked: ReadPart,
  ask: (a: Ask<Made>) => Tried<Made>,
  poses: readonly Pose[],
): readonly Move<Made>[] | undefined {
  const weighed = plans.map((plan) => ({ plan, cost: weigh(plan, checked) }));
  const lighter = (a: Weighed, b: Weighed) => (less(b.cost, a.cost) ? b : a);
  if (weighed.length === 0) return undefined;
  const best = weighed.reduce(lighter);
  const sum = (of: (m: Move<Made>) => number) => best.plan.reduce((n, m) => n + of(m), 0);
  const wrong = best.cost[0]! + best.cost[2]! > 0;
  const others = wrong || sum((m) => m.made.hints) > 0 ? reordered(best.plan, ask, wrong ? poses : []) : [];
  return others.map((plan) => ({ plan, cost: weigh(plan, checked) })).reduce(lighter, best).plan;
}

interface Weighed {
  readonly plan: readonly Move<Made>[];
  readonly cost: readonly number[];
}

/** Of one set-up by itself: plans share most of theirs, and edges broken in two take about as long. */
const timeAlone = memo(
  (setup: Setup, checked: ReadPart): PlanTime =>
    timeOf([setup], { ...checked, part: { ...checked.part, setups: [setup] } }),
);

function weigh(plan: readonly Move<Made>[], checked: ReadPart): readonly number[] {
  const sum = (of: (m: Move<Made>) => number) => plan.reduce((n, m) => n + of(m), 0);
  const time = (m: Move<Made>) => timeAlone(m.made.setup, checked);
  return [
    sum((m) => m.made.warnings.length) +
      warningsOfWhole(
        checked,
        plan.map((m) => m.made),
      ),
    sum((m) => costOf(m.pose)),
    againstCraft(plan),
    sum((m) => (m.made.setup.hold?.type === 'soft-jaws' ? 1 : 0)),
    -sum((m) => m.cut.filter((i) => i.byHand).length),
    sum((m) => time(m).toolChanges),
    sum((m) => m.made.hints),
    sum((m) => time(m).firstPiece[0] + time(m).firstPiece[1]),
  ];
}

function less(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((x, k) => Math.abs(x - b[k]!) > SAME);
  return i >= 0 && a[i]! < b[i]!;
}
