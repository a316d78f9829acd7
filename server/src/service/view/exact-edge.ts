/**
 * An edge that was touched, from the exact surfaces that meet in it: a straight line with its ends, or a circle. Where it is
 * neither, it has no measure of its own.
 */
import type { Shown } from '../../geometry/mesh/display';
import type { ExactShape } from '../../geometry/mesh/surface';
import type { Vec3 } from '../../geometry/types';
import { add, cross, dot, length, scale, sub } from '../../geometry/vector';
import { SAME } from '../../tolerance';

export type ExactEdge =
  | { readonly type: 'line'; readonly along: Vec3; readonly through: Vec3; readonly ends: readonly [Vec3, Vec3] }
  | { readonly type: 'circle'; readonly axis: Vec3; readonly centre: Vec3; readonly radiusMm: number };

type Plane = Extract<ExactShape, { type: 'plane' }>;
type Turned = Exclude<ExactShape, Plane>;

/** Directions that differ by less (sine of the angle) are parallel. */
const PARALLEL = 1e-6;

/** `stretch`: which of the mesh's stretches was touched; `at`: where. Undefined for none, and for a curve that is no circle. */
export function edgeAt({ edgeOf: pairs, edges: points, surfaces }: Shown, stretch: number): ExactEdge | undefined {
  const [s, u] = [pairs[2 * stretch], pairs[2 * stretch + 1]];
  const [a, b] = [surfaces[s ?? -1]?.shape, surfaces[u ?? -1]?.shape];
  if (!a || !b) return undefined;
  const end = (i: number, k: 0 | 1): Vec3 => [0, 1, 2].map((c) => points[6 * i + 3 * k + c]!) as unknown as Vec3;
  const line = lineOf(a, b, end(stretch, 0));
  if (!line) return circleOf(a, b) ?? circleOf(b, a);
  const own = joined(stretch, pairs, end);
  const places = own.flatMap((i) => [end(i, 0), end(i, 1)]).map((p) => dot(sub(p, line.through), line.along));
  const on = (t: number) => add(line.through, line.along, t);
  return { type: 'line', ...line, ends: [on(Math.min(...places)), on(Math.max(...places))] };
}

/** The stretches between the same two surfaces that hang together with this one. */
function joined(stretch: number, pairs: Uint32Array, end: (i: number, k: 0 | 1) => Vec3): readonly number[] {
  const [s, u] = [pairs[2 * stretch]!, pairs[2 * stretch + 1]!];
  const alike: number[] = [];
  for (let i = 0; i < pairs.length / 2; i++) {
    const [t, v] = [pairs[2 * i]!, pairs[2 * i + 1]!];
    if ((t === s && v === u) || (t === u && v === s)) alike.push(i);
  }
  const key = (p: Vec3) => p.join();
  const seen = new Set<number>([stretch]);
  const reached = new Set([key(end(stretch, 0)), key(end(stretch, 1))]);
  for (let grew = true; grew; ) {
    grew = false;
    for (const i of alike) {
      if (seen.has(i) || !(reached.has(key(end(i, 0))) || reached.has(key(end(i, 1))))) continue;
      seen.add(i);
      reached.add(key(end(i, 0)));
      reached.add(key(end(i, 1)));
      grew = true;
    }
  }
  return [...seen];
}

function lineOf(
  a: ExactShape,
  b: ExactShape,
  near: Vec3,
): { readonly along: Vec3; readonly through: Vec3 } | undefined {
  if (a.type === 'plane' && b.type === 'plane') return twoPlanes(a, b, near);
  const turned = [a, b].filter((x): x is Turned => x.type !== 'plane');
  // Straight along cylinders only: where a plane lies along the axis, or two axes are parallel and apart.
  if (turned.some((t) => t.type !== 'cylinder')) return undefined;
  const axis = turned[0]!.axis;
  const [plane] = [a, b].filter((x): x is Plane => x.type === 'plane');
  if (plane) return Math.abs(dot(plane.normal, axis)) < PARALLEL ? { along: axis, through: near } : undefined;
  const [c, d] = turned as readonly Extract<ExactShape, { type: 'cylinder' }>[];
  const parallel = length(cross(c!.axis, d!.axis)) < PARALLEL;
  const apart = sub(d!.through, c!.through);
  const off = length(sub(apart, scale(axis, dot(apart, axis))));
  return parallel && off > SAME ? { along: axis, through: near } : undefined;
}

function twoPlanes(a: Plane, b: Plane, near: Vec3): { readonly along: Vec3; readonly through: Vec3 } | undefined {
  const raw = cross(a.normal, b.normal);
  const long = length(raw);
  if (long < PARALLEL) return undefined;
  // Onto both planes, along the directions that the two span.
  const [da, db] = [a.offsetMm - dot(a.normal, near), b.offsetMm - dot(b.normal, near)];
  const c = dot(a.normal, b.normal);
  const k = 1 - c * c;
  const through = add(add(near, a.normal, (da - c * db) / k), b.normal, (db - c * da) / k);
  return { along: scale(raw, 1 / long), through };
}

/** A plane square to an axis cuts what is turned about it in a circle; so does another surface about the same axis. */
function circleOf(a: ExactShape, b: ExactShape): ExactEdge | undefined {
  if (b.type === 'plane' || b.type === 'ring') return undefined;
  const through = b.type === 'cylinder' ? b.through : b.apex;
  if (a.type === 'plane') {
    if (length(cross(a.normal, b.axis)) > PARALLEL) return undefined;
    const t = (a.offsetMm - dot(a.normal, through)) / dot(a.normal, b.axis);
    const radiusMm = b.type === 'cylinder' ? b.radiusMm : Math.abs(t) * Math.tan((b.halfAngleDeg * Math.PI) / 180);
    return { type: 'circle', axis: b.axis, centre: add(through, b.axis, t), radiusMm };
  }
  if (a.type !== 'cylinder' || b.type !== 'cone') return undefined;
  const apart = sub(b.apex, a.through);
  const off = length(sub(apart, scale(a.axis, dot(apart, a.axis))));
  if (length(cross(a.axis, b.axis)) > PARALLEL || off > SAME) return undefined;
  const t = a.radiusMm / Math.tan((b.halfAngleDeg * Math.PI) / 180);
  return { type: 'circle', axis: a.axis, centre: add(b.apex, b.axis, t), radiusMm: a.radiusMm };
}
