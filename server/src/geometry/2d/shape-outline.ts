/** Outlines of the shapes a spec can name: rectangle, circle, path. Counter-clockwise, relative to the feature's place. */

import type { Shape } from '../../model/model';
import { DIGITS, ROUNDING } from '../../tolerance';
import type { Edge, Loop, Point2 } from '../types';
import { reversedLoop } from './assemble-loops';
import { arc, circleEdge, line } from './edge';
import { loopArea } from './moments';
import { pathLoop } from './path-outline';
import { mapLoop, turn } from './plane-map';

/** The loop of a shape; undefined when it encloses nothing. */
export function outlineOf(shape: Shape): Loop | undefined {
  switch (shape.type) {
    case 'circle':
      return circleLoop({ u: 0, v: 0 }, shape.diameter.mm / 2);
    case 'rectangle': {
      const loop = rectangleLoop(shape.u.mm, shape.v.mm, shape.cornerRadius.mm);
      return loop && shape.rotateDeg !== 0 ? mapLoop(turn(shape.rotateDeg), loop) : loop;
    }
    case 'path': {
      const loop = pathLoop(shape.corners);
      if (!loop) return undefined;
      const area = loopArea(loop);
      if (Math.abs(area) < ROUNDING) return undefined;
      return area < 0 ? reversedLoop(loop) : loop;
    }
    default:
      return shape satisfies never;
  }
}

/** A circle, counter-clockwise; undefined for a radius of 0 or less (mm). */
export function circleLoop(centre: Point2, radius: number): Loop | undefined {
  return radius > 0 ? { edges: [circleEdge(centre, radius)] } : undefined;
}

/** Centred on the origin. A corner radius of half the width or more makes round ends. */
export function rectangleLoop(width: number, height: number, cornerRadius: number): Loop | undefined {
  if (!(width > 0 && height > 0)) return undefined;
  const r = Math.min(Math.max(0, cornerRadius), width / 2, height / 2);
  const x = width / 2;
  const y = height / 2;
  if (r === 0) return polygonLoop([p(-x, -y), p(x, -y), p(x, y), p(-x, y)]);
  if (r >= x && r >= y) return circleLoop({ u: 0, v: 0 }, r);
  const edges: Edge[] = [];
  const side = (a: Point2, b: Point2, corner: number) => {
    if (Math.abs(a.u - b.u) > DIGITS || Math.abs(a.v - b.v) > DIGITS) edges.push(line(a, b, corner));
  };
  side(p(-x + r, -y), p(x - r, -y), 0);
  edges.push(arc(p(x - r, -y), p(x, -y + r), p(x - r, -y + r), true, 1));
  side(p(x, -y + r), p(x, y - r), 1);
  edges.push(arc(p(x, y - r), p(x - r, y), p(x - r, y - r), true, 2));
  side(p(x - r, y), p(-x + r, y), 2);
  edges.push(arc(p(-x + r, y), p(-x, y - r), p(-x + r, y - r), true, 3));
  side(p(-x, y - r), p(-x, -y + r), 3);
  edges.push(arc(p(-x, -y + r), p(-x + r, -y), p(-x + r, -y + r), true, 0));
  return { edges };
}

/** Straight edges from point to point and back to the first; edge n leaves corner n. */
export function polygonLoop(points: readonly Point2[]): Loop {
  return { edges: points.map((a, i) => line(a, points[(i + 1) % points.length]!, i)) };
}

/** Axis-parallel rectangle between two corners. */
export function rectLoop(u0: number, v0: number, u1: number, v1: number): Loop {
  return polygonLoop([p(u0, v0), p(u1, v0), p(u1, v1), p(u0, v1)]);
}

function p(u: number, v: number): Point2 {
  return { u, v };
}
