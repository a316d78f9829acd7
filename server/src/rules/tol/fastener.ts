/** tol/fastener – a position tolerance wider than the screw through the hole allows. */

import type { GeometricTolerance, Hole } from '../../model/model';
import { type Fastened, fastenedOf, positioned, type TappedFor, tappedFor } from '../../process/tolerances/fastener';
import { clearanceHole } from '../../tables/clearance';
import { FASTENER_SOURCE } from '../../tables/position';
import { writeLength } from '../../text/format';
import { samePlace } from '../../text/tree';
import { setLength } from '../kit/edits';
import { fact } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';

const NAME = 'tol/fastener';

type Tight =
  | { readonly tolerance: GeometricTolerance; readonly hole: Hole; readonly through: Fastened }
  | { readonly tolerance: GeometricTolerance; readonly hole: Hole; readonly into: TappedFor };

/** Zones that leave a screw no room even in the kindest case: all parts with clearance holes, the other's at its loosest. */
function* tight({ part }: RuleContext): Generator<Tight> {
  for (const { tolerance, hole } of positioned(part)) {
    const zoneMm = tolerance.value.mm;
    const through = fastenedOf(hole, part);
    if (through && zoneMm > through.floatingMm + 1e-9) yield { tolerance, hole, through };
    const into = tappedFor(hole);
    const loosest = into?.holes.at(-1);
    if (into && loosest && zoneMm >= loosest.bothMm - 1e-9) yield { tolerance, hole, into };
  }
}

function findingOf(found: Tight, { length }: RuleContext): Finding {
  const { tolerance, hole } = found;
  const zone = length(tolerance.value.mm);
  const base = {
    rule: NAME,
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
      message: `The thread ${screw} may be off within ${zone}, and the screw with it: even a loose clearance hole of ${length(loosest.diameterMm)} in the other part leaves H − F = ${length(loosest.diameterMm)} − ${length(fastenerMm)} = ${length(loosest.bothMm)} for both (${FASTENER_SOURCE}). Nothing is left for the other part; half of it, ${length(loosest.bothMm / 2)}, is usual for each.`,
      facts: {
        screw,
        zone_mm: fact(tolerance.value.mm),
        fastener_mm: fact(fastenerMm),
        hole_mm: fact(loosest.diameterMm),
        both_mm: fact(loosest.bothMm),
        fixed_mm: fact(loosest.bothMm / 2),
      },
    };
  }
  const { screw, named, fastenerMm, holeMm, how, floatingMm, fixedMm } = found.through;
  const whose = named
    ? `The screw ${screw} goes through`
    : `At ${length(hole.diameter.mm)} this is a clearance hole for ${screw}`;
  const least = how === 'nominal' ? '' : `, by ${how} no smaller than ${length(holeMm)}`;
  const room =
    floatingMm > 0
      ? `H − F = ${length(holeMm)} − ${length(fastenerMm)} = ${length(floatingMm)} with clearance holes in every part, half of it, ${length(fixedMm)}, where the other part is tapped`
      : `nothing: the hole can be as small as ${length(holeMm)}, the screw is ${length(fastenerMm)}`;
  return {
    ...base,
    severity: named ? 'warning' : 'hint',
    message: `${whose}${least}, and it may be off within ${zone}. The screw allows ${room} (${FASTENER_SOURCE}).`,
    facts: {
      screw,
      zone_mm: fact(tolerance.value.mm),
      fastener_mm: fact(fastenerMm),
      hole_mm: fact(holeMm),
      floating_mm: fact(floatingMm),
      fixed_mm: fact(fixedMm),
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

export const fastener: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A position tolerance is wider than the screw through the hole allows.',
  why: 'Each hole of a pattern may lie anywhere in its zone. Where the zone is wider than the play between hole and screw, two good parts do not go together; somebody files the holes. A wider hole or a closer zone costs nothing, a pattern that does not fit costs the part.',
  formula:
    'ASME Y14.5, fastener formulae, sizes at maximum material: `floating_mm` H − F, clearance holes in every part; `fixed_mm` (H − F) / 2, the other part tapped, both zones alike, the tapped one’s projected above its face. H is the hole at its smallest: its own tolerance, else the general one; a hole given by its screw has at least its nominal size. Told where the zone is over `floating_mm`: that the other part is tapped is not known here. A tapped hole is told where its zone takes all that a loose clearance hole leaves (`both_mm`). A hint where the screw is not named but only its clearance hole’s diameter is.',
  limits: [],
  bad: sample('0.8'),
  good: sample('0.5'),
  when: 'text',
  mends: 'The zone that the screw allows, floating or fixed; the next wider clearance hole.',
  *find(context) {
    for (const found of tight(context)) yield findingOf(found, context);
  },
  *mend(finding, context): Generator<Fix> {
    const { part, length } = context;
    const found = [...tight(context)].find(
      (t) => samePlace(t.tolerance.value.span, finding.span) && t.hole.name === finding.of[0],
    );
    if (!found) return;
    const zone = (mm: number, title: string): Fix[] => {
      const down = Number(writeLength(mm, part.units, 'down')) * (part.units === 'in' ? 25.4 : 1);
      const edit = down > 0 ? setLength(found.tolerance.value, down, part) : undefined;
      return edit ? [{ title: `${title}: ${length(down)}`, safe: false, edits: [edit] }] : [];
    };
    if ('into' in found) {
      yield* zone(found.into.holes.at(-1)!.bothMm / 2, 'Half of what a loose clearance hole leaves');
      return;
    }
    const { through, hole } = found;
    yield* zone(through.floatingMm, 'What clearance holes in every part allow');
    yield* zone(through.fixedMm, 'What a tapped hole in the other part allows');
    for (const fit of ['medium', 'coarse'] as const) {
      const wider = clearanceHole(through.screw, fit);
      if (!wider || wider.diameterMm <= hole.diameter.mm + 1e-9) continue;
      const edit = setLength(hole.diameterGiven ? hole.diameter : undefined, wider.diameterMm, part);
      if (edit) yield { title: `Open the holes to ${length(wider.diameterMm)}`, safe: false, edits: [edit] };
    }
  },
};
