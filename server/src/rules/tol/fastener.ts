/** tol/fastener – a position tolerance wider than the screw through the hole allows. */

import type { GeometricTolerance, Hole } from '../../model/model';
import { type Fastened, fastenedOf, positioned, type TappedFor, tappedFor } from '../../process/tolerances/fastener';
import { clearanceHole } from '../../tables/clearance';
import { writeLength } from '../../text/format';
import { ROUNDING } from '../../tolerance';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import type { Rule, RuleContext } from '../kit/rule';

type Tight =
  | { readonly tolerance: GeometricTolerance; readonly hole: Hole; readonly through: Fastened }
  | { readonly tolerance: GeometricTolerance; readonly hole: Hole; readonly into: TappedFor };

/** Zones that leave a screw no room even in the kindest case: all parts with clearance holes, the other's at its loosest. */
function* tight({ part }: RuleContext): Generator<Tight> {
  for (const { tolerance, hole } of positioned(part)) {
    const zoneMm = tolerance.value.mm;
    const through = fastenedOf(hole, part);
    if (through && zoneMm > through.floatingMm + ROUNDING) yield { tolerance, hole, through };
    const into = tappedFor(hole);
    const loosest = into?.holes.at(-1);
    if (into && loosest && zoneMm >= loosest.bothMm - ROUNDING) yield { tolerance, hole, into };
  }
}

function tell(found: Tight, { length }: RuleContext): Told {
  const { tolerance, hole } = found;
  const zone = length(tolerance.value.mm);
  const base = {
    of: [hole.name],
    span: tolerance.value.span,
    related: [{ span: hole.diameter.span, message: 'the hole' }],
  };
  if ('into' in found) {
    const { screw, fastenerMm, holes } = found.into;
    const loosest = holes.at(-1)!;
    return {
      ...base,
      severity: 'warning',
      message: `Thread ${hole.name} (${screw}) has a position of ${zone}. A loose clearance hole of ${length(loosest.diameterMm)} leaves ${length(loosest.bothMm)} for both parts (ASME Y14.5), so nothing for the other. Make it ${length(loosest.bothMm / 2)}: half for each.`,
      facts: {
        screw,
        zone_mm: tolerance.value.mm,
        fastener_mm: fastenerMm,
        hole_mm: loosest.diameterMm,
        both_mm: loosest.bothMm,
        fixed_mm: loosest.bothMm / 2,
      },
    };
  }
  const { screw, named, fastenerMm, holeMm, how, floatingMm, fixedMm } = found.through;
  const whose = named ? `Hole ${hole.name} for ${screw}` : `Hole ${hole.name}, a clearance hole for ${screw},`;
  const least = how === 'nominal' ? '' : ` and, by ${how}, at least ${length(holeMm)}`;
  const room =
    floatingMm > 0
      ? `allows ${length(floatingMm)}. Make it ${length(floatingMm)}, or ${length(fixedMm)} where the other part is tapped`
      : `(${length(fastenerMm)}) allows nothing in a hole of ${length(holeMm)}. Make the hole larger`;
  return {
    ...base,
    severity: named ? 'warning' : 'hint',
    message: `${whose} has a position of ${zone}${least}. The screw ${room} (ASME Y14.5).`,
    facts: {
      screw,
      zone_mm: tolerance.value.mm,
      fastener_mm: fastenerMm,
      hole_mm: holeMm,
      floating_mm: floatingMm,
      fixed_mm: fixedMm,
    },
  };
}

const sample = (position: string) => `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 10 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: 40, count: 2 } }
    clearance: M5
    depth: through
datums: { A: bottom, B: front, C: left }
tolerances:
  - { position: ${position}, of: mount, datums: [A, B, C] }
`;

export const fastener: Rule = defineRule({
  name: 'tol/fastener',
  severity: 'warning',
  summary: 'A position tolerance is wider than the screw through the hole allows.',
  why: 'Each hole of a pattern may be anywhere in its zone. Where the zone is wider than the play between hole and screw, two good parts do not fit together. A wider hole or a closer zone costs nothing; a pattern that does not fit costs the part.',
  formula:
    'ASME Y14.5, fastener formulae, sizes at maximum material. With clearance holes in every part the zone is H − F. With the other part tapped it is (H − F) / 2. Both zones are then alike, the tapped one’s projected above its face. H is the hole at its smallest: by its own tolerance, else the general one. A hole given by its screw has at least its nominal size. Reported where the zone is over H − F. A tapped hole is reported where its zone uses all that a loose clearance hole leaves for both parts. A hint where only the diameter of the clearance hole is given, and no screw.',
  bounds: 'The fastener formulae of ASME Y14.5.',
  limits: [],
  bad: sample('0.8'),
  good: sample('0.5'),
  when: 'text',
  mends: 'Use the zone that the screw allows, or the next wider clearance hole.',
  find: tight,
  tell,
  keep(found) {
    const zone = found.tolerance.value;
    if ('into' in found) {
      const half = { mm: found.into.holes.at(-1)!.bothMm / 2, as: 'half of what a loose clearance hole leaves' };
      return { of: found.hole.name, zone, zones: [half], screw: undefined };
    }
    const { floatingMm, fixedMm, screw } = found.through;
    const zones = [
      { mm: floatingMm, as: 'for clearance holes in every part' },
      { mm: fixedMm, as: 'for a tapped hole in the other part' },
    ];
    return { of: found.hole.name, zone, zones, screw };
  },
  *mend({ of, zone, zones, screw }, { part, length }) {
    for (const { mm, as } of zones) {
      const down = Number(writeLength(mm, part.units, 'down')) * (part.units === 'in' ? 25.4 : 1);
      yield change(`Make the position ${length(down)}, ${as}`, down > 0 ? setLength(zone, down, part) : undefined);
    }
    const hole = part.featureByName.get(of);
    if (!screw || hole?.kind !== 'hole' || !hole.diameterGiven) return;
    for (const fit of ['medium', 'coarse'] as const) {
      const wider = clearanceHole(screw, fit);
      if (!wider || wider.diameterMm <= hole.diameter.mm + ROUNDING) continue;
      yield change(`Make the holes ${length(wider.diameterMm)}`, setLength(hole.diameter, wider.diameterMm, part));
    }
  },
});
