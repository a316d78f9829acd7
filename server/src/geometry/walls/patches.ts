/**
 * The surface of a volume as patches with two coordinates, for a search that must miss nothing: every patch knows where
 * its points lie, how far any of a stretch of them can be from its middle, and how its tangents run.
 */
import { type Outline, outlineOf, pointAlong, type Side, signedDistance } from '../distance/outline';
import { bodyDepths, shared } from '../distance/section';
import { alongFrame, fromFrame } from '../frame';
import { insetAt } from '../solid/prism';
import type { BodyShape, Point2, Vec3, Void } from '../types';
import { scale } from '../vector';

/** A rectangle of a patch's coordinates: its middle, and half its size. */
export interface Stretch2 {
  readonly x: number;
  readonly y: number;
  readonly hx: number;
  readonly hy: number;
}

export interface Patch {
  readonly whole: Stretch2;
  readonly place: (x: number, y: number) => Vec3;
  /** How far beside the surface a place lies, mm: 0 or less on it. An inset side ends at its neighbours, an end at its rim. */
  readonly beside: (x: number, y: number) => number;
  /** No place of the stretch lies farther than this from its middle, mm. */
  readonly reach: (c: Stretch2) => number;
  /** The two tangents, mm of way for each of the coordinates; none where the surface bends too much to say. */
  readonly tangents?: (x: number, y: number) => readonly [Vec3, Vec3];
  /** The axis of the volume: what bends bends square to it. */
  readonly axis: Vec3;
  /** How far any place of the stretch may lie off the plane of the tangents, mm. */
  readonly bend: (c: Stretch2) => number;
  /** Ways out of the volume, of length 1: a line that runs against all of them runs into it. None where they are not told. */
  readonly outward: (x: number, y: number) => readonly Vec3[];
  /** By how much they change at most from the middle of a stretch to anywhere in it. */
  readonly turn: (c: Stretch2) => number;
}

const spread = (from: number, to: number) => ({ middle: (from + to) / 2, half: (to - from) / 2 });

/** The sides within the body's depths, a patch for each side of the outline; or the two flat ends, their rims first. */
export function patchesOf(v: Void, part: 'sides' | 'ends', body: BodyShape): readonly Patch[] {
  const outline = outlineOf(v.region);
  if (part === 'ends') {
    return [v.to, v.from].flatMap((w) => [
      ...outline.sides.map((side) => rimPatch(v, outline, side, w)),
      endPatch(v, outline, w),
    ]);
  }
  const deep = shared(v, bodyDepths(v.frame, body));
  if (deep.to < deep.from) return [];
  return outline.sides.map((side) => sidePatch(v, outline, side, deep.from, deep.to));
}

function endPatch(v: Void, outline: Outline, w: number): Patch {
  const { frame } = v;
  const inset = insetAt(v, w);
  const [u, y] = [
    spread(outline.minU + inset, outline.maxU - inset),
    spread(outline.minV + inset, outline.maxV - inset),
  ];
  return {
    whole: { x: u.middle, y: y.middle, hx: Math.max(0, u.half), hy: Math.max(0, y.half) },
    place: (a, b) => fromFrame(frame, a, b, w),
    beside: (a, b) => signedDistance(outline, a, b) + inset,
    reach: (c) => Math.sqrt(c.hx * c.hx + c.hy * c.hy),
    tangents: () => [frame.u, frame.v],
    axis: frame.w,
    bend: () => 0,
    outward: () => [outOfEnd(v, w)],
    turn: () => 0,
  };
}

const outOfEnd = (v: Void, w: number): Vec3 => (w > (v.from + v.to) / 2 ? v.frame.w : scale(v.frame.w, -1));

/** Where a side meets an end. */
function rimPatch(v: Void, outline: Outline, side: Side, w: number): Patch {
  const made = sidePatch(v, outline, side, w, w);
  const end = outOfEnd(v, w);
  return { ...made, outward: (x, y) => [...made.outward(x, y), end] };
}

/** x: mm along the side; y: depth. */
function sidePatch(v: Void, outline: Outline, side: Side, from: number, to: number): Patch {
  const { frame, profile } = v;
  const [along, deep] = [spread(0, side.length), spread(from, to)];
  const taper = profile.type === 'taper' && v.to > v.from ? (profile.insetTo - profile.insetFrom) / (v.to - v.from) : 0;
  const insets = [insetAt(v, from), insetAt(v, to)];
  // towards the centre of an arc the side gets shorter, away from it longer
  const inwards = side.sweep > 0 ? 1 : -1;
  const radii = insets.map((inset) => Math.max(0, side.r - inwards * inset));
  const stretched = side.arc ? Math.max(...radii) / side.r : 1;
  const outOf = (p: Point2): readonly [number, number] => {
    if (!side.arc) return [side.tay, -side.tax];
    return [((p.u - side.cx) * inwards) / side.r, ((p.v - side.cy) * inwards) / side.r];
  };
  const rimAt = (x: number) => pointAlong(side, Math.min(side.length, Math.max(0, x)));
  const place = (x: number, y: number): Vec3 => {
    const rim = rimAt(x);
    const inset = insetAt(v, y);
    if (inset === 0) return fromFrame(frame, rim.u, rim.v, y);
    const [nu, nv] = outOf(rim);
    return fromFrame(frame, rim.u - nu * inset, rim.v - nv * inset, y);
  };
  const smooth = profile.type === 'straight' || profile.type === 'taper';
  const tangents = (x: number, y: number): readonly [Vec3, Vec3] => {
    const [nu, nv] = outOf(rimAt(x));
    const way = side.arc ? Math.max(0, side.r - inwards * insetAt(v, y)) / side.r : 1;
    return [alongFrame(frame, -nv * way, nu * way, 0), alongFrame(frame, -nu * taper, -nv * taper, 1)];
  };
  const steep = Math.hypot(1, taper);
  const outward = (x: number) => {
    const [nu, nv] = outOf(rimAt(x));
    return [alongFrame(frame, nu / steep, nv / steep, taper / steep)];
  };
  return {
    whole: { x: along.middle, y: deep.middle, hx: along.half, hy: deep.half },
    place,
    beside: (x, y) => {
      const inset = insetAt(v, y);
      if (inset === 0) return 0;
      const rim = rimAt(x);
      const [nu, nv] = outOf(rim);
      return signedDistance(outline, rim.u - nu * inset, rim.v - nv * inset) + inset;
    },
    reach: (c) => {
      const middle = insetAt(v, c.y);
      const moved = Math.max(Math.abs(insetAt(v, c.y - c.hy) - middle), Math.abs(insetAt(v, c.y + c.hy) - middle));
      const long = c.hx * stretched + moved;
      return Math.sqrt(long * long + c.hy * c.hy);
    },
    ...(smooth && { tangents }),
    axis: frame.w,
    bend: (c) => (side.arc ? (c.hx * c.hx * stretched) / (2 * side.r) + (Math.abs(taper) * c.hy * c.hx) / side.r : 0),
    outward: smooth ? outward : () => [],
    turn: (c) => (side.arc ? c.hx / side.r : 0),
  };
}
