/**
 * Where patterns are too many to list: they are found one after the other, each the one that would save most at the prices
 * so far. What the program with fractions comes to is a bound. Source: P. C. Gilmore and R. E. Gomory, "A linear programming
 * approach to the cutting-stock problem", Operations Research 9 (1961) and 11 (1963).
 */
import { worthMost } from './fullest';
import { type Column, countedKinds, programOf, type Solver } from './program';
import type { Problem } from './types';

/** Rounds, at most: each adds a pattern for each kind of bar that can save. */
const MOST_ROUNDS = 400;
/** A saving below this is rounding of the solver. */
const TINY = 1e-7;

interface Grown {
  readonly columns: readonly Column[];
  /** 0 where the rounds did not suffice. */
  readonly bound: number;
}

export async function grownColumns(problem: Problem, start: readonly Column[], solve: Solver): Promise<Grown> {
  const { sizes, times, kinds } = problem;
  const columns = [...start];
  const counted = countedKinds(problem);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const rows = sizes.length + counted.length;
    const { optimal, cost, prices } = await solve(programOf(problem, columns, false), columns.length, rows);
    if (!optimal) return { columns, bound: 0 };
    let [grew, sure] = [false, true];
    kinds.forEach((kind, k) => {
      const at = counted.indexOf(k);
      const rent = at < 0 ? 0 : prices[sizes.length + at]!;
      const worth = worthMost(sizes, times, kind.room, prices.slice(0, sizes.length));
      sure &&= worth.best;
      if (worth.value <= kind.cost - rent + TINY) return;
      columns.push({ kind: k, pattern: worth.pattern });
      grew = true;
    });
    if (!grew) return { columns, bound: sure ? cost : 0 };
  }
  return { columns, bound: 0 };
}
