/**
 * Set operations on flat regions of lines and arcs: the boundary of what lies inside some and outside others.
 *
 * Every edge is split where it meets another; a piece belongs to the boundary when the answer differs between its two
 * sides. Pieces that several regions share are looked at once, each region judged by the direction it runs in. The
 * pieces alone give area and moments; `chain.ts` joins them where loops are wanted.
 */

import { spend } from '../../effort';
import type { Edge, Point2 } from '../types';
import { between, distanceTo, nearestOn, paramOf, probeOf, reversedEdge, tangentAt } from './edge';
import { apart, type Sheet } from './indexed-region';
import { windingOf } from './inside';
import { meet } from './intersect';

/** Where on a piece the sides are judged: off the middle, where symmetric outlines like to touch. */
const PROBE = 0.4637;
const PROBE2 = 0.7131;

interface Cut {
  readonly t: number;
  readonly p: Point2;
}

/** A boundary being put together. */
interface Making {
  readonly sheets: readonly Sheet[];
  /** So many of them, the first, are to be inside of; the others outside. */
  readonly needed: number;
  readonly tol: number;
  readonly out: Edge[];
}

/**
 * Tolerance for touching, mm: rounding errors of the size at hand with room to spare. Curves that nearly run along
 * each other cannot be told apart over √(8·radius·tolerance), so it is kept small.
 */
function toleranceOf(sheets: readonly Sheet[]): number {
  let size = 10;
  for (const s of sheets) {
    if (s.edges.length === 0) continue;
    size = Math.max(size, Math.abs(s.rect.u0), Math.abs(s.rect.u1), Math.abs(s.rect.v0), Math.abs(s.rect.v1));
  }
  return size * 1e-11;
}

/**
 * The boundary of (inside all of `within`) and (outside all of `without`), material on the left of every piece.
 * Pieces shorter than the tolerance are dropped.
 */
export function boundaryOf(within: readonly Sheet[], without: readonly Sheet[]): Edge[] {
  const out: Edge[] = [];
  const tol = toleranceOf([...within, ...without]);
  const first = within[0];
  if (first && within.some((w) => w.edges.length === 0 || apart(first.rect, w.rect, 0))) return out;
  const bans = without.filter((s) => s.edges.length > 0 && within.every((w) => !apart(s.rect, w.rect, 0)));
  const sheets = within.length === 0 ? bans : [...within, ...bans];
  const making: Making = { sheets, needed: within.length, tol, out };
  for (let i = 0; i < sheets.length; i++) {
    const sheet = sheets[i]!;
    for (let k = 0; k < sheet.edges.length; k++) {
      const rect = sheet.rects[k]!;
      if (within.some((w) => apart(rect, w.rect, tol))) continue;
      const edge = sheet.edges[k]!;
      const points = meetingsOf(sheets, i, k, tol);
      if (points.length === 0) {
        judge(edge, i, k, making);
        continue;
      }
      for (const piece of piecesOf(edge, inOrder(edge, points), tol)) judge(piece, i, k, making);
    }
  }
  return out;
}

const NONE: readonly Point2[] = [];

/** Where an edge meets those of the other sheets (and of its own, where they may touch). */
function meetingsOf(sheets: readonly Sheet[], i: number, k: number, tol: number): readonly Point2[] {
  const edge = sheets[i]!.edges[k]!;
  const rect = sheets[i]!.rects[k]!;
  let points: Point2[] | undefined;
  spend(sheets.length);
  for (let j = 0; j < sheets.length; j++) {
    const other = sheets[j]!;
    if ((j === i && !other.loose) || apart(rect, other.rect, tol)) continue;
    const { edges, rects } = other;
    spend(edges.length);
    for (let m = 0; m < edges.length; m++) {
      if (apart(rect, rects[m]!, tol) || (j === i && m === k)) continue;
      points ??= [];
      meet(edge, edges[m]!, tol, points, [rect, rects[m]!]);
    }
  }
  return points ?? NONE;
}

function inOrder(edge: Edge, points: readonly Point2[]): readonly Cut[] {
  if (points.length === 1) return [{ t: 0.5, p: points[0]! }];
  return points.map((p) => ({ t: paramOf(edge, p.u, p.v), p })).sort((a, b) => a.t - b.t);
}

/** The edge split at its cuts; stretches shorter than the tolerance are dropped. */
function piecesOf(edge: Edge, cuts: readonly Cut[], tol: number): readonly Edge[] {
  if (edge.type === 'arc' && edge.a.u === edge.b.u && edge.a.v === edge.b.v) {
    // a full circle has no ends of its own: it is cut at the cuts only
    const once = cuts.filter((c, n) => n === 0 || far(c.p, cuts[n - 1]!.p, tol));
    if (once.length > 1 && !far(once[0]!.p, once[once.length - 1]!.p, tol)) once.pop();
    return once.map((c, n) => between(edge, c.p, once[(n + 1) % once.length]!.p));
  }
  const out: Edge[] = [];
  let from = edge.a;
  for (const { p } of cuts) {
    if (!far(p, from, tol) || !far(p, edge.b, tol)) continue;
    out.push(between(edge, from, p));
    from = p;
  }
  if (far(from, edge.b, tol)) out.push(from === edge.a ? edge : between(edge, from, edge.b));
  return out;
}

function far(p: Point2, q: Point2, tol: number): boolean {
  return Math.abs(p.u - q.u) > tol || Math.abs(p.v - q.v) > tol;
}

/** A piece of one edge of one sheet, and where on it its sides are judged. */
interface Probe {
  readonly piece: Edge;
  readonly own: number;
  readonly ownEdge: number;
  readonly m: Point2;
  /** The way it runs there. */
  readonly along: Point2;
}

/** On which sides of a piece a region lies; another of the pieces that run along it is judged in its stead. */
const NEITHER = 0;
const LEFT = 1;
const RIGHT = 2;
const BOTH = LEFT | RIGHT;
const ELSEWHERE = -1;

/** Adds the piece, turned so that the material is on its left, when the answer differs between its two sides. */
function judge(piece: Edge, own: number, ownEdge: number, { sheets, needed, tol, out }: Making): void {
  const m = probeOf(piece, PROBE);
  const probe: Probe = { piece, own, ownEdge, m, along: tangentAt(piece, m) };
  let material = BOTH;
  spend(sheets.length);
  for (let j = 0; j < sheets.length; j++) {
    const sides = sidesIn(sheets[j]!, j, probe, tol);
    if (sides === ELSEWHERE) return;
    material &= j < needed ? sides : ~sides;
    if (material === NEITHER) return;
  }
  if (material !== BOTH) out.push(material === LEFT ? piece : reversedEdge(piece));
}

/** On which sides of the piece this region lies. */
function sidesIn(sheet: Sheet, j: number, probe: Probe, tol: number): number {
  const { m, along } = probe;
  const outside = outsideRect(sheet, m, tol);
  const isOwn = j === probe.own;
  // Pieces that run along each other are judged from the first of them.
  const first = isOwn ? probe.ownEdge : j < probe.own ? sheet.edges.length : 0;
  const count = outside || (isOwn && !sheet.loose) ? 0 : sheet.edges.length;
  let net = isOwn ? 1 : 0;
  let shared = isOwn;
  spend(count);
  for (let n = 0; n < count; n++) {
    if ((isOwn && n === first) || !runsAlong(sheet, n, probe, tol)) continue;
    if (n < first) return ELSEWHERE;
    const f = sheet.edges[n]!;
    const t = tangentAt(f, nearestOn(f, m.u, m.v));
    net += t.u * along.u + t.v * along.v > 0 ? 1 : -1;
    shared = true;
  }
  if (shared && net !== 0) return net > 0 ? LEFT : RIGHT;
  // off the piece by a hair where the region's own edges cancel out on it
  const hair = shared ? 64 * tol : 0;
  return !outside && windingOf(sheet.edges, m.u - along.v * hair, m.v + along.u * hair) !== 0 ? BOTH : NEITHER;
}

/** An edge passes through two places of the piece: they run along each other. */
function runsAlong(sheet: Sheet, n: number, { piece, m }: Probe, tol: number): boolean {
  const r = sheet.rects[n]!;
  if (m.u < r.u0 - tol || m.u > r.u1 + tol || m.v < r.v0 - tol || m.v > r.v1 + tol) return false;
  const f = sheet.edges[n]!;
  if (distanceTo(f, m.u, m.v) > 2 * tol) return false;
  const m2 = probeOf(piece, PROBE2);
  return distanceTo(f, m2.u, m2.v) <= 2 * tol;
}

function outsideRect(sheet: Sheet, p: Point2, tol: number): boolean {
  const r = sheet.rect;
  return p.u < r.u0 - tol || p.u > r.u1 + tol || p.v < r.v0 - tol || p.v > r.v1 + tol;
}
