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
 * value, absolute. `halvings`: how often the interval may be halved in all before what is there is taken.
 */
export function integrate(
  f: Integrand,
  a: number,
  b: number,
  smooth: boolean,
  allowed: number,
  halvings = 40,
): Integral {
  const purse = { halvings };
  if (smooth) return halve(f, a, b, K7, allowed, purse);
  const mid = (a + b) / 2;
  const half = (b - a) / 2;
  const g = (t: number) => {
    const scale = half * (Math.PI / 2) * Math.cos((Math.PI * t) / 2);
    return f(mid + half * Math.sin((Math.PI * t) / 2)).map((y) => y * scale);
  };
  return halve(g, -1, 1, K15, allowed, purse);
}

interface Purse {
  halvings: number;
}

function halve(f: Integrand, a: number, b: number, rule: Rule, allowed: number, purse: Purse): Integral {
  const mid = (a + b) / 2;
  const half = (b - a) / 2;
  const sums: number[] = [];
  let coarse = 0;
  const count = (y: readonly number[], n: number) => {
    const fine = rule.fine[n]! * half;
    for (let i = 0; i < y.length; i++) sums[i] = (sums[i] ?? 0) + y[i]! * fine;
    coarse += y[0]! * rule.coarse[n]! * half;
  };
  count(f(mid), 0);
  for (let n = 1; n < rule.nodes.length; n++) {
    const x = rule.nodes[n]! * half;
    count(f(mid - x), n);
    count(f(mid + x), n);
  }
  if (Math.abs(sums[0]! - coarse) <= allowed) return { values: sums, converged: true };
  if (purse.halvings <= 0 || half < 1e-9) return { values: sums, converged: false };
  purse.halvings--;
  const left = halve(f, a, mid, rule, allowed / 2, purse);
  const right = halve(f, mid, b, rule, allowed / 2, purse);
  return {
    values: left.values.map((y, i) => y + right.values[i]!),
    converged: left.converged && right.converged,
  };
}
