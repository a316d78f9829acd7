/**
 * The exact surface that one edge of an outline sweeps as the outline goes down its profile. `d` is how deep a point
 * lies inside the outline, w how far along the frame; the material is where d is less than the inset.
 */
import { DIGITS } from '../../tolerance';
import { tangentAt } from '../2d/edge';
import { fromFrame } from '../frame';
import type { Prism } from '../solid/prism';
import type { Edge, Frame, Point2, Vec3 } from '../types';
import { add, scale } from '../vector';
import { type ExactShape, type Place, planeThrough } from './surface';

export interface Side {
  readonly place: Place;
  readonly shape: ExactShape;
}

/** A corner that opens as the outline moves: an arc about it, `inward` when the outline shrinks. */
export interface Corner {
  readonly type: 'corner';
  readonly at: Point2;
  readonly inward: boolean;
  /** Which way the edge before it runs at its end, and the edge after it at its start; unit vectors. */
  readonly from: Point2;
  readonly to: Point2;
}

/** The wall below an edge where the profile runs straight. Corners have none there. */
export function straightSide(frame: Frame, edge: Edge | Corner): Side | undefined {
  if (edge.type === 'corner') return undefined;
  if (edge.type === 'line') {
    const n = across(frame, edge.a, edge);
    return { place: 'wall', shape: planeThrough(n, fromFrame(frame, edge.a.u, edge.a.v, 0)) };
  }
  const through = fromFrame(frame, edge.centre.u, edge.centre.v, 0);
  return {
    place: 'wall',
    shape: { type: 'cylinder', axis: frame.w, through, radiusMm: edge.radius, sense: edge.ccw ? -1 : 1 },
  };
}

/** The surface below an edge where the profile leans or bends. */
export function profiledSide(p: Prism, edge: Edge | Corner): Side | undefined {
  const { profile, frame } = p;
  switch (profile.type) {
    case 'straight':
      return straightSide(frame, edge);
    case 'taper': {
      const slope = p.to > p.from ? (profile.insetTo - profile.insetFrom) / (p.to - p.from) : 0;
      if (slope === 0 && profile.insetFrom === 0) return straightSide(frame, edge);
      return taperSide(p, edge, slope, profile.insetFrom);
    }
    case 'floor':
      return bentSide(
        frame,
        edge,
        { minorMm: profile.radius, deep: profile.radius, w: p.to - profile.radius },
        'fillet',
      );
    case 'round':
      return bentSide(frame, edge, { minorMm: profile.radius, deep: 0, w: p.to }, 'round');
    default:
      return profile satisfies never;
  }
}

function taperSide({ frame, from }: Prism, edge: Edge | Corner, slope: number, insetFrom: number): Side {
  if (edge.type === 'line') {
    const n = across(frame, edge.a, edge);
    const point = add(fromFrame(frame, edge.a.u, edge.a.v, from), n, insetFrom);
    const l = Math.hypot(1, slope);
    return { place: 'flank', shape: planeThrough(add(scale(n, 1 / l), frame.w, -slope / l), point) };
  }
  const { centre, radius, sigma } = circleOf(edge);
  const grows = sigma * slope;
  if (Math.abs(grows) < DIGITS) {
    const through = fromFrame(frame, centre.u, centre.v, 0);
    const radiusMm = radius + sigma * insetFrom;
    return { place: 'flank', shape: { type: 'cylinder', axis: frame.w, through, radiusMm, sense: sigma } };
  }
  const apex = fromFrame(frame, centre.u, centre.v, from - (radius + sigma * insetFrom) / grows);
  const axis = grows > 0 ? frame.w : scale(frame.w, -1);
  const halfAngleDeg = (Math.atan(Math.abs(slope)) * 180) / Math.PI;
  return { place: 'flank', shape: { type: 'cone', axis, apex, halfAngleDeg, sense: sigma } };
}

/** A quarter circle between wall and floor, its centre `deep` inside the outline at depth w. */
interface Bend {
  readonly minorMm: number;
  readonly deep: number;
  readonly w: number;
}

function bentSide(frame: Frame, edge: Edge | Corner, { minorMm, deep, w }: Bend, place: Place): Side {
  const sense = place === 'round' ? 1 : -1;
  if (edge.type === 'line') {
    const n = across(frame, edge.a, edge);
    const t = tangentAt(edge, edge.a);
    const through = add(fromFrame(frame, edge.a.u, edge.a.v, w), n, deep);
    const axis = add(scale(frame.u, t.u), frame.v, t.v);
    return { place, shape: { type: 'cylinder', axis, through, radiusMm: minorMm, sense } };
  }
  const { centre, radius, sigma } = circleOf(edge);
  const majorMm = radius + sigma * deep;
  const at = fromFrame(frame, centre.u, centre.v, w);
  return { place, shape: { type: 'ring', axis: frame.w, centre: at, majorMm, minorMm, sense } };
}

/** An arc's circle; `sigma` is +1 where a deeper point lies farther from its centre. A corner is a circle of no size. */
export function circleOf(edge: Exclude<Edge, { type: 'line' }> | Corner): {
  centre: Point2;
  radius: number;
  sigma: 1 | -1;
} {
  if (edge.type === 'corner') return { centre: edge.at, radius: 0, sigma: edge.inward ? 1 : -1 };
  return { centre: edge.centre, radius: edge.radius, sigma: edge.ccw ? -1 : 1 };
}

/** From an edge into the outline, in part axes. */
function across(frame: Frame, at: Point2, edge: Edge): Vec3 {
  const t = tangentAt(edge, at);
  return add(scale(frame.u, -t.v), frame.v, t.u);
}
