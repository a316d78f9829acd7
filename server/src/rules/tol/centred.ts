/** tol/centred – drawn in the middle or in line, and not put there by the set-ups as the general tolerance asks. */

import { addingOf, type Centred, centredOf, zoneTaken } from '../../process/stackup';
import { fact, list, spanOf } from '../message';
import type { Finding, Rule, RuleContext } from '../rule';
import { linkFacts } from './link-facts';

const NAME = 'tol/centred';

const sample = (zero: string) => `part: fork
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
    zero: { x: ${zero}, y: ${zero === 'seat' ? 'seat' : 'front'}, z: parallels }
    method: ${zero === 'seat' ? 'indicator' : 'edge-finder'}
    cuts: [back-seat]
`;

export const centred: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'Drawn in the middle or in line, and not put there by the set-ups as the general tolerance asks.',
  why: 'H, K or L behind a general tolerance asks that what is drawn in the middle lies there, and that holes in line are in line, by ISO 2768-2 (withdrawn in 2021, ISO 22081 in its place, from memory; drawings still cite it). A feature that is measured from one side has the whole error of the bar’s other side; two holes bored in two set-ups have that of both zeros.',
  formula:
    'What stands between the feature and each of the two faces, as in tol/as-set-up: what moves the feature counts in full, what moves one face half. Twice that against the zone of symmetry, by the smaller of both sizes. Of holes on one axis: twice what both directions come to together, against the zone of run-out (ISO 2768-2, tables 3 and 4). What has a tolerance of its own is left to that. A warning where zeros and bar alone take the zone, a hint where the cuts do.',
  limits: [],
  bad: sample('left'),
  good: sample('seat'),
  *find(context) {
    const adding = addingOf(context.shop);
    for (const found of centredOf(context.part, context.solid, context.shop)) {
      if (zoneTaken(found, adding) > found.zoneMm + 1e-9) yield findingOf(found, context);
    }
  },
};

function findingOf(found: Centred, { length, shop, part }: RuleContext): Finding {
  const { feature, characteristic, to, zoneMm, chains } = found;
  const adding = addingOf(shop);
  const links = chains.flat();
  const without = chains.map((chain) => chain.filter((l) => l.by === 'zero' || l.by === 'bar'));
  const takenMm = zoneTaken(found, adding);
  const heaviest = links.reduce((most, l) => (l.halfMm > most.halfMm ? l : most));
  const would =
    characteristic === 'run-out'
      ? `Bore both in one set-up, or take the second zero from \`${to}\` with an indicator.`
      : `Cut ${list(to.split(' and '))} in the set-up of \`${feature.name}\`, or take zero half-way between them.`;
  return {
    rule: NAME,
    severity: zoneTaken({ chains: without }, adding) > zoneMm + 1e-9 ? 'warning' : 'hint',
    message: `\`${feature.name}\` is drawn ${characteristic === 'run-out' ? `in line with \`${to}\`` : `in the middle of ${to}`}: ${part.tolerance?.name} allows ${length(zoneMm)} of ${characteristic}. As set up it takes ${length(takenMm)}, most of it by ${heaviest.what}. ${would}`,
    of: [feature.name, ...(part.featureByName.has(to) ? [to] : [])],
    span: spanOf(feature, 'at', 'name'),
    related: part.tolerance ? [{ span: part.tolerance.span, message: 'the general tolerance' }] : [],
    facts: {
      characteristic,
      to,
      zone_mm: fact(zoneMm),
      taken_mm: fact(takenMm),
      judged_by: adding,
      links: links.length,
      ...linkFacts(links),
    },
  };
}
