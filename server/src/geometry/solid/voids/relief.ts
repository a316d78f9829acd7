/**
 * Relief in the square inside corners of a pocket: a round cut whose circle passes through the corner point, its centre
 * on the corner's bisector, so that the corner of a square mate has room. Each is a void of its own beside the pocket's:
 * straight, and as deep as the corner stands.
 */

import type { Part, Pocket } from '../../../model/model';
import { NEAR, ROUNDING } from '../../../tolerance';
import { arc, tangentAt } from '../../2d/edge';
import { windingOf } from '../../2d/inside';
import { fromFrame } from '../../frame';
import type { Frame, Loop, Point2, Region, Void } from '../../types';
import { bodyOf, bodyPrism } from '../body';
import { holds } from '../prism';
import { type DepthRange, makeVoid } from './make';

/** An island in the pocket's plane, and how far down its top lies. */
interface Standing {
  readonly loop: Loop;
  readonly top: number;
}

interface Relief {
  readonly corner: Point2;
  /** Unit vector from the corner into the pocket, along the bisector. */
  readonly inward: Point2;
  readonly region: Region;
  readonly to: number;
}

/** A circle that bites less than this into the walls, mm, makes no room: the corner is nearly straight. */
const LEAST_BITE_MM = 0.01;

/** The reliefs of an outline (counter-clockwise): a circle for each square inside corner that no island covers. */
export function reliefsOf(pocket: Pocket, outer: Loop, islands: readonly Standing[], range: DepthRange): Relief[] {
  const radius = (pocket.relief?.diameter.mm ?? 0) / 2;
  if (!(radius > 0)) return [];
  return outer.edges.flatMap((next, i) => {
    const edge = outer.edges[(i + outer.edges.length - 1) % outer.edges.length]!;
    const corner = next.a;
    const [into, out] = [tangentAt(edge, edge.b), tangentAt(next, corner)];
    const turn = Math.atan2(into.u * out.v - into.v * out.u, into.u * out.u + into.v * out.v);
    // The circle stands out by r (1 − cos(turn / 2)) behind each wall.
    if (turn <= 0 || radius * (1 - Math.cos(turn / 2)) < LEAST_BITE_MM) return [];
    const [du, dv] = [out.u - into.u, out.v - into.v];
    const long = Math.hypot(du, dv);
    const inward = { u: du / long, v: dv / long };
    const to = islands
      .filter(({ loop }) => windingOf(loop.edges, ...from(corner, inward, NEAR)) !== 0)
      .reduce((least, { top }) => Math.min(least, top), range.to);
    if (to - range.from < ROUNDING) return [];
    return [{ corner, inward, region: circleThrough(corner, inward, radius), to }];
  });
}

/** The voids of the reliefs at one place of the pocket, where there is material behind the corner for them to cut. */
export function reliefVoids(
  pocket: Pocket,
  { member, frame }: { readonly member: number; readonly frame: Frame },
  reliefs: readonly Relief[],
  range: DepthRange,
  part: Part,
): readonly Void[] {
  if (reliefs.length === 0) return [];
  const body = bodyPrism(bodyOf(part));
  return reliefs.flatMap(({ corner, inward, region, to }) => {
    const [u, v] = from(corner, inward, -NEAR);
    const stands = [0.5, 0.05, 0.95].some((share) =>
      holds(body, fromFrame(frame, u, v, range.from + share * (to - range.from))),
    );
    if (!stands) return [];
    const through = range.through && to === range.to;
    return [makeVoid(pocket, { member, role: 'pocket', frame, region, from: range.from, to, through })];
  });
}

/** The circle starts at the corner point, so that the middle of its edge is where it is open to the pocket. */
function circleThrough(corner: Point2, inward: Point2, radius: number): Region {
  const [u, v] = from(corner, inward, radius);
  return { outer: { edges: [arc(corner, corner, { u, v }, true)] }, holes: [] };
}

function from(p: Point2, way: Point2, mm: number): readonly [u: number, v: number] {
  return [p.u + way.u * mm, p.v + way.v * mm];
}
