/** Curves and surfaces of a STEP file (ISO 10303-42), evaluated for the tests: points, directions, places on a surface. */
import type { Step } from './step-reader';

export type P3 = readonly [number, number, number];
export const plus = (a: P3, b: P3, s = 1): P3 => [a[0] + s * b[0], a[1] + s * b[1], a[2] + s * b[2]];
export const times = (a: P3, s: number): P3 => [a[0] * s, a[1] * s, a[2] * s];
export const inner = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
export const outer = (a: P3, b: P3): P3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const size = (a: P3): number => Math.hypot(...a);
export const unit = (a: P3): P3 => times(a, 1 / size(a));

export interface Axes {
  readonly o: P3;
  readonly x: P3;
  readonly y: P3;
  readonly z: P3;
}

/** A curve between two parameters, its direction with it. */
export interface Curve {
  at(t: number): P3;
  /** d/dt */
  along(t: number): P3;
  /** Parameters where it is less smooth: integration stops there. */
  readonly breaks: readonly number[];
}

/** An edge's curve from one vertex to the other; `forward`: the edge runs as the curve does. */
export function edgeCurve(
  step: Step,
  id: number,
  from: P3,
  to: P3,
  closed: boolean,
  forward: boolean,
): Curve & { readonly t0: number; readonly t1: number } {
  const { kind, args } = step.entity(id);
  switch (kind) {
    case 'LINE': {
      const o = step.point(args[1]);
      const [, direction, magnitude] = step.entityOf(args[2]).args;
      const d = times(unit(step.direction(direction)), magnitude as number);
      const t = (p: P3) => inner(plus(p, o, -1), d) / inner(d, d);
      return { at: (s) => plus(o, d, s), along: () => d, breaks: [], t0: t(from), t1: t(to) };
    }
    case 'CIRCLE':
    case 'ELLIPSE': {
      const axes = step.axes(args[1]);
      const a = args[2] as number;
      const b = (kind === 'CIRCLE' ? args[2] : args[3]) as number;
      const angle = (p: P3) => {
        const d = plus(p, axes.o, -1);
        return Math.atan2(inner(d, axes.y) / b, inner(d, axes.x) / a);
      };
      const t0 = angle(from);
      let t1 = angle(to);
      const turn = 2 * Math.PI;
      if (forward) {
        while (t1 <= t0 + 1e-12) t1 += turn;
        if (!closed && t1 - t0 > turn - 1e-9) t1 -= turn;
      } else while (t1 >= t0 - 1e-12) t1 -= turn;
      return {
        at: (t) => plus(plus(axes.o, axes.x, a * Math.cos(t)), axes.y, b * Math.sin(t)),
        along: (t) => plus(times(axes.x, -a * Math.sin(t)), axes.y, b * Math.cos(t)),
        breaks: [],
        t0,
        t1,
      };
    }
    case 'B_SPLINE_CURVE_WITH_KNOTS': {
      const spline = splineOf(step, args);
      const first = spline.breaks[0]!;
      const last = spline.breaks[spline.breaks.length - 1]!;
      const t0 = nearestParameter(spline, from, closed ? (forward ? first : last) : undefined);
      const t1 = nearestParameter(spline, to, closed ? (forward ? last : first) : undefined);
      return { ...spline, t0, t1 };
    }
    default:
      throw new Error(`a curve of kind ${kind}`);
  }
}

/** B_SPLINE_CURVE_WITH_KNOTS: name, degree, points, form, closed, self-intersecting, multiplicities, knots, type. */
function splineOf(step: Step, args: readonly unknown[]): Curve {
  const degree = args[1] as number;
  const poles = (args[2] as { ref: number }[]).map((p) => step.point(p));
  const counts = args[6] as number[];
  const values = args[7] as number[];
  const knots = values.flatMap((k, i) => new Array<number>(counts[i]!).fill(k));
  const value = (t: number, points: readonly P3[], k: number, u: readonly number[]): P3 => {
    // de Boor, in the span that holds t
    let span = k;
    while (span < points.length - 1 && t >= u[span + 1]!) span++;
    const d = Array.from({ length: k + 1 }, (_, j) => points[span - k + j]!);
    for (let r = 1; r <= k; r++)
      for (let j = k; j >= r; j--) {
        const i = span - k + j;
        const s = (t - u[i]!) / (u[i + k - r + 1]! - u[i]!);
        d[j] = plus(times(d[j - 1]!, 1 - s), d[j]!, s);
      }
    return d[k]!;
  };
  const slopes = poles
    .slice(1)
    .map((p, i) => times(plus(p, poles[i]!, -1), degree / (knots[i + degree + 1]! - knots[i + 1]!)));
  const inside = knots.slice(1, -1);
  return {
    at: (t) => value(t, poles, degree, knots),
    along: (t) => value(t, slopes, degree - 1, inside),
    breaks: values,
  };
}

function nearestParameter(curve: Curve, p: P3, given: number | undefined): number {
  if (given !== undefined) return given;
  let best = curve.breaks[0]!;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i + 1 < curve.breaks.length; i++)
    for (let k = 0; k <= 8; k++) {
      const t = curve.breaks[i]! + ((curve.breaks[i + 1]! - curve.breaks[i]!) * k) / 8;
      const d = size(plus(curve.at(t), p, -1));
      if (d < least) [best, least] = [t, d];
    }
  for (let n = 0; n < 20 && least > 1e-13; n++) {
    const slope = curve.along(best);
    const next = best - inner(plus(curve.at(best), p, -1), slope) / inner(slope, slope);
    best = Math.min(curve.breaks[curve.breaks.length - 1]!, Math.max(curve.breaks[0]!, next));
    least = Math.min(least, size(plus(curve.at(best), p, -1)));
  }
  return best;
}
