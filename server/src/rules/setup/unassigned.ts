/** setup/unassigned – no set-up cuts a feature, or stock is left on a face. */

import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Feature, OPPOSITE } from '../../model/model';
import { leftBySaw, sawnOffAt } from '../../model/sawn-off';
import { approachesOf } from '../../process/approach';
import { BY_HAND_MM, type ByHand, edgesByHand, mayBeByHand } from '../../process/by-hand';
import { boxLeft, type Cut, cutsOf, excessOver, timelineOf } from '../../process/stock';
import { samePlace } from '../../text/tree';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { capital, trimmed } from '../kit/message';
import { append } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';

type Left = Feature | Face | { readonly byHand: ByHand };

function* uncutIn(context: RuleContext): Generator<Left> {
  const { part, solid, shop } = context;
  if (!part.setups) return;
  for (const byHand of edgesByHand({ part, solid, shop })) yield { byHand };
  for (const what of timelineOf(part, solid).unassigned) {
    if (typeof what !== 'string' && mayBeByHand(what, shop)) continue;
    if (typeof what === 'string') yield what;
    // One that no set-up could take is told by access/no-setup.
    else if (facesFor(what, context).length > 0 || approachesOf(what, part, solid).length === 0) yield what;
  }
}

/** Set-ups that could cut it, by the face that is up. */
function facesFor(what: Feature | Face, { part, solid }: RuleContext): readonly string[] {
  const faces = typeof what === 'string' ? [] : approachesOf(what, part, solid);
  return (part.setups ?? []).flatMap((s) => {
    const up = s.up?.name;
    if (!up) return [];
    const can = typeof what === 'string' ? up !== OPPOSITE[what] : faces.includes(up);
    return can ? [s.name] : [];
  });
}

function tellLeft(what: Left, context: RuleContext): Told {
  const { part, solid, about } = context;
  if (typeof what !== 'string' && 'byHand' in what) return tellByHand(what.byHand, context);
  const could = facesFor(what, context);
  const cure = could.length > 0 ? ` Cut it in ${could.join(' or ')}.` : ' Add it to a set-up, or add a set-up for it.';
  const cuts = cutsOf(timelineOf(part, solid), what);
  if (cuts.length > 0) return partly(what, cuts, context);
  if (typeof what !== 'string')
    return {
      message: `${typeof what === 'string' ? `Face ${what}` : `${capital(what.kind)} ${what.name}`} is in no set-up.${cure}`,
      of: [what.name],
      span: what.nameSpan,
      facts: { set_ups: part.setups!.length },
    };
  // Of a bar that the part was sawn off only what the saw left.
  const over = sawnOffAt(what, part)
    ? leftBySaw(what, part)
    : excessOver(what, timelineOf(part, solid).stock.body, solid.body);
  const written = part.stock.extra[what];
  const { axis } = FACE_AXIS[what];
  const i = AXIS_INDEX[axis];
  const now = boxLeft(timelineOf(part, solid).setups.at(-1)?.leaves ?? timelineOf(part, solid).stock);
  const comesOut = now.max[i] - now.min[i];
  return {
    message: `The ${what} face is faced in no set-up, and ${about(over)} of stock is left on it. The part comes out ${about(comesOut)} along ${axis}, not ${about(part.size[i]!, comesOut)}.${cure.replace(' Cut it', ' Face it')}`,
    has: about(comesOut),
    needs: about(part.size[i]!, comesOut),
    of: [what],
    span: written?.span ?? part.stock.span,
    facts: {
      set_ups: part.setups!.length,
      left_mm: over,
      comes_out_mm: comesOut,
      body_mm: part.size[i],
    },
  };
}

/** No set-up is made for edges as small as that. */
function tellByHand({ feature, all, wayMm }: ByHand, { part, shop, limit }: RuleContext): Told {
  const [low, high] = shop.times.deburr.map((minutes) => (minutes * wayMm) / 1000) as [number, number];
  const cuts = part.setups!.flatMap((s) => s.cuts).filter((c) => c.name === feature.name);
  const minutes = [low, high].map((m) => trimmed(m, 1)).join(' to ');
  return {
    severity: 'hint',
    message: `No set-up breaks ${all ? `the edges of ${feature.name}` : `some of the edges of ${feature.name}, which look away where the others are cut`}: a file does it, about ${minutes} min a piece.`,
    of: [feature.name],
    span: feature.nameSpan,
    related: cuts.map((c) => ({ span: c.span, message: 'cut here' })),
    facts: { by_hand_mm: limit('by-hand'), way_mm: wayMm, low_min: low, high_min: high },
  };
}

/** Cut, but not all the way: told where the last of it stands. */
function partly(what: Feature | Face, cuts: readonly Cut[], { part }: RuleContext): Told {
  const name = typeof what === 'string' ? what : what.name;
  const last = cuts.at(-1)!;
  const ups = cuts.map((c) => part.setups![c.setup]!.up?.name);
  const other = ups.every((up) => up === ups[0]) && ups[0] ? `, or cut the rest with ${OPPOSITE[ups[0]]} up` : '';
  return {
    message: `Feature ${name} is not cut to its full depth: set-up ${part.setups![last.setup]!.name} leaves the rest. Name it there without a depth${other}.`,
    of: [name],
    span: last.span,
    related: cuts.slice(0, -1).map((c) => ({ span: c.span, message: 'cut so far here' })),
    facts: { set_ups: part.setups!.length, in: part.setups![last.setup]!.name },
  };
}

const sample = (cuts: string) => `part: guide
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 6, depth: 10 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    cuts: ${cuts}
`;

export const unassigned: Rule = defineRule({
  name: 'setup/unassigned',
  severity: 'warning',
  summary: 'No set-up cuts the feature, or faces the stock that is left.',
  why: 'A plan that forgets a hole makes a part without it. You notice it when the part is out of the vise and its zero is lost.',
  formula:
    'Every feature, and every face with stock left on it, must be in the cuts of a set-up. Where set-ups cut only part of its depth, they must cut all of it together. Edges up to `by-hand` that no set-up breaks are broken with a file, a hint. The time for that is the length of edge by the shop’s `deburr`. For a face the message says how much stock is left, and how long the part comes out. What another cut took off the face counts as cut.',
  limits: [
    {
      name: 'by-hand',
      value: BY_HAND_MM,
      unit: 'mm',
      what: 'Wider edges must be broken in a set-up; narrower ones may be filed.',
      source: 'common practice, no source',
    },
  ],
  bad: sample('[seat]'),
  good: sample('[seat, tie]'),
  mends: 'Add the cut to a set-up that can make it.',
  find: uncutIn,
  tell: tellLeft,
  keep(hit, context) {
    const { part, solid } = context;
    const what = typeof hit !== 'string' && 'byHand' in hit ? hit.byHand.feature : hit;
    const name = typeof what === 'string' ? what : what.name;
    const could = facesFor(what, context);
    const up = (setup: string) => part.setups?.find((s) => s.name === setup)?.up?.name;
    // With the face up first: the others cut it with the flank.
    const sorted =
      typeof what === 'string' ? [...could].sort((a, b) => Number(up(b) === what) - Number(up(a) === what)) : could;
    const last = cutsOf(timelineOf(part, solid), what).at(-1);
    const whole = last && part.setups![last.setup]!.cuts.find((c) => samePlace(c.span, last.span))?.whole;
    return { name, could: sorted, whole };
  },
  *mend({ name, could, whole }, context) {
    if (whole) yield change('Cut all of it there', { span: whole, newText: name });
    for (const setup of could) yield change(`Cut it in ${setup}`, append(context, setup, name));
  },
});
