/**
 * Least distance between two convex bodies that are known only by how far they reach in any direction (Gilbert, Johnson
 * and Keerthi, 1988): the point of their difference nearest to the origin, closed in on by points, lines, triangles and
 * tetrahedra. Round bodies are exact: their reach is worked out, not a mesh of them.
 */
import { heed } from '../../effort';
import type { Vec3 } from '../types';
import { cross, dot, length, mix, sub } from '../vector';

export interface Convex {
  /** The body's point furthest along a direction (of any length but 0). */
  support(direction: Vec3): Vec3;
  /** Some point of the body, best near its middle. */
  readonly middle: Vec3;
}

export interface Between {
  /** 0 where they share a point. */
  readonly mm: number;
  readonly p: Vec3;
  readonly q: Vec3;
}

interface Corner {
  readonly x: Vec3;
  readonly p: Vec3;
  readonly q: Vec3;
}

/** Relative gap between the distance found and its lower bound at which it counts as found. */
const CLOSE = 1e-13;
const ROUNDS = 256;

/**
 * Least distance between two convex bodies, mm, to about 1e-9 of their size. `enough`: stops as soon as it is certain that they are farther apart.
 */
export function convexApart(a: Convex, b: Convex, enough = Number.POSITIVE_INFINITY): Between {
  heed(20);
  let way = sub(a.middle, b.middle);
  if (dot(way, way) < 1e-24) way = [1, 0, 0];
  let corners: Corner[] = [];
  let best: Between = { mm: Number.POSITIVE_INFINITY, p: a.middle, q: b.middle };
  for (let round = 0; round < ROUNDS; round++) {
    const p = a.support([-way[0], -way[1], -way[2]]);
    const q = b.support(way);
    const x = sub(p, q);
    if (round > 0) {
      const mm = length(way);
      const bound = dot(way, x) / mm;
      if (bound > enough || mm - bound <= CLOSE * (mm + 1)) break;
      if (corners.some((c) => c.x[0] === x[0] && c.x[1] === x[1] && c.x[2] === x[2])) break;
    }
    const nearest = nearestOf([...corners, { x, p, q }]);
    if (!nearest) return { mm: 0, p: best.p, q: best.p };
    const mm = length(nearest.x);
    if (mm >= best.mm) break;
    best = { mm, p: nearest.p, q: nearest.q };
    if (mm < 1e-10) return { ...best, mm: 0 };
    corners = nearest.corners;
    way = nearest.x;
  }
  return best;
}

interface Spot extends Corner {
  readonly corners: Corner[];
}

const spot = (corners: Corner[], x: Vec3, p: Vec3, q: Vec3): Spot => ({ corners, x, p, q });

/** The point of a simplex nearest to the origin and the corners it hangs on; undefined when the origin is inside. */
function nearestOf(c: readonly Corner[]): Spot | undefined {
  if (c.length === 1) return spot([c[0]!], c[0]!.x, c[0]!.p, c[0]!.q);
  if (c.length === 2) return onLine(c[0]!, c[1]!);
  if (c.length === 3) return onTriangle(c[0]!, c[1]!, c[2]!);
  return inTetrahedron(c[0]!, c[1]!, c[2]!, c[3]!);
}

function onLine(a: Corner, b: Corner): Spot {
  const ab = sub(b.x, a.x);
  const long = dot(ab, ab);
  const t = long > 0 ? -dot(a.x, ab) / long : 0;
  if (t <= 0) return spot([a], a.x, a.p, a.q);
  if (t >= 1) return spot([b], b.x, b.p, b.q);
  return spot([a, b], mix(a.x, b.x, t), mix(a.p, b.p, t), mix(a.q, b.q, t));
}

const less = (a: Spot, b: Spot): Spot => (dot(b.x, b.x) < dot(a.x, a.x) ? b : a);

/** n · (x × y) */
function triple(n: Vec3, x: Vec3, y: Vec3): number {
  return n[0] * (x[1] * y[2] - x[2] * y[1]) + n[1] * (x[2] * y[0] - x[0] * y[2]) + n[2] * (x[0] * y[1] - x[1] * y[0]);
}

function blend(x: Vec3, y: Vec3, z: Vec3, [sx, sy, sz]: Vec3): Vec3 {
  return [x[0] * sx + y[0] * sy + z[0] * sz, x[1] * sx + y[1] * sy + z[1] * sz, x[2] * sx + y[2] * sy + z[2] * sz];
}

/** `c` is the newest corner: the side a–b was already left behind. */
function onTriangle(a: Corner, b: Corner, c: Corner): Spot {
  const n = cross(sub(b.x, a.x), sub(c.x, a.x));
  const area = dot(n, n);
  if (area > 1e-30) {
    // Shares of the corners in the foot of the perpendicular from the origin: areas of the three part triangles.
    const sa = triple(n, b.x, c.x) / area;
    const sb = triple(n, c.x, a.x) / area;
    const sc = triple(n, a.x, b.x) / area;
    if (sa > 0 && sb > 0 && sc > 0) {
      const sum = sa + sb + sc;
      const reach = dot(n, a.x) / area;
      const shares: Vec3 = [sa / sum, sb / sum, sc / sum];
      const p = blend(a.p, b.p, c.p, shares);
      const q = blend(a.q, b.q, c.q, shares);
      return spot([a, b, c], [n[0] * reach, n[1] * reach, n[2] * reach], p, q);
    }
  }
  return less(less(onLine(a, c), onLine(b, c)), onLine(a, b));
}

/** `d` is the newest corner. */
function inTetrahedron(a: Corner, b: Corner, c: Corner, d: Corner): Spot | undefined {
  const flat = Math.abs(triple(sub(b.x, a.x), sub(c.x, a.x), sub(d.x, a.x))) < 1e-18;
  let best: Spot | undefined;
  if (flat || beyond(a, b, d, c)) best = onTriangle(a, b, d);
  if (flat || beyond(b, c, d, a)) best = nearer(best, onTriangle(b, c, d));
  if (flat || beyond(c, a, d, b)) best = nearer(best, onTriangle(c, a, d));
  if (flat || beyond(a, b, c, d)) best = nearer(best, onTriangle(a, b, c));
  return best;
}

const nearer = (a: Spot | undefined, b: Spot): Spot => (a ? less(a, b) : b);

/** True where the origin lies on the other side of a face than the tetrahedron's fourth corner. */
function beyond(one: Corner, two: Corner, three: Corner, off: Corner): boolean {
  const n = cross(sub(two.x, one.x), sub(three.x, one.x));
  return -dot(n, one.x) * dot(n, sub(off.x, one.x)) <= 0;
}
