/** safety/whip – long or thin stock that stands far out of the vise. */

import type { Part } from '../../model/model';
import { stockSizeMm } from '../../model/stock';
import { heldOf } from '../../process/workholding/in-jaws';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { figure } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

interface Out {
  readonly longMm: number;
  readonly thinMm: number;
  readonly jawMm: number;
  readonly outMm: number;
}

/** Where set-ups are written: the farthest that it stands out of the jaws along them; upright it does not. */
function inSetups(context: RuleContext): Out | undefined {
  let worst: Out | undefined;
  for (const { inVise: h, inTime: s } of heldOf(context)) {
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
  summary: 'Long thin stock sticks far out of the vise: it can vibrate, swing and whip.',
  why: 'A bar that sticks out far may swing out and hit you when the cutter grabs it. It vibrates and is pulled up. Cut it shorter, support its ends by a second vise, jack or clamp, or screw it to a plate. Follow your shop’s rules; ask trained staff.',
  formula:
    'How far the stock sticks out over its thinnest side. It sticks out by its longest side less the jaws of the widest vise, halved. Where set-ups are written it is the farther end as each holds it. Not reported where a set-up holds by clamps, screws or the like, or where the shop lists no vise.',
  limits: [
    {
      name: 'ratio',
      value: 5,
      unit: 'ratio',
      what: 'How far stock may stick out of the jaws without support, in thicknesses.',
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
  tell: ({ longMm, thinMm, outMm, jawMm, ratio }, { part, length, limit, about }) => ({
    message: `Stock of ${length(longMm)} sticks ${about(outMm)} out of the jaws${part.setups ? '' : ' at each end'}: ${figure(ratio, limit('ratio'))} times its thickness. Over ${limit('ratio')} times it can swing and hit you (rule of thumb). Support it and keep clear. Follow your shop’s rules; ask trained staff.`,
    has: `${figure(ratio, limit('ratio'))} times`,
    needs: `${limit('ratio')} times or less`,
    of: [],
    span: part.stock.written ? part.stock.span : part.body!.span,
    facts: { long_mm: longMm, thin_mm: thinMm, out_mm: outMm, jaw_mm: jawMm, ratio, limit: limit('ratio') },
  }),
});
