/**
 * Views on a sheet: one face, or all six in first-angle projection (ISO 5456-2): what is seen from the left stands to
 * the right of the front view, what is seen from above stands below it.
 */
import type { Vec3 } from '../../geometry/types';
import type { Face } from '../../model/faces';
import type { Corner } from './sheet-svg';
import { viewOf } from './view';

/** Room between views and round them, mm: for dimensions and names. */
const GAP = 22;

export interface Placed extends Corner {
  readonly face: Face;
}

interface Layout {
  readonly views: readonly Placed[];
  /** Of all views with the room round them. */
  readonly width: number;
  readonly height: number;
}

const COLUMNS: readonly (readonly (Face | undefined)[])[] = [
  [undefined, 'right', undefined],
  ['bottom', 'front', 'top'],
  [undefined, 'left', undefined],
  [undefined, 'back', undefined],
];

export function layoutOf(size: Vec3, face: Face | undefined): Layout {
  const columns = face ? [[face]] : COLUMNS;
  const rows = columns[0]!.length;
  const widths = columns.map((c) => Math.max(...c.map((f) => (f ? viewOf(f, size).width : 0))));
  const heights = Array.from({ length: rows }, (_, r) =>
    Math.max(...columns.map((c) => (c[r] ? viewOf(c[r], size).height : 0))),
  );
  const before = (all: readonly number[], i: number) => all.slice(0, i).reduce((sum, x) => sum + x + GAP, GAP);
  const views = columns.flatMap((column, i) =>
    column.flatMap((f, r) => (f ? [{ face: f, x: before(widths, i), y: before(heights, r) + heights[r]! }] : [])),
  );
  return { views, width: before(widths, widths.length), height: before(heights, rows) };
}
