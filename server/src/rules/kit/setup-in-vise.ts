/**
 * A set-up in a vise as a careful machinist would write it down: which face goes against the fixed jaw and which against the
 * stop, and what zero is set from. Made as a model, so that the rules can judge it before it is text.
 */
import { type Axis, type CutEntry, FACE_AXIS, type Face, type Named, type Part, type Setup } from '../../model/model';
import type { Vise } from '../../model/shop-model';
import type { Seat } from '../../process/workholding/seats';
import type { Span } from '../../text/tree';

/** The better reference first: without stock on it, not sawn, a datum of the part, zero in an earlier setup already. */
export function betterFirst(
  faces: readonly Face[],
  part: Part,
  raw: ReadonlyMap<Face, number>,
  used: ReadonlySet<string>,
): readonly Face[] {
  const sawn = new Set(part.stock.sawn.map((s) => s.name));
  const datums = new Set([...part.datums.values()].map((d) => d.target.name));
  const cost = (f: Face) =>
    (raw.has(f) ? 4 + (sawn.has(f) ? 1 : 0) : 0) - (datums.has(f) ? 0.5 : 0) - (used.has(f) ? 0.25 : 0);
  return [...faces].sort((a, b) => cost(a) - cost(b));
}

interface InVise {
  /** The set-ups that come before it. */
  readonly before: readonly Setup[];
  readonly up: Face;
  readonly jaws: readonly [Face, Face];
  readonly vise: Vise;
  readonly seat: Seat;
  readonly cuts: readonly CutEntry[];
  /** Those of the cuts that are faces milled off. */
  readonly faces: ReadonlySet<Face>;
  readonly part: Part;
  /** Faces with stock still on them, mm. */
  readonly raw: ReadonlyMap<Face, number>;
  readonly span: Span;
}

export function setupInVise({ before, up, jaws, vise, seat, cuts, faces, part, raw, span }: InVise): Setup {
  const used = new Set(before.flatMap((s) => Object.values(s.zero).map((z) => z.name)));
  const named = <T extends string>(name: T): Named & { readonly name: T } => ({ name, span });
  const length = (mm: number) => ({ mm, text: String(mm), span });
  const [fixed, moving] = betterFirst(jaws, part, raw, used) as [Face, Face];
  const axes = [FACE_AXIS[up].axis, FACE_AXIS[fixed].axis];
  const ends = (['left', 'front', 'bottom', 'right', 'back', 'top'] as const).filter(
    (f) => !axes.includes(FACE_AXIS[f].axis),
  );
  // An end that is milled here is a poor thing to set the stop against: the cutter would meet the stop.
  const [stop] = betterFirst(ends, part, raw, used).toSorted((a, b) => Number(faces.has(a)) - Number(faces.has(b)));
  // Where the stop is on stock that is still raw, zero comes from the end that is milled here, first of all.
  const milled = raw.has(stop!) ? ends.find((f) => faces.has(f)) : undefined;
  const zero: Partial<Record<Axis, Named>> = {
    [FACE_AXIS[fixed].axis]: named(fixed),
    [FACE_AXIS[stop!].axis]: named(milled ?? stop!),
    [FACE_AXIS[up].axis]: named('parallels'),
  };
  return {
    name: ordinal(before.length),
    span,
    up: named(up),
    hold: {
      type: 'vise',
      vise: named(vise.name),
      jaws: [named(fixed), named(moving)],
      grip: length(seat.gripMm),
      ...(seat.parallelsMm !== undefined && { parallels: length(seat.parallelsMm) }),
      stop: named(stop!),
      span,
    },
    zero,
    cuts,
    cutsSpan: span,
    tools: [],
    whole: span,
  };
}

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth'];

/** What a set-up is called that so many others come before. */
export function ordinal(index: number): string {
  return ORDINALS[index] ?? `setup-${index + 1}`;
}
