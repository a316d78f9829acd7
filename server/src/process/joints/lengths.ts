/** How long a screw must be: what it grips, what thread it meets, where it would meet the bottom; and which standard length does. */
import type { Screwed } from '../../model/joint-model';
import type { Length, Part } from '../../model/model';
import { headOf, LENGTH_GRADE, lengthsOf } from '../../tables/fasteners';
import { itGrade } from '../../tables/fits';
import { HAIR } from '../../tolerance';
import { limitsOf } from '../tolerances/limits';
import { columnOf, type Layer, type MetHole } from './layers';

/** The head that a screw without a standard has: flat where its first hole is countersunk. */
export function askedHead({ holes: [first] }: Layer): 'cap' | 'flat' {
  return first?.hole.countersink && !first.hole.counterbore ? 'flat' : 'cap';
}

export interface Gripped {
  /** From under the head (from its top, of a flat one) to where the last part begins, or the nut. */
  readonly gripMm: number;
  /** ± of it by the limits of the parts; undefined where one of them is not known. */
  readonly halfMm: number | undefined;
  /** Thread that can be met below that, and where the screw would stop: of a blind hole, its last full thread. */
  readonly threadMm: number;
  readonly stopMm: number;
}

/** Along one screw; undefined where a hole meets no metal. `at`: its hole in each part, the last one threaded. */
export function grippedBy(
  joint: Screwed,
  at: readonly { readonly layer: Layer; readonly hole: MetHole }[],
): Gripped | undefined {
  const threaded = joint.nut ? undefined : at.at(-1);
  const gripped = threaded ? at.slice(0, -1) : at;
  let gripMm = joint.betweenMm + (joint.washer?.thicknessMm ?? 0);
  let halfMm: number | undefined = 0;
  let stopMm = Number.POSITIVE_INFINITY;
  for (const [i, { layer, hole }] of gripped.entries()) {
    const isNutSeat = joint.nutIn !== undefined && i === gripped.length - 1;
    const metal = metalOf(hole, layer, { isFirst: i === 0, isNutSeat });
    if (!metal) return undefined;
    if (isNutSeat) stopMm = metal.beyondMm;
    gripMm += metal.mm;
    halfMm = halfMm === undefined || metal.halfMm === undefined ? undefined : halfMm + metal.halfMm;
  }
  if (joint.nut)
    return {
      gripMm: gripMm + (joint.nutWasher?.thicknessMm ?? 0),
      halfMm,
      threadMm: joint.nut.heightMm,
      stopMm,
    };
  const into = threaded && columnOf(threaded.hole, threaded.layer.piece);
  if (!threaded || !into) return undefined;
  const { hole } = threaded.hole;
  const sunkMm = into.topMm - hole.startMm;
  const threadMm = Math.min(hole.threadDepth?.mm ?? Number.POSITIVE_INFINITY, hole.depth.mm) - sunkMm;
  return {
    gripMm,
    halfMm,
    threadMm: Math.max(0, Math.min(threadMm, into.bottomMm - into.topMm)),
    stopMm: into.comesOut ? Number.POSITIVE_INFINITY : threadMm,
  };
}

/** What of one part is gripped, with its ±; `beyondMm`: how far the hole goes on. A nut that is let in is drawn against the metal before its pocket. */
function metalOf(
  hole: MetHole,
  { piece }: Layer,
  { isFirst, isNutSeat }: { readonly isFirst: boolean; readonly isNutSeat: boolean },
) {
  const column = columnOf(hole, piece);
  if (!column) return undefined;
  const recess = isFirst ? hole.hole.counterbore : undefined;
  const seatMm = recess ? Math.max(column.topMm, hole.hole.startMm + recess.depth.mm) : column.topMm;
  const bottomMm = isNutSeat ? column.firstEndMm : column.bottomMm;
  const mm = bottomMm - seatMm;
  const beyondMm = column.comesOut ? Number.POSITIVE_INFINITY : column.endMm - bottomMm;
  return { mm, beyondMm, halfMm: halfOf(mm, piece.part, recess?.depth) };
}

/** ± of a thickness: that of the body where it is as thick, else by the general tolerance; with its counterbore's. */
function halfOf(mm: number, part: Part, recess: Length | undefined): number | undefined {
  const whole = mm + (recess?.mm ?? 0);
  const { body } = part;
  const own =
    body?.form === 'box'
      ? [body.x, body.y, body.z].find((l) => l.tolerance && Math.abs(l.mm - whole) < HAIR)
      : undefined;
  const limits = [limitsOf(own ?? { mm: whole }, part), ...(recess ? [limitsOf(recess, part)] : [])];
  let sum = 0;
  for (const l of limits) {
    if (!l) return undefined;
    sum += (l.mostMm - l.leastMm) / 2;
  }
  return sum;
}

interface Reach {
  /** Into the last part, or beyond where the nut begins. */
  readonly tipMm: number;
  /** Of thread, in its hole or nut. */
  readonly engagedMm: number;
  /** Past where it would stop, or short of it (negative). */
  readonly pastMm: number;
}

export function reachOf(lengthMm: number, { gripMm, threadMm, stopMm }: Gripped): Reach {
  const tipMm = lengthMm - gripMm;
  return { tipMm, engagedMm: Math.max(0, Math.min(tipMm, threadMm)), pastMm: tipMm - stopMm };
}

/** ± of a screw's own length. */
export function lengthHalfMm(lengthMm: number): number {
  return (itGrade(lengthMm, LENGTH_GRADE) ?? 0) / 2;
}

/** Standard lengths that engage so much (or pass the nut by so much) and stop nowhere, short to long. */
export function lengthsThatDo(
  joint: Screwed,
  asked: 'cap' | 'flat',
  all: readonly Gripped[],
  leastMm: number,
): readonly number[] {
  return lengthsOf(joint.screw, asked).filter((mm) =>
    all.every((gripped) => {
      const { tipMm, engagedMm, pastMm } = reachOf(mm, gripped);
      return pastMm <= HAIR && (joint.nut ? tipMm >= leastMm - HAIR : engagedMm >= leastMm - HAIR);
    }),
  );
}

/** The head of the screw that is meant. */
export function headMeant(joint: Screwed, first: Layer) {
  return headOf(joint.screw, askedHead(first));
}
