/** The thinnest wall between a removed volume and one of the body's faces. */
import { DIGITS, ROUNDING } from '../../tolerance';
import type { Surroundings } from '../distance/line-of-material';
import { lineSide, type Outline, openOutline, outlineOf, roundSide } from '../distance/outline';
import { bodyDepths, shared, widest } from '../distance/section';
import { depthOf, intoFrame } from '../frame';
import { bodyAxis, faceTowards, middleOf, PART_AXES, type Plane } from '../solid/body-faces';
import { insetAt } from '../solid/prism';
import type { BodyShape, Vec3, Void, Wall } from '../types';
import { add, dot, length, scale, sub } from '../vector';
import type { Opposite } from './branch-and-bound';
import { endsInFloor, floorWall } from './floors';
import { sideWall } from './sides';
import { faceWall } from './skew';

/** The thinnest wall, or floor, between a void and one flat face of the body; undefined where none is below the limit. */
export function planeWall(v: Void, plane: Plane, s: Surroundings): Wall | undefined {
  const slope = dot(plane.normal, v.frame.w);
  if (Math.abs(slope) > 1 - DIGITS) return endToPlane(v, plane, slope > 0, s);
  if (Math.abs(slope) < ROUNDING) return sideToPlane(v, plane, s);
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
  return floorWall(v, plane.face, ends, ahead && endsInFloor(v), s);
}

function sideToPlane(v: Void, plane: Plane, s: Surroundings): Wall | undefined {
  const wide = widest(v);
  const depths = shared(wide, bodyDepths(v.frame, s.body));
  if (depths.to < depths.from - ROUNDING) return undefined;
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
  const axis = bodyAxis(body);
  if (Math.abs(dot(axis, v.frame.w)) < 1 - DIGITS) return faceWall(v, (p) => faceTowards(body, p), outwards(body), s);
  const wide = widest(v);
  const depths = shared(wide, bodyDepths(v.frame, body));
  if (depths.to < depths.from - ROUNDING) return undefined;
  const centre = intoFrame(v.frame, middleOf(body));
  const b = openOutline(roundSide(centre.u, centre.v, body.radius));
  const sides = { frame: v.frame, a: outlineOf(v.region), insetA: wide.inset, b, insetB: 0, depths };
  const wall = sideWall(v, 'top', sides, s);
  return wall && { ...wall, b: faceTowards(body, wall.at[1]) };
}

/** Straight out from the axis to the round side. */
function outwards(body: Extract<BodyShape, { form: 'round' }>): Opposite {
  const middle = middleOf(body);
  const axis = bodyAxis(body);
  const nearest = (x: Vec3, below: number) => {
    const off = sub(x, middle);
    const out = add(off, axis, -dot(off, axis));
    const far = length(out);
    const mm = body.radius - far;
    if (mm >= below) return undefined;
    // from the axis itself every way is as long
    return { mm, q: far > ROUNDING ? add(x, out, mm / far) : add(x, PART_AXES[(body.axis + 1) % 3]!, mm) };
  };
  return { convex: false, nearest };
}
