/** Where the axis of a form cutter stands along an edge, round a rim, beside a slope or in a mark. */

import { lengthOf, pointAt, tangentAt } from '../../geometry/2d/edge';
import { centroidOf, regionMoments } from '../../geometry/2d/moments';
import type { Edge, Loop, Vec3, Void } from '../../geometry/types';
import type { ChamferMill, Mill, Tool } from '../../model/shop-model';
import { ROUNDING, SAME } from '../../tolerance';
import { depthBelow, inward } from '../column';
import { BELOW_MM } from '../room';
import { add, dot, ofFrame } from '../section';
import type { Case } from './case';

export type Seen = Pick<Case, 'up' | 'cut'>;

/** Its sweep runs along the spindle. */
export function isUpright(v: Void, { up }: Pick<Case, 'up'>): boolean {
  return Math.abs(dot(v.frame.w, inward(up))) > 1 - SAME;
}

/** Beside the middle of an upright edge's slanting side, at its foot. */
export function besideEdge(v: Void, { up }: Pick<Case, 'up'>, radiusMm: number): readonly Vec3[] {
  const edges = v.region.outer.edges;
  // The side that is cut is the one not on either face: it touches neither u = 0 nor v = 0 along its whole length.
  const side = edges.find(
    (e) =>
      Math.max(Math.abs(e.a.u), Math.abs(e.b.u)) > ROUNDING &&
      Math.abs(e.a.u - e.b.u) > ROUNDING &&
      Math.abs(e.a.v - e.b.v) > ROUNDING,
  );
  if (!side) return [];
  const mid = pointAt(side, 0.5);
  const n = { u: Math.abs(side.a.v - side.b.v), v: Math.abs(side.a.u - side.b.u) };
  const size = Math.hypot(n.u, n.v);
  const foot = dot(v.frame.w, inward(up)) > 0 ? v.to : v.from;
  return [ofFrame(v.frame, mid.u - (n.u / size) * radiusMm, mid.v - (n.v / size) * radiusMm, foot)];
}

/** A chamfer mill along a level edge: outside the side that stands upright, its cone on the edge. */
export function alongEdge(v: Void, { up, cut: { before: place } }: Seen, tool: Tool): readonly Vec3[] {
  if (v.profile.type !== 'straight' || Math.abs(dot(v.frame.w, inward(up))) > 0.5) return [];
  const down = inward(up);
  // Into the body from the upright side.
  const into = Math.abs(dot(v.frame.u, down)) > 0.5 ? v.frame.v : v.frame.u;
  const half = (('angleDeg' in tool ? ((tool as ChamferMill).angleDeg ?? 90) : 90) / 2) * (Math.PI / 180);
  // A cone goes below the edge; a rounder ends where its round does.
  const below = tool.kind === 'corner-rounder' ? 0 : BELOW_MM;
  const out = tipRadius(tool) + below * Math.tan(half);
  const low = Math.max(depthBelow(place, up, v.bounds.min), depthBelow(place, up, v.bounds.max)) + below;
  return [0, 0.5, 1].map((k) => {
    const p = add(ofFrame(v.frame, 0, 0, v.from + k * (v.to - v.from)), into, -out);
    return add(p, down, low - depthBelow(place, up, p));
  });
}

/** So many places round a rim are looked at, each edge of it by its share of the way round. */
const PLACES = 12;

/**
 * Round a rim or an outline: its own tip's radius off the wall below the break, on the side that is cut away. Into a hole
 * too narrow for that a cone goes down in the middle until its flank is on the edge.
 */
export function aroundRim(v: Void, tool: Tool): Vec3 | undefined {
  const { loop, middle, beside } = rimOf(v, tool);
  if (middle) return middle.at;
  const edge = longest(loop);
  return edge && beside(edge, 0.5);
}

/** The same all the way round. */
export function allAroundRim(v: Void, tool: Tool): readonly Vec3[] {
  const { loop, middle, beside } = rimOf(v, tool);
  if (middle) return middle.at ? [middle.at] : [];
  const way = loop.edges.reduce((sum, e) => sum + lengthOf(e), 0);
  return loop.edges.flatMap((edge) => {
    const places = Math.round((PLACES * lengthOf(edge)) / way);
    return Array.from({ length: places }, (_, i) => beside(edge, (i + 0.5) / places));
  });
}

interface RimWay {
  readonly loop: Loop;
  /** Of a hole too narrow to go round in; without a place for a cutter that cannot go down there. */
  readonly middle?: { readonly at: Vec3 | undefined };
  beside(edge: Edge, share: number): Vec3;
}

function rimOf(v: Void, tool: Tool): RimWay {
  const { profile, region } = v;
  const cone = 'tipMm' in tool ? tool : undefined;
  const half = ((cone?.angleDeg ?? 90) / 2) * (Math.PI / 180);
  const below = cone ? BELOW_MM : 0;
  const offMm = tipRadius(tool) + below * Math.tan(half) - (profile.type === 'taper' ? profile.insetTo : 0);
  // Of a break round what stands the inner loops are the wall; of a rim the outer one.
  const loop: Loop = region.holes[0] ?? region.outer;
  const inMm = profile.type === 'round' ? offMm + profile.radius : offMm;
  const beside = (edge: Edge, share: number): Vec3 => {
    const p = pointAt(edge, share);
    const t = tangentAt(edge, p);
    return ofFrame(v.frame, p.u - t.v * inMm, p.v + t.u * inMm, v.to + below);
  };
  const [only] = loop.edges;
  if (loop !== region.outer || loop.edges.length > 1 || only?.type !== 'arc' || inMm <= only.radius)
    return { loop, beside };
  const { u, v: q } = centroidOf(regionMoments(region));
  const wideMm = profile.type === 'taper' ? only.radius - profile.insetFrom : only.radius;
  const at = cone && ofFrame(v.frame, u, q, v.from + (wideMm - tipRadius(tool)) / Math.tan(half));
  return { loop, beside, middle: { at } };
}

function longest({ edges }: Loop): Edge | undefined {
  return edges.reduce<Edge | undefined>((a, b) => (a && lengthOf(a) >= lengthOf(b) ? a : b), undefined);
}

/** How thick a form cutter is where it is thinnest, which is its tip. */
export function tipRadius(tool: Tool): number {
  if ('tipMm' in tool) return tool.tipMm / 2;
  if (tool.kind === 'corner-rounder') return tool.diameterMm / 2 - (tool as Mill).cornerRadiusMm;
  return tool.diameterMm / 2;
}

/** In the middle of the first stroke of a mark, at its floor. */
export function inStroke(v: Void, strokeMm: number): Vec3 | undefined {
  const edge = longest(v.region.outer);
  if (!edge) return undefined;
  const p = pointAt(edge, 0.5);
  const t = tangentAt(edge, p);
  return ofFrame(v.frame, p.u - (t.v * strokeMm) / 2, p.v + (t.u * strokeMm) / 2, v.to);
}

export function middleOf(v: Void, { up, cut: { before: place } }: Seen): Vec3 {
  const { min, max } = v.bounds;
  const p: Vec3 = [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2];
  const low = Math.max(depthBelow(place, up, min), depthBelow(place, up, max));
  return add(p, inward(up), low - depthBelow(place, up, p));
}
