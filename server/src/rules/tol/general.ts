/** tol/general – the part's general tolerance asks more of plain drilled holes than a drill holds. */

import type { Hole } from '../../model/model';
import { makersOf } from '../../process/cutters';
import { itGrade } from '../../tables/fits';
import { generalLinear, parseGeneralTolerance } from '../../tables/general-tolerances';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { count, memberPhrase } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

interface Tight {
  readonly hole: Hole;
  readonly halfMm: number;
  readonly drilledMm: number;
}

/** Holes without a tolerance of their own that a drill on hand makes, finer by the general class than it drills. */
function* tight({ part, shop, limit }: RuleContext): Generator<Tight> {
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  if (!general) return;
  for (const hole of part.features) {
    if (hole.kind !== 'hole' || hole.thread || hole.diameter.tolerance) continue;
    const nominalMm = hole.diameter.mm;
    const half = generalLinear(nominalMm, general.linear, hole.diameter.text)?.value;
    const drilledMm = itGrade(nominalMm, limit('drilling'));
    if (half === undefined || drilledMm === undefined || 2 * half >= drilledMm - ROUNDING) continue;
    const makers = makersOf(shop, { nominalMm, fromMm: nominalMm - half, toMm: nominalMm + half });
    if (makers[0]?.kind === 'drill') yield { hole, halfMm: half, drilledMm };
  }
}

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-f
body: { x: 60, y: 40, z: 10 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: 40, count: 2 } }
    diameter: 5.5
    depth: through
`;

export const general: Rule = defineRule({
  name: 'tol/general',
  severity: 'hint',
  summary: 'The general tolerance is closer than a drill holds for plain holes.',
  why: 'A general tolerance is for everything without its own tolerance. So it should be what the shop holds easily. Class f makes a milled or reamed hole of every clearance hole. Class m costs less, with a tolerance where something must fit.',
  formula:
    'For each hole without a tolerance of its own that a drill in the shop makes. 2 × the general ± of its size is compared with the width of grade `drilling`.',
  limits: [
    {
      name: 'drilling',
      value: 12,
      unit: 'count',
      what: 'ISO 286 grade that a twist drill holds.',
      source: 'the table of processes (after ANSI B4.2, from memory): IT10 to IT13; 12 is common practice',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['2768-f', '2768-m']),
  mends: 'Use class m instead of f.',
  *find(context) {
    const all = [...tight(context)];
    const [first] = all;
    const general = context.part.tolerance;
    if (first && general) yield { all, first, general };
  },
  tell: ({ all, first, general }, { length, limit, part }) => ({
    message: `${general.name} gives ${all.length > 1 ? `${count(all.length, 'plain hole')}` : memberPhrase(part, first.hole.name)} a tolerance ${length(2 * first.halfMm)} wide. A drill holds ${length(first.drilledMm)} (IT${limit('drilling')}); the rest must be milled or reamed. ${typeof parseGeneralTolerance(general.name)?.linear === 'string' ? 'Use class m' : 'Widen it'}, and a tolerance of its own where something fits.`,
    has: length(first.drilledMm),
    needs: length(2 * first.halfMm),
    of: all.map((t) => t.hole.name),
    span: general.span,
    related: all.map((t) => ({
      span: t.hole.diameter.span,
      message: `±${length(t.halfMm)} by the general tolerance`,
    })),
    facts: {
      holes: all.length,
      width_mm: 2 * first.halfMm,
      process_width_mm: first.drilledMm,
      process_grade: limit('drilling'),
    },
  }),
  keep: ({ general }) => ({ span: general.span, class: general.name }),
  mend({ span, class: written }) {
    const general = parseGeneralTolerance(written);
    if (general?.linear !== 'f') return [];
    const newText = `ISO 2768-m${general.geometric ?? ''}`;
    return [change(`Use ${newText}`, { span, newText })];
  },
});
