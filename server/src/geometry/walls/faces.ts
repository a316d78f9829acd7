/** The thinnest wall between a removed volume and one of the body's faces. */
import { FACE_AXIS, FACES, type Face } from '../../model/model';
import type { Surroundings } from '../distance/line-of-material';
import { lineSide, type Outline, openOutline, outlineOf, roundSide } from '../distance/outline';
import { bodyDepths, shared, widest } from '../distance/section';
import { depthOf, intoFrame } from '../frame';
import { insetAt } from '../solid/prism';
import type { BodyShape, Vec3, Void, Wall } from '../types';
import { add, dot, length, scale, sub } from '../vector';
import type { Opposite } from './branch-and-bound';
import { floorWall } from './floors';
import { sideWall } from './sides';
import { faceWall } from './skew';

const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** A flat face of the body: its outward normal, and where it lies along it. */
export interface Plane {
  readonly face: Face;
  readonly normal: Vec3;
  readonly at: number;
  /** Which part axis it is normal to. */
  readonly k: 0 | 1 | 2;
}

export function planeOf(body: BodyShape, face: Face): Plane {
  const { axis, sign } = FACE_AXIS[face];
  const k = 'xyz'.indexOf(axis) as 0 | 1 | 2;
  return { face, k, normal: scale(AXES[k]!, sign), at: sign > 0 ? body.box.max[k] : -body.box.min[k] };
}

/** The flat faces: six of a box, the two ends of a round body. */
export function planesOf(body: BodyShape): readonly Plane[] {
  return FACES.filter((f) => isFlat(body, f)).map((f) => planeOf(body, f));
}

/** True for the faces of a round body that are flat: its two ends. */
export const isFlat = (body: BodyShape, face: Face): boolean =>
  body.form === 'box' || 'xyz'.indexOf(FACE_AXIS[face].axis) === body.axis;

export const bodyAxis = (body: Extract<BodyShape, { form: 'round' }>): Vec3 => AXES[body.axis]!;

/** The thinnest wall, or floor, between a void and one flat face of the body; undefined where none is below the limit. */
export function planeWall(v: Void, plane: Plane, s: Surroundings): Wall | undefined {
  const slope = dot(plane.normal, v.frame.w);
  if (Math.abs(slope) > 1 - 1e-12) return endToPlane(v, plane, slope > 0, s);
  if (Math.abs(slope) < 1e-9) return sideToPlane(v, plane, s);
  const opposite: Opposite = {
    convex: true,
    flat: plane.normal,
    nearest: (x, below) => {
      const mm = plane.at - dot(plane.normal, x);
      return mm < below ? { mm, q: add(x, plane.normal, mm) } : undefined;
    },
  };
  return faceWall(v, () => plane.face, opposite, s);
}

function endToPlane(v: Void, plane: Plane, ahead: boolean, s: Surroundings): Wall | undefined {
  const depthA = ahead ? v.to : v.from;
  const depthB = depthOf(v.frame, scale(plane.normal, plane.at));
  if (ahead ? depthB <= depthA : depthB >= depthA) return undefined;
  const ends = { frame: v.frame, a: outlineOf(v.region), insetA: insetAt(v, depthA), insetB: 0, depthA, depthB };
  return floorWall(v, plane.face, ends, ahead && !v.through, s);
}

function sideToPlane(v: Void, plane: Plane, s: Surroundings): Wall | undefined {
  const wide = widest(v);
  const depths = shared(wide, bodyDepths(v.frame, s.body));
  if (depths.to < depths.from - 1e-9) return undefined;
  const a = outlineOf(v.region);
  const [nu, nv] = [dot(plane.normal, v.frame.u), dot(plane.normal, v.frame.v)];
  const foot = intoFrame(v.frame, scale(plane.normal, plane.at));
  const off = foot.u * nu + foot.v * nv;
  // A line along the face as long as the outline, with the outside of the body to its left.
  const [middle, half] = spanAlong(a, nv, -nu);
  const end = (x: number) => [nu * off + nv * x, nv * off - nu * x] as const;
  const b = openOutline(lineSide(...end(middle - half), ...end(middle + half)));
  return sideWall(v, plane.face, { frame: v.frame, a, insetA: wide.inset, b, insetB: 0, depths }, s);
}

function spanAlong(o: Outline, du: number, dv: number): readonly [number, number] {
  const middle = ((o.minU + o.maxU) / 2) * du + ((o.minV + o.maxV) / 2) * dv;
  return [middle, o.maxU - o.minU + o.maxV - o.minV + 1];
}

/** To the round side of a round body: in the plane where the volume's axis is the body's. */
export function roundWall(v: Void, s: Surroundings): Wall | undefined {
  const { body } = s;
  if (body.form !== 'round') return undefined;
  const axis = AXES[body.axis]!;
  if (Math.abs(dot(axis, v.frame.w)) < 1 - 1e-12) return faceWall(v, (p) => faceTowards(body, p), outwards(body), s);
  const wide = widest(v);
  const depths = shared(wide, bodyDepths(v.frame, body));
  if (depths.to < depths.from - 1e-9) return undefined;
  const centre = intoFrame(v.frame, middleOf(body));
  const b = openOutline(roundSide(centre.u, centre.v, body.radius));
  const sides = { frame: v.frame, a: outlineOf(v.region), insetA: wide.inset, b, insetB: 0, depths };
  const wall = sideWall(v, 'top', sides, s);
  return wall && { ...wall, b: faceTowards(body, wall.at[1]) };
}

/** Straight out from the axis to the round side. */
function outwards(body: Extract<BodyShape, { form: 'round' }>): Opposite {
  const middle = middleOf(body);
  const axis = AXES[body.axis]!;
  const nearest = (x: Vec3, below: number) => {
    const off = sub(x, middle);
    const out = add(off, axis, -dot(off, axis));
    const far = length(out);
    const mm = body.radius - far;
    if (mm >= below) return undefined;
    // from the axis itself every way is as long
    return { mm, q: far > 1e-9 ? add(x, out, mm / far) : add(x, AXES[(body.axis + 1) % 3]!, mm) };
  };
  return { convex: false, nearest };
}

export function middleOf(body: BodyShape): Vec3 {
  const { min, max } = body.box;
  return [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
}

/** The name of the face whose side of a round body a place lies on. */
export function faceTowards(body: BodyShape, p: Vec3): Face {
  const from = middleOf(body);
  const round = FACES.filter((f) => body.form === 'box' || !isFlat(body, f));
  const towards = (f: Face) => dot(planeOf(body, f).normal, [p[0] - from[0], p[1] - from[1], p[2] - from[2]]);
  return round.reduce((best, f) => (towards(f) > towards(best) + 1e-9 ? f : best));
}
