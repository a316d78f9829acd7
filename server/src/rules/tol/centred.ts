/** tol/centred – drawn in the middle or in line, and not put there by the set-ups as the general tolerance asks. */

import { addingOf, type Centred, centredOf, zoneTaken } from '../../process/stackup';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { capital, list, spanOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { linkFacts } from './link-facts';

const BAD = `part: fork
units: mm
material: aluminium-6061-t6
tolerance: ISO 2768-mH
body: { x: 60, y: 40, z: 30 }
stock: { form: flat-bar }
features:
  seat: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 12, depth: 14 }
  back-seat: { kind: hole, face: bottom, at: { x: 20, y: center }, diameter: 16, depth: 14 }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    zero: { x: left, y: back, z: parallels }
    method: edge-finder
    cuts: [seat]
  second:
    up: bottom
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }
    zero: { x: left, y: front, z: parallels }
    method: edge-finder
    cuts: [back-seat]
`;

export const centred: Rule = defineRule({
  name: 'tol/centred',
  when: 'setups',
  severity: 'warning',
  summary: 'A feature in the middle or in line is not put there as closely as the general tolerance needs.',
  why: 'H, K or L behind a general tolerance covers what is in the middle, and holes in line (ISO 2768-2). The standard was withdrawn in 2021 (ISO 22081 in its place, from memory); drawings still cite it. A feature that is measured from one side has the whole error of the bar’s other side. Two holes bored in two set-ups have that of both zeros.',
  formula:
    'What is between the feature and each of the two faces is added as in tol/as-set-up. What moves the feature counts in full, what moves one face half. Twice that is compared with the zone of symmetry, by the smaller of both sizes. For holes on one axis, twice both directions together is compared with the zone of run-out. Both zones are from ISO 2768-2, tables 3 and 4. What has a tolerance of its own does not count. A warning where zeros and bar alone use up the zone, a hint where the cuts do.',
  bounds: 'The zones of ISO 2768-2, tables 3 and 4, and the limits of tol/as-set-up.',
  limits: [],
  bad: BAD,
  good: edited(
    BAD,
    ['zero: { x: left, y: front', 'zero: { x: seat, y: seat'],
    ['method: edge-finder\n    cuts: [back-seat]', 'method: indicator\n    cuts: [back-seat]'],
  ),
  *find(context): Generator<Centred> {
    const { shop } = context;
    const adding = addingOf(shop);
    for (const found of centredOf(context)) {
      if (zoneTaken(found, adding) > found.zoneMm + ROUNDING) yield found;
    }
  },
  tell,
});

function tell(found: Centred, { shop, part, about }: RuleContext): Told {
  const { feature, characteristic, to, zoneMm, chains } = found;
  const adding = addingOf(shop);
  const links = chains.flat();
  const without = chains.map((chain) => chain.filter((l) => l.by === 'zero' || l.by === 'bar'));
  const takenMm = zoneTaken(found, adding);
  const heaviest = links.reduce((most, l) => (l.halfMm > most.halfMm ? l : most));
  const [drawn, would] =
    characteristic === 'run-out'
      ? [`in line with ${to}`, `Bore both in one set-up, or indicate ${to} for the second.`]
      : [
          `in the middle of ${to}`,
          `Cut ${list(to.split(' and '))} in the set-up of ${feature.name}, or set zero half-way between them.`,
        ];
  return {
    severity: zoneTaken({ chains: without }, adding) > zoneMm + ROUNDING ? 'warning' : 'hint',
    message: `${capital(feature.kind)} ${feature.name} is ${drawn}. ${part.tolerance?.name} allows ${about(zoneMm)} of ${characteristic}; as set up it is ${about(takenMm, zoneMm)}, most by ${heaviest.what}. ${would}`,
    of: [feature.name, ...(part.featureByName.has(to) ? [to] : [])],
    span: spanOf(feature, 'at', 'name'),
    related: [part.tolerance && { span: part.tolerance.span, message: 'the general tolerance' }],
    facts: {
      characteristic,
      to,
      zone_mm: zoneMm,
      taken_mm: takenMm,
      judged_by: adding,
      links: links.length,
      ...linkFacts(links),
    },
  };
}
