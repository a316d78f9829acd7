/**
 * A good cut list at once: offcuts on the rack are filled as full as they go, the rest goes longest first into the first
 * bar that has room, or fills bar after bar, and each bar is changed for the cheapest that holds what is in it. Bars alike are kept as one entry, so
 * that a million pieces take no longer than ten.
 */
import { fullest } from './fullest';
import { costOf, openOf } from './problem';
import type { Cutting, Kind, Pattern, Problem } from './types';

/** Bars that are cut alike. */
interface Alike {
  readonly pattern: readonly number[];
  readonly leftMm: number;
  readonly bars: number;
}

/** The cheapest of a few ways; pieces that find no bar are left out. */
export function firstFit(problem: Problem): readonly Cutting[] {
  const { kinds } = problem;
  const stocked = kinds.flatMap((k, i) => (k.count !== undefined ? [i] : []));
  const bought = kinds.flatMap((k, i) => (k.count === undefined ? [i] : []));
  const offcuts = [[], fromRack(problem, stocked)];
  const ways = offcuts.flatMap((first) => {
    const open = openOf(problem, first);
    if (bought.length === 0) return [first];
    return bought.flatMap((kind) =>
      [intoBars(problem, open, kind), filled(problem, open, { ...kinds[kind]!, at: kind })].map((way) => [
        ...first,
        ...inShorter(problem, bought, way),
      ]),
    );
  });
  const missing = (way: readonly Cutting[]) => openOf(problem, way).reduce((sum, n) => sum + n, 0);
  return ways.reduce((best, way) => {
    const less = missing(way) - missing(best) || costOf(way, problem) - costOf(best, problem);
    return less < 0 ? way : best;
  });
}

/** The shortest bars first: each as full as the pieces that are still asked for make it. */
function fromRack(problem: Problem, stocked: readonly number[]): readonly Cutting[] {
  const { sizes, kinds, times } = problem;
  const open = [...times];
  return [...stocked]
    .sort((a, b) => kinds[a]!.room - kinds[b]!.room)
    .flatMap((at) => {
      const cuttings = filled({ sizes }, open, { ...kinds[at]!, at });
      for (const { pattern, bars } of cuttings) for (const [i, k] of pattern.entries()) open[i]! -= k * bars;
      return cuttings;
    });
}

/** Bar after bar as full as the open pieces make it, and as many alike as they suffice for. */
function filled(
  { sizes }: Pick<Problem, 'sizes'>,
  asked: readonly number[],
  { at, room, most }: Kind & { readonly at: number },
): readonly Cutting[] {
  const open = [...asked];
  const cuttings: Cutting[] = [];
  for (let rest = most; rest > 0; ) {
    const pattern = fullest(sizes, open, room);
    if (pattern.every((k) => k === 0)) break;
    const bars = Math.min(rest, ...pattern.map((k, i) => (k > 0 ? Math.floor(open[i]! / k) : rest)));
    for (const [i, k] of pattern.entries()) open[i]! -= k * bars;
    cuttings.push({ kind: at, pattern, bars });
    rest -= bars;
  }
  return cuttings;
}

function intoBars({ sizes, kinds }: Problem, open: readonly number[], kind: number): readonly Cutting[] {
  const { room } = kinds[kind]!;
  const empty = sizes.map(() => 0);
  let bars: Alike[] = [];
  sizes.forEach((size, i) => {
    if (size > room) return;
    let rest = open[i]!;
    const after: Alike[] = [];
    const cut = (from: Alike): number => {
      const most = Math.floor(from.leftMm / size);
      const full = most === 0 ? 0 : Math.min(from.bars, Math.floor(rest / most));
      const some = most > 0 && full < from.bars ? rest - full * most : 0;
      const cutAs = (n: number, bars: number) => {
        const pattern = from.pattern.map((k, j) => (j === i ? k + n : k));
        after.push({ pattern, leftMm: from.leftMm - n * size, bars });
      };
      if (full > 0) cutAs(most, full);
      if (some > 0) cutAs(some, 1);
      rest -= full * most + some;
      return from.bars - full - (some > 0 ? 1 : 0);
    };
    for (const bar of bars) {
      const untouched = cut(bar);
      if (untouched > 0) after.push({ ...bar, bars: untouched });
    }
    if (rest > 0) cut({ pattern: empty, leftMm: room, bars: rest });
    bars = after;
  });
  return bars.map(({ pattern, bars: n }) => ({ kind, pattern, bars: n }));
}

/** Each bar as the cheapest that holds what is in it; and what is in the one least filled may go into several shorter ones. */
function inShorter(problem: Problem, bought: readonly number[], way: readonly Cutting[]): readonly Cutting[] {
  const cut = way.map((c) => cheaper(problem, bought, c)).sort((a, b) => free(problem, a) - free(problem, b));
  const last = cut.at(-1);
  if (!last) return cut;
  const apart = bought
    .map((kind) => intoBars(problem, last.pattern, kind).map((c) => cheaper(problem, bought, c)))
    .filter((some) => openOf({ ...problem, times: last.pattern }, some).every((n) => n === 0))
    .reduce((best, some) => (costOf(some, problem) < costOf(best, problem) ? some : best), [{ ...last, bars: 1 }]);
  return [...cut.slice(0, -1), { ...last, bars: last.bars - 1 }, ...apart];
}

function free({ sizes, kinds }: Problem, { kind, pattern }: Cutting): number {
  return kinds[kind]!.room - loadOf(sizes, pattern);
}

function cheaper({ sizes, kinds }: Problem, bought: readonly number[], cutting: Cutting): Cutting {
  const load = loadOf(sizes, cutting.pattern);
  const kind = bought.reduce(
    (best, k) => (kinds[k]!.room >= load && kinds[k]!.cost < kinds[best]!.cost ? k : best),
    cutting.kind,
  );
  return { ...cutting, kind };
}

function loadOf(sizes: readonly number[], pattern: Pattern): number {
  return pattern.reduce((sum, n, i) => sum + n * sizes[i]!, 0);
}
