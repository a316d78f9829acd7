/** A flat region as the planar set operations take it: its edges, and the rectangle round each and round all. */

import type { Edge } from '../types';
import { edgeRect, type Rect } from './edge';

export interface Sheet {
  readonly edges: readonly Edge[];
  readonly rects: readonly Rect[];
  readonly rect: Rect;
  /** Edges of this sheet may touch or run along each other (stacked strips, clipped polygons). */
  readonly loose: boolean;
}

export function sheetOf(edges: readonly Edge[], loose = false): Sheet {
  const rects = edges.map(edgeRect);
  let u0 = Number.POSITIVE_INFINITY;
  let v0 = Number.POSITIVE_INFINITY;
  let u1 = Number.NEGATIVE_INFINITY;
  let v1 = Number.NEGATIVE_INFINITY;
  for (const r of rects) {
    if (r.u0 < u0) u0 = r.u0;
    if (r.v0 < v0) v0 = r.v0;
    if (r.u1 > u1) u1 = r.u1;
    if (r.v1 > v1) v1 = r.v1;
  }
  return { edges, rects, rect: { u0, v0, u1, v1 }, loose };
}

export function apart(a: Rect, b: Rect, tol: number): boolean {
  return a.u0 > b.u1 + tol || b.u0 > a.u1 + tol || a.v0 > b.v1 + tol || b.v0 > a.v1 + tol;
}
