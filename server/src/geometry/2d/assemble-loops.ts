/** Joins boundary pieces to loops, and loops to regions: an outer loop with the holes that lie in it. */

import { NEAR } from '../../tolerance';
import type { Edge, Loop, Region } from '../types';
import { boundaryOf } from './boolean';
import { lengthOf, pointAt, reversedEdge, tangentAt } from './edge';
import { sheetOf } from './indexed-region';
import { windingOf } from './inside';
import { loopArea, regionEdges } from './moments';

/** Pieces shorter than this, mm, come from outlines that nearly touch: they are left out and the gap is closed. */
const CRUMB = 2e-5;
const SNAP = 4 * CRUMB;
/** Ends that are one point but for rounding. Where pieces meet so, others that only come near are no way on: pieces may be as short as a gap. */
const SAME = 1e-8;

/**
 * Loops from pieces that each have the material on their left. Where several pieces leave one point the sharpest turn
 * to the left is taken, which keeps lumps that touch in a point apart. Undefined when a chain does not close.
 */
export function chainLoops(all: readonly Edge[]): readonly Loop[] | undefined {
  const pieces = all.filter((e) => lengthOf(e) > CRUMB);
  return chain(pieces, SAME) ?? chain(pieces, SNAP);
}

/** `same`: where a piece begins within this of the end of another, only such pieces are looked at; else all within a gap. */
function chain(pieces: readonly Edge[], same: number): readonly Loop[] | undefined {
  const used = new Array<boolean>(pieces.length).fill(false);
  const loops: Loop[] = [];
  for (let i = 0; i < pieces.length; i++) {
    if (used[i]) continue;
    const edges: Edge[] = [];
    let here: number | undefined = i;
    do {
      used[here] = true;
      const e: Edge = pieces[here]!;
      edges.push(e);
      here = next(e, pieces, used, i, same);
      if (here === undefined) return undefined;
    } while (here !== i);
    loops.push({ edges: closed(edges) });
  }
  return loops;
}

/** Every edge begins exactly where the one before it ends: point-in-outline counts on it. */
function closed(edges: readonly Edge[]): readonly Edge[] {
  if (edges.length === 1) return edges;
  return edges.map((e, n) => {
    const { b } = edges[(n + edges.length - 1) % edges.length]!;
    return e.a === b ? e : { ...e, a: b };
  });
}

/** The piece that goes on from the end of another; `first` where the chain closes. */
function next(
  from: Edge,
  pieces: readonly Edge[],
  used: readonly boolean[],
  first: number,
  same: number,
): number | undefined {
  let open: number[] = [];
  let exact = false;
  const { u, v } = from.b;
  for (let i = 0; i < pieces.length; i++) {
    if (used[i] && i !== first) continue;
    const { a } = pieces[i]!;
    const off = Math.max(Math.abs(a.u - u), Math.abs(a.v - v));
    if (off > (exact ? same : SNAP)) continue;
    if (off <= same && !exact) {
      exact = true;
      open = [];
    }
    open.push(i);
  }
  if (open.length <= 1) return open[0];
  let best: number | undefined;
  let bestTurn = Number.NEGATIVE_INFINITY;
  // a little way along, so that tangent arcs of different radius are told apart
  const look = Math.min(0.01, lengthOf(from) / 4, ...open.map((i) => lengthOf(pieces[i]!) / 4));
  const back = pointAt(from, 1 - look / lengthOf(from));
  for (const i of open) {
    const e = pieces[i]!;
    const ahead = pointAt(e, look / lengthOf(e));
    const iu = from.b.u - back.u;
    const iv = from.b.v - back.v;
    const ou = ahead.u - e.a.u;
    const ov = ahead.v - e.a.v;
    const turn = Math.atan2(iu * ov - iv * ou, iu * ou + iv * ov);
    if (turn > bestTurn) {
      bestTurn = turn;
      best = i;
    }
  }
  return best;
}

/** Regions from loops with the material on the left. Undefined when a hole lies in no outer loop. */
export function regionsOfLoops(loops: readonly Loop[]): readonly Region[] | undefined {
  const outers = loops.filter((l) => loopArea(l) > 0).map((outer) => ({ outer, holes: [] as Loop[] }));
  for (const hole of loops) {
    if (loopArea(hole) > 0) continue;
    const e = hole.edges[0]!;
    const m = pointAt(e, 0.5);
    const t = tangentAt(e, m);
    const hair = Math.min(NEAR, lengthOf(e) / 16);
    const p = { u: m.u - t.v * hair, v: m.v + t.u * hair };
    let home: { outer: Loop; holes: Loop[] } | undefined;
    for (const o of outers) {
      if (windingOf(o.outer.edges, p.u, p.v) === 0) continue;
      if (!home || loopArea(o.outer) < loopArea(home.outer)) home = o;
    }
    if (!home) return undefined;
    home.holes.push(hole);
  }
  return outers;
}

/** Everything that any of the regions covers. Undefined when the outlines are too tangled to follow. */
export function uniteRegions(regions: readonly Region[]): readonly Region[] | undefined {
  if (regions.length === 1) return regions;
  const pieces = boundaryOf(
    [],
    regions.map((r) => sheetOf(regionEdges(r))),
  );
  const loops = chainLoops(pieces.map(reversedEdge));
  return loops && regionsOfLoops(loops);
}

/** What is in `region` and in none of `others`. */
export function subtractRegions(region: Region, others: readonly Region[]): readonly Region[] | undefined {
  const pieces = boundaryOf(
    [sheetOf(regionEdges(region))],
    others.map((r) => sheetOf(regionEdges(r))),
  );
  const loops = chainLoops(pieces);
  return loops && regionsOfLoops(loops);
}

/** The same loop run the other way: an outer loop becomes a hole. */
export function reversedLoop(l: Loop): Loop {
  return { edges: l.edges.map(reversedEdge).reverse() };
}
