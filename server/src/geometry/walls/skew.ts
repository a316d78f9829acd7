/**
 * Walls where the two surfaces share no axis, or where one of them is tapered or rounded: the least distance of the two
 * bodies, and how far around that place the wall stays as thin.
 */
import type { Face } from '../../spec/model';
import { type Surroundings, stands } from '../distance/cover';
import { reachTo } from '../distance/facing';
import { pointApart, solidsApart } from '../distance/solids';
import type { BodyShape, Vec3, Void, Wall } from '../types';
import { add, cross, dot, length, mix, scale, sub } from '../vector';
import { type Opposite, type Place, seek } from './seek';

const SAME_WALL = 1.5;

/** Between two volumes, however they lie. None where they meet. */
export function skewWall(a: Void, b: Void, s: Surroundings): Wall | undefined {
  const nearest = solidsApart(a, b, s.belowMm);
  if (!nearest || nearest.mm < 1e-6) return undefined;
  const from =
    (v: Void, most: number): Opposite =>
    (x) =>
      pointApart(x, v, most);
  const most = Math.min(s.belowMm, nearest.mm * SAME_WALL);
  const place = stands(nearest.p, nearest.q, s) ? nearest : seek(a, 'sides', from(b, most), s);
  if (!place) return undefined;
  return wallAt(a, b, place, (x) => pointApart(x, b, place.mm * SAME_WALL + 1e-9)?.mm, s);
}

/** To a face that stands askew to the volume, or to the round side of the body. A volume open there has no wall to it. */
export function faceWall(v: Void, face: (p: Vec3) => Face, opposite: Opposite, s: Surroundings): Wall | undefined {
  const place = closed(seek(v, 'sides', opposite, s)) ?? closed(seek(v, 'ends', opposite, s));
  return place && wallAt(v, face(place.q), place, (x) => opposite(x)?.mm, s);
}

/** A gap that runs out to nothing is an opening's rim, not a wall. */
const closed = (p: Place | undefined) => (p && p.mm > 2e-3 ? p : undefined);

function wallAt(a: Void, b: Void | Face, at: Place, toB: (x: Vec3) => number | undefined, s: Surroundings): Wall {
  const most = at.mm * SAME_WALL;
  const across = scale(sub(at.q, at.p), 1 / at.mm);
  const middle = mix(at.p, at.q, 0.5);
  const fine = at.mm / 30;
  const spread = (way: Vec3): number => {
    const long = length(way);
    if (long < 1e-6) return 0;
    const unit = scale(way, 1 / long);
    const gap = (mm: number) => {
      const x = add(middle, unit, mm);
      const toA = pointApart(x, a, most)?.mm;
      return toA === undefined ? Number.POSITIVE_INFINITY : toA + (toB(x) ?? Number.POSITIVE_INFINITY);
    };
    const reach = (sign: 1 | -1) => {
      const end = exit(s.body, middle, scale(unit, sign));
      let far = Math.min(end, at.mm);
      while (far < end && gap(sign * far) <= most + 1e-9) far = Math.min(end, 3 * far);
      return reachTo(gap, 0, sign * far, most + 1e-9, fine);
    };
    return reach(1) + reach(-1);
  };
  const { w } = a.frame;
  const upright = sub(w, scale(across, dot(w, across)));
  const leaning = length(upright) < 0.5;
  const side = cross(across, leaning ? a.frame.u : w);
  return {
    thicknessMm: at.mm,
    a,
    b,
    at: [at.p, at.q],
    heightMm: leaning ? 0 : spread(upright),
    lengthMm: leaning ? Math.min(spread(side), spread(cross(across, side))) : spread(side),
    type: 'wall',
  };
}

/** How far along a direction the body's box ends. */
function exit(body: BodyShape, from: Vec3, unit: Vec3): number {
  let far = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 3; i++) {
    const k = i as 0 | 1 | 2;
    if (Math.abs(unit[k]) < 1e-12) continue;
    far = Math.min(far, Math.max(0, ((unit[k] > 0 ? body.box.max[k] : body.box.min[k]) - from[k]) / unit[k]));
  }
  return far;
}
