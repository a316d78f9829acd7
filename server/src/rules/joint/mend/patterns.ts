/** What would do where holes do not lie over each other: the pitch of one pattern, or its holes moved, as the other part has them. */
import type { Pinned, Screwed } from '../../../model/joint-model';
import { FACE_PLANE } from '../../../model/model';
import { type Layer, leans, sideOf } from '../../../process/joints/layers';
import { laidOn, type Match, type Spot } from '../../../process/joints/pattern';
import { writeLength } from '../../../text/format';
import { HAIR, ROUNDING, SAME } from '../../../tolerance';
import { moveFeature, placeAfter, setLength } from '../../kit/edits';
import { setField } from '../../kit/fields';
import type { SpanEdit } from '../../kit/rule';
import { pattern } from '../pattern';
import { assembled } from '../screwed';
import { inPart, type Mend, type MendContext, ownHoles } from './mend';

/** Two patterns as they were laid upon each other, the second to become like the first. */
interface Laid {
  readonly like: Layer;
  readonly layer: Layer;
  readonly spots: readonly [like: readonly Spot[], own: readonly Spot[]];
  readonly match: Match;
}

export function* patternMends(joint: Screwed | Pinned, context: MendContext): Generator<Mend | undefined> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  for (const { a, b, match, spots, onlyMirrored } of found?.mismatches ?? []) {
    if (!match || !spots || onlyMirrored || a.holes.length !== b.holes.length) continue;
    const one: Laid = { like: a, layer: b, spots, match };
    for (const laid of [one, turnedRound(one)]) {
      yield spacing(laid, context);
      yield moved(laid, context);
    }
  }
}

function turnedRound({ like, layer, spots: [a, b], match }: Laid): Laid {
  const pairs = b.map((_, k) => match.pairs.indexOf(k));
  const odd = match.odd.map((i) => match.pairs[i]!);
  return { like: layer, layer: like, spots: [b, a], match: { ...match, pairs, odd } };
}

/** Its pitches, or its circle, in the proportion in which the other's distances are. */
function spacing({ like, layer, spots: [a, b], match }: Laid, context: MendContext): Mend | undefined {
  const [hole, ...more] = ownHoles(layer.holes);
  const { piece } = layer;
  if (!hole?.pattern || more.length > 0) return undefined;
  const ratio = (alike: (p: Spot, q: Spot) => boolean) => ratioOf([a, b], match, alike);
  const as = `as ${like.piece.name} has it`;
  if (hole.pattern.type === 'bolt-circle') {
    const by = ratio(() => true);
    const [first, half] = [b[0]!, b[Math.floor(b.length / 2)]!];
    if (by === undefined || b.length % 2 !== 0) return undefined;
    const mm = Math.hypot(first.u - half.u, first.v - half.v) * by;
    const edits = setField(
      piece.tree,
      hole.name,
      'diameter',
      writeLength(mm, piece.part.units),
      'pattern',
      'bolt-circle',
    );
    return inPart(piece, `Make the circle of ${piece.name}.${hole.name} ${context.length(rounded(mm))}, ${as}`, edits);
  }
  const [u, v] = FACE_PLANE[hole.face];
  const edits: SpanEdit[] = [];
  const said: string[] = [];
  for (const [axis, across] of [
    [u, (p: Spot, q: Spot) => Math.abs(p.v - q.v)],
    [v, (p: Spot, q: Spot) => Math.abs(p.u - q.u)],
  ] as const) {
    const pitch = hole.pattern.pitch?.[axis];
    const by = pitch && ratio((p, q) => across(p, q) < SAME);
    if (!pitch || by === undefined || Math.abs(by - 1) < ROUNDING) continue;
    const edit = setLength(pitch, pitch.mm * by, piece.part);
    if (!edit) return undefined;
    edits.push(edit);
    said.push(context.length(rounded(pitch.mm * by)));
  }
  return inPart(piece, `Make the pitch of ${piece.name}.${hole.name} ${said.join(' and ')}, ${as}`, edits);
}

/** By how much the other's distance is larger, of the two that are farthest apart of those that are looked at. */
function ratioOf([a, b]: Laid['spots'], { pairs }: Match, alike: (p: Spot, q: Spot) => boolean): number | undefined {
  let [longest, ratio] = [HAIR, undefined as number | undefined];
  for (let i = 0; i < a.length; i++)
    for (let j = i + 1; j < a.length; j++) {
      const [p, q] = [b[pairs[i]!], b[pairs[j]!]];
      if (!p || !q || !alike(p, q)) continue;
      const mm = Math.hypot(p.u - q.u, p.v - q.v);
      if (mm <= longest) continue;
      longest = mm;
      ratio = Math.hypot(a[i]!.u - a[j]!.u, a[i]!.v - a[j]!.v) / mm;
    }
  return ratio;
}

/** Each hole that lies elsewhere, to where the other part has it. */
function moved({ like, layer, spots: [a, b], match }: Laid, context: MendContext): Mend | undefined {
  const { piece, holes } = layer;
  const side = sideOf(layer);
  // A leaning hole is seen along its axis, and written where it meets its face.
  if (holes.some((h) => leans(h.hole) || h.hole.slide)) return undefined;
  const edits: SpanEdit[] = [];
  const said: string[] = [];
  for (const [i, target] of laidOn(a, b, match).entries()) {
    const at = holes[match.pairs[i]!];
    const is = b[match.pairs[i]!];
    if (!at || !is) continue;
    const by = [target.u - is.u, side * (target.v - is.v)] as const;
    if (Math.hypot(...by) < context.limit(pattern, 'agree')) continue;
    const isListed = at.hole.pattern?.type === 'places';
    // A member of a row or a circle is nowhere written by itself.
    if (!isListed && at.hole.pattern) return undefined;
    const edit = moveFeature(piece, at.hole, by, isListed ? at.index + 1 : 0);
    if (!edit) return undefined;
    edits.push(...edit);
    said.push(
      `${piece.name}.${at.name} to ${placeAfter(piece, at.hole, by, isListed ? at.index + 1 : 0) ?? 'its place'}`,
    );
  }
  const title =
    said.length > MOST_SAID
      ? `Move the holes of ${piece.name} to where ${like.piece.name} has them`
      : `Move ${said.join(', ')}`;
  return inPart(piece, title, edits);
}
const MOST_SAID = 2;

const rounded = (mm: number) => Number(mm.toFixed(3));
