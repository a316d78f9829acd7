/**
 * Flat shapes as signed distances, mm: negative inside. Arcs are chords no more than 0.002 mm off. The simulator's own;
 * nothing here comes from the geometry that it judges.
 */
import type { PathCorner, Shape } from '../../server/src/model/model';

export type Distance = (u: number, v: number) => number;
export interface Outline {
  readonly sd: Distance;
  readonly box: readonly [u0: number, v0: number, u1: number, v1: number];
  /** Where planes parallel to the axes stand. */
  readonly us: readonly number[];
  readonly vs: readonly number[];
  /** Centres of arcs and rounds: where a cutter as large as the round would stand. */
  readonly centres: readonly (readonly [number, number])[];
  /** Has walls that follow neither axis, arcs aside. */
  readonly slanted: boolean;
}
type P = readonly [number, number];

const SAGITTA_MM = 0.002;

export function circle(radius: number, cu = 0, cv = 0): Outline {
  return {
    sd: (u, v) => Math.hypot(u - cu, v - cv) - radius,
    box: [cu - radius, cv - radius, cu + radius, cv + radius],
    us: [],
    vs: [],
    centres: [[cu, cv]],
    slanted: false,
  };
}

export function rectangle(u0: number, v0: number, u1: number, v1: number, radius = 0): Outline {
  const [cu, cv, hu, hv] = [(u0 + u1) / 2, (v0 + v1) / 2, (u1 - u0) / 2, (v1 - v0) / 2];
  const r = Math.min(radius, hu, hv);
  return {
    sd: (u, v) => {
      const du = Math.abs(u - cu) - hu + r;
      const dv = Math.abs(v - cv) - hv + r;
      return Math.hypot(Math.max(du, 0), Math.max(dv, 0)) + Math.min(Math.max(du, dv), 0) - r;
    },
    box: [u0, v0, u1, v1],
    us: [u0, u1],
    vs: [v0, v1],
    centres: r > 0 ? [u0 + r, u1 - r].flatMap((u) => [v0 + r, v1 - r].map((v) => [u, v] as const)) : [],
    slanted: false,
  };
}

function turnedBy(o: Outline, deg: number): Outline {
  if (deg === 0) return o;
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  const [u0, v0, u1, v1] = o.box;
  const corners = [u0, u1].flatMap((u) => [v0, v1].map((v): P => [c * u - s * v, s * u + c * v]));
  return {
    sd: (u, v) => o.sd(c * u + s * v, -s * u + c * v),
    box: boxOf(corners),
    us: [],
    vs: [],
    centres: o.centres.map(([u, v]) => [c * u - s * v, s * u + c * v]),
    slanted: deg % 90 !== 0,
  };
}

export function shifted(o: Outline, du: number, dv: number): Outline {
  return {
    ...o,
    sd: (u, v) => o.sd(u - du, v - dv),
    box: [o.box[0] + du, o.box[1] + dv, o.box[2] + du, o.box[3] + dv],
    us: o.us.map((u) => u + du),
    vs: o.vs.map((v) => v + dv),
    centres: o.centres.map(([u, v]) => [u + du, v + dv]),
  };
}

export function ofShape(shape: Shape): Outline {
  switch (shape.type) {
    case 'circle':
      return circle(shape.diameter.mm / 2);
    case 'rectangle': {
      const [hu, hv] = [shape.u.mm / 2, shape.v.mm / 2];
      return turnedBy(rectangle(-hu, -hv, hu, hv, shape.cornerRadius.mm), shape.rotateDeg);
    }
    case 'path': {
      const { points, centres } = flattened(shape.corners, true);
      return { sd: polygon(points), ...facts(points, centres) };
    }
  }
}

/** A centre line made so thick. */
export function thick(corners: readonly PathCorner[], width: number): Outline {
  const { points, centres } = flattened(corners, false);
  const known = facts(points, centres);
  const half = width / 2;
  const [u0, v0, u1, v1] = known.box;
  const straight = points.length === 2 && !known.slanted;
  const walls = (at: readonly number[]) => (straight ? at.flatMap((x) => [x - half, x + half]) : []);
  return {
    sd: (u, v) => {
      let least = Number.POSITIVE_INFINITY;
      for (let i = 1; i < points.length; i++) least = Math.min(least, toSegment(u, v, points[i - 1]!, points[i]!));
      return Math.sqrt(least) - half;
    },
    box: [u0 - half, v0 - half, u1 + half, v1 + half],
    us: straight && u0 === u1 ? walls([u0]) : [],
    vs: straight && v0 === v1 ? walls([v0]) : [],
    centres: [...centres, ...corners.map((c): P => [c.u, c.v])],
    slanted: known.slanted,
  };
}

function facts(points: readonly P[], centres: readonly P[]): Omit<Outline, 'sd'> {
  let slanted = false;
  const us: number[] = [];
  const vs: number[] = [];
  points.forEach((a, i) => {
    const b = points[(i + 1) % points.length]!;
    const [du, dv] = [Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1])];
    if (du < 1e-9) us.push(a[0]);
    else if (dv < 1e-9) vs.push(a[1]);
    else if (Math.hypot(du, dv) > 1) slanted = true;
  });
  return { box: boxOf(points), us, vs, centres, slanted };
}

function boxOf(points: readonly P[]): readonly [number, number, number, number] {
  const us = points.map((p) => p[0]);
  const vs = points.map((p) => p[1]);
  return [Math.min(...us), Math.min(...vs), Math.max(...us), Math.max(...vs)];
}

function toSegment(u: number, v: number, a: P, b: P): number {
  const [du, dv] = [b[0] - a[0], b[1] - a[1]];
  const long = du * du + dv * dv;
  const t = long > 0 ? Math.max(0, Math.min(1, ((u - a[0]) * du + (v - a[1]) * dv) / long)) : 0;
  return (u - a[0] - t * du) ** 2 + (v - a[1] - t * dv) ** 2;
}

function polygon(points: readonly P[]): Distance {
  return (u, v) => {
    let least = Number.POSITIVE_INFINITY;
    let inside = false;
    for (let i = 0, j = points.length - 1; i < points.length; j = i++) {
      const [a, b] = [points[i]!, points[j]!];
      least = Math.min(least, toSegment(u, v, a, b));
      if (a[1] > v !== b[1] > v && u < ((b[0] - a[0]) * (v - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
    }
    return (inside ? -1 : 1) * Math.sqrt(least);
  };
}

/** Corners rounded, bevelled and joined by arcs, as points. A round beside an arc is left out. */
function flattened(corners: readonly PathCorner[], closed: boolean): { points: P[]; centres: P[] } {
  const points: P[] = [];
  const centres: P[] = [];
  const n = corners.length;
  corners.forEach((c, i) => {
    const before = closed || i > 0 ? corners[(i + n - 1) % n] : undefined;
    const after = closed || i < n - 1 ? corners[(i + 1) % n] : undefined;
    const p: P = [c.u, c.v];
    if (before && after && !before.arc && !c.arc && (c.round || c.bevel)) {
      const a = unit(p, [before.u, before.v]);
      const b = unit(p, [after.u, after.v]);
      if (c.bevel) points.push(along(p, a, c.bevel.mm), along(p, b, c.bevel.mm));
      else {
        const half = Math.acos(Math.max(-1, Math.min(1, a[0] * b[0] + a[1] * b[1]))) / 2;
        const r = c.round!.mm;
        const [from, to] = [along(p, a, r / Math.tan(half)), along(p, b, r / Math.tan(half))];
        const centre = along(p, unit([0, 0], [a[0] + b[0], a[1] + b[1]]), r / Math.sin(half));
        centres.push(centre);
        points.push(...sweep(centre, from, to, a[0] * b[1] - a[1] * b[0] < 0), to);
      }
    } else points.push(p);
    if (c.arc && after) {
      const q: P = [after.u, after.v];
      const m: P = [c.arc.u, c.arc.v];
      const centre = through(p, m, q);
      if (centre) {
        centres.push(centre);
        const turn = (m[0] - p[0]) * (q[1] - m[1]) - (m[1] - p[1]) * (q[0] - m[0]);
        points.push(...sweep(centre, p, q, turn > 0).slice(1));
      }
    }
  });
  return { points, centres };
}

function unit(a: P, b: P): P {
  const long = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
  return [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
}
function along(p: P, d: P, by: number): P {
  return [p[0] + d[0] * by, p[1] + d[1] * by];
}

/** Points of an arc from its start up to, not with, its end. */
function sweep(c: P, from: P, to: P, counterClockwise: boolean): P[] {
  const r = Math.hypot(from[0] - c[0], from[1] - c[1]);
  const a = Math.atan2(from[1] - c[1], from[0] - c[0]);
  let turn = Math.atan2(to[1] - c[1], to[0] - c[0]) - a;
  if (counterClockwise && turn <= 0) turn += 2 * Math.PI;
  if (!counterClockwise && turn >= 0) turn -= 2 * Math.PI;
  const step = 2 * Math.acos(Math.max(0.5, 1 - SAGITTA_MM / Math.max(r, 2 * SAGITTA_MM)));
  const count = Math.max(1, Math.ceil(Math.abs(turn) / step));
  return Array.from({ length: count }, (_, i): P => {
    const t = a + (turn * i) / count;
    return [c[0] + r * Math.cos(t), c[1] + r * Math.sin(t)];
  });
}

function through(a: P, b: P, c: P): P | undefined {
  const d = 2 * (a[0] * (b[1] - c[1]) + b[0] * (c[1] - a[1]) + c[0] * (a[1] - b[1]));
  if (Math.abs(d) < 1e-9) return undefined;
  const [sa, sb, sc] = [a, b, c].map((p) => p[0] * p[0] + p[1] * p[1]) as [number, number, number];
  return [
    (sa * (b[1] - c[1]) + sb * (c[1] - a[1]) + sc * (a[1] - b[1])) / d,
    (sa * (c[0] - b[0]) + sb * (a[0] - c[0]) + sc * (b[0] - a[0])) / d,
  ];
}
