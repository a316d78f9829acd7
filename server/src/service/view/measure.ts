/**
 * The measure between two touched faces, from their exact planes and axes: never from the triangles that are drawn.
 * Every face is a plane or has an axis, so that there is always one to be had.
 */

import { acrossAxis, type ExactShape, normalAt } from '../../geometry/mesh/surface';
import type { Vec3 } from '../../geometry/types';
import { add, cross, distance, dot, length, sub } from '../../geometry/vector';
import { trimmed } from '../../rules/kit/message';
import { formatLength } from '../../text/format';
import { SAME } from '../../tolerance';
import type { Measured } from './protocol';

type Plane = Extract<ExactShape, { type: 'plane' }>;
interface Line {
  readonly along: Vec3;
  readonly through: Vec3;
}

type Length = (mm: number) => string;

/** Directions that differ by less (sine of the angle) are parallel. */
const PARALLEL = 1e-7;
const DEG = 180 / Math.PI;

export function measureBetween(a: ExactShape, atA: Vec3, b: ExactShape, atB: Vec3, units: 'mm' | 'in'): Measured {
  const mm = (x: number) => formatLength(Number(x.toFixed(6)), units);
  const [p, q] = [onto(a, atA), onto(b, atB)];
  if (a.type === 'plane' && b.type === 'plane') return planes(a, p, b, q, mm);
  const [la, lb] = [axisOf(a), axisOf(b)];
  if (la && lb) return axes({ line: la, shape: a, at: p }, { line: lb, shape: b, at: q }, mm);
  if (a.type === 'plane' && lb) return planeAndAxis(a, lb, b, q, mm);
  const turned = planeAndAxis(b as Plane, la!, a, p, mm);
  return turned.at ? { ...turned, at: [turned.at[1], turned.at[0]] } : turned;
}

function planes(a: Plane, p: Vec3, b: Plane, q: Vec3, mm: Length): Measured {
  if (length(cross(a.normal, b.normal)) < PARALLEL) {
    const gap = dot(sub(q, p), a.normal);
    const distanceMm = Math.abs(gap);
    if (distanceMm < SAME) return { text: 'in one plane', distanceMm: 0, angleDeg: 0, at: [p, q] };
    return {
      text: `${mm(distanceMm)} between parallel planes`,
      distanceMm,
      angleDeg: 0,
      at: [p, add(p, a.normal, gap)],
    };
  }
  const angleDeg = acute(Math.acos(Math.min(1, Math.abs(dot(a.normal, b.normal)))) * DEG);
  return { text: `planes at ${degrees(angleDeg)}`, angleDeg };
}

/** A surface with an axis, and where it was pressed. */
interface Round {
  readonly line: Line;
  readonly shape: ExactShape;
  readonly at: Vec3;
}

function axes({ line: la, shape: a, at: p }: Round, { line: lb, shape: b, at: q }: Round, mm: Length): Measured {
  const square = cross(la.along, lb.along);
  const sine = length(square);
  const [ra, rb] = [radiusOf(a), radiusOf(b)];
  const radii = ra !== undefined && rb !== undefined;
  if (sine < PARALLEL) {
    const from = footOn(la, p);
    const apart = acrossAxis(la.along, from, lb.through);
    const distanceMm = length(apart);
    if (distanceMm < SAME) {
      const between = radii ? Math.abs(ra - rb) : 0;
      const told = !radii
        ? ''
        : between < SAME
          ? `, both of diameter ${mm(2 * ra)}`
          : `, ${mm(between)} between the walls`;
      return { text: `on one axis${told}`, distanceMm: 0, angleDeg: 0, at: [from, footOn(lb, q)] };
    }
    const wall = radii ? distanceMm - ra - rb : 0;
    const told = wall > SAME ? `, ${mm(wall)} between the walls` : '';
    return { text: `axes ${mm(distanceMm)} apart${told}`, distanceMm, angleDeg: 0, at: [from, add(from, apart)] };
  }
  const angleDeg = acute(Math.asin(Math.min(1, sine)) * DEG);
  // the shortest line between two skew lines
  const d = sub(lb.through, la.through);
  const s = dot(cross(d, lb.along), square) / (sine * sine);
  const t = dot(cross(d, la.along), square) / (sine * sine);
  const ends: readonly [Vec3, Vec3] = [add(la.through, la.along, s), add(lb.through, lb.along, t)];
  const distanceMm = distance(...ends);
  if (distanceMm < SAME) return { text: `axes cross at ${degrees(angleDeg)}`, distanceMm: 0, angleDeg, at: ends };
  return { text: `axes ${mm(distanceMm)} apart, at ${degrees(angleDeg)}`, distanceMm, angleDeg, at: ends };
}

function planeAndAxis(a: Plane, line: Line, b: ExactShape, q: Vec3, mm: Length): Measured {
  const lean = Math.abs(dot(a.normal, line.along));
  const r = radiusOf(b);
  if (lean < PARALLEL) {
    const foot = footOn(line, q);
    const gap = a.offsetMm - dot(a.normal, foot);
    const distanceMm = Math.abs(gap);
    const at: readonly [Vec3, Vec3] = [add(foot, a.normal, gap), foot];
    if (distanceMm < SAME) return { text: 'the axis lies in the plane', distanceMm: 0, angleDeg: 0, at };
    const wall = r === undefined ? 0 : distanceMm - r;
    const told = wall > SAME ? `, its wall ${mm(wall)}` : '';
    return { text: `axis ${mm(distanceMm)} from the plane${told}`, distanceMm, angleDeg: 0, at };
  }
  const angleDeg = acute(Math.asin(Math.min(1, lean)) * DEG);
  const across = r === undefined ? '' : `, diameter ${mm(2 * r)}`;
  return {
    text:
      angleDeg > 90 - SAME ? `axis square to the plane${across}` : `axis at ${degrees(angleDeg)} to the plane${across}`,
    angleDeg,
  };
}

function axisOf(s: ExactShape): Line | undefined {
  switch (s.type) {
    case 'plane':
      return undefined;
    case 'cylinder':
      return { along: s.axis, through: s.through };
    case 'cone':
      return { along: s.axis, through: s.apex };
    case 'ring':
      return { along: s.axis, through: s.centre };
    default:
      return s satisfies never;
  }
}

function radiusOf(s: ExactShape): number | undefined {
  return s.type === 'cylinder' ? s.radiusMm : undefined;
}

function footOn({ along, through }: Line, p: Vec3): Vec3 {
  return add(through, along, dot(sub(p, through), along));
}

/** The touched point, which lies on a triangle, brought onto the surface itself. */
function onto(s: ExactShape, p: Vec3): Vec3 {
  const n = normalAt(s, p);
  if (!n) return p;
  if (s.type === 'plane') return add(p, n, s.offsetMm - dot(n, p));
  if (s.type === 'cylinder') {
    const foot = footOn({ along: s.axis, through: s.through }, p);
    return add(foot, n, s.sense * s.radiusMm);
  }
  return p;
}

function acute(deg: number): number {
  return deg > 90 ? 180 - deg : deg;
}

function degrees(deg: number): string {
  return `${trimmed(deg, 3)}°`;
}
