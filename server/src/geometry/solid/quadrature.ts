/**
 * Integrals of several functions at once over one interval, to a wanted error. Gauss–Kronrod pairs; where the ends
 * behave like a square root (a cylinder's section growing from nothing) the variable is a sine, which smooths them.
 * Nodes and weights: Kronrod (1965), as tabulated in QUADPACK (Piessens et al. 1983); checked in the tests.
 */
import { ROUNDING } from '../../tolerance';

/** Adds `f(x)·weight` to the sums. */
type Integrand = (x: number) => readonly number[];

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

interface Integral {
  readonly values: readonly number[];
  /** False when the wanted error was not reached within the allowed number of intervals. */
  readonly converged: boolean;
}

/** An interval and what is summed over it. `smooth`: a polynomial or nearly; else its ends may be like a square root. */
export interface Task {
  readonly f: Integrand;
  readonly a: number;
  readonly b: number;
  readonly smooth: boolean;
}

/** ∫ f over [a, b], as `integrateAll`. */
export function integrate(f: Integrand, a: number, b: number, smooth: boolean, allowed: number): Integral {
  return integrateAll([{ f, a, b, smooth }], allowed);
}

/**
 * The integrals over several intervals together. `allowed`: error of the first value, absolute; wherever most of it
 * lies an interval is halved. `halvings`: how often in all, for each interval, before what is there is taken.
 */
export function integrateAll(tasks: readonly Task[], allowed: number, halvings = 60): Integral {
  const all = tasks.map((t) => (t.smooth ? stretch(t.f, t.a, t.b, K7) : stretch(rooted(t), -1, 1, K15)));
  let error = all.reduce((sum, s) => sum + s.error, 0);
  for (let left = halvings * tasks.length; error > allowed && left > 0; left--) {
    let worst = 0;
    for (let n = 1; n < all.length; n++) if (all[n]!.error > all[worst]!.error) worst = n;
    const { f, a, b, rule } = all[worst]!;
    if (b - a < ROUNDING) break;
    const mid = (a + b) / 2;
    all.splice(worst, 1, stretch(f, a, mid, rule), stretch(f, mid, b, rule));
    error = all.reduce((sum, s) => sum + s.error, 0);
  }
  return {
    values: all[0] ? all[0].values.map((_, i) => all.reduce((sum, s) => sum + s.values[i]!, 0)) : [],
    converged: error <= allowed,
  };
}

/** The variable is a sine between −1 and 1, which takes the roots out of both ends. */
function rooted({ f, a, b }: Task): Integrand {
  const mid = (a + b) / 2;
  const half = (b - a) / 2;
  return (t) => {
    const scale = half * (Math.PI / 2) * Math.cos((Math.PI * t) / 2);
    return f(mid + half * Math.sin((Math.PI * t) / 2)).map((y) => y * scale);
  };
}

interface Stretch {
  readonly f: Integrand;
  readonly a: number;
  readonly b: number;
  readonly rule: Rule;
  readonly values: readonly number[];
  readonly error: number;
}

function stretch(f: Integrand, a: number, b: number, rule: Rule): Stretch {
  const mid = (a + b) / 2;
  const half = (b - a) / 2;
  const sums: number[] = [];
  let coarse = 0;
  const seen: [y: number, weight: number][] = [];
  const count = (y: readonly number[], n: number) => {
    const fine = rule.fine[n]! * half;
    for (let i = 0; i < y.length; i++) sums[i] = (sums[i] ?? 0) + y[i]! * fine;
    coarse += y[0]! * rule.coarse[n]! * half;
    seen.push([y[0]!, fine]);
  };
  count(f(mid), 0);
  for (let n = 1; n < rule.nodes.length; n++) {
    const x = rule.nodes[n]! * half;
    count(f(mid - x), n);
    count(f(mid + x), n);
  }
  const error = Math.abs(sums[0]! - coarse);
  if (rule === K7) return { f, a, b, rule, values: sums, error };
  // what the finer rule itself is off by, as QUADPACK judges it from how much the values vary
  const mean = sums[0]! / (b - a);
  const varies = seen.reduce((sum, [y, weight]) => sum + Math.abs(y - mean) * Math.abs(weight), 0);
  const own = varies > 0 ? varies * Math.min(1, ((200 * error) / varies) ** 1.5) : error;
  return { f, a, b, rule, values: sums, error: own };
}
