/** safety/whip – long or thin stock that stands far out of the vise. */
import type { Part } from '../../model/model';
import { stockSizeMm } from '../../model/stock';
import { fact } from '../kit/message';
import type { Finding, Rule, RuleContext } from '../kit/rule';

const NAME = 'safety/whip';

/** Along its longest side, held in the middle: what stands out of the jaws at each end, against the thinnest side. */
function standsOut({
  part,
  shop,
}: RuleContext): { longMm: number; thinMm: number; jawMm: number; outMm: number } | undefined {
  if (!part.body || shop.vises.length === 0 || heldOtherwise(part)) return undefined;
  const sizes = stockSizeMm(part);
  const longMm = Math.max(...sizes);
  const jawMm = Math.max(...shop.vises.map((v) => v.jawWidthMm));
  return { longMm, thinMm: Math.min(...sizes), jawMm, outMm: (longMm - jawMm) / 2 };
}

/** Clamps, screws or soft jaws can carry all of it; only a vise leaves the ends free. */
function heldOtherwise({ setups }: Part): boolean {
  return setups?.some((s) => s.hold && s.hold.type !== 'vise') ?? false;
}

export const whip: Rule = {
  name: NAME,
  severity: 'hint',
  summary: 'Long thin stock stands far out of the vise: it can sing, swing and whip.',
  why: 'A bar that stands out far rings under the cutter, is pulled up by it and swings out when it grabs; thin stock bends and flaps. It should be cut shorter, carried at its ends by a second vise, jack or clamp, or screwed to a plate. The usual caution: the shop’s own rules and its trained staff go before it.',
  formula:
    'The stock’s longest side less the jaws of the widest vise, halved (`out_mm`), over its thinnest side (`thin_mm`): `ratio`. Nothing is said where a set-up holds by clamps, screws or the like, or where the shop lists no vise.',
  limits: [
    {
      name: 'ratio',
      value: 5,
      unit: 'ratio',
      what: 'How often its own thickness stock may stand out of the jaws unsupported',
      source: 'common practice, no source: turners support a bar beyond 3 to 5 diameters',
    },
  ],
  bad: `part: rail
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
`,
  good: `part: rail
units: mm
material: aluminium-6061-t6
body: { x: 180, y: 20, z: 10 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`,
  *find(context): Generator<Finding> {
    const { part, length, limit } = context;
    const found = standsOut(context);
    if (!found || found.thinMm <= 0) return;
    const ratio = found.outMm / found.thinMm;
    if (ratio <= limit('ratio') + 1e-9) return;
    yield {
      rule: NAME,
      severity: 'hint',
      message: `Stock of ${length(found.longMm)} stands ${length(found.outMm)} out of ${length(found.jawMm)} jaws at each end, ${ratio.toFixed(1)} times its thickness of ${length(found.thinMm)} (a rule of thumb: to ${limit('ratio')}). It can sing, swing or whip: carry the ends or clamp it along its length, and keep clear of them. The shop’s own rules and its trained staff go before this.`,
      of: [],
      span: part.stock.written ? part.stock.span : part.body!.span,
      related: [],
      facts: {
        long_mm: fact(found.longMm),
        thin_mm: fact(found.thinMm),
        out_mm: fact(found.outMm),
        jaw_mm: fact(found.jawMm),
        ratio: fact(ratio),
        limit: limit('ratio'),
      },
    };
  },
};
