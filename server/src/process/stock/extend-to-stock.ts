/**
 * What a feature takes from the stock: its own volumes, carried on through what is left outside the body wherever they
 * open to it. Downward, away from the spindle, nothing is carried on: a through cut ends where the body ends, and what is
 * left below it holds the part until that face is cut in its turn.
 */

import { uniteRegions } from '../../geometry/2d/assemble-loops';
import { chords } from '../../geometry/2d/chords';
import { rectOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { insetRegion } from '../../geometry/2d/offset';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf } from '../../geometry/solid/prism';
import type { BodyShape, Edge, Frame, Region, Vec3, Void, VoidRole } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, FACES, type Face, OPPOSITE } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { excessOver } from './stock';

/** Cut by going down or along an edge: they run out at no side. */
const NOT_SIDEWAYS: ReadonlySet<VoidRole> = new Set([
  'bore',
  'point',
  'counterbore',
  'countersink',
  'edge',
  'engraving',
  'groove',
]);

/**
 * Of edges broken all round a part only those are cut in a set-up that a tool sees from there: from either face that meets
 * in the edge, or along it; a rim from where it opens. Everything else is one cut.
 */
export function isCutFrom(v: Void, up: Face): boolean {
  if (v.role !== 'edge') return true;
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const into = (d: Vec3) => -d[i] * sign;
  if (v.profile.type !== 'straight') return into(v.frame.w) > 1 - SAME;
  return into(v.frame.u) > 0.5 || into(v.frame.v) > 0.5 || Math.abs(into(v.frame.w)) > 1 - SAME;
}

/** A feature is cut in one set-up, seldom two; a planner asks for a few more. */
const KEEP = 6;

/** A void carried on through the excess; the void itself where there is none. `up` left out: cut from its own face. */
export const carriedOn = memo(carry, { size: KEEP });

function carry(v: Void, stock: BodyShape, body: BodyShape, up: Face | undefined): readonly Void[] {
  const open = FACES.filter(
    (face) => face !== downOf(v, up) && excessOver(face, stock, body) > 0 && reaches(v, face, body),
  );
  if (open.length === 0) return [v];
  if (!isSquare(v.frame)) return [leaning(v, stock, body)];
  const regions = NOT_SIDEWAYS.has(v.role) ? [v.region] : runOut(v, open, stock, body);
  return regions.flatMap((region) => deepened(v, region, open, stock, body));
}

/** The face that looks down while it is cut: where no set-up says, the one opposite the mouth. */
function downOf(v: Void, up: Face | undefined): Face | undefined {
  if (up) return OPPOSITE[up];
  return FACES.find((face) => along(v.frame.w, face) > 1 - SAME);
}

/** Cosine between a direction and the outward normal of a face. */
function along(d: Vec3, face: Face): number {
  const { axis, sign } = FACE_AXIS[face];
  return d[AXIS_INDEX[axis]] * sign;
}

function reaches(v: Void, face: Face, body: BodyShape): boolean {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  return sign > 0 ? v.bounds.max[i] >= body.box.max[i] - SAME : v.bounds.min[i] <= body.box.min[i] + SAME;
}

function isSquare({ u, v, w }: Frame): boolean {
  return [u, v, w].every((d) => d.some((c) => Math.abs(c) > 1 - ROUNDING));
}

/** A leaning hole starts as much farther out as the thickest excess, seen along it. */
function leaning(v: Void, stock: BodyShape, body: BodyShape): Void {
  const out = FACES.reduce((best, face) => (along(v.frame.w, face) < along(v.frame.w, best) ? face : best));
  const by = excessOver(out, stock, body) / Math.max(0.1, -along(v.frame.w, out));
  return reshaped(v, v.region, v.from - by, v.to);
}

function reshaped(v: Void, region: Region, from: number, to: number, profile = v.profile): Void {
  return { ...v, region, from, to, profile, bounds: boundsOf(v.frame, region, from, to, profile) };
}

/** Longer at the ends that open: straight ones as they are, others with a straight piece before them. */
function deepened(v: Void, region: Region, open: readonly Face[], stock: BodyShape, body: BodyShape): readonly Void[] {
  const near = open.find((face) => along(v.frame.w, face) < -1 + SAME);
  const far = open.find((face) => along(v.frame.w, face) > 1 - SAME);
  let from = v.from;
  let to = v.to;
  const extra: Void[] = [];
  if (far && v.profile.type === 'straight') to += excessOver(far, stock, body);
  if (near && v.profile.type !== 'round') {
    const start = v.from - excessOver(near, stock, body);
    if (v.profile.type !== 'taper') from = start;
    else if (v.role !== 'edge') {
      // A countersink or dovetail is at its mouth what it is there, all the way up.
      const mouth = insetRegion(region, v.profile.insetFrom) ?? [region];
      for (const r of mouth) extra.push(reshaped(v, r, start, v.from, { type: 'straight' }));
    }
  }
  return [reshaped(v, region, from, to), ...extra];
}

/** The outline with what lies beside it in the excess: as wide as it is where it leaves the body, corners included. */
function runOut(v: Void, open: readonly Face[], stock: BodyShape, body: BodyShape): readonly Region[] {
  const sides = open.flatMap((face) => sideOf(v.frame, face, stock, body) ?? []);
  const all = roundAll(v, sides);
  if (all) return [all];
  const edges = regionEdges(v.region);
  const added = sides.flatMap((side) => besideIt(side, sides, edges));
  const whole = isRectangle(v.region) ? rectOf(v.region.outer.edges) : undefined;
  const beyond = added.filter(({ outer }) => !whole || !within(rectOf(outer.edges), whole));
  if (beyond.length === 0) return [v.region];
  return uniteRegions([v.region, ...beyond]) ?? [v.region, ...beyond];
}

/** What lies beside an outline in the excess on one side, and in the corners to its neighbours. */
function besideIt(side: Side, sides: readonly Side[], edges: readonly Edge[]): readonly Region[] {
  const [nu, nv] = side.axis === 'u' ? [1, 0] : [0, 1];
  const neighbours = sides.filter((other) => other.axis !== side.axis);
  return chords(edges, nu, nv, side.at - side.out * SAME).map((chord): Region => {
    // `chords` counts along (−nv, nu).
    let [a, b] = side.axis === 'u' ? chord : ([-chord[1], -chord[0]] as const);
    for (const { out, at, end } of neighbours) {
      if (out > 0 && b >= at - 2 * SAME) b = Math.max(b, end);
      if (out < 0 && a <= at + 2 * SAME) a = Math.min(a, end);
    }
    const [from, to] = side.out > 0 ? [side.at, side.end] : [side.end, side.at];
    return { outer: side.axis === 'u' ? rectLoop(from, a, to, b) : rectLoop(a, from, b, to), holes: [] };
  });
}

/** An outline takes off whatever stands outside it, right out to where the stock ends. */
function roundAll({ role, region }: Void, sides: readonly Side[]): Region | undefined {
  if (role !== 'contour' || !isRectangle({ outer: region.outer, holes: [] })) return undefined;
  let { u0, v0, u1, v1 } = rectOf(region.outer.edges);
  const outside = ({ axis, at, out }: Side) =>
    out * ((axis === 'u' ? (out > 0 ? u1 : u0) : out > 0 ? v1 : v0) - at) > SAME;
  if (!sides.every(outside)) return undefined;
  for (const { axis, end, out } of sides) {
    if (axis === 'u' && out > 0) u1 = Math.max(u1, end);
    else if (axis === 'u') u0 = Math.min(u0, end);
    else if (out > 0) v1 = Math.max(v1, end);
    else v0 = Math.min(v0, end);
  }
  return { outer: rectLoop(u0, v0, u1, v1), holes: region.holes };
}

function isRectangle({ outer, holes }: Region): boolean {
  return (
    holes.length === 0 &&
    outer.edges.length === 4 &&
    outer.edges.every((e) => e.type === 'line' && (e.a.u === e.b.u || e.a.v === e.b.v))
  );
}

type Rect = ReturnType<typeof rectOf>;

function within(inner: Rect, outer: Rect): boolean {
  return inner.u0 >= outer.u0 && inner.u1 <= outer.u1 && inner.v0 >= outer.v0 && inner.v1 <= outer.v1;
}

interface Side {
  readonly axis: 'u' | 'v';
  /** Where the body and the stock end, in the outline's plane, and which way is out. */
  readonly at: number;
  readonly end: number;
  readonly out: 1 | -1;
}

function sideOf(frame: Frame, face: Face, stock: BodyShape, body: BodyShape): Side | undefined {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  const name = Math.abs(frame.u[i]) > 0.5 ? 'u' : Math.abs(frame.v[i]) > 0.5 ? 'v' : undefined;
  if (!name) return undefined;
  const scale = frame[name][i] > 0 ? 1 : -1;
  const place = ({ box }: BodyShape) => ((sign > 0 ? box.max[i] : box.min[i]) - frame.origin[i]) * scale;
  return { axis: name, at: place(body), end: place(stock), out: (sign * scale) as 1 | -1 };
}
