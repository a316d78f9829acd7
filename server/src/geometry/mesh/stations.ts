/**
 * Where along an outline a section is set up when it is drawn round it edge by edge: the place, and the way in. Two
 * stretches that run on into each other have the very same station at their joint.
 */
import { DIGITS } from '../../tolerance';
import { startAngle, sweepOf, TAU, tangentAt } from '../2d/edge';
import { cornerOf } from '../2d/offset';
import type { Edge, Point2 } from '../types';
import type { Chain, Stretch } from './ring';
import { type Corner, circleOf } from './sides';

interface Station {
  readonly at: Point2;
  /** Unit vector into the outline. */
  readonly inward: Point2;
  /** Deeper than this lies beyond the arc's centre; less deep than `least` (negative: outside) likewise. */
  readonly most: number;
  readonly least: number;
}

/** How far a band runs over the corner in which two edges close in on each other, mm. */
export const OVERLAP_MM = 0.004;
/** How far one runs over into a straight neighbour. */
const OVER_MM = 0.25;
const INF = Number.POSITIVE_INFINITY;

/**
 * The stations of stretch `i`, and which stretch each step from one to the next belongs to. A band runs over into the
 * next one, by the very facet that is drawn there, so that the two overlap and need not meet face to face.
 * `reach`: the inset farthest from 0, which tells corners that open from those that close.
 */
export function stationsAlong(
  chain: Chain,
  i: number,
  reach: number,
): { stations: readonly Station[]; steps: readonly number[]; closed: boolean } {
  const { of } = chain[i]!;
  const stations = stationsOf(of, chain[i]!.steps);
  const steps = stations.map(() => i);
  if (of.type === 'arc' && Math.abs(sweepOf(of)) > TAU - DIGITS)
    return { stations: stations.slice(0, -1), steps, closed: true };
  const before = chain[(i + chain.length - 1) % chain.length]!.of;
  const next = (i + 1) % chain.length;
  const after = chain[next]!.of;
  if (!closes(before, of, reach)) stations[0] = { ...stations[0]!, ...joint(before, of) };
  else if (of.type !== 'corner') {
    stations.unshift(beyond(stations[0]!, tangentAt(of, of.a), -1));
    steps.unshift(i);
  }
  if (closes(of, after, reach)) {
    if (of.type !== 'corner') stations.push(beyond(stations[stations.length - 1]!, tangentAt(of, of.b), 1));
  } else {
    stations[stations.length - 1] = { ...stations[stations.length - 1]!, ...joint(of, after) };
    const over = stationsOf(after, chain[next]!.steps);
    stations.push(after.type === 'line' ? partWay(over[0]!, over[1]!) : over[1]!);
    steps[steps.length - 1] = next;
  }
  return { stations, steps, closed: false };
}

function partWay(a: Station, b: Station): Station {
  const long = Math.hypot(b.at.u - a.at.u, b.at.v - a.at.v);
  const t = Math.min(0.5, OVER_MM / long);
  return { ...a, at: { u: a.at.u + t * (b.at.u - a.at.u), v: a.at.v + t * (b.at.v - a.at.v) } };
}

function stationsOf(of: Stretch['of'], steps: number): Station[] {
  if (of.type === 'line') {
    const inward = leftNormal(tangentAt(of, of.a));
    return [of.a, of.b].map((at) => ({ at, inward, most: INF, least: -INF }));
  }
  if (of.type === 'corner') return fan(of, steps);
  const { centre, radius, sigma } = circleOf(of);
  const [start, turn] = [startAngle(of), sweepOf(of)];
  return Array.from({ length: steps + 1 }, (_, k) => {
    const angle = start + (turn * k) / steps;
    const [u, v] = [Math.cos(angle), Math.sin(angle)];
    return {
      at: { u: centre.u + radius * u, v: centre.v + radius * v },
      inward: { u: sigma * u, v: sigma * v },
      most: sigma < 0 ? radius : INF,
      least: sigma > 0 ? -radius : -INF,
    };
  });
}

/** About a corner, from the inward side of the edge before it to that of the edge after it. */
function fan({ at, inward, from, to }: Corner, steps: number): Station[] {
  const start = Math.atan2(from.u, -from.v);
  const turn = Math.atan2(from.u * to.v - from.v * to.u, from.u * to.u + from.v * to.v);
  return Array.from({ length: steps + 1 }, (_, k) => {
    const angle = start + (turn * k) / steps;
    const way = { u: Math.cos(angle), v: Math.sin(angle) };
    return { at, inward: way, most: inward ? INF : 0, least: inward ? 0 : -INF };
  });
}

function closes(e: Edge | Corner, f: Edge | Corner, reach: number): boolean {
  return e.type !== 'corner' && f.type !== 'corner' && e !== f && cornerOf(e, f, reach) === 'closes';
}

/** Both sides of a joint ask here, so that they are answered the same. */
function joint(before: Edge | Corner, after: Edge | Corner): Pick<Station, 'at' | 'inward'> {
  if (before.type !== 'corner') return { at: before.b, inward: leftNormal(tangentAt(before, before.b)) };
  if (after.type !== 'corner') return { at: before.at, inward: leftNormal(tangentAt(after, after.a)) };
  return { at: before.at, inward: leftNormal(before.to) };
}

function leftNormal(t: Point2): Point2 {
  return { u: -t.v, v: t.u };
}

function beyond(s: Station, way: Point2, sign: number): Station {
  return { ...s, at: { u: s.at.u + sign * OVERLAP_MM * way.u, v: s.at.v + sign * OVERLAP_MM * way.v } };
}
