/** What would do where something does not fit its opening, or a stack or two positions leave too little: a size, a class, closer limits. */
import type { Bearing, Bought, Located, Pinned, Screwed, Stacked } from '../../../model/joint-model';
import { featureOf } from '../../../process/joints/layers';
import { boreOf, type Sized, shaftOf, sidesOf } from '../../../process/joints/plays';
import { zoneOf } from '../../../process/joints/zones';
import { clearanceHole } from '../../../tables/clearance';
import { HAIR } from '../../../tolerance';
import { nodeAt, setLength } from '../../kit/edits';
import { setField } from '../../kit/fields';
import { classesThatDo, innerOf } from '../fit';
import { pattern } from '../pattern';
import { assembled } from '../screwed';
import { heightsOf } from '../stack';
import { inPart, type Mend, type MendContext, ownHoles, withTolerance } from './mend';

type Fitted = Located | Bearing | Bought;

/** A size with its part as the job calls it. */
interface Written extends Sized {
  readonly piece: string;
  readonly what: string;
}

export function* fitMends(joint: Fitted, context: MendContext): Generator<Mend | undefined> {
  const { pieces } = context;
  const seat = joint.seat && featureOf(joint.seat, pieces);
  const bore = seat && boreOf(seat);
  const inner = innerOf(joint, pieces);
  const shaftMeeting =
    (joint.kind === 'shaft' || joint.kind === 'bearing') && joint.shaft && 'of' in joint.shaft
      ? joint.shaft.of
      : undefined;
  const named = (sized: Sized | undefined, at: typeof shaftMeeting): Written | undefined =>
    sized?.part && at ? { ...sized, piece: at.piece.name, what: at.text } : undefined;
  if (bore && inner)
    yield* sizesOf(
      { outer: bore, inner, meant: joint.fit?.kind },
      [named(bore, joint.seat), named(inner, joint.kind === 'shaft' ? shaftMeeting : undefined)],
      context,
    );
  if (joint.kind === 'bearing' && joint.shaft) {
    const shaft = shaftOf(joint.shaft, pieces);
    if (shaft)
      yield* sizesOf(
        { outer: { length: joint.bore }, inner: shaft, meant: seat ? undefined : joint.fit?.kind },
        [undefined, named(shaft, shaftMeeting)],
        context,
      );
  }
  if (joint.kind === 'bought' && joint.length && joint.width) yield* pocketMends(joint, context);
}

interface Put {
  readonly outer: Sized;
  readonly inner: Sized;
  readonly meant: NonNullable<Located['fit']>['kind'] | undefined;
}

function* sizesOf(
  { outer, inner, meant }: Put,
  [opening, thing]: readonly [Written | undefined, Written | undefined],
  { pieces, length }: MendContext,
): Generator<Mend | undefined> {
  const made = (at: Written, text: string, edit: ReturnType<typeof setLength>) =>
    inPart(pieces.get(at.piece)!, `Make ${at.what} ${text}`, edit);
  for (const [at, to] of [
    [opening, inner],
    [thing, outer],
  ] as const)
    if (at?.part && Math.abs(at.length.mm - to.length.mm) > HAIR)
      yield made(at, length(to.length.mm), setLength(at.length, to.length.mm, at.part));
  const kind = meant ?? 'clearance';
  for (const [at, classes] of [
    [opening, classesThatDo(kind, outer, inner, 'opening')],
    [thing, classesThatDo(kind, outer, inner, 'thing')],
  ] as const)
    for (const name of classes.slice(0, 1))
      if (at?.part) {
        const edit = withTolerance(at.length, name, at.part);
        if (edit) yield made(at, edit.newText, edit);
      }
}

/** A pocket as large as its thing with a little room; one whose corners meet the thing's, so much larger that they do not. */
function* pocketMends(joint: Bought, { pieces, length }: MendContext): Generator<Mend | undefined> {
  const found = featureOf(joint.seat, pieces);
  const sides = sidesOf(found);
  if (!found.ok || !sides) return;
  const { part } = found.piece;
  const own = [joint.length!.mm, joint.width!.mm].sort((a, b) => b - a);
  const is = [sides.long.length.mm, sides.short.length.mm];
  // Inset of the thing's corner along each side, once both sides have so much play: within the opening's arc.
  const room = sides.cornerMm - joint.cornerMm;
  const meets = (play: number) => Math.hypot(...own.map(() => Math.max(0, room - play / 2))) - Math.max(0, room) > HAIR;
  let play = Math.max(0, ...is.map((mm, i) => mm - own[i]!));
  const before = play;
  while (play < 2 * Math.max(0, room) && meets(play)) play += STEP_MM;
  const edits = [sides.long, sides.short].map(({ length: l }, i) =>
    setLength(l, own[i]! + Number(play.toFixed(2)), part),
  );
  if (play > before || is.some((mm, i) => mm < own[i]! - HAIR))
    if (edits[0] && edits[1])
      yield inPart(
        found.piece,
        `Make ${joint.seat.text} ${length(own[0]! + Number(play.toFixed(2)))} by ${length(own[1]! + Number(play.toFixed(2)))}`,
        [edits[0], edits[1]],
      );
}
/** Pockets are made larger in steps of this. */
const STEP_MM = 0.1;

/** Pressed into one of them: the last first, where it cannot fall through. Loose in one, where it is pressed into all. */
export function* pinFitMends(joint: Pinned, context: MendContext): Generator<Mend | undefined> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const { diameterMm, letter } = joint.pin;
  for (const { piece, holes } of found?.layers.toReversed() ?? [])
    for (const name of [letter === 'm' ? 'H7' : 'N7', 'N7', 'F7', 'G7'])
      for (const hole of ownHoles(holes)) {
        const edit = withTolerance(hole.diameter, name, piece.part, diameterMm);
        if (edit) yield inPart(piece, `Make ${piece.name}.${hole.name} ${edit.newText}`, edit);
      }
}

/** Closer limits for the widest; where the drawing itself is outside, one of the heights to the middle of what may be left. */
export function* stackMends(joint: Stacked, context: MendContext): Generator<Mend | undefined> {
  const stacked = heightsOf(joint, context.pieces);
  if (!stacked) return;
  const { ranges, nominalMm, middleMm, worstMm } = stacked;
  const room = Math.min(joint.mostMm - middleMm, middleMm - joint.leastMm);
  for (const { half, sized, height, text } of ranges.toSorted((a, b) => b.half - a.half)) {
    const piece = 'of' in height ? context.pieces.get(height.of.piece.name) : undefined;
    if (!piece || !sized.part) continue;
    const left = Math.floor((half - (worstMm - room)) * 100 + HAIR) / 100;
    const edit = left > 0 && left < half ? withTolerance(sized.length, `±${left}`, sized.part) : undefined;
    if (edit) yield inPart(piece, `Make ${text} ${edit.newText}`, edit);
  }
  const off = (joint.leastMm + joint.mostMm) / 2 - nominalMm;
  if (Math.abs(off) < HAIR) return;
  for (const { sized, height, text, sign } of ranges) {
    const piece = 'of' in height ? context.pieces.get(height.of.piece.name) : undefined;
    const mm = Number((sized.length.mm + sign * off).toFixed(2));
    if (piece && sized.part && mm > 0)
      yield inPart(piece, `Make ${text} ${context.length(mm)}`, setLength(sized.length, mm, sized.part));
  }
}

/** The wider clearance hole, or both zones as large as the play allows. */
export function* positionMends(joint: Screwed, context: MendContext): Generator<Mend | undefined> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  if (!found) return;
  const { size } = joint.screw;
  for (const { piece, holes } of found.layers)
    for (const hole of ownHoles(holes.filter((h) => joint.through.includes(h.meeting)))) {
      const wider = clearanceHole(size, 'coarse');
      if (wider && wider.diameterMm > hole.diameter.mm + HAIR && nodeAt(piece.tree, hole.name, 'clearance'))
        yield inPart(
          piece,
          `Make ${piece.name}.${hole.name} a loose clearance hole, ${context.length(wider.diameterMm)}`,
          setField(piece.tree, hole.name, 'clearance', `${size} loose`),
        );
    }
  for (const layer of found.layers) {
    const zone = zoneOf(layer);
    const others = found.layers.filter((l) => l !== layer).map((l) => zoneOf(l)?.mm ?? 0);
    const playMm = Math.min(
      ...found.layers.flatMap((l) =>
        l.holes
          .filter((h) => joint.through.includes(h.meeting))
          .map((h) => h.hole.diameter.mm - joint.screw.diameterMm),
      ),
    );
    const left = Math.floor((playMm - Math.max(0, ...others)) * 1000 + HAIR) / 1000;
    if (zone?.of && zone.by === 'position' && left > 0 && left < zone.mm)
      yield inPart(
        layer.piece,
        `Give the holes of ${layer.piece.name} a position of ${context.length(left)}`,
        setLength(zone.of, left, layer.piece.part),
      );
  }
}
