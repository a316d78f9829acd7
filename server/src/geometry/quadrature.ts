/**
 * Integrals of several functions at once over one interval, to a wanted error. Gauss–Kronrod pairs; where the ends
 * behave like a square root (a cylinder's section growing from nothing) the variable is a sine, which smooths them.
 * Nodes and weights: Kronrod (1965), as tabulated in QUADPACK (Piessens et al. 1983); checked in the tests.
 */

/** Adds `f(x)·weight` to the sums. */
export type Integrand = (x: number) => readonly number[];

interface Rule {
  readonly nodes: readonly number[];
  readonly fine: readonly number[];
  /** 0 where the node is only in the finer rule. */
  readonly coarse: readonly number[];
}

const K7: Rule = {
  nodes: [0, 0.4342437493468026, 0.7745966692414834, 0.9604912687080202],
  fine: [0.4509165386584741, 0.4013974147759622, 0.2684880898683334, 0.1046562260264673],
  coarse: [8 / 9, 0, 5 / 9, 0],
};
const K15: Rule = {
  nodes: [
    0, 0.2077849550078985, 0.4058451513773972, 0.5860872354676911, 0.7415311855993943, 0.8648644233597691,
    0.9491079123427585, 0.9914553711208126,
  ],
  fine: [
    0.2094821410847278, 0.2044329400752989, 0.1903505780647854, 0.1690047266392679, 0.1406532597159259,
    0.1047900103222502, 0.0630920926299786, 0.0229353220105292,
  ],
  coarse: [0.4179591836734694, 0, 0.3818300505051189, 0, 0.2797053914892767, 0, 0.1294849661688697, 0],
};

export interface Integral {
  readonly values: readonly number[];
  /** False when the wanted error was not reached within the allowed number of intervals. */
  readonly converged: boolean;
}

/**
 * ∫ f over [a, b]. `smooth`: f is a polynomial or nearly (square-root ends otherwise). `allowed`: error of the first
 * value, absolute.
 */
export function integrate(f: Integrand, a: number, b: number, smooth: boolean, allowed: number): Integral {
  if (smooth) return refine(f, a, b, K7, allowed);
  const mid = (a + b) / 2;
  const half = (b - a) / 2;
  const g = (t: number) => {
    const scale = half * (Math.PI / 2) * Math.cos((Math.PI * t) / 2);
    return f(mid + half * Math.sin((Math.PI * t) / 2)).map((y) => y * scale);
  };
  return refine(g, -1, 1, K15, allowed);
}

/** No integral looks at more intervals than this: what has not settled by then is told as not converged. */
const MOST_INTERVALS = 48;

interface Interval {
  readonly a: number;
  readonly b: number;
  readonly values: readonly number[];
  readonly error: number;
}

/** Halves the interval of the greatest error until all together are within what is allowed. */
function refine(f: Integrand, a: number, b: number, rule: Rule, allowed: number): Integral {
  const intervals = [measure(f, a, b, rule)];
  for (;;) {
    const error = intervals.reduce((sum, i) => sum + i.error, 0);
    if (error <= allowed || intervals.length >= MOST_INTERVALS) {
      const values = intervals[0]!.values.map((_, i) => intervals.reduce((sum, part) => sum + part.values[i]!, 0));
      return { values, converged: error <= allowed };
    }
    let worst = 0;
    for (let n = 1; n < intervals.length; n++) if (intervals[n]!.error > intervals[worst]!.error) worst = n;
    const split = intervals[worst]!;
    const mid = (split.a + split.b) / 2;
    intervals.splice(worst, 1, measure(f, split.a, mid, rule), measure(f, mid, split.b, rule));
  }
}

function measure(f: Integrand, a: number, b: number, rule: Rule): Interval {
  const mid = (a + b) / 2;
  const half = (b - a) / 2;
  const sums: number[] = [];
  let coarse = 0;
  for (let n = 0; n < rule.nodes.length; n++) {
    const x = rule.nodes[n]! * half;
    for (const y of n === 0 ? [f(mid)] : [f(mid - x), f(mid + x)]) {
      for (let i = 0; i < y.length; i++) sums[i] = (sums[i] ?? 0) + y[i]! * rule.fine[n]! * half;
      coarse += y[0]! * rule.coarse[n]! * half;
    }
  }
  return { a, b, values: sums, error: Math.abs(sums[0]! - coarse) };
}
