/**
 * A limit on how much work the questions to one solid may cost. Outlines that cross hundreds of others a thousand times
 * over (a pattern drawn a thousand times on itself) could keep an editor waiting for minutes; nobody makes such a part,
 * and a rougher answer, told as such, serves better. Counted in looks at an edge, not in time, so that the answer is
 * the same on every machine.
 */

export interface Budget {
  /** Looks at an edge that are left. */
  left: number;
  /** Questions answered roughly so far: the more there are, the less each may cost. */
  rough?: number;
}

class TooMuch extends Error {}

let granted = Number.POSITIVE_INFINITY;

/** Counts work done. Called by the innermost loops of the set operations. */
export function spend(looks: number): void {
  granted -= looks;
  if (granted < 0) throw new TooMuch('more work than a question may cost');
}

/** The answer of `work`, or of `otherwise` where the budget does not reach. What `work` costs is taken from the budget. */
export function within<T>(budget: Budget, work: () => T, otherwise: () => T): T {
  const outer = granted;
  const start = Math.min(outer, budget.left);
  granted = start;
  try {
    return work();
  } catch (failure) {
    if (!(failure instanceof TooMuch)) throw failure;
    return otherwise();
  } finally {
    const spent = start - granted;
    budget.left = Math.max(0, budget.left - spent);
    granted = Math.max(0, outer - spent);
  }
}
