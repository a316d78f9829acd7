/**
 * Walls where the two surfaces share no axis, or where one of them is tapered or rounded: the least distance of the two
 * bodies, and how far around that place the wall stays as thin.
 */

import type { Face } from '../../model/model';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { reachTo } from '../distance/facing';
import { type Surroundings, stands } from '../distance/line-of-material';
import { isConvex, pointApart, solidsApart } from '../distance/solids';
import type { BodyShape, Vec3, Void, Wall } from '../types';
import { add, cross, dot, length, mix, scale, sub } from '../vector';
import { type Opposite, type Place, seek } from './branch-and-bound';
import { settled } from './refine';

const SAME_WALL = 1.5;

/** Between two volumes, however they lie. None where they meet. */
export function skewWall(a: Void, b: Void, s: Surroundings): Wall | undefined {
  const nearest = solidsApart(a, b, s.belowMm);
  if (!nearest || nearest.mm < SAME) return undefined;
  const may = () => !s.maySearch || s.maySearch();
  const place = stands(nearest.p, nearest.q, s) ? nearest : may() ? elsewhere(a, b, s) : undefined;
  if (!place) return undefined;
  return wallAt(a, b, place, (x) => pointApart(x, b, place.mm * SAME_WALL + ROUNDING)?.mm, s);
}

/** Looked for a little above the limit, since both ends may yet move together. */
const SLACK = 1.1;

/** Where the nearest line is cut away: the thinnest that stands from a side or an end of either to the other. */
function elsewhere(a: Void, b: Void, s: Surroundings): Place | undefined {
  let best: Place | undefined;
  for (const [v, other] of [
    [a, b],
    [b, a],
  ] as const) {
    const opposite: Opposite = { convex: isConvex(other), nearest: (x, below) => pointApart(x, other, below) };
    for (const part of ['sides', 'ends'] as const) {
      const found = seek(v, part, opposite, { ...s, belowMm: best?.mm ?? s.belowMm * SLACK });
      if (found) best = v === a ? found : { mm: found.mm, p: found.q, q: found.p };
    }
  }
  const place = best && settled(a, b, best, s);
  return place && place.mm < s.belowMm ? place : undefined;
}

/** To a face that stands askew to the volume, or to the round side of the body. A volume open there has no wall to it. */
export function faceWall(v: Void, face: (p: Vec3) => Face, opposite: Opposite, s: Surroundings): Wall | undefined {
  const held = closed(seek(v, 'sides', opposite, s, OPENING));
  const end = seek(v, 'ends', ahead(v, opposite, s.body), s, OPENING);
  // an end that opens there tells of an opening that the sides may hide in a corner
  if (held && end && !closed(end)) return undefined;
  const place = held ?? closed(end);
  const wall = place && wallAt(v, face(place.q), place, (x) => opposite.nearest(x, s.belowMm)?.mm, s);
  if (held || !wall) return wall;
  const way = dot(sub(place.q, place.p), v.frame.w) > 0 ? v.frame.w : scale(v.frame.w, -1);
  return { ...wall, heightMm: Math.min(wall.heightMm, lipMm(place.p, way, s.body)) };
}

/**
 * What lies ahead of an end. From the rim of a floor that is cut into a round side the way out may also lead back, past
 * the side wall, through the lip beside the cut: that is a wall only where the lip stands higher than twice its foot.
 */
function ahead(v: Void, opposite: Opposite, body: BodyShape): Opposite {
  const middle = (v.from + v.to) / 2;
  const counts = (x: Vec3, q: Vec3) => {
    const far = dot(sub(x, v.frame.origin), v.frame.w) > middle;
    const back = scale(v.frame.w, far ? -1 : 1);
    const way = sub(q, x);
    return dot(way, back) <= 0 || lipMm(x, back, body) >= LIP * length(way);
  };
  return { ...opposite, counts };
}
/** As sharp as 30 degrees: an edge that breaks. Common practice, no source. */
const LIP = 2;

/** How far a line goes on inside the body. */
function lipMm(x: Vec3, way: Vec3, body: BodyShape): number {
  const box = exit(body, x, way);
  if (body.form === 'box') return box;
  const across = (p: Vec3): Vec3 => [0, 1, 2].map((k) => (k === body.axis ? 0 : p[k]!)) as unknown as Vec3;
  const [o, d] = [across(sub(x, mix(body.box.min, body.box.max, 0.5))), across(way)];
  const [a, b, c] = [dot(d, d), dot(o, d), dot(o, o) - body.radius * body.radius];
  const root = b * b - a * c;
  return a < DIGITS || root < 0 ? box : Math.min(box, Math.max(0, (Math.sqrt(root) - b) / a));
}

/** A gap that runs out to nothing is an opening's rim, not a wall. */
const OPEN_MM = 2e-3;
/** Whether a volume is open at a face is looked at this closely. */
const OPENING = { enough: OPEN_MM, coarse: 0.05 };
const closed = (p: Place | undefined) => (p && p.mm > OPEN_MM ? p : undefined);

function wallAt(a: Void, b: Void | Face, at: Place, toB: (x: Vec3) => number | undefined, s: Surroundings): Wall {
  const most = at.mm * SAME_WALL;
  const across = scale(sub(at.q, at.p), 1 / at.mm);
  const middle = mix(at.p, at.q, 0.5);
  const fine = at.mm / 30;
  const spread = (way: Vec3): number => {
    const long = length(way);
    if (long < SAME) return 0;
    const unit = scale(way, 1 / long);
    const gap = (mm: number) => {
      const x = add(middle, unit, mm);
      const toA = pointApart(x, a, most)?.mm;
      return toA === undefined ? Number.POSITIVE_INFINITY : toA + (toB(x) ?? Number.POSITIVE_INFINITY);
    };
    const reach = (sign: 1 | -1) => {
      const end = exit(s.body, middle, scale(unit, sign));
      let far = Math.min(end, at.mm);
      while (far < end && gap(sign * far) <= most + ROUNDING) far = Math.min(end, 3 * far);
      return reachTo(gap, 0, sign * far, most + ROUNDING, fine);
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
    if (Math.abs(unit[k]) < DIGITS) continue;
    far = Math.min(far, Math.max(0, ((unit[k] > 0 ? body.box.max[k] : body.box.min[k]) - from[k]) / unit[k]));
  }
  return far;
}
