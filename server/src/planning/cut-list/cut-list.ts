/**
 * Which bars to take and how to cut each, at the least cost: first at once, then as far as a search in whole bars proves it,
 * then, with a solver, over all patterns. What could not be proven is told as between a bound and what was found.
 */
import { SAME } from '../../tolerance';
import { leastBars, quickBound } from './bounds';
import { grownColumns } from './columns';
import { completed } from './completion';
import { allIntoCounted } from './counted';
import { firstFit } from './first-fit';
import { maximalPatterns } from './patterns';
import { costOf, listed, openOf, problemOf } from './problem';
import { type Column, cuttingsOf, programOf, type Solver } from './program';
import type { CutList, CutListAsk, Cutting, Problem } from './types';

/** Pieces that are searched, at most: beyond, a search of 20,000 bars proves nothing that bounds do not. */
const MOST_SEARCHED = 60;
/** Patterns that a program lists, at most. */
const MOST_PATTERNS = 30_000;

interface Way {
  readonly cuttings: readonly Cutting[];
  readonly bound: number;
}

/** Without a solver: in a few milliseconds, and proven for most jobs of one length of bar. */
export function cutList(ask: CutListAsk): CutList {
  const { problem, tooLong } = problemOf(ask);
  return answered(ask, problem, quickWay(problem), tooLong);
}

/** `solve` may reject: then what was found without it stands, with its bound. */
export async function provenCutList(ask: CutListAsk, solve: Solver): Promise<CutList> {
  const { problem, tooLong } = problemOf(ask);
  const quick = quickWay(problem);
  const first = answered(ask, problem, quick, tooLong);
  if (first.proven || problem.sizes.length === 0 || openOf(problem, quick.cuttings).some((n) => n > 0)) return first;
  try {
    return answered(ask, problem, await solvedWay(problem, quick, solve), tooLong);
  } catch {
    return first;
  }
}

function answered(ask: CutListAsk, problem: Problem, way: Way, tooLong: CutList['unplaced']): CutList {
  const list = listed(ask, problem, way.cuttings, way.bound);
  return { ...list, unplaced: [...tooLong, ...list.unplaced] };
}

function quickWay(problem: Problem): Way {
  const cuttings = firstFit(problem);
  const bound = quickBound(problem);
  if (openOf(problem, cuttings).some((n) => n > 0)) return intoCounted(problem, { cuttings, bound });
  if (bound >= costOf(cuttings, problem)) return { cuttings, bound };
  return fewerBars(problem, cuttings) ?? { cuttings, bound };
}

/** Where pieces were left over: all of them, else all but one; what is not known to be too much is not told as proven. */
function intoCounted(problem: Problem, found: Way): Way {
  const all = allIntoCounted(problem);
  if (all === 'unknown') return { ...found, bound: 0 };
  if (all !== 'none') return { ...found, cuttings: all };
  const missing = openOf(problem, found.cuttings).reduce((sum, n) => sum + n, 0);
  if (missing === 1) return found;
  for (const [i, n] of problem.times.entries()) {
    const fewer = allIntoCounted({ ...problem, times: problem.times.with(i, n - 1) });
    if (fewer === 'unknown') break;
    if (fewer !== 'none') return { ...found, cuttings: fewer };
  }
  return { ...found, bound: 0 };
}

/** Where one length of bar is bought and nothing else there is: whole bars, searched. */
function fewerBars({ sizes, times, kinds }: Problem, found: readonly Cutting[]): Way | undefined {
  const pieces = times.reduce((sum, n) => sum + n, 0);
  const [kind] = kinds;
  if (!kind || kinds.length > 1 || kind.count !== undefined || pieces > MOST_SEARCHED) return undefined;
  let best = found;
  let bars = found.reduce((sum, c) => sum + c.bars, 0);
  const least = leastBars(sizes, times, kind.room);
  let bound = least;
  while (bars > least) {
    const fewer = completed(sizes, times, kind.room, bars - 1);
    if (fewer === 'none') bound = bars;
    if (fewer === 'none' || fewer === 'unknown') break;
    best = fewer.map((pattern) => ({ kind: 0, pattern, bars: 1 }));
    bars = best.length;
  }
  return { cuttings: best, bound: bound * kind.cost };
}

async function solvedWay(problem: Problem, quick: Way, solve: Solver): Promise<Way> {
  const start: readonly Column[] = quick.cuttings.map(({ kind, pattern }) => ({ kind, pattern }));
  const every = everyColumn(problem);
  const rows = problem.sizes.length + problem.kinds.length;
  const grown = every ? undefined : await grownColumns(problem, start, solve);
  const columns = every ?? grown!.columns;
  const bound = Math.max(quick.bound, grown ? wholeUp(problem, grown.bound) : 0);
  const { optimal, cost, bars } = await solve(programOf(problem, columns, true), columns.length, rows).catch(() => ({
    optimal: false,
    cost: Number.POSITIVE_INFINITY,
    bars: [] as readonly number[],
  }));
  if (!optimal) return { ...quick, bound };
  const cuttings = cuttingsOf(problem, columns, bars);
  const better = costOf(cuttings, problem) <= costOf(quick.cuttings, problem);
  return { cuttings: better ? cuttings : quick.cuttings, bound: every ? cost : bound };
}

/** All maximal patterns of all kinds; undefined where they are too many. */
function everyColumn(problem: Problem): readonly Column[] | undefined {
  const columns: Column[] = [];
  for (const [kind, { room, most }] of problem.kinds.entries()) {
    if (most === 0) continue;
    const patterns = maximalPatterns(problem, room, MOST_PATTERNS - columns.length);
    if (!patterns) return undefined;
    for (const pattern of patterns) if (pattern.some((n) => n > 0)) columns.push({ kind, pattern });
  }
  return columns;
}

/** Where all bars cost the same, no cost lies between two whole counts. */
function wholeUp({ kinds }: Problem, bound: number): number {
  const cost = kinds[0]!.cost;
  const alike = cost > 0 && kinds.every((k) => k.cost === cost);
  return alike ? Math.ceil(bound / cost - SAME) * cost : bound;
}
