/** joint/fit – what sits in an opening does not go in, or with another play than is meant. */
import type { Bearing, Bought, FitKind, Located, Meeting, Pinned } from '../../model/joint-model';
import { featureOf, type Layer, type Pieces } from '../../process/joints/layers';
import { boreOf, kindOf, type Play, playOf, type Sized, shaftOf, sidesOf } from '../../process/joints/plays';
import { fitLimits } from '../../tables/fits';
import { pinText } from '../../tables/pins';
import { HAIR } from '../../tolerance';
import { defineRule, said, type Told } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { pattern } from './pattern';
import { assembled } from './screwed';

export const fit: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/fit',
  severity: 'error',
  summary: 'A thing does not go into its opening, has too much play in it, or fits otherwise than is meant.',
  why: 'A bearing that creeps wears out its seat; one that is pressed too hard turns hard. A pin that is loose in both parts falls out. All of it is in the limits before a chip is cut.',
  formula:
    'Least play = smallest opening − largest thing. Largest play = largest opening − smallest thing; below 0 it is pressed. Clearance, transition, interference as in ISO 286. Limits are those written, ISO 286 by the class, ISO 492 of bearings (normal class), else the general tolerance. An error where it is always pressed by more than `tightest` × the diameter. A warning where the fit is not the one that is meant. A warning where the least play of a bearing, shaft or pin is over `loose`. A warning of a pin that has play in every part. A sharp corner in a round one: the thing’s corner must lie within the opening’s arc.',
  limits: [
    {
      name: 'tightest',
      value: 0.005,
      unit: 'ratio',
      what: 'Most that a thing is larger than its opening, of its diameter.',
      source: 'common practice, no source: somewhat over H7/s6 of ISO 286 at small sizes',
    },
    {
      name: 'loose',
      value: 0.3,
      unit: 'mm',
      what: 'Least play over which an opening is no seat.',
      source: 'common practice, no source',
    },
  ],
  bad: example('  elevation: { bearing: 6000, seat: bearing-block.bearing-seat }\n'),
  good: example('  elevation: { bearing: 608, seat: bearing-block.bearing-seat, shaft: 8 h6 }\n'),
  mends: 'Change the size or its class, or name the thing that the opening is for.',
});

type Fitted = Located | Bearing | Bought;

export function* fitFindings(joint: Fitted, context: JointContext): Generator<Finding> {
  const { seat } = joint;
  const opening = seat && featureOf(seat, context.pieces);
  if (joint.kind === 'bought' && joint.length && joint.width) {
    yield* rectangleFindings(joint, context);
    return;
  }
  const inner = innerOf(joint, context.pieces);
  const bore = opening && boreOf(opening);
  if (seat && bore && inner)
    yield* judged(
      joint,
      {
        what: whatOf(joint),
        in: seat.text,
        at: seat,
        outer: bore,
        inner,
        meant: joint.fit,
        mayRattle: joint.kind === 'bought',
      },
      context,
    );
  if (joint.kind !== 'bearing' || !joint.shaft) return;
  const shaft = shaftOf(joint.shaft, context.pieces);
  const at = 'of' in joint.shaft ? joint.shaft.of : undefined;
  const name = at?.text ?? 'the shaft';
  if (shaft)
    yield* judged(
      joint,
      {
        what: name,
        in: `the bearing’s bore`,
        at,
        outer: { length: joint.bore },
        inner: shaft,
        meant: seat ? undefined : joint.fit,
      },
      context,
    );
}

/** What sits in the seat. */
export function innerOf(joint: Fitted, pieces: Pieces): Sized | undefined {
  if (joint.kind === 'shaft') return shaftOf(joint.shaft, pieces);
  const length = joint.kind === 'bearing' ? joint.outside : joint.diameter;
  return length && { length };
}

interface Put {
  readonly what: string;
  readonly in: string;
  readonly at: Meeting | undefined;
  readonly outer: Sized;
  readonly inner: Sized;
  readonly meant: Located['fit'];
  /** A bought thing lies where it lies; what turns or locates must not. */
  readonly mayRattle?: boolean;
}

function* judged(joint: Fitted, put: Put, context: JointContext): Generator<Finding> {
  const play = playOf(put.outer, put.inner);
  const told = badly(put, play, context) ?? (put.meant && notMeant(put, play, put.meant, context));
  if (!told) return;
  const found = put.at && featureOf(put.at, context.pieces);
  const length = found?.ok && put.outer.part ? put.outer.length : put.inner.length;
  const related = found?.ok ? [context.there(found.piece, length.span, `joint ${joint.name}: the size`)] : [];
  yield said(fit, {
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: put.at?.span ?? joint.span,
    related,
    facts: factsOf(play),
    ...told,
  });
}

type Part = Pick<Told, 'message' | 'severity' | 'has' | 'needs'> & {
  readonly span?: Told['span'];
  readonly facts?: NonNullable<Told['facts']>;
};

/** It does not go in, or rattles. */
function badly(
  { what, in: opening, inner, outer, mayRattle }: Put,
  play: Play,
  { length, limit }: JointContext,
): Part | undefined {
  const most = play.mostMm ?? play.nominalMm;
  const least = play.leastMm ?? play.nominalMm;
  const [has, wants] = [length(outer.length.mm), length(inner.length.mm)];
  if (most < -Math.max(HAIR, limit(fit, 'tightest') * inner.length.mm))
    return {
      message: `${begun(what)} is ${wants}, ${opening} ${has}: at its smallest it is ${length(micron(-most))} too large to go in. Make both the same size.`,
      has,
      needs: wants,
    };
  if (!mayRattle && least > limit(fit, 'loose') + HAIR)
    return {
      severity: 'warning',
      message: `${begun(what)} is ${wants}, ${opening} ${has}: it has ${length(micron(least))} of play at least, and is held nowhere. Make both the same size.`,
      has,
      needs: wants,
    };
  return undefined;
}

function notMeant(
  { what, in: opening, outer, inner }: Put,
  play: Play,
  { kind, span }: NonNullable<Located['fit']>,
  { length }: JointContext,
): Part | undefined {
  const is = kindOf(play);
  if (is === kind) return undefined;
  if (is === undefined) {
    const open = play.outer ? what : opening;
    return {
      severity: 'hint',
      span,
      message: `Whether it is ${article(kind)} is not known: the size of ${open} has no limits. Write a class, like ${play.outer ? `\`${classFor(kind, 'shaft')}\`` : '`H7`'}.`,
    };
  }
  const better = classThatDoes(kind, outer, inner);
  const change = better ? `Write ${better}.` : 'Give one of them other limits.';
  return {
    severity: 'warning',
    span,
    message: `${begun(what)} in ${opening} is ${article(is)}: ${playText(play, length)}. It is meant to be ${article(kind)}. ${change}`,
    has: is,
    needs: kind,
  };
}

/** `from 0.005 mm of interference to 0.02 mm of play` */
export function playText({ leastMm, mostMm }: Play, length: (mm: number) => string): string {
  if (leastMm === undefined || mostMm === undefined) return 'its limits are not known';
  const one = (mm: number) => `${length(micron(Math.abs(mm)))} of ${mm < 0 ? 'interference' : 'play'}`;
  return `from ${one(leastMm)} to ${one(mostMm)}`;
}

function article(kind: FitKind): string {
  return kind === 'interference' ? 'an interference fit' : `a ${kind} fit`;
}

const SHAFTS: Readonly<Record<FitKind, readonly string[]>> = {
  clearance: ['h6', 'g6', 'f7'],
  transition: ['k6', 'js6', 'm6', 'n6'],
  interference: ['p6', 'r6', 's6'],
};
const HOLES: Readonly<Record<FitKind, readonly string[]>> = {
  clearance: ['H7', 'G7', 'F8'],
  transition: ['JS7', 'K7', 'M7', 'N7'],
  interference: ['N7', 'P7', 'R7', 'S7'],
};

function classFor(kind: FitKind, of: 'shaft'): string {
  return (of === 'shaft' ? SHAFTS : HOLES)[kind][0]!;
}

/** The first class of the opening, else of the thing, that makes the fit that is meant; only of what a part has. */
function classThatDoes(kind: FitKind, outer: Sized, inner: Sized): string | undefined {
  const [hole] = outer.part ? classesThatDo(kind, outer, inner, 'opening') : [];
  if (hole) return `\`${trimmed(outer.length.mm, 3)} ${hole}\` for the opening`;
  const [shaft] = inner.part ? classesThatDo(kind, outer, inner, 'thing') : [];
  return shaft && `\`${trimmed(inner.length.mm, 3)} ${shaft}\` for what sits in it`;
}

/** Everyday classes of one of the two with which the fit is of that kind. */
export function classesThatDo(kind: FitKind, outer: Sized, inner: Sized, of: 'opening' | 'thing'): readonly string[] {
  const [sized, classes] = of === 'opening' ? [outer, HOLES[kind]] : [inner, SHAFTS[kind]];
  return classes.filter((name) => {
    const other = { length: { ...sized.length, tolerance: limitsFor(sized.length.mm, name, sized) } };
    return kindOf(of === 'opening' ? playOf(other, inner) : playOf(outer, other)) === kind;
  });
}

function limitsFor(mm: number, name: string, { length }: Sized) {
  const [, letter, grade] = /^([A-Za-z]+)(\d+)$/.exec(name)!;
  const found = fitLimits(mm, letter!, Number(grade));
  return { text: name, span: length.span, ...(found && { upperMm: found.upperMm, lowerMm: found.lowerMm }) };
}

/** A rectangular thing: both sides, and its corners. */
function* rectangleFindings(joint: Bought, context: JointContext): Generator<Finding> {
  const found = featureOf(joint.seat, context.pieces);
  const sides = sidesOf(found);
  if (!found.ok || !sides) return;
  const [long, short] =
    joint.length!.mm >= joint.width!.mm ? [joint.length!, joint.width!] : [joint.width!, joint.length!];
  const at = { what: whatOf(joint), in: joint.seat.text, at: joint.seat, meant: joint.fit, mayRattle: true };
  const before = [
    ...judged(joint, { ...at, outer: sides.long, inner: { length: long } }, context),
    ...judged(joint, { ...at, outer: sides.short, inner: { length: short } }, context),
  ];
  yield* before;
  const r = sides.cornerMm;
  const inset = [sides.long.length.mm - long.mm, sides.short.length.mm - short.mm].map(
    (play) => r - joint.cornerMm - play / 2,
  );
  const over = Math.min(...inset) > 0 ? Math.hypot(...inset) + joint.cornerMm - r : 0;
  if (before.length > 0 || over <= HAIR) return;
  yield said(fit, {
    message: `The corners of ${joint.what} meet the ${context.length(r)} corners of ${joint.seat.text} by ${context.length(Number(trimmed(over, 2)))}. Give the pocket relieved corners, or make it larger.`,
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: joint.seat.span,
    related: [context.there(found.piece, found.feature.nameSpan, `joint ${joint.name}: its seat`)],
    facts: { corner_mm: over, radius_mm: r },
  });
}

/** Of a pin: in each part, and in all together. */
export function* pinFitFindings(joint: Pinned, context: JointContext): Generator<Finding> {
  const { pin } = joint;
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const limits = fitLimits(pin.diameterMm, pin.letter, pin.grade);
  if (!found || !limits) return;
  const tolerance = {
    text: `${pin.letter}${pin.grade}`,
    span: joint.pinSpan,
    upperMm: limits.upperMm,
    lowerMm: limits.lowerMm,
  };
  const inner: Sized = { length: { mm: pin.diameterMm, text: '', span: joint.pinSpan, tolerance } };
  const plays: { readonly layer: Layer; readonly play: Play }[] = [];
  for (const layer of found.layers) {
    const { hole, meeting } = layer.holes[0]!;
    const outer = { length: hole.diameter, part: layer.piece.part };
    const put: Put = { what: `The pin`, in: meeting.text, at: meeting, outer, inner, meant: undefined };
    const play = playOf(outer, inner);
    const told = badly(put, play, context);
    const related = [context.there(layer.piece, hole.diameter.span, `joint ${joint.name}: the hole`)];
    if (told)
      yield said(fit, {
        of: [joint.name],
        thing: `joint ${joint.name}`,
        span: meeting.span,
        related,
        facts: factsOf(play),
        ...told,
      });
    else plays.push({ layer, play });
  }
  if (plays.length < found.layers.length) return;
  const kinds = plays.map(({ play }) => kindOf(play));
  const related = plays.map(({ layer }) =>
    context.there(layer.piece, layer.holes[0]!.hole.diameter.span, `joint ${joint.name}: the hole`),
  );
  const base = { of: [joint.name], thing: `joint ${joint.name}`, span: joint.pinSpan, related };
  const size = `${trimmed(pin.diameterMm, 2)}`;
  if (kinds.every((k) => k === 'clearance')) {
    const least = Math.min(...plays.map(({ play }) => play.leastMm!));
    yield said(fit, {
      ...base,
      severity: 'warning',
      message: `${pinText(pin, pin.lengthMm)} has play in every part, ${context.length(micron(least))} at least: it can fall out. Write \`${size} ${pin.letter === 'm' ? 'H7' : 'N7'}\` in one of them.`,
      facts: { least_mm: least },
    });
  } else if (kinds.every((k) => k === 'interference'))
    yield said(fit, {
      ...base,
      severity: 'hint',
      message: `${pinText(pin, pin.lengthMm)} is pressed into every part: they do not come apart again. Write \`${size} F7\` or \`${size} G7\` in one of them.`,
      facts: {},
    });
}

function whatOf(joint: Fitted): string {
  return joint.kind === 'shaft'
    ? 'of' in joint.shaft
      ? joint.shaft.of.text
      : 'the shaft'
    : joint.kind === 'bearing'
      ? `the bearing`
      : joint.what;
}

/** To a tenth of a micrometre. */
function micron(mm: number): number {
  return Number(mm.toFixed(4));
}

function begun(what: string): string {
  return what.startsWith('the ') ? `T${what.slice(1)}` : what;
}

function factsOf({ leastMm, mostMm, nominalMm }: Play) {
  return { least_mm: leastMm, most_mm: mostMm, nominal_mm: nominalMm };
}
