/** Edges that are not there yet when their turn comes: stock still stands over one of the two faces that meet in them. */

import { fromFrame, inward } from '../../geometry/frame';
import type { Void } from '../../geometry/types';
import { dot } from '../../geometry/vector';
import { FACES, type Face, type Part } from '../../model/model';
import { SAME } from '../../tolerance';
import { isMaterial } from '../stock';
import { facesTakenOff } from '../stock/taken-off';
import type { Cut, Timeline } from '../stock/types';
import type { FileRow } from './types';

/** How far outside a face is looked for stock, and how far in from the edge, mm. */
const OUTSIDE_MM = 0.02;
const IN_MM = 0.05;

/** The faces that meet in an edge; undefined of rims, which have no two. */
function facesOf(v: Void): readonly [Face, Face] | undefined {
  if (v.role !== 'edge' || v.profile.type !== 'straight') return undefined;
  const [side, face] = [v.frame.u, v.frame.v].map((d) => FACES.find((f) => dot(inward(f), d) > 1 - SAME));
  return side && face && [side, face];
}

/** The neighbour that is still under stock after a cut. */
function uncut(v: Void, { after }: Cut): Face | undefined {
  const faces = facesOf(v);
  if (!faces) return undefined;
  const over = (u: number, q: number) =>
    [0.1, 0.5, 0.9].some((t) => isMaterial(after, fromFrame(v.frame, u, q, v.from + t * (v.to - v.from))));
  if (over(-OUTSIDE_MM, IN_MM)) return faces[0];
  return over(IN_MM, -OUTSIDE_MM) ? faces[1] : undefined;
}

export function isThereNow(v: Void, cut: Cut): boolean {
  return uncut(v, cut) === undefined;
}

/** What a file does later, by the set-up that it waits for. */
export function filedLater(cut: Cut, { setups }: Timeline, part: Part): readonly FileRow[] {
  const { feature } = cut;
  if (feature?.kind !== 'chamfer' && feature?.kind !== 'edge-round') return [];
  const rows = new Map<number, (readonly [Face, Face])[]>();
  for (const v of cut.removes) {
    const [faces, waits] = [facesOf(v), uncut(v, cut)];
    if (!faces || !waits) continue;
    const then = setups.findIndex(
      (s) => s.index >= cut.setup && s.cuts.some((c) => isLater(c, cut) && facesTakenOff(c, part).includes(waits)),
    );
    const after = (then < 0 ? setups.length - 1 : then) + 1;
    rows.set(after, [...(rows.get(after) ?? []), faces]);
  }
  const sizeMm = feature.kind === 'chamfer' ? feature.size.mm : feature.radius.mm;
  return [...rows].map(([afterSetup, edges]) => ({ kind: 'file', of: feature.name, edges, sizeMm, afterSetup }));
}

function isLater(a: Cut, b: Cut): boolean {
  return a.setup > b.setup || (a.setup === b.setup && a.order > b.order);
}
