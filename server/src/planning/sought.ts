/**
 * Where plans are looked for: in vises first, then held in any way; first without cutting off by itself what an outline takes
 * off, then with it. `search.ts` looks, `weigh.ts` takes the best of what it finds.
 */
import { timelineOf } from '../process/stock';
import type { ReadPart } from '../rules/judging';
import { attemptSetup } from './attempt';
import { withCovered, withoutCovered } from './covered';
import { type Item, needed } from './item';
import { inVees, type LaidDown, laidDown, type OtherWay, type Pose, posesOf, type ViseHeld } from './poses';
import { inVises, reachable } from './reachable';
import { type Ask, type Move, type Searched, type SearchLimits, search, type Tried } from './search';
import { leaningItems } from './tilted';
import type { Made, Trial } from './trial';
import { bestOf } from './weigh';

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
export const MOST_ATTEMPTS = 300;
const MOST_AFTER = 16;
export const SHORT_TRY = 60;
/** With more items than this a set-up takes long to try, and what a better plan saves is little against its cutting. */
const MANY = 80;

/** What is to be planned. */
export interface Task {
  readonly trial: Trial;
  readonly checked: ReadPart;
  readonly options: PlanOptions;
  readonly limits: SearchLimits;
  /** What the plan should cut. */
  readonly must: readonly Item[];
  /** Of it what no work held at an angle is needed for. */
  readonly level: readonly Item[];
  /** What is planned last, with the work held at an angle: no matter for the six faces up. */
  readonly leaning: readonly Item[];
  /** All items with the faces from which a tool gets to them; of what leans, none. */
  readonly reached: readonly Item[];
  readonly vises: readonly ViseHeld[];
  /** Round work lies in a V as soon as in a vise. */
  readonly firstWays: readonly Pose[];
  ask(ask: Ask<Made>): Tried<Made>;
}

export function taskOf(trial: Trial, checked: ReadPart, options: PlanOptions): Task {
  const { items, shop, part, solid } = trial;
  const wanted = items.filter((i) => !options.without?.has(i.name));
  const must = needed(wanted);
  const all = reachable(items, trial);
  const leaning = leaningItems(must, all, trial);
  const leans = ({ index }: Item) => leaning.some((l) => l.index === index);
  const vises = posesOf(shop, solid.body.box);
  return {
    trial,
    checked,
    options,
    limits: {
      mostSetups: options.mostSetups ?? MOST_SETUPS,
      mostPlans: MOST_PLANS,
      mostAttempts: options.mostAttempts ?? MOST_ATTEMPTS,
      mostAfter: items.length > MANY ? MOST_AFTER / 4 : MOST_AFTER,
    },
    must,
    level: wanted.filter((i) => !leans(i)),
    leaning,
    reached: all.map((i) => (leans(i) ? { ...i, from: 0 } : i)),
    vises,
    firstWays: [...inVees(shop, timelineOf(part, solid).stock.body), ...vises],
    ask: (ask) => attemptSetup(trial, ask),
  };
}

/** Whether these cut all that is needed of the items. */
export function isWhole(moves: readonly Move<Made>[], items: readonly Item[]): boolean {
  const done = withCovered(moves.flatMap((m) => m.cut));
  return needed(items).every((i) => done.has(i.index));
}

/** What was found one way. */
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

/** What is taken of all that was found. */
export interface Found {
  readonly taken: Sought;
  readonly bound: number;
  readonly proof: Searched<Made>['proof'];
  readonly attempts: number;
}

export function takenOf(task: Task): Found {
  const { first, second } = foundFor(task);
  const taken = second?.moves || !first.moves ? (second ?? first) : first;
  const bound = Math.min(first.found.bound, second?.found.bound ?? first.found.bound);
  const { proof } = (second && taken === first ? second : taken).found;
  // What counts for the one way of looking is no bound for the other.
  const isAbove = proof === 'bound' && taken.moves !== undefined && taken.moves.length > bound;
  const attempts = first.attempts + (second?.attempts ?? 0);
  return { taken, bound, proof: isAbove ? first.found.proof : proof, attempts };
}

interface BothWays {
  readonly first: Sought;
  readonly second: Sought | undefined;
}

/** Of two ways to look, one may lead nowhere for long: each has a short try before either has a long one. */
function foundFor(task: Task): BothWays {
  const { mostAttempts } = task.limits;
  const short =
    withoutCovered(task.reached) === task.reached ? undefined : bothWays(task, Math.min(SHORT_TRY, mostAttempts));
  const isSettled = short && [short.second, short.first].some((s) => s?.moves && s.found.proof === 'bound');
  return short && (isSettled || mostAttempts <= SHORT_TRY) ? short : bothWays(task, mostAttempts);
}

/** First without cutting off by itself what an outline takes off; then, where that is not the least, with it. */
function bothWays(task: Task, mostAttempts: number): BothWays {
  const apart = withoutCovered(task.reached);
  const first = sought(task, apart, mostAttempts);
  const isLeast = first.moves !== undefined && first.found.proof === 'bound';
  const fewer = (first.moves?.length ?? task.limits.mostSetups + 1) - 1;
  return {
    first,
    second: apart === task.reached || isLeast ? undefined : sought(task, task.reached, mostAttempts, fewer),
  };
}

function sought(task: Task, among: readonly Item[], mostAttempts: number, mostSetups = task.limits.mostSetups): Sought {
  const { trial, checked, options, level, vises, firstWays, ask } = task;
  const within = { ...task.limits, mostSetups, mostAttempts };
  const inJaws = options.anyWay ? [] : inVises(among, vises, trial.solid.body.box);
  const between = search<Made>(inJaws, firstWays, ask, within);
  const moves = bestOf(between.plans, checked, ask, firstWays);
  if ((moves && isWhole(moves, level)) || options.inVises) return { moves, found: between, attempts: between.attempts };
  // Only where no vise does: screws, clamps, tabs.
  const laid = laidDown(trial.shop).filter((p) => isAllowed(p, options.anyWay));
  const ways = [...firstWays, ...laid];
  const found = search<Made>(among, ways, ask, within);
  return {
    moves: bestOf(found.plans, checked, ask, ways),
    found,
    attempts: between.attempts + found.attempts,
    rest: { from: longer(found.furthest, between.furthest), ways },
  };
}
