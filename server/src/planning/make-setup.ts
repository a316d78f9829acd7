/**
 * A setup as a careful machinist would write it down: which face goes against the fixed jaw and which against the stop, what
 * zero is set from, in which order it is cut. Made as a model, so that the rules can judge it before it is text.
 */
import type { Box } from '../geometry/types';
import {
  type Axis,
  type CutEntry,
  FACE_AXIS,
  type Face,
  type Hold,
  type Named,
  OPPOSITE,
  type Part,
  type Setup,
} from '../model/model';
import type { Seat } from '../process/workholding/seats';
import { betterFirst, ordinal, setupInVise } from '../rules/kit/setup-in-vise';
import type { Span } from '../text/tree';
import type { Item } from './item';
import { sawCutOf } from './on-bar';
import type { LaidDown, ViseHeld } from './poses';

/** Where a planned setup "stands": in no text. The block's name tells which setup a finding is about. */
export function planSpan(index: number): Span {
  return { block: `plan/${index}`, from: 0, to: 0 };
}

/** Faces on which stock is still left, given what was cut, and how much, mm. */
export function rawFaces(items: readonly Item[], done: ReadonlySet<number>): ReadonlyMap<Face, number> {
  const left = items.filter((i) => !done.has(i.index));
  const at = (face: Face | undefined, mm = 0) => (face ? [[face, mm] as const] : []);
  return new Map([...left.flatMap((i) => at(i.face, i.overMm)), ...left.flatMap((i) => at(i.sawn, i.overMm))]);
}

/** The box round the workpiece as it is: the body's, and what is left outside it. */
export function boxAt(body: Box, raw: ReadonlyMap<Face, number>): Box {
  const extra = (face: Face) => raw.get(face) ?? 0;
  return {
    min: [body.min[0] - extra('left'), body.min[1] - extra('front'), body.min[2] - extra('bottom')],
    max: [body.max[0] + extra('right'), body.max[1] + extra('back'), body.max[2] + extra('top')],
  };
}

/** What a set-up is made for. */
interface ToCut {
  /** The set-ups that come before it. */
  readonly before: readonly Setup[];
  /** In the order in which they are cut. */
  readonly cut: readonly Item[];
  readonly part: Part;
  /** Stock still there, by face, mm. */
  readonly raw: ReadonlyMap<Face, number>;
}

/** The model of the setup that comes after those before it. */
export function makeSetup({ before, cut, part, raw }: ToCut, pose: ViseHeld, seat: Seat): Setup {
  const span = planSpan(before.length);
  const faces = new Set(cut.flatMap((i) => (i.face ? [i.face] : [])));
  const cuts = cut.filter((item) => !item.sawn).map((item) => entryOf(item, span));
  return { ...setupInVise({ before, ...pose, seat, cuts, faces, part, raw, span }), ...sawCutOf(cut, part, span) };
}

function entryOf({ name, share }: Item, span: Span): CutEntry {
  return { name, span, ...(share && { depth: share }) };
}

/** The same where it lies on a plate or the table, held like that. Zero comes from sides that are not milled here. */
export function layDown({ before, cut, part, raw }: ToCut, { up }: LaidDown, hold: Hold): Setup {
  const { span } = hold;
  const index = before.length;
  const used = new Set(before.flatMap((s) => Object.values(s.zero).map((z) => z.name)));
  const here = new Set(cut.flatMap((i) => (i.face ? [i.face] : [])));
  const zero: Partial<Record<Axis, Named>> = {};
  for (const [axis, ...faces] of [
    ['x', 'left', 'right'],
    ['y', 'front', 'back'],
    ['z', 'bottom', 'top'],
  ] as const) {
    // What it lies on stays where it is from piece to piece.
    const [best] = betterFirst(faces, part, raw, used).toSorted((a, b) => Number(here.has(a)) - Number(here.has(b)));
    // Round work in a V, and what hangs at an angle plate, lies on no plane: its height is touched off on top.
    const onNothing = hold.type === 'v-block' || hold.out !== undefined;
    const height = onNothing && !here.has(up) ? up : OPPOSITE[up];
    zero[axis] = { name: FACE_AXIS[up].axis === axis ? height : best!, span };
  }
  return {
    name: ordinal(index),
    span,
    up: { name: up, span },
    hold,
    zero,
    cuts: cut.filter((item) => !item.sawn).map((item) => entryOf(item, span)),
    ...sawCutOf(cut, part, span),
    cutsSpan: span,
    tools: [],
    whole: span,
  };
}

/** By stage, then what stands on what, then the larger removal first. */
export function inOrder(cut: readonly Item[], up: Face): readonly Item[] {
  // The face that looks up is cut first: everything else is measured and drilled from it.
  const stage = (i: Item) => (i.face ? (i.face === up ? 0 : 1) : i.stage);
  // Of holes the wider first: a narrower one in its floor is the shorter for it.
  const wide = ({ feature }: Item) => (feature?.kind === 'hole' ? feature.diameter.mm : 0);
  const sorted = [...cut].sort((a, b) => stage(a) - stage(b) || wide(b) - wide(a) || b.volumeMm3 - a.volumeMm3);
  const placed: Item[] = [];
  const here = new Set(sorted.map((i) => i.index));
  const place = (item: Item, asking: ReadonlySet<number>) => {
    if (placed.includes(item) || asking.has(item.index)) return;
    for (const other of sorted)
      if ((item.after.includes(other.index) || item.rather?.includes(other.index)) && here.has(other.index))
        place(other, new Set(asking).add(item.index));
    placed.push(item);
  };
  for (const item of sorted) place(item, new Set());
  // Two edges of one name are one entry.
  return placed.filter((item, i) => placed.findIndex((p) => p.name === item.name) === i);
}
