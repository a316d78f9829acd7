/** setup/unassigned – no set-up cuts a feature, or stock is left on a face. */

import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Feature, OPPOSITE } from '../../model/model';
import { approachesOf } from '../../process/approach';
import { BY_HAND_MM, type ByHand, edgesByHand, mayBeByHand } from '../../process/by-hand';
import { boxLeft, type Cut, cutsOf, excessOver, timelineOf } from '../../process/stock';
import { samePlace } from '../../text/tree';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { trimmed } from '../kit/message';
import { append } from '../kit/moves';
import type { Rule, RuleContext } from '../kit/rule';

type Left = Feature | Face | { readonly byHand: ByHand };

function* left(context: RuleContext): Generator<Left> {
  const { part, solid, shop } = context;
  if (!part.setups) return;
  for (const byHand of edgesByHand(part, solid, shop)) yield { byHand };
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
  const { part, solid, length } = context;
  if (typeof what !== 'string' && 'byHand' in what) return tellByHand(what.byHand, context);
  const could = facesFor(what, context);
  const cure = could.length > 0 ? ` It can be cut in ${could.join(' or ')}.` : '';
  const cuts = cutsOf(timelineOf(part, solid), what);
  if (cuts.length > 0) return partly(what, cuts, context);
  if (typeof what !== 'string')
    return {
      message: `No set-up cuts ${what.name}.${cure}`,
      of: [what.name],
      span: what.nameSpan,
      facts: { set_ups: part.setups!.length },
    };
  const over = excessOver(what, timelineOf(part, solid).stock.body, solid.body);
  const written = part.stock.extra[what];
  const { axis } = FACE_AXIS[what];
  const i = AXIS_INDEX[axis];
  const now = boxLeft(timelineOf(part, solid).setups.at(-1)?.after ?? timelineOf(part, solid).stock);
  const comesOut = now.max[i] - now.min[i];
  return {
    message: `No set-up faces ${what}, and ${length(over)} of stock is left on it: the part comes out ${length(comesOut)} along ${axis}, not the ${length(part.size[i])} of the body.${cure}`,
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
    message: `Not all of ${name} is cut: below what ${part.setups![last.setup]!.name} takes the rest is left. Name it there without a depth, all of it is cut then${other}.`,
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
  why: 'A plan that forgets a hole makes a part without it; it shows when the part is out of the vise and its zero is lost.',
  formula:
    'Every feature, and every face with stock left on it, is listed in the cuts of a set-up, and where set-ups take only part of its depth, they take all of it together. Edges no wider than `by_hand_mm` are broken with a file where no set-up breaks them: `way_mm` of edge take `low_min` to `high_min` (the shop’s `deburr`), a hint. Of a face: `left_mm` is what stands over it, `comes_out_mm` how long the part is along that axis after the last set-up, `body_mm` how long the body is. What another cut took away over the face counts as cut.',
  limits: [
    {
      name: 'by-hand',
      value: BY_HAND_MM,
      unit: 'mm',
      what: 'Edges no wider than this are broken with a file, where no set-up is there for them',
      source: 'common practice, no source',
    },
  ],
  bad: sample('[seat]'),
  good: sample('[seat, tie]'),
  mends: 'The cut added to a set-up that can take it.',
  find: left,
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
