/** hole/odd-diameter – no tool on hand makes this size. */

import type { Hole } from '../../model/model';
import { boreSize } from '../../process/bore-size';
import { type Bore, drillsOf, makersOf } from '../../process/cutters';
import { PLAIN_MM } from '../../process/operations/hole-makers';
import { drillsBetween, isStandardDrill, nearestDrill } from '../../tables/drills';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { subjectOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { sizeSpan } from './bores';

interface Odd {
  readonly hole: Hole;
  readonly bore: Bore;
  /** Drill sizes on hand nearest below and above. */
  readonly near: readonly { readonly name: string; readonly mm: number }[];
  /** A standard drill within the limits, not on hand. */
  readonly standardMm?: number;
}

function* oddOnes(context: RuleContext): Generator<Odd> {
  const { part, shop, limit } = context;
  for (const hole of part.features) {
    if (hole.kind !== 'hole') continue;
    const bore = boreSize(hole, part, limit('plain'));
    if (makersOf(shop, bore).length > 0) continue;
    const drills = drillsOf(shop);
    const below = drills.filter((d) => d.diameterMm < bore.nominalMm).at(-1);
    const above = drills.find((d) => d.diameterMm > bore.nominalMm);
    const near = [below, above]
      .filter((d) => d !== undefined)
      .map((d) => ({ name: d.name, mm: d.diameterMm }))
      .sort((a, b) => Math.abs(a.mm - bore.nominalMm) - Math.abs(b.mm - bore.nominalMm));
    const standardMm = standardWithin(bore);
    yield { hole, bore, near, ...(standardMm !== undefined && { standardMm }) };
  }
}

/** The standard size nearest to the middle of the limits, metric before inch. */
function standardWithin({ fromMm, toMm, nominalMm }: Bore): number | undefined {
  if (isStandardDrill(nominalMm) || isStandardDrill(nominalMm, 'inch')) return nominalMm;
  for (const system of ['metric', 'inch'] as const) {
    const sizes = drillsBetween(fromMm, toMm, system).map((d) => d.diameterMm);
    const best = sizes.sort((a, b) => Math.abs(a - nominalMm) - Math.abs(b - nominalMm))[0];
    if (best !== undefined) return best;
  }
  return undefined;
}

function tell({ hole, bore, near, standardMm }: Odd, { length, shop, part, about }: RuleContext): Told {
  const [first] = near;
  const width = Math.max(bore.toMm - bore.nominalMm, bore.nominalMm - bore.fromMm);
  const have = first ? `The nearest drill is ${first.name}` : 'No drill is near it';
  const what = `${subjectOf(part, hole.name)}${hole.thread && !hole.diameterGiven ? ` (tap hole of ${hole.thread.designation})` : ''}`;
  const buy =
    standardMm === undefined
      ? 'Use a drill of the shop, or allow more'
      : `Use a ${length(standardMm)} drill: a standard size to buy`;
  return {
    severity: standardMm === undefined ? (shop.builtIn ? 'warning' : 'error') : 'hint',
    message: `${what} has a diameter of ${about(bore.nominalMm)}, within ${about(width)}. No drill, reamer, boring head or end mill of the shop makes it. ${have}. ${buy}.`,
    has: about(bore.nominalMm),
    needs: first && about(first.mm),
    of: [hole.name],
    span: sizeSpan(hole),
    facts: {
      diameter_mm: bore.nominalMm,
      within_mm: width,
      nearest_mm: first?.mm,
      nearest_tool: first?.name,
      off_mm: first && Math.abs(first.mm - bore.nominalMm),
      standard_mm: standardMm,
    },
  };
}

const BAD = `part: hinge
material: aluminium-6061-t6
body: { x: 40, y: 20, z: 10 }
features:
  pin:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 2.13 ±0.01
    depth: through
`;

export const oddDiameter: Rule = defineRule({
  name: 'hole/odd-diameter',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'No drill, reamer, boring head or end mill in the shop makes the diameter of a hole.',
  why: 'A drilled hole is as wide as its drill. A size between two drills needs a reamer or a boring set-up of its own. The next drill size is usually just as good.',
  formula:
    'The sizes allowed come from the hole’s own tolerance, else the part’s general tolerance, else ± `plain`. A drill or reamer must be within them. A boring head must cover them. An end mill must be clearly smaller. A hint where only a standard drill is missing.',
  limits: [
    {
      name: 'plain',
      value: PLAIN_MM,
      unit: 'mm',
      what: '± of a hole for which neither it nor the part has a tolerance.',
      source: 'ISO 2768-1 class m for sizes to 6 mm',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['2.13 ±0.01', '3']),
  mends: 'Use the nearest drill in the shop, or the nearest standard drill.',
  find: oddOnes,
  tell,
  keep: ({ hole, near }) => ({ of: hole.name, near }),
  *mend({ of, near }, { part, length, tree, write }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole' || !hole.diameterGiven) return;
    for (const { name, mm } of near)
      yield change(`Make it ${length(mm)}, for ${name}`, setLength(hole.diameter, mm, part));
    const standard = nearestDrill(hole.diameter.mm, part.units === 'in' ? 'inch' : 'metric').diameterMm;
    const edits = setField(tree, of, 'diameter', write(standard));
    yield change(`Make it ${length(standard)}, a standard drill, without a tolerance`, edits);
  },
});
