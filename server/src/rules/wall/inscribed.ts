/** The largest circle inside a region: what spans a floor. */
import { depthInside, rectOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import type { Region } from '../../geometry/types';

/** Found to this share of the answer. */
const PRECISION = 1e-3;
const MOST_CELLS = 4000;

interface Cell {
  readonly u: number;
  readonly v: number;
  readonly half: number;
  /** Distance of its centre to the outline, negative outside. */
  readonly inside: number;
}

/**
 * Diameter in mm of the largest circle that fits. Cells are halved, the most promising first: no point of a cell is
 * farther from the outline than its centre by more than half its diagonal (the search known as the pole of
 * inaccessibility).
 */
export function inscribedDiameter(region: Region): number {
  const edges = regionEdges(region);
  const rect = rectOf(edges);
  const [width, height] = [rect.u1 - rect.u0, rect.v1 - rect.v0];
  if (!(width > 0 && height > 0)) return 0;
  const cell = (u: number, v: number, half: number): Cell => ({ u, v, half, inside: depthInside(edges, u, v) });
  const promise = (c: Cell) => c.inside + c.half * Math.SQRT2;
  const half = Math.min(width, height) / 2;
  const open: Cell[] = [];
  for (let u = rect.u0 + half; u < rect.u1 + half; u += 2 * half) {
    for (let v = rect.v0 + half; v < rect.v1 + half; v += 2 * half) open.push(cell(u, v, half));
  }
  let best = Math.max(0, cell((rect.u0 + rect.u1) / 2, (rect.v0 + rect.v1) / 2, 0).inside);
  for (let i = 0; i < MOST_CELLS && open.length > 0; i++) {
    let top = 0;
    for (let k = 1; k < open.length; k++) if (promise(open[k]!) > promise(open[top]!)) top = k;
    const here = open[top]!;
    open[top] = open[open.length - 1]!;
    open.pop();
    best = Math.max(best, here.inside);
    if (promise(here) - best <= best * PRECISION) break;
    const h = here.half / 2;
    for (const du of [-h, h]) for (const dv of [-h, h]) open.push(cell(here.u + du, here.v + dv, h));
  }
  return 2 * best;
}
