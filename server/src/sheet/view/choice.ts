/** Which faces are drawn, and where they stand to each other: first angle (ISO 5456-2), by the faces that carry features. */
import { breaksEdges } from '../../model/feature-kinds';
import type { Face, Part } from '../../model/model';

const MOST = 3;

/** What is seen from the left stands to the right of the front view, what is seen from above below it. */
type Columns = readonly (readonly (Face | undefined)[])[];
const FIRST: Columns = [
  [undefined, 'right', undefined],
  ['bottom', 'front', 'top'],
  [undefined, 'left', undefined],
  [undefined, 'back', undefined],
];

/** Each view on the side that it is seen from. */
const THIRD: Columns = [
  [undefined, 'left', undefined],
  ['top', 'front', 'bottom'],
  [undefined, 'right', undefined],
  [undefined, 'back', undefined],
];

/** `needed`: drawn in any case. */
export function facesShown(part: Part, needed: Face | undefined): readonly Face[] {
  const counts = new Map<Face, number>();
  for (const f of part.features) if (!breaksEdges(f)) counts.set(f.face, (counts.get(f.face) ?? 0) + 1);
  if (needed) counts.set(needed, Number.POSITIVE_INFINITY);
  const order: readonly Face[] = ['top', 'front', 'bottom', 'right', 'left', 'back'];
  const carrying = order.filter((f) => counts.has(f)).sort((a, b) => counts.get(b)! - counts.get(a)!);
  const shown = new Set(carrying.slice(0, MOST));
  // One view alone tells two of three sizes.
  const all = [...shown];
  if (all.every((f) => f === 'top' || f === 'bottom')) shown.add('front');
  else if (all.length === 1) shown.add('top');
  return order.filter((f) => shown.has(f));
}

/** Columns from left to right, each with its faces from above down; empty columns and rows are left out. */
export function gridOf(faces: readonly Face[], projection: 'first' | 'third' = 'first'): Columns {
  const columns = projection === 'third' ? THIRD : FIRST;
  const has = (f: Face | undefined) => f !== undefined && faces.includes(f);
  const rows = [0, 1, 2].filter((r) => columns.some((c) => has(c[r])));
  return columns.filter((c) => c.some(has)).map((c) => rows.map((r) => (has(c[r]) ? c[r] : undefined)));
}
