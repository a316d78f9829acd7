/** Asked in millimetres, solved in whole thousandths, answered in millimetres. */
import { ROUNDING } from '../../tolerance';
import {
  type CutList,
  type CutListAsk,
  type Cutting,
  type Demand,
  type Problem,
  type SawnBar,
  THOUSANDTHS,
} from './types';

const whole = (mm: number) => Math.round(mm * THOUSANDTHS);

/** Pieces that no bar holds are left out of the problem, and told. */
export function problemOf({ pieces, bars, saw }: CutListAsk): {
  readonly problem: Problem;
  readonly tooLong: readonly Demand[];
} {
  const kerf = whole(saw.kerfMm);
  const rooms = bars.map((bar) => whole(bar.mm) + kerf - whole(saw.clampMm) - whole(saw.trimMm));
  const most = Math.max(0, ...rooms.filter((_, k) => bars[k]!.count !== 0));
  const wanted = new Map<number, number>();
  const tooLong: Demand[] = [];
  for (const { mm, times } of pieces) {
    const size = whole(mm) + kerf;
    if (times < 1) continue;
    if (size > most) tooLong.push({ mm, times });
    else wanted.set(size, (wanted.get(size) ?? 0) + times);
  }
  const sizes = [...wanted.keys()].sort((a, b) => b - a);
  const times = sizes.map((s) => wanted.get(s)!);
  const all = times.reduce((sum, n) => sum + n, 0);
  const kinds = bars.map((bar, k) => ({ ...bar, room: rooms[k]!, most: Math.min(bar.count ?? all, all) }));
  return { problem: { sizes, times, kinds }, tooLong };
}

function sawnBar({ kind, pattern, bars: n }: Cutting, { sizes }: Problem, { bars, saw }: CutListAsk): SawnBar {
  const bar = bars[kind]!;
  const kerf = whole(saw.kerfMm);
  const cuts = pattern.flatMap((n, i) => Array.from({ length: n }, () => sizes[i]!));
  const left = whole(bar.mm) - whole(saw.trimMm) - cuts.reduce((sum, size) => sum + size, 0);
  return {
    times: n,
    lengthMm: bar.mm,
    ...(bar.count !== undefined && { offcut: true }),
    cutsMm: cuts.map((size) => (size - kerf) / THOUSANDTHS),
    leftMm: Math.max(0, left) / THOUSANDTHS,
  };
}

/** What `cuttings` leave of the pieces that are asked for. */
export function openOf({ times }: Problem, cuttings: readonly Cutting[]): number[] {
  const open = [...times];
  for (const { pattern, bars } of cuttings) for (const [i, n] of pattern.entries()) open[i]! -= n * bars;
  return open;
}

export function costOf(cuttings: readonly Cutting[], { kinds }: Problem): number {
  return cuttings.reduce((sum, { kind, bars }) => sum + bars * kinds[kind]!.cost, 0);
}

/** The answer: bars alike stand together, those that are fullest first. `bound` as found; never more than the cost. */
export function listed(ask: CutListAsk, problem: Problem, cuttings: readonly Cutting[], bound: number): CutList {
  const cost = costOf(cuttings, problem);
  const proven = bound >= cost - ROUNDING * Math.max(1, cost);
  const kerf = whole(ask.saw.kerfMm);
  const unplaced = openOf(problem, cuttings).flatMap((times, i) =>
    times > 0 ? [{ mm: (problem.sizes[i]! - kerf) / THOUSANDTHS, times }] : [],
  );
  const bars = merged(cuttings)
    .map((cutting) => sawnBar(cutting, problem, ask))
    .sort(
      (a, b) =>
        b.lengthMm - a.lengthMm ||
        Number(b.offcut ?? 0) - Number(a.offcut ?? 0) ||
        a.leftMm - b.leftMm ||
        compareCuts(a.cutsMm, b.cutsMm),
    );
  return { bars, cost, bound: proven ? cost : bound, proven, unplaced };
}

function compareCuts(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < Math.max(a.length, b.length); i++) {
    const by = (b[i] ?? 0) - (a[i] ?? 0);
    if (by !== 0) return by;
  }
  return 0;
}

/** Bars cut alike become one entry. */
function merged(cuttings: readonly Cutting[]): readonly Cutting[] {
  const known = new Map<string, Cutting>();
  for (const cutting of cuttings) {
    const key = `${cutting.kind}:${cutting.pattern.join(',')}`;
    known.set(key, { ...cutting, bars: cutting.bars + (known.get(key)?.bars ?? 0) });
  }
  return [...known.values()].filter((c) => c.bars > 0 && c.pattern.some((n) => n > 0));
}
