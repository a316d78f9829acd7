/** joint/nut – a nut that is let in does not go in, turns, or is not where the screw is. */
import type { Screwed } from '../../model/joint-model';
import { columnOf, featureOf, type Layer } from '../../process/joints/layers';
import { nutRoom, nutSideRoom } from '../../process/joints/nuts';
import { nutWidths } from '../../tables/fasteners';
import { HAIR } from '../../tolerance';
import { defineRule, said, type Told } from '../kit/define';
import { trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { example, type JointContext, OF_JOINTS } from './context';
import { pattern } from './pattern';
import { assembled } from './screwed';

export const nut: Rule = defineRule({
  ...OF_JOINTS,
  name: 'joint/nut',
  severity: 'error',
  summary: 'A nut that is let in does not go in, turns, or is not where the screw is.',
  why: 'A nut in a pocket needs no spanner and no room for one, if the pocket holds its flats. One that turns in its pocket can be neither tightened nor loosened.',
  formula:
    'Widths over flats are those of ISO 4032 at most, corners 2 / √3 of them. The largest nut, turned as it fits best about the screw, lies inside the opening. A warning where the smallest one can be turned right round. Its flats are h13, its corners 1.13 of that. Into an opening across the screw the nut is pushed from the side. That is wide enough for the flats and high enough for the nut. It goes half the nut’s corners behind the screw. The screw ends a pitch behind the nut (see joint/length).',
  limits: [],
  bounds: 'ISO 4032: widths of nuts over flats, from memory; h13 of ISO 286-1.',
  bad: example('  j: { screw: M5x20, through: yoke.block-screws-left, nut: ISO 4032, nut-in: yoke.throat }\n'),
  good: example('  j: { screw: M5x20, through: yoke.block-screws-left, nut: ISO 4032 }\n'),
  mends: 'Make the pocket as wide as the nut’s flats and a little, or place it about the hole.',
});

export function* nutFindings(joint: Screwed, context: JointContext): Generator<Finding> {
  const { nutIn, screw } = joint;
  const found = nutIn && assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const opening = nutIn && featureOf(nutIn, context.pieces);
  const last = found?.layers.at(-1);
  if (!nutIn || !joint.nut || !opening?.ok || !last) return;
  const told =
    opening.piece === last.piece
      ? inOpening(
          last,
          { text: nutIn.text, name: opening.feature.name, size: screw.size, heightMm: joint.nut.heightMm },
          context,
        )
      : {
          message: `The nut sits at the last part that the screw goes through, ${last.piece.name}, and ${nutIn.text} is one of ${opening.piece.name}. Name one of ${last.piece.name}.`,
        };
  if (!told) return;
  yield said(nut, {
    of: [joint.name],
    thing: `joint ${joint.name}`,
    span: nutIn.span,
    related: [context.there(opening.piece, opening.feature.nameSpan, `joint ${joint.name}: where the nut sits`)],
    ...told,
  });
}

interface Sunk {
  readonly text: string;
  readonly name: string;
  readonly size: string;
  readonly heightMm: number;
}
type Trouble = Pick<Told, 'message' | 'severity' | 'facts'>;

/** The first of the screws whose nut is not held. */
function inOpening(last: Layer, sunk: Sunk, { length }: JointContext): Trouble | undefined {
  const { text, name, size } = sunk;
  const widths = nutWidths(size);
  if (!widths) return undefined;
  const { flatsMm } = widths;
  for (const at of last.holes) {
    const column = columnOf(at, last.piece);
    const room = nutRoom(at, last, name, widths);
    if (!room) {
      const side = fromTheSide(at, last, sunk, length);
      if (side === 'held') continue;
      if (side) return side;
    }
    const facts = { flats_mm: flatsMm, inside_mm: room?.insideMm };
    if (!room && (!column || Math.abs(column.firstEndMm - column.bottomMm) < HAIR))
      return {
        message: `${text} is not about the screw in ${at.name}: the nut does not meet it. Move it to the hole.`,
        facts,
      };
    if (room && room.insideMm < -HAIR)
      return {
        message: `The nut of ${size} has flats of ${length(flatsMm)}, and ${text} is ${length(Number(trimmed(-room.insideMm, 2)))} too small for it. Make it wider.`,
        facts,
      };
    if (room?.turns)
      return {
        severity: 'warning',
        message: `The nut of ${size}, with flats of ${length(flatsMm)}, can be turned round in ${text}: nothing holds it. Make it narrower.`,
        facts,
      };
  }
  return undefined;
}

/** A nut that is pushed in from the side: `held`, what is wrong, or undefined where the opening does not lie so. */
function fromTheSide(
  at: Layer['holes'][number],
  last: Layer,
  { text, name, size, heightMm }: Sunk,
  length: JointContext['length'],
): Trouble | 'held' | undefined {
  const widths = nutWidths(size);
  if (!widths) return undefined;
  const room = nutSideRoom(at, last, name, { ...widths, heightMm });
  if (!room) return undefined;
  const facts = { flats_mm: widths.flatsMm, height_mm: heightMm, spare_mm: room.spareMm, behind_mm: room.behindMm };
  if (room.spareMm < -HAIR)
    return {
      message: `The nut of ${size} has flats of ${length(widths.flatsMm)} and is ${length(heightMm)} high, and ${text} is ${length(Number(trimmed(-room.spareMm, 2)))} too narrow for it. Make it wider.`,
      facts,
    };
  if (room.behindMm < widths.cornersMm / 2 - HAIR)
    return {
      message: `${text} ends ${length(Number(trimmed(room.behindMm, 2)))} behind the screw, and half the nut of ${size} is ${length(Number(trimmed(widths.cornersMm / 2, 2)))}. Make it deeper.`,
      facts,
    };
  if (!room.turns) return 'held';
  return {
    severity: 'warning',
    message: `The nut of ${size}, with flats of ${length(widths.flatsMm)}, can be turned round in ${text}: nothing holds it. Make it narrower.`,
    facts,
  };
}
