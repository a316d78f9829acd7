/** safety/whip – long or thin stock that stands far out of the vise. */

import type { Part } from '../../model/model';
import { stockSizeMm } from '../../model/stock';
import { heldOf } from '../../process/workholding/in-jaws';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule, RuleContext } from '../kit/rule';

interface Out {
  readonly longMm: number;
  readonly thinMm: number;
  readonly jawMm: number;
  readonly outMm: number;
}

/** Where set-ups are written: the farthest that it stands out of the jaws along them; upright it does not. */
function inSetups({ part, solid, shop }: RuleContext): Out | undefined {
  let worst: Out | undefined;
  for (const { h, s } of heldOf(part, solid, shop)) {
    if (s.setup.hold?.type !== 'vise') continue;
    const outMm = Math.max(h.jawFromMm - h.workFromMm, h.workToMm - h.jawToMm);
    const { min, max } = s.before.body.box;
    const thinMm = Math.min(...([0, 1, 2] as const).map((i) => max[i] - min[i]));
    if (!worst || outMm > worst.outMm)
      worst = { longMm: h.workToMm - h.workFromMm, thinMm, jawMm: h.vise.jawWidthMm, outMm };
  }
  return worst;
}

/** Along its longest side, held in the middle: what stands out of the jaws at each end, against the thinnest side. */
function standsOut(context: RuleContext): Out | undefined {
  const { part, shop } = context;
  if (!part.body || shop.vises.length === 0 || heldOtherwise(part)) return undefined;
  if (part.setups?.some((s) => s.hold)) return inSetups(context);
  const sizes = stockSizeMm(part);
  const longMm = Math.max(...sizes);
  const jawMm = Math.max(...shop.vises.map((v) => v.jawWidthMm));
  return { longMm, thinMm: Math.min(...sizes), jawMm, outMm: (longMm - jawMm) / 2 };
}

/** Clamps, screws or soft jaws can carry all of it; only a vise leaves the ends free. */
function heldOtherwise({ setups }: Part): boolean {
  return setups?.some((s) => s.hold && s.hold.type !== 'vise') ?? false;
}

const BAD = `part: rail
units: mm
material: aluminium-6061-t6
body: { x: 300, y: 20, z: 10 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`;

export const whip: Rule = defineRule({
  name: 'safety/whip',
  severity: 'hint',
  summary: 'Long thin stock stands far out of the vise: it can sing, swing and whip.',
  why: 'A bar that stands out far rings under the cutter, is pulled up by it and swings out when it grabs; thin stock bends and flaps. It should be cut shorter, carried at its ends by a second vise, jack or clamp, or screwed to a plate. The usual caution: the shop’s own rules and its trained staff go before it.',
  formula:
    'The stock’s longest side less the jaws of the widest vise, halved (`out_mm`); where set-ups are written, the farther end as each holds it, over its thinnest side (`thin_mm`): `ratio`. Nothing is said where a set-up holds by clamps, screws or the like, or where the shop lists no vise.',
  limits: [
    {
      name: 'ratio',
      value: 5,
      unit: 'ratio',
      what: 'How often its own thickness stock may stand out of the jaws unsupported',
      source: 'common practice, no source: turners support a bar beyond 3 to 5 diameters',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['x: 300', 'x: 180']),
  *find(context) {
    const found = standsOut(context);
    const ratio = found && found.thinMm > 0 ? found.outMm / found.thinMm : 0;
    if (found && ratio > context.limit('ratio') + ROUNDING) yield { ...found, ratio };
  },
  tell: ({ longMm, thinMm, outMm, jawMm, ratio }, { part, length, limit }) => ({
    message: `Stock of ${length(longMm)} stands ${length(outMm)} out of ${length(jawMm)} jaws${part.setups ? '' : ' at each end'}, ${ratio.toFixed(1)} times its thickness of ${length(thinMm)} (a rule of thumb: to ${limit('ratio')}). It can sing, swing or whip: carry the ends or clamp it along its length, and keep clear of them. The shop’s own rules and its trained staff go before this.`,
    of: [],
    span: part.stock.written ? part.stock.span : part.body!.span,
    facts: { long_mm: longMm, thin_mm: thinMm, out_mm: outMm, jaw_mm: jawMm, ratio, limit: limit('ratio') },
  }),
});
