/** What would do where a nut that is let in is not held: another opening of the same part, its width, its depth, its place. */
import { featureFrame } from '../../../geometry/frame';
import type { Screwed } from '../../../model/joint-model';
import { FACE_PLANE, type Feature } from '../../../model/model';
import { featureOf, type Layer } from '../../../process/joints/layers';
import { sidesOf } from '../../../process/joints/plays';
import { inFrame } from '../../../process/section';
import { nutWidths } from '../../../tables/fasteners';
import { writeLength } from '../../../text/format';
import { HAIR } from '../../../tolerance';
import { moveFeature, setLength } from '../../kit/edits';
import { setField } from '../../kit/fields';
import { pattern } from '../pattern';
import { assembled } from '../screwed';
import { inJob, inPart, type Mend, type MendContext } from './mend';

/** A nut goes in by hand with so much play across its flats, mm: common practice, no source. */
const PLAY_MM = 0.2;

export function* nutMends(joint: Screwed, context: MendContext): Generator<Mend | undefined> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const last = found?.layers.at(-1);
  const widths = nutWidths(joint.screw.size);
  const opening = joint.nutIn && featureOf(joint.nutIn, context.pieces);
  if (!last || !widths || !opening?.ok) return;
  const { part } = last.piece;
  if (opening.piece === last.piece) {
    const { feature } = opening;
    const wideMm = Number((widths.flatsMm + PLAY_MM).toFixed(2));
    yield* widened(feature, { wideMm, longMm: Number((widths.cornersMm + PLAY_MM).toFixed(2)) }, last, context);
    yield deepened(feature, widths.cornersMm, last, context);
    yield movedTo(feature, last);
  }
  // Another pocket or slot that is about the screw, as the job may have meant.
  for (const f of part.features)
    if ('depth' in f && ('shape' in f || 'width' in f) && f !== (opening.ok ? opening.feature : undefined))
      yield inJob(context, joint, ['nut-in', `${last.piece.name}.${f.name}`], {
        title: `Let the nut into ${last.piece.name}.${f.name}`,
        safe: true,
      });
}

interface Wide {
  readonly wideMm: number;
  readonly longMm: number;
}

/** As wide as its flats and a little, in whichever direction that holds it. */
function* widened(
  feature: Feature,
  { wideMm, longMm }: Wide,
  { piece }: Layer,
  { length }: MendContext,
): Generator<Mend | undefined> {
  const { part, tree } = piece;
  const what = `${piece.name}.${feature.name}`;
  if ('width' in feature)
    yield inPart(
      piece,
      `Make ${what} ${length(wideMm)} wide`,
      setField(tree, feature.name, 'width', writeLength(wideMm, part.units)),
    );
  const sides = sidesOf({ ok: true, feature, piece } as Parameters<typeof sidesOf>[0]);
  if (!sides) return;
  const [long, short] = [sides.long.length, sides.short.length];
  for (const side of [short, long])
    if (Math.abs(side.mm - wideMm) > HAIR)
      yield inPart(piece, `Make ${what} ${length(wideMm)} wide`, setLength(side, wideMm, part));
  if (long.mm > longMm - HAIR) return;
  const edits = [setLength(short, wideMm, part), setLength(long, longMm, part)];
  if (edits[0] && edits[1])
    yield inPart(piece, `Make ${what} ${length(wideMm)} by ${length(longMm)}`, [edits[0], edits[1]]);
}

/** Into the side: half the nut goes behind the screw. */
function deepened(
  feature: Feature,
  cornersMm: number,
  { piece, holes }: Layer,
  { length }: MendContext,
): Mend | undefined {
  const hole = holes[0];
  if (!hole || !('depth' in feature)) return undefined;
  const { origin } = featureFrame(hole.hole, piece.part.size, hole.hole.places[hole.index]!);
  const [v] = piece.solid.voidsOf(feature.name);
  if (!v) return undefined;
  const mm = Number((inFrame(v.frame, origin).w - v.from + cornersMm / 2 + PLAY_MM / 2).toFixed(1));
  const edit = mm > 0 ? setField(piece.tree, feature.name, 'depth', writeLength(mm, piece.part.units)) : undefined;
  return inPart(piece, `Make ${piece.name}.${feature.name} ${length(mm)} deep`, edit);
}

/** About the nearest of the holes that the screws go through. */
function movedTo(feature: Feature, { piece, holes }: Layer): Mend | undefined {
  const { part } = piece;
  const own = feature.places[0];
  if (feature.pattern || !own) return undefined;
  const frame = featureFrame(feature, part.size, own);
  const moves = holes.map(({ hole, index, name }) => {
    const { origin } = featureFrame(hole, part.size, hole.places[index]!);
    const by = origin.map((o, i) => o - frame.origin[i]!) as unknown as typeof origin;
    // The axes of a face run along the part's own, whichever way its frame does.
    const [u, v] = FACE_PLANE[feature.face].map((axis) => by['xyz'.indexOf(axis)]!) as [number, number];
    return { name, by: [u, v] as const, far: Math.hypot(u, v) };
  });
  const nearest = moves.toSorted((a, b) => a.far - b.far)[0];
  if (!nearest || nearest.far < HAIR) return undefined;
  return inPart(
    piece,
    `Move ${piece.name}.${feature.name} to ${piece.name}.${nearest.name}`,
    moveFeature(piece, feature, nearest.by),
  );
}
