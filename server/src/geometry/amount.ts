/**
 * How much volume a swept outline has, and how much of it is in the body and not in others: the one integral behind
 * every number of the solid. Sections are taken along the axis that makes them simplest, between the depths where
 * their make-up changes.
 */
import { boundaryOf } from './combine';
import { insetEdges, isSteady } from './inset';
import { type Moments, momentsOf, regionEdges, regionMoments } from './moments';
import { insetAt, type Prism } from './prism';
import { integrate } from './quadrature';
import { sectionOf, standing } from './section';
import type { Sheet } from './sheet';
import { stopsOf } from './stops';
import type { Vec3 } from './types';
import type { AxisIndex } from './vector';

export interface Amount {
  readonly volumeMm3: number;
  /** ∫x dV, ∫y dV, ∫z dV, mm⁴ */
  readonly first: Vec3;
  readonly exact: boolean;
}

export const NOTHING: Amount = { volumeMm3: 0, first: [0, 0, 0], exact: true };
/** Wanted error, as a part of the prism's own volume. */
const RELATIVE = 1e-6;
/** Cost of a prism whose sections are polygons standing for curves. */
const ROUGH = 1000;

/** Sum of two amounts, or their difference with `sign` −1: mm³ and mm⁴. */
export function plus(a: Amount, b: Amount, sign = 1): Amount {
  return {
    volumeMm3: a.volumeMm3 + sign * b.volumeMm3,
    first: [a.first[0] + sign * b.first[0], a.first[1] + sign * b.first[1], a.first[2] + sign * b.first[2]],
    exact: a.exact && b.exact,
  };
}

const wholes = new WeakMap<Prism, Amount>();

/** All of a prism, wherever it lies; kept. */
export function wholeOf(p: Prism): Amount {
  let made = wholes.get(p);
  if (!made) {
    made = measureWhole(p);
    wholes.set(p, made);
  }
  return made;
}

function measureWhole(p: Prism): Amount {
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
    const part = integrate(f, a, b, smooth, RELATIVE * Math.abs(f(a)[0]! * height) + 1e-12);
    exact = exact && part.converged;
    sums = sums.map((s, i) => s + part.values[i]!);
  }
  return place(sums[0]!, sums[1]!, sums[2]!, sums[3]!, exact);
}

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
 * `axis` gives the same answer; the best one gives it soonest and exactly.
 */
export function amountOf(
  within: readonly Prism[],
  without: readonly Prism[],
  axis: AxisIndex = bestAxis([...within, ...without]),
): Amount {
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  for (const p of within) {
    low = Math.max(low, p.bounds.min[axis]);
    high = Math.min(high, p.bounds.max[axis]);
  }
  if (!(high - low > 1e-12)) return NOTHING;
  const stops = stopsOf([...within, ...without], axis, low, high);
  const allowed = RELATIVE * (Math.abs(wholeOf(within[0]!).volumeMm3) + 1e-9);
  const sums: [number, number, number, number] = [0, 0, 0, 0];
  let exact = true;
  for (let n = 0; n + 1 < stops.length; n++) {
    const a = stops[n]!;
    const b = stops[n + 1]!;
    const bans = without.filter((p) => p.bounds.min[axis] < b - 1e-10 && p.bounds.max[axis] > a + 1e-10);
    const kind = sectionKind([...within, ...bans], axis);
    const cut = new Cutting(within, bans, axis);
    // polygons stand for curves here: more digits than they have are not asked for
    const rough = [...within, ...bans].some((p) => costOf(p, axis) >= ROUGH);
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
      const error = ((rough ? 1e3 : 1) * allowed * (b - a)) / (high - low);
      const part = integrate((x) => cut.at(x), a, b, kind === 'smooth', error, rough ? 3 : undefined);
      exact = exact && part.converged;
      for (let i = 0; i < 4; i++) sums[i]! += part.values[i]!;
    }
    exact = exact && cut.exact;
  }
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
    const inside = this.sheets(this.within, depth);
    const rect = inside[0]!.rect;
    const edges = boundaryOf(inside, this.sheets(this.without, depth));
    if (edges.length === 0) return [0, 0, 0, 0];
    const m = momentsOf(edges, (rect.u0 + rect.u1) / 2, (rect.v0 + rect.v1) / 2);
    return [m.area, m.mu, m.mv, m.area * depth];
  }

  private sheets(prisms: readonly Prism[], depth: number): Sheet[] {
    return prisms.map((p) => {
      const s = sectionOf(p, this.axis, depth);
      if (!s.exact) this.exact = false;
      return s.sheet;
    });
  }
}

/** The axis along which the sections are simplest and exact. */
export function bestAxis(prisms: readonly Prism[]): AxisIndex {
  let best: AxisIndex = 2;
  let least = Number.POSITIVE_INFINITY;
  for (const axis of [2, 0, 1] as const) {
    let cost = 0;
    for (const p of prisms) cost += costOf(p, axis);
    if (cost < least) {
      least = cost;
      best = axis;
    }
  }
  return best;
}

function costOf(p: Prism, axis: AxisIndex): number {
  const stands = standing(p, axis);
  const straight = p.profile.type === 'straight';
  if (stands === 'along') return straight ? 0 : 1;
  const arcs = hasArcs(p);
  if (stands === 'across') return straight ? (arcs ? 2 : 1) : isTurned(p) ? ROUGH : 50 * ROUGH;
  return straight && !arcs ? 4 : straight ? ROUGH : 50 * ROUGH;
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
  if ([u, v, w].some((d) => Math.max(Math.abs(d[0]), Math.abs(d[1]), Math.abs(d[2])) < 1 - 1e-12)) return false;
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
