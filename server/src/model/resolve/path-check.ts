/** Does a path hold together: no corner twice, arcs that are arcs, roundings that fit between their neighbours? */

import { writeLength } from '../../text/format';
import { SAME } from '../../tolerance';
import type { PathCorner } from '../base';
import type { Evaluation } from './evaluation';

/** Whether roundings, bevels and arcs fit between the corners; what does not is told. */
export function checkPath(work: Evaluation, corners: readonly PathCorner[], closed: boolean): boolean {
  const was = work.broken;
  work.broken = false;
  const last = closed ? corners.length : corners.length - 1;
  for (let i = 0; i < last; i++) {
    const a = corners[i]!;
    const b = corners[(i + 1) % corners.length]!;
    if (distance(a, b) > SAME) {
      if (a.arc) arcIsOne(work, a, b);
      continue;
    }
    const closing = closed && i === corners.length - 1;
    const why = closing
      ? 'This corner is the first one again. A closed path closes by itself. Delete this corner.'
      : 'This corner is in the same place as the one before it. Delete it, or move it.';
    work.fail(why, closing ? a.span : b.span);
  }
  if (!work.broken) cornersFit(work, corners, closed);
  const fine = !work.broken;
  work.broken ||= was;
  return fine;
}

function arcIsOne(work: Evaluation, a: PathCorner, b: PathCorner): void {
  const m = a.arc!;
  const cross = (b.u - a.u) * (m.v - a.v) - (b.v - a.v) * (m.u - a.u);
  if (Math.abs(cross) > SAME * distance(a, b)) return;
  work.fail(
    'This point is on the straight line between the two corners, so there is no arc. Move it off the line, or delete `arc`.',
    m.span,
  );
}

/** How far a rounding or bevel reaches along the straight sides of its corner. Beside an arc it is geometry's question. */
function reachOf(corners: readonly PathCorner[], i: number, closed: boolean): number {
  const n = corners.length;
  const c = corners[i]!;
  if (!closed && (i === 0 || i === n - 1)) return 0;
  if (c.bevel) return c.bevel.mm;
  if (!c.round) return 0;
  const p = corners[(i + n - 1) % n]!;
  const q = corners[(i + 1) % n]!;
  const angle = between(p, c, q);
  return c.round.mm / Math.tan(angle / 2);
}

function cornersFit(work: Evaluation, corners: readonly PathCorner[], closed: boolean): void {
  const n = corners.length;
  const last = closed ? n : n - 1;
  const told = new Set<number>();
  for (let i = 0; i < last; i++) {
    const j = (i + 1) % n;
    if (corners[i]!.arc || corners[(i + n - 1) % n]!.arc || corners[j]!.arc) continue;
    const [a, b] = [reachOf(corners, i, closed), reachOf(corners, j, closed)];
    const side = distance(corners[i]!, corners[j]!);
    if (a + b <= side + SAME) continue;
    const worst = a >= b ? i : j;
    const by = corners[worst]!.round ?? corners[worst]!.bevel;
    if (told.has(worst) || !by) continue;
    told.add(worst);
    const word = corners[worst]!.round ? 'rounding' : 'bevel';
    const length = (mm: number) => writeLength(mm, work.doc.units);
    const takes = `It needs ${length(Math.max(a, b))} of a side that is ${length(side)} long`;
    const other = Math.min(a, b) > 0 ? `; the corner beside it needs ${length(Math.min(a, b))}` : '';
    work.fail(`This ${word} does not fit. ${takes}${other}. Make it smaller.`, by.span);
  }
}

type Point = { readonly u: number; readonly v: number };

function distance(a: Point, b: Point): number {
  return Math.hypot(b.u - a.u, b.v - a.v);
}

/** The angle at c between the ways to p and q, 0 to π. */
function between(p: Point, c: Point, q: Point): number {
  const [au, av, bu, bv] = [p.u - c.u, p.v - c.v, q.u - c.u, q.v - c.v];
  return Math.abs(Math.atan2(au * bv - av * bu, au * bu + av * bv));
}
