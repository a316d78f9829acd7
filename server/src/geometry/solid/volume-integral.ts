/**
 * How much volume a swept outline has, and how much of it is in the body and not in others: the one integral behind
 * every number of the solid. Sections are taken along the axis that makes them simplest, between the depths where
 * their make-up changes.
 */

import { memo } from '../../memo';
import { DIGITS, ROUNDING } from '../../tolerance';
import { boundaryOf } from '../2d/boolean';
import type { Sheet } from '../2d/indexed-region';
import { type Moments, momentsOf, regionEdges, regionMoments } from '../2d/moments';
import { insetEdges, isSteady } from '../2d/offset';
import type { Vec3 } from '../types';
import { type AxisIndex, dot } from '../vector';
import { insetAt, type Prism } from './prism';
import { integrate, integrateAll, type Task } from './quadrature';
import { sectionOf, standing } from './section';
import { stopsOf } from './stops';
import { inTurn, turnedBack } from './turn';

export interface Amount {
  readonly volumeMm3: number;
  /** ∫x dV, ∫y dV, ∫z dV, mm⁴ */
  readonly first: Vec3;
  readonly exact: boolean;
}

export const NOTHING: Amount = { volumeMm3: 0, first: [0, 0, 0], exact: true };
/** Wanted error, as a part of the prism's own volume. */
const RELATIVE = 1e-6;
/** Cost of sections that are chains of many arcs: of a curve or two, of a whole moved outline. */
const CURVED = 30;
const FLANKED = 100;
/** A section whose boundary is open by more than this, mm, is looked at again a hair beside. */
const OPEN = 1e-5;
const NUDGE = 3e-7;

/** Sum of two amounts, or their difference with `sign` −1: mm³ and mm⁴. */
export function plus(a: Amount, b: Amount, sign = 1): Amount {
  return {
    volumeMm3: a.volumeMm3 + sign * b.volumeMm3,
    first: [a.first[0] + sign * b.first[0], a.first[1] + sign * b.first[1], a.first[2] + sign * b.first[2]],
    exact: a.exact && b.exact,
  };
}

/** All of a prism, wherever it lies. */
export const wholeOf = memo((p: Prism): Amount => {
  const height = p.to - p.from;
  if (!(height > 0)) return NOTHING;
  const { frame } = p;
  const place = (area: number, mu: number, mv: number, mw: number, exact: boolean): Amount => ({
    volumeMm3: area,
    first: [0, 1, 2].map((a) => {
      const i = a as AxisIndex;
      return area * frame.origin[i] + mu * frame.u[i] + mv * frame.v[i] + mw * frame.w[i];
    }) as unknown as Vec3,
    exact,
  });
  if (p.profile.type === 'straight') {
    const m = regionMoments(p.region);
    return place(m.area * height, m.mu * height, m.mv * height, (m.area * (p.to ** 2 - p.from ** 2)) / 2, true);
  }
  const at = insetMoments(p);
  let exact = at.exact;
  let sums = [0, 0, 0, 0];
  const stop = p.profile.type === 'floor' ? Math.max(p.from, p.to - p.profile.radius) : p.from;
  for (const [a, b, smooth] of [
    [p.from, stop, true],
    [stop, p.to, p.profile.type === 'taper'],
  ] as const) {
    if (b <= a) continue;
    const f = (w: number) => {
      const m = at.moments(insetAt(p, w));
      return [m.area, m.mu, m.mv, m.area * w];
    };
    const part = integrate(f, a, b, smooth, RELATIVE * Math.abs(f(a)[0]! * height) + DIGITS);
    exact = exact && part.converged;
    sums = sums.map((s, i) => s + part.values[i]!);
  }
  return place(sums[0]!, sums[1]!, sums[2]!, sums[3]!, exact);
});

/**
 * Area and moments of the region as a function of its inset. As long as no edge vanishes or appears they are
 * polynomials (area quadratic, moments cubic), so four insets tell all of them.
 */
function insetMoments(p: Prism): { moments: (inset: number) => Moments; exact: boolean } {
  const a = insetAt(p, p.from);
  const b = insetAt(p, p.to);
  let exact = true;
  const measured = (inset: number): Moments => {
    const edges = insetEdges(p.region, inset);
    if (!edges) exact = false;
    return momentsOf(edges ?? regionEdges(p.region));
  };
  if (a !== b && (isTurned(p) || isSteady(p.region, a, b))) {
    const nodes = [0, 1, 2, 3].map((n) => a + ((b - a) * n) / 3);
    const known = nodes.map(measured);
    return {
      exact: true,
      moments: (inset) => {
        let area = 0;
        let mu = 0;
        let mv = 0;
        for (let n = 0; n < 4; n++) {
          let weight = 1;
          for (let k = 0; k < 4; k++) if (k !== n) weight *= (inset - nodes[k]!) / (nodes[n]! - nodes[k]!);
          area += weight * known[n]!.area;
          mu += weight * known[n]!.mu;
          mv += weight * known[n]!.mv;
        }
        return { area, mu, mv };
      },
    };
  }
  [a, (a + b) / 2, b].forEach(measured);
  return { moments: measured, exact };
}

/**
 * The volume inside every one of `within` and outside all of `without`. The first of `within` sets the scale. Every
 * direction gives the same answer; the best one, a part axis or along a leaning volume, gives it soonest.
 */
export function amountOf(within: readonly Prism[], without: readonly Prism[]): Amount {
  const all = [...within, ...without];
  const axis = bestAxis(all);
  const lean = bestLean(all, totalCost(all, axis));
  if (!lean) return amountAlong(within, without, axis);
  const turned = (p: Prism) => inTurn(p, lean);
  const { volumeMm3, first, exact } = amountAlong(within.map(turned), without.map(turned), 2);
  return { volumeMm3, first: turnedBack(first, lean), exact };
}

/** The same, cut across the axis told. */
export function amountAlong(within: readonly Prism[], without: readonly Prism[], axis: AxisIndex): Amount {
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (const p of within) {
    low = Math.max(low, p.bounds.min[axis]);
    high = Math.min(high, p.bounds.max[axis]);
  }
  if (!(high - low > DIGITS)) return NOTHING;
  const stops = stopsOf([...within, ...without], axis, low, high);
  const allowed = RELATIVE * (Math.abs(wholeOf(within[0]!).volumeMm3) + ROUNDING);
  const sums: [number, number, number, number] = [0, 0, 0, 0];
  const tasks: Task[] = [];
  const cuts: Cutting[] = [];
  for (let n = 0; n + 1 < stops.length; n++) {
    const a = stops[n]!;
    const b = stops[n + 1]!;
    const bans = without.filter((p) => p.bounds.min[axis] < b - 1e-10 && p.bounds.max[axis] > a + 1e-10);
    const kind = sectionKind([...within, ...bans], axis);
    const cut = new Cutting(within, bans, axis);
    if (kind === 'constant') {
      const y = cut.at((a + b) / 2);
      for (let i = 0; i < 4; i++) sums[i]! += y[i]! * (b - a);
    } else if (kind === 'polynomial') {
      // area quadratic, moments cubic: two Gauss points are exact
      for (const side of [-1, 1]) {
        const y = cut.at((a + b) / 2 + (side * (b - a)) / 2 / Math.sqrt(3));
        for (let i = 0; i < 4; i++) sums[i]! += (y[i]! * (b - a)) / 2;
      }
    } else {
      tasks.push({ f: (x) => cut.at(x), a, b, smooth: kind === 'smooth' });
    }
    cuts.push(cut);
  }
  const rest = integrateAll(tasks, allowed);
  rest.values.forEach((y, i) => {
    sums[i]! += y;
  });
  const exact = rest.converged && cuts.every((c) => c.exact);
  const first: [number, number, number] = [0, 0, 0];
  first[axis] = sums[3];
  first[(axis + 1) % 3] = sums[1];
  first[(axis + 2) % 3] = sums[2];
  return { volumeMm3: Math.max(0, sums[0]), first, exact };
}

/** Sections of several prisms at one depth after another: area and moments of what is inside some and outside others. */
class Cutting {
  exact = true;

  constructor(
    private readonly within: readonly Prism[],
    private readonly without: readonly Prism[],
    private readonly axis: AxisIndex,
  ) {}

  at(depth: number): readonly number[] {
    const seen = this.look(depth, depth) ?? this.look(depth + NUDGE, depth) ?? this.look(depth - NUDGE, depth);
    if (seen) return seen;
    this.exact = false;
    return [0, 0, 0, 0];
  }

  /** At one depth, told as at another; undefined where the boundary did not come out closed. */
  private look(depth: number, told: number): readonly number[] | undefined {
    const inside = this.sheets(this.within, depth);
    const { rect } = inside[0]!;
    const edges = boundaryOf(inside, this.sheets(this.without, depth));
    if (edges.length === 0) return [0, 0, 0, 0];
    let du = 0;
    let dv = 0;
    for (const { a, b } of edges) {
      du += b.u - a.u;
      dv += b.v - a.v;
    }
    if (Math.abs(du) + Math.abs(dv) > OPEN) return undefined;
    const m = momentsOf(edges, (rect.u0 + rect.u1) / 2, (rect.v0 + rect.v1) / 2);
    if (m.area < -OPEN || m.area > (rect.u1 - rect.u0) * (rect.v1 - rect.v0) + OPEN) return undefined;
    return [m.area, m.mu, m.mv, m.area * told];
  }

  private sheets(prisms: readonly Prism[], depth: number): Sheet[] {
    return prisms.map((p) => {
      const s = sectionOf(p, this.axis, depth);
      if (!s.exact) this.exact = false;
      return s.sheet;
    });
  }
}

/** The axis along which the sections are simplest. */
export function bestAxis(prisms: readonly Prism[]): AxisIndex {
  let best: AxisIndex = 2;
  let least = Number.POSITIVE_INFINITY;
  for (const axis of [2, 0, 1] as const) {
    const cost = totalCost(prisms, axis);
    if (cost < least) {
      least = cost;
      best = axis;
    }
  }
  return best;
}

function totalCost(prisms: readonly Prism[], axis: AxisIndex): number {
  let cost = 0;
  for (const p of prisms) cost += costOf(p, Math.abs(p.frame.w[axis]));
  return cost;
}

/** The sweep of a leaning volume, where sections across it cost less than those across any axis. */
function bestLean(prisms: readonly Prism[], least: number): Vec3 | undefined {
  if (least < CURVED) return undefined;
  let best: Vec3 | undefined;
  const tried: Vec3[] = [];
  for (const { frame } of prisms) {
    const { w } = frame;
    if (Math.max(Math.abs(w[0]), Math.abs(w[1]), Math.abs(w[2])) > 1 - DIGITS) continue;
    if (tried.some((d) => Math.abs(dot(d, w)) > 1 - DIGITS)) continue;
    tried.push(w);
    const cost = prisms.reduce((sum, p) => sum + costOf(p, Math.abs(dot(p.frame.w, w))), 0);
    if (cost < least) {
      least = cost;
      best = w;
    }
  }
  return best;
}

/** What a section costs, by the cosine of its sweep to the direction cut across. */
function costOf(p: Prism, cosine: number): number {
  const straight = p.profile.type === 'straight';
  if (cosine > 1 - DIGITS) return straight ? 0 : 1;
  if (!straight) return isTurned(p) ? CURVED : FLANKED;
  const arcs = hasArcs(p);
  if (cosine < DIGITS) return arcs ? 2 : 1;
  return arcs ? CURVED : 4;
}

/** A cone or a bowl: its section off the axis is one polygon. */
function isTurned(p: Prism): boolean {
  return p.region.outer.edges.length === 1 && p.region.holes.length === 0;
}

function hasArcs(p: Prism): boolean {
  return (
    p.region.outer.edges.some((e) => e.type === 'arc') ||
    p.region.holes.some((h) => h.edges.some((e) => e.type === 'arc'))
  );
}

/** Every side of its section runs along one of the section's two axes. */
function isSquare(p: Prism, axis: AxisIndex): boolean {
  const { u, v, w } = p.frame;
  if ([u, v, w].some((d) => Math.max(Math.abs(d[0]), Math.abs(d[1]), Math.abs(d[2])) < 1 - DIGITS)) return false;
  if (standing(p, axis) !== 'along') return true;
  return regionEdges(p.region).every((e) => e.type === 'line' && (e.a.u === e.b.u || e.a.v === e.b.v));
}

/**
 * How the common section changes between two stops: not at all; as a polynomial (rectangles whose sides move steadily);
 * smoothly, perhaps with a bend where a moving corner passes a slanting side; or with ends like a square root.
 */
function sectionKind(prisms: readonly Prism[], axis: AxisIndex): 'constant' | 'polynomial' | 'smooth' | 'roots' {
  let kind: 'constant' | 'polynomial' | 'smooth' = 'constant';
  let square = true;
  for (const p of prisms) {
    const stands = standing(p, axis);
    const curved = hasArcs(p);
    square &&= isSquare(p, axis);
    if (stands === 'along' && p.profile.type === 'straight') continue;
    if (stands !== 'along' && curved) return 'roots';
    if (p.profile.type === 'floor' || p.profile.type === 'round') return 'roots';
    if (stands === 'across' && p.profile.type === 'straight') kind = kind === 'constant' ? 'polynomial' : kind;
    else kind = 'smooth';
  }
  return kind === 'polynomial' && !square ? 'smooth' : kind;
}
