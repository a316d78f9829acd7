/**
 * Whether material really stands between two places. A gap that a third removed volume takes away is no wall, so the
 * gap is cut into cells at the bounds of the volumes near it, and the place is sought among the cells that still stand.
 */

import { heed, spend } from '../../effort';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { holds, insetAt } from '../solid/prism';
import type { BodyShape, Box, Vec3, Void } from '../types';
import { dot, mix, spanAlong } from '../vector';
import { type Convex, convexApart } from './gjk';
import { depthIn, outlineOf, signedDistance } from './outline';
import { piecesOf } from './pieces';

/** What the search for walls knows besides the two volumes. */
export interface Surroundings {
  readonly body: BodyShape;
  readonly belowMm: number;
  readonly isMaterial: (p: Vec3) => boolean;
  /** The volumes the gap lies between. */
  readonly own: readonly Void[];
  /** Every other volume whose bounds reach into the gap. */
  readonly near: readonly Void[];
  /** Of all these, those that go on where another one ends. */
  readonly joints?: readonly Joint[];
  /** Asked before a search for what has no closed form; false where it is not to be made. */
  readonly maySearch?: () => boolean;
}

/** Two volumes of one cut along one axis, the second from where the first ends: a bore and the cone below it. */
interface Joint {
  readonly above: Void;
  readonly below: Void;
}

/** Where volumes of one cut go on from each other. */
export function jointsOf(volumes: readonly Void[]): readonly Joint[] {
  const found: Joint[] = [];
  const byCut = new Map<string, Void[]>();
  for (const v of volumes) {
    const cut = `${v.feature}[${v.member}]`;
    const others = byCut.get(cut);
    if (!others) {
      byCut.set(cut, [v]);
      continue;
    }
    for (const o of others) {
      if (o.frame !== v.frame) continue;
      if (o.to === v.from) found.push({ above: o, below: v });
      else if (v.to === o.from) found.push({ above: v, below: o });
    }
    others.push(v);
  }
  return found;
}

const SAMPLES = [0.5, 0.02, 0.98, 0.26, 0.74, 0.14, 0.38, 0.62, 0.86];

const CLOSER = [0.5, 0.17, 0.83, 0.33, 0.67];

/**
 * True where the whole line from p to q is material, its ends (which lie on surfaces) left out. Only the body and the
 * volumes that reach into the gap can take it away; the part as a whole is asked last, once.
 */
export function stands(p: Vec3, q: Vec3, s: Surroundings): boolean {
  heed(4);
  for (const t of SAMPLES) {
    const x = mix(p, q, t);
    if (!inBody(s.body, x)) return false;
    for (const v of s.own) if (holds(v, x)) return false;
    for (const v of s.near) if (holds(v, x) || grazes(v, x)) return false;
  }
  for (const v of s.near) {
    const inside = partWithin(p, q, v);
    if (!inside) continue;
    for (const t of CLOSER) {
      if (holds(v, mix(p, q, inside.from + (inside.to - inside.from) * t))) return false;
    }
    if (meets(p, q, v)) return false;
  }
  return s.isMaterial(ontoBody(s.body, mix(p, q, 0.5)));
}

/** A place that lies outside the body by no more than rounding, on its surface: a line may run along a face. */
function ontoBody({ box: { min, max } }: BodyShape, x: Vec3): Vec3 {
  const held = (k: 0 | 1 | 2) => {
    if (x[k] < min[k]) return x[k] > min[k] - ROUNDING ? min[k] : x[k];
    return x[k] > max[k] && x[k] < max[k] + ROUNDING ? max[k] : x[k];
  };
  return [held(0), held(1), held(2)];
}

/**
 * True where no line to what lies opposite stands from anywhere within `reach` of p, mm: some place of the line from p to
 * its nearest point q lies that deep in a volume or that far outside the body. `steady`: q moves no faster than p, so
 * that all of the line counts; else only its end does.
 */
export function goneAround(p: Vec3, q: Vec3, reach: number, steady: boolean, s: Surroundings): boolean {
  spend(6 + s.near.length);
  for (const t of steady ? AT_ENDS : [0]) {
    const x = mix(p, q, t);
    if (outsideBy(s.body, x) > reach) return true;
    for (const v of s.own) if (depthWithin(v, x, reach) > reach) return true;
  }
  const joints = s.joints ?? [];
  if (!steady) {
    return (
      s.near.some((v) => depthWithin(v, p, reach) > reach) || joints.some((j) => depthWithinBoth(j, p, reach) > reach)
    );
  }
  // A volume is asked where the line is inside its bounds: that is where it can be deep in it.
  const along = ({ from, to }: { from: number; to: number }, deep: (x: Vec3) => number) =>
    IN_BETWEEN.some((t) => deep(mix(p, q, from + (to - from) * t)) > reach);
  for (const v of s.near) {
    const part = partWithin(p, q, v);
    if (part && along(part, (x) => depthWithin(v, x, reach))) return true;
  }
  for (const j of joints) {
    const parts = [partWithin(p, q, j.above), partWithin(p, q, j.below)];
    if (parts.some((part) => part && along(part, (x) => depthWithinBoth(j, x, reach)))) return true;
  }
  return false;
}
const AT_ENDS = [0, 0.5, 0.02, 0.98, 0.26, 0.74];
const IN_BETWEEN = [0.5, 0.25, 0.75, 0.02, 0.98];

/** How deep inside a volume a point lies, mm: never told too large, 0 where it is less than `least`. */
function depthWithin(v: Void, x: Vec3, least: number): number {
  const { frame, from, to } = v;
  if (!isWellWithin(v.bounds, x, least)) return 0;
  const w = dot(x, frame.w) - dot(frame.origin, frame.w);
  const ends = Math.min(w - from, to - w);
  return ends < least ? 0 : Math.min(ends, depthOfSides(v, x, w, least));
}

/**
 * The same for two volumes that go on from each other: what lies within the sides of both, were they longer, lies in one
 * or the other.
 */
function depthWithinBoth({ above, below }: Joint, x: Vec3, least: number): number {
  const { frame, from } = above;
  if (!isWellWithin(above.bounds, x, 0) && !isWellWithin(below.bounds, x, 0)) return 0;
  const w = dot(x, frame.w) - dot(frame.origin, frame.w);
  const ends = Math.min(w - from, below.to - w);
  // farther than `least` from the joint each has been asked by itself
  if (ends < least || Math.abs(w - above.to) > least) return 0;
  return Math.min(ends, depthOfSides(above, x, w, least), depthOfSides(below, x, w, least));
}

function isWellWithin({ min, max }: Box, x: Vec3, by: number): boolean {
  for (const i of [0, 1, 2] as const) if (x[i] < min[i] + by || x[i] > max[i] - by) return false;
  return true;
}

/** From the sides of a volume, gone on beyond its ends as they are there. */
function depthOfSides(v: Void, x: Vec3, w: number, least: number): number {
  const { frame, from, to, profile } = v;
  const off: Vec3 = [x[0] - frame.origin[0], x[1] - frame.origin[1], x[2] - frame.origin[2]];
  const side = (enough: number) => depthIn(outlineOf(v.region), dot(off, frame.u), dot(off, frame.v), enough);
  if (profile.type === 'straight') return side(least);
  if (profile.type !== 'taper') return Math.max(0, side(least + profile.radius) - profile.radius);
  const slope = (profile.insetTo - profile.insetFrom) / (to - from);
  const [inset, steep] = [insetAt(v, w), Math.hypot(1, slope)];
  return Math.max(0, (side(least * steep + inset) - inset) / steep);
}

/** How far outside the body a point lies, mm: never told too large. */
function outsideBy(body: BodyShape, p: Vec3): number {
  const { min, max } = body.box;
  let far = 0;
  let off = 0;
  for (let i = 0; i < 3; i++) {
    const k = i as 0 | 1 | 2;
    far = Math.max(far, min[k] - p[k], p[k] - max[k]);
    if (body.form === 'round' && i !== body.axis) off += (p[k] - (min[k] + max[k]) / 2) ** 2;
  }
  return body.form === 'round' ? Math.max(far, Math.sqrt(off) - body.radius) : far;
}

/** What samples stepped over: whether the line, its ends left out, goes through a convex volume. */
function meets(p: Vec3, q: Vec3, v: Void): boolean {
  const { solid, list } = piecesOf(v);
  if (!solid) return false;
  const [a, b] = [mix(p, q, 0.02), mix(p, q, 0.98)];
  const line: Convex = { support: (d) => (dot(d, a) > dot(d, b) ? a : b), middle: mix(p, q, 0.5) };
  return convexApart(line, list[0]!, ROUNDING).mm < ROUNDING;
}

const HAIR = 1e-7;

/** On the side of a volume: the line runs along the part's surface there, and is no way through material. */
function grazes({ bounds, frame, from, to, region, profile }: Void, [x, y, z]: Vec3): boolean {
  const { min, max } = bounds;
  if (x < min[0] - HAIR || y < min[1] - HAIR || z < min[2] - HAIR) return false;
  if (x > max[0] + HAIR || y > max[1] + HAIR || z > max[2] + HAIR) return false;
  if (profile.type !== 'straight') return false;
  const off: Vec3 = [x - frame.origin[0], y - frame.origin[1], z - frame.origin[2]];
  const w = dot(off, frame.w);
  if (w < from || w > to) return false;
  return Math.abs(signedDistance(outlineOf(region), dot(off, frame.u), dot(off, frame.v))) < HAIR;
}

export function inBody(body: BodyShape, p: Vec3): boolean {
  const { min, max } = body.box;
  for (const i of [0, 1, 2] as const) if (p[i] < min[i] - ROUNDING || p[i] > max[i] + ROUNDING) return false;
  if (body.form === 'box') return true;
  let off = 0;
  for (let i = 0; i < 3; i++) if (i !== body.axis) off += (p[i as 0] - (min[i as 0] + max[i as 0]) / 2) ** 2;
  return off <= body.radius ** 2;
}

/** The part of the line that lies within a volume's bounds, looked at closer: a narrow slit is not stepped over. */
function partWithin(p: Vec3, q: Vec3, v: Void): { from: number; to: number } | undefined {
  let [from, to] = [0, 1];
  for (let i = 0; i < 3; i++) {
    const k = i as 0 | 1 | 2;
    const d = q[k] - p[k];
    const [a, b] = [v.bounds.min[k] - p[k], v.bounds.max[k] - p[k]];
    if (Math.abs(d) < DIGITS) {
      if (a > 0 || b < 0) return undefined;
      continue;
    }
    from = Math.max(from, Math.min(a / d, b / d));
    to = Math.min(to, Math.max(a / d, b / d));
  }
  return to - from > SAME ? { from, to } : undefined;
}

export interface Cell {
  readonly from: number;
  readonly to: number;
  readonly middle: number;
}

/** [from, to] cut where the bounds of volumes near the gap begin and end along a direction; longest first. */
export function cells(
  from: number,
  to: number,
  direction: Vec3,
  offset: number,
  near: readonly Void[],
): readonly Cell[] {
  if (to - from < ROUNDING) return [{ from, to, middle: (from + to) / 2 }];
  const cuts = [from, to];
  for (const v of near) for (const x of spanAlong(v.bounds, direction, offset)) if (x > from && x < to) cuts.push(x);
  return between(cuts);
}

/** The stretches between sorted cuts, in order. */
export function between(cuts: number[]): readonly Cell[] {
  cuts.sort((x, y) => x - y);
  const made: Cell[] = [];
  for (let i = 1; i < cuts.length; i++) {
    const [a, b] = [cuts[i - 1]!, cuts[i]!];
    if (b - a > SAME) made.push({ from: a, to: b, middle: (a + b) / 2 });
  }
  return made;
}

/** The longest run of neighbouring cells for which `open` holds, and the longest cell in it. */
export function longestRun(
  list: readonly Cell[],
  open: (c: Cell) => boolean,
): { from: number; to: number; cell: Cell } | undefined {
  let best: { from: number; to: number; cell: Cell } | undefined;
  let run: { from: number; to: number; cell: Cell } | undefined;
  for (const cell of list) {
    if (!open(cell)) run = undefined;
    else if (!run) run = { from: cell.from, to: cell.to, cell };
    else
      run = { from: run.from, to: cell.to, cell: cell.to - cell.from > run.cell.to - run.cell.from ? cell : run.cell };
    if (run && (!best || run.to - run.from > best.to - best.from)) best = run;
  }
  return best;
}
