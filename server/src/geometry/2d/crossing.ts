/** Does an outline cross or touch itself? */

import type { Edge, Loop, Point2 } from '../types';
import { apart, sheetOf } from './indexed-region';
import { meetings } from './intersect';

interface Crossing {
  readonly at: Point2;
  /** The two edges, by their place in the chain. */
  readonly edges: readonly [number, number];
}

/**
 * The first place where a closed chain meets itself other than at the common end of neighbours; undefined for a sound
 * outline.
 */
export function crossingOf(loop: Loop, tolerance = 1e-7): Crossing | undefined {
  return firstCrossing(loop.edges, true, tolerance);
}

/** The same for an open chain, a slot's centre line. */
export function crossingOfLine(edges: readonly Edge[], tolerance = 1e-7): Crossing | undefined {
  return firstCrossing(edges, false, tolerance);
}

function firstCrossing(edges: readonly Edge[], closed: boolean, tol: number): Crossing | undefined {
  const { rects } = sheetOf(edges);
  const n = edges.length;
  for (let i = 0; i < n; i++) {
    for (let k = i + 1; k < n; k++) {
      if (apart(rects[i]!, rects[k]!, tol)) continue;
      const e = edges[i]!;
      const f = edges[k]!;
      const joints: Point2[] = [];
      if (k === i + 1) joints.push(e.b);
      if (closed && i === 0 && k === n - 1) joints.push(e.a);
      for (const at of meetings(e, f, tol)) {
        if (!joints.some((j) => Math.abs(j.u - at.u) <= 2 * tol && Math.abs(j.v - at.v) <= 2 * tol)) {
          return { at, edges: [i, k] };
        }
      }
    }
  }
  return undefined;
}
