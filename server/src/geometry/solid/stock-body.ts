/** The stock as it comes: its outside, and what a bar's section or a blank lacks of that. */
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Part, type Stock } from '../../model/model';
import { acrossSection, type Hollow, sectionKind } from '../../model/section';
import { ROUNDING } from '../../tolerance';
import { circleEdge } from '../2d/edge';
import type { BodyShape, Edge, Frame, Point2, Profile, Region, Vec3, Void } from '../types';
import { AXIS_INDEX, type AxisIndex } from '../vector';
import { bodyOf } from './body';
import { boundsOf } from './prism';

type Sized = Pick<Part, 'body' | 'size' | 'stock'>;

/**
 * The stock's outside in part axes, mm. A round bar lies along its axis through the middle of the body; other stock is the
 * body's box grown by `extra`, and a blank the other part's body. Never smaller than nothing, however the text has it.
 */
export function stockBody(part: Sized): BodyShape {
  const { box } = bodyOf(part);
  const { stock } = part;
  const { blank } = stock;
  const min: [number, number, number] = [...box.min];
  const max: [number, number, number] = [...box.max];
  for (const face of FACES) {
    const by = stock.extra[face]?.mm ?? 0;
    const { axis, sign } = FACE_AXIS[face];
    const i = AXIS_INDEX[axis];
    if (sign > 0) max[i] = Math.max(max[i] + by, min[i]);
    else min[i] = Math.min(min[i] - by, max[i]);
  }
  if (blank) {
    const own = bodyOf(blank.part);
    if (own.form === 'box') return { form: 'box', box: { min, max } };
    const axis = blank.turn.findIndex((t) => t.axis === own.axis) as AxisIndex;
    return { form: 'round', box: { min, max }, axis, radius: own.radius };
  }
  if (!stock.diameter || !stock.axis) {
    if (stock.written || part.body?.form !== 'round') return { form: 'box', box: { min, max } };
    return bodyOf(part);
  }
  const along = AXIS_INDEX[stock.axis];
  const radius = stock.diameter.mm / 2;
  for (const i of [0, 1, 2] as const) {
    if (i === along) continue;
    const middle = (box.min[i] + box.max[i]) / 2;
    min[i] = middle - radius;
    max[i] = middle + radius;
  }
  return { form: 'round', box: { min, max }, axis: along, radius };
}

const NOTHING: readonly Void[] = [];

/**
 * What was never there of the stock's outside: the hollow of a tube, the empty corner of an angle. The workpiece begins
 * without it, and it cannot be in the finished part. `voidsOf` of a feature never holds it: nothing cuts it.
 */
export function neverThere(part: Sized): readonly Void[] {
  const { stock } = part;
  if (!stock.section || !stock.axis || !part.body) return NOTHING;
  return lacking(stock.section, stock, stockBody(part));
}

const lacking = memo(
  (_: object, stock: Stock, outside: BodyShape): readonly Void[] => {
    const axis = AXIS_INDEX[stock.axis!];
    const [i, k] = [(axis + 1) % 3, (axis + 2) % 3] as [AxisIndex, AxisIndex];
    const { min, max } = outside.box;
    const kind = sectionKind(stock.form)!;
    const across = acrossSection(stock.section!, axis, outside.form === 'round' ? 2 * outside.radius : undefined);
    const unit = (n: number): Vec3 => [n === 0 ? 1 : 0, n === 1 ? 1 : 0, n === 2 ? 1 : 0];
    const frame: Frame = { origin: min, u: unit(i), v: unit(k), w: unit(axis) };
    const to = max[axis] - min[axis];
    const profile: Profile = { type: 'straight' };
    return kind.hollows(across, [max[i] - min[i], max[k] - min[k]]).map((hollow): Void => {
      const region = regionOf(hollow);
      const bounds = boundsOf(frame, region, 0, to, profile);
      const role = region.outer.edges.length === 1 ? 'bore' : kind.open === 0 ? 'pocket' : 'step';
      return { feature: kind.inside, member: 0, role, frame, region, from: 0, to, profile, through: true, bounds };
    });
  },
  {
    size: 3,
    by: (_, { form, axis }, { box, ...outside }) => [form, axis, outside.form, ...box.min, ...box.max],
  },
);

/** True for a volume that no feature cuts, as it was never there. */
export function isNeverThere(v: Pick<Void, 'feature'>): boolean {
  // No feature's name has a space.
  return v.feature.includes(' ');
}

function regionOf({ u0, v0, u1, v1, radii }: Hollow): Region {
  const [a, b] = [u1 - u0, v1 - v0];
  if (a === b && radii.every((r) => Math.abs(2 * r - a) < ROUNDING))
    return { outer: { edges: [circleEdge({ u: u0 + a / 2, v: v0 + a / 2 }, a / 2)] }, holes: [] };
  const corners: readonly Point2[] = [
    { u: u0, v: v0 },
    { u: u1, v: v0 },
    { u: u1, v: v1 },
    { u: u0, v: v1 },
  ];
  // Along the side into each corner, and out of it.
  const ways = [
    [0, -1],
    [1, 0],
    [0, 1],
    [-1, 0],
  ] as const;
  const edges: Edge[] = [];
  const ends = corners.map((c, n) => {
    const [into, out] = [ways[n]!, ways[(n + 1) % 4]!];
    const r = radii[n]!;
    return {
      r,
      into: { u: c.u - r * into[0], v: c.v - r * into[1] },
      out: { u: c.u + r * out[0], v: c.v + r * out[1] },
      centre: { u: c.u - r * into[0] + r * out[0], v: c.v - r * into[1] + r * out[1] },
    };
  });
  ends.forEach(({ r, into, out, centre }, n) => {
    if (r > 0) edges.push({ type: 'arc', a: into, b: out, centre, radius: r, ccw: true });
    const b = ends[(n + 1) % 4]!.into;
    if (Math.hypot(b.u - out.u, b.v - out.v) > ROUNDING) edges.push({ type: 'line', a: out, b });
  });
  return { outer: { edges }, holes: [] };
}
