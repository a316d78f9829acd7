/** Where clamps could press while a lot is cut: near the edges of the face that is up, two on opposite sides, else on two that meet, clear of the cuts. */
import { holds } from '../geometry/solid/prism';
import type { Box, Vec3, Void } from '../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../geometry/vector';
import { FACE_PLANE } from '../model/model';
import { SAME } from '../tolerance';
import type { Item } from './item';
import { boxAt, rawFaces } from './make-setup';
import type { LaidDown } from './poses';
import type { Ask } from './search';
import type { Made, Trial } from './trial';

/** In the plane of the face that is up, mm along its two part axes. */
interface Spot {
  readonly u: number;
  readonly v: number;
}

/** From the edge to where a clamp presses; half its width; how far it lies on the work beyond that. Common sizes, no source. */
const INSET_MM = 6;
const HALF_MM = 12.5;
const OVER_MM = 10;
/** Along each edge, the middle first. */
const SHARES = [0.5, 0.15, 0.85, 0.3, 0.7];
/** Pairs handed on, the clearest first. */
const MOST = 5;

export function clampings(
  { solid, items }: Trial,
  { done }: Ask<Made>,
  { up }: LaidDown,
  lot: readonly Item[],
): readonly (readonly Spot[])[] {
  const box = boxAt(solid.body.box, rawFaces(items, done));
  const [a, b] = FACE_PLANE[up].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  const voids = lot.flatMap((i) => (i.feature ? solid.voidsOf(i.feature.name) : []));
  const milled = new Set(lot.flatMap((i) => (i.face ? [i.face] : [])));
  // What is milled off at its side has no clamp in the way.
  const at = (edge: AxisIndex, along: AxisIndex, sign: 1 | -1): readonly Clear[] =>
    milled.has(SIDES[edge][sign > 0 ? 1 : 0])
      ? []
      : spotsAlong(edge, along, sign, box, a).flatMap((s) => clearOf(s, voids, a, b, box));
  const [left, right, front, back] = [at(a, b, -1), at(a, b, 1), at(b, a, -1), at(b, a, 1)];
  const across = [...pairsOf(left, right), ...pairsOf(front, back)];
  // Where a side on either axis is cut: at two sides that meet, as far from each other as they can.
  const meeting = () => [left, right].flatMap((one) => [front, back].flatMap((other) => pairsOf(one, other)));
  return (across.length > 0 ? across : meeting().sort((x, y) => y.apartMm - x.apartMm))
    .sort((x, y) => y.clearMm - x.clearMm)
    .slice(0, MOST)
    .map((p) => p.spots);
}

interface Pair {
  readonly spots: readonly Spot[];
  readonly clearMm: number;
  readonly apartMm: number;
}

function pairsOf(some: readonly Clear[], others: readonly Clear[]): readonly Pair[] {
  return some.flatMap((one) =>
    others
      .filter((s) => !overlap(one, s))
      .map((other) => ({
        spots: [one.spot, other.spot],
        clearMm: Math.min(one.clearMm, other.clearMm),
        apartMm: Math.hypot(one.spot.u - other.spot.u, one.spot.v - other.spot.v),
      })),
  );
}

const SIDES = [
  ['left', 'right'],
  ['front', 'back'],
  ['bottom', 'top'],
] as const;

/** Narrow work has no room for two straps across from each other: they would lie on one another. */
function overlap(a: Strap, b: Strap): boolean {
  const meet = (p: Strap['u'], q: Strap['u']) =>
    Math.min(Math.max(...p), Math.max(...q)) - Math.max(Math.min(...p), Math.min(...q)) > SAME;
  return meet(a.u, b.u) && meet(a.v, b.v);
}

interface Strap {
  readonly spot: Spot;
  /** What it lies on, as low and high along both axes of the plane. */
  readonly u: readonly [number, number];
  readonly v: readonly [number, number];
}

function spotsAlong(
  edge: AxisIndex,
  along: AxisIndex,
  sign: 1 | -1,
  { min, max }: Box,
  a: AxisIndex,
): readonly Strap[] {
  const length = max[along] - min[along];
  const inset = Math.min(INSET_MM, (max[edge] - min[edge]) / 6);
  const from = sign > 0 ? max[edge] : min[edge];
  const at = from - sign * inset;
  const reach: readonly [number, number] = [from, at - sign * OVER_MM];
  return SHARES.filter((s) => s === 0.5 || length > 4 * HALF_MM).map((share) => {
    const mid = round(min[along] + share * length);
    const wide: readonly [number, number] = [mid - HALF_MM, mid + HALF_MM];
    return edge === a
      ? { spot: { u: round(at), v: mid }, u: reach, v: wide }
      : { spot: { u: mid, v: round(at) }, u: wide, v: reach };
  });
}

interface Clear extends Strap {
  /** How far off the nearest cut is. */
  readonly clearMm: number;
}

/** The strap, where none of these is cut below it. */
function clearOf(strap: Strap, voids: readonly Void[], a: AxisIndex, b: AxisIndex, box: Box): readonly Clear[] {
  let clearMm = Number.POSITIVE_INFINITY;
  for (const v of voids) {
    const { min, max } = v.bounds;
    const [u0, u1] = [Math.min(...strap.u), Math.max(...strap.u)];
    const [v0, v1] = [Math.min(...strap.v), Math.max(...strap.v)];
    const off = Math.max(min[a] - u1, u0 - max[a], min[b] - v1, v0 - max[b]);
    if (off <= 0 && GRID.some((s) => GRID.some((t) => holds(v, at(v, u0 + s * (u1 - u0), v0 + t * (v1 - v0))))))
      return [];
    clearMm = Math.min(clearMm, Math.max(0, off));
  }
  return [{ ...strap, clearMm: Math.min(clearMm, box.max[a] - box.min[a]) }];

  function at(of: Void, u: number, w: number): Vec3 {
    const p: [number, number, number] = [0, 1, 2].map((i) => (of.bounds.min[i]! + of.bounds.max[i]!) / 2) as never;
    p[a] = u;
    p[b] = w;
    return p;
  }
}

const GRID = [0.02, 0.25, 0.5, 0.75, 0.98];

function round(mm: number): number {
  return Math.round(mm * 2) / 2;
}
