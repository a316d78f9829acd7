/**
 * One way for every fuzzer to be seeded and to be bounded. In the suite each draws a small share, always the same; a
 * longer run is asked for by `FUZZ_RUNS` (how many times that share), other draws by `FUZZ_SEED`, the smallest failing
 * case by `FUZZ_SHRINK=1`.
 */

const TIMES = positive('FUZZ_RUNS', 1);
const SHIFT = positive('FUZZ_SEED', 0);

/** How many draws: the share that belongs in the suite, times `FUZZ_RUNS`. */
export function runs(share: number): number {
  return Math.ceil(share * TIMES);
}

/** Of examples that are much alike only some in the suite, the last among them; all in a longer run. */
export function someOf<T>(all: readonly T[], most: number): readonly T[] {
  const every = TIMES > 1 ? 1 : Math.ceil(all.length / most);
  return all.filter((_, i) => (all.length - 1 - i) % every === 0);
}

/** For `fc.assert`: a seed of the test's own, and its share of draws. Shrinking costs many runs, so it must be asked for. */
export function draws(seed: number, share: number): { seed: number; numRuns: number; endOnFailure: boolean } {
  return { seed: seed + SHIFT, numRuns: runs(share), endOnFailure: !process.env.FUZZ_SHRINK };
}

/** For a mocha timeout: what the suite's share may take at most, times `FUZZ_RUNS`. */
export function patience(ms: number): number {
  return ms * Math.max(1, TIMES);
}

export interface Random {
  /** From 0 up to 1. */
  next(): number;
  /** A whole number from 0 up to `below`. */
  below(count: number): number;
  pick<T>(of: readonly T[]): T;
}

/** Numbers that are the same for the same seed, for loops in which each step depends on the one before. */
export function random(seed: number): Random {
  // Mulberry32: 32 bits of state, good enough to choose test cases.
  let state = (seed + SHIFT) >>> 0;
  const next = () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  const below = (count: number) => Math.floor(next() * count);
  return { next, below, pick: (of) => of[below(of.length)]! };
}

function positive(name: string, otherwise: number): number {
  const value = Number(process.env[name] || otherwise);
  if (!(value >= 0)) throw new Error(`${name} is a number, not ${process.env[name]}`);
  return value;
}
