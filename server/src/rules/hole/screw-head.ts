/** hole/screw-head – a counterbore or countersink that the screw's own head does not fit. */

import type { Hole, Length } from '../../model/model';
import { screwByDiameter } from '../../process/tolerances/intent';
import { clearanceHole } from '../../tables/clearance';
import { counterboreFor, countersinkFor, headFor } from '../../tables/heads';
import { screwDiameterMm } from '../../tables/screw-size';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField, setField } from '../kit/fields';
import { fact, figure } from '../kit/message';
import type { Facts, Rule, RuleContext, Severity } from '../kit/rule';

interface Misfit {
  readonly hole: Hole;
  readonly screw: string;
  readonly part: 'counterbore' | 'countersink' | 'hole';
  readonly length: Length;
  readonly severity: Severity;
  readonly message: string;
  readonly facts: Facts;
}

/** `an M5 screw`, `a #10 screw`. */
function aScrew(screw: string, what = 'screw'): string {
  return `${/^(M|8|11)/.test(screw) ? 'an' : 'a'} ${screw} ${what}`;
}

/** A recess that names a screw over a hole that the screw does not enter. */
function* tooNarrow(hole: Hole, length: RuleContext['length']): Generator<Misfit> {
  for (const part of ['counterbore', 'countersink'] as const) {
    const screw = hole[part]?.screw;
    const screwMm = screw && screwDiameterMm(screw);
    const usual = screw && clearanceHole(screw);
    if (!screw || !screwMm || !usual || hole.diameter.mm >= screwMm - SAME) continue;
    yield {
      hole,
      screw,
      part: 'hole',
      length: hole.diameter,
      severity: 'warning',
      message: `Hole ${hole.name} has a ${part} for the head of ${aScrew(screw)}. The screw (${length(screwMm)}) does not go through a diameter of ${length(hole.diameter.mm)}. Make it ${length(usual.diameterMm)}, the clearance hole.`,
      facts: { diameter_mm: fact(hole.diameter.mm), screw_mm: fact(screwMm), usual_mm: fact(usual.diameterMm) },
    };
  }
}

function* misfits({ part, length }: RuleContext): Generator<Misfit> {
  for (const hole of part.features) {
    if (hole.kind !== 'hole' || hole.thread) continue;
    yield* tooNarrow(hole, length);
    const screw = hole.clearance?.screw ?? screwByDiameter(hole);
    if (!screw) continue;
    yield* shallowCounterbore(hole, screw, length);
    yield* otherCountersink(hole, screw, length);
  }
}

/** A counterbore that its screw's head does not go into. */
function* shallowCounterbore(hole: Hole, screw: string, length: RuleContext['length']): Generator<Misfit> {
  const common = { hole, screw };
  const cap = headFor(screw, 'cap');
  const bore = hole.counterbore;
  if (bore && !bore.screw && cap) {
    const { diameter, depth } = bore;
    if (diameter.mm < cap.diameterMm - SAME)
      yield {
        ...common,
        part: 'counterbore',
        length: diameter,
        severity: 'warning',
        message: `Hole ${hole.name} has the diameter for ${aScrew(screw, 'cap screw')}. Its head is ${length(cap.diameterMm)} wide; the counterbore has ${length(diameter.mm)}. Make the counterbore ${length(counterboreFor(screw)!.diameterMm)}.`,
        facts: {
          diameter_mm: fact(diameter.mm),
          head_mm: fact(cap.diameterMm),
          usual_mm: fact(counterboreFor(screw)!.diameterMm),
        },
      };
    else if (depth.mm < cap.heightMm - SAME)
      yield {
        ...common,
        part: 'counterbore',
        length: depth,
        severity: 'hint',
        message: `Hole ${hole.name} is for ${aScrew(screw, 'cap screw')}. Its head is ${length(cap.heightMm)} high and sticks out of a counterbore ${length(depth.mm)} deep. Make the counterbore ${length(counterboreFor(screw)!.depthMm)} deep.`,
        facts: {
          depth_mm: fact(depth.mm),
          head_mm: fact(cap.heightMm),
          usual_mm: fact(counterboreFor(screw)!.depthMm),
        },
      };
  }
}

/** A countersink that its screw's head does not lie in. */
function* otherCountersink(hole: Hole, screw: string, length: RuleContext['length']): Generator<Misfit> {
  const common = { hole, screw };
  const sink = hole.countersink;
  const flat = countersinkFor(screw);
  if (sink && !sink.screw && flat) {
    const { diameter, angle } = sink;
    if (Math.abs(angle.deg - flat.angleDeg) > 1)
      yield {
        ...common,
        part: 'countersink',
        length: diameter,
        severity: 'hint',
        message: `Hole ${hole.name} has a countersink of ${figure(angle.deg)}°. The flat head of ${aScrew(screw)} has ${flat.angleDeg}° and touches only on a line. Make it ${flat.angleDeg}°.`,
        facts: { angle_deg: fact(angle.deg), head_deg: flat.angleDeg },
      };
    else if (diameter.mm < 0.85 * flat.diameterMm)
      yield {
        ...common,
        part: 'countersink',
        length: diameter,
        severity: 'hint',
        message: `Hole ${hole.name} has a countersink of ${length(diameter.mm)}. The flat head of ${aScrew(screw)} (${length(flat.diameterMm)} to its sharp edge) sticks out about ${(Math.round(((flat.diameterMm - diameter.mm) / 2 / Math.tan((flat.angleDeg * Math.PI) / 360)) * 10) / 10).toString()} mm. Make it ${length(flat.diameterMm)}.`,
        facts: {
          diameter_mm: fact(diameter.mm),
          head_mm: fact(flat.diameterMm),
          proud_mm: fact((flat.diameterMm - diameter.mm) / 2 / Math.tan((flat.angleDeg * Math.PI) / 360)),
        },
      };
  }
}

const BAD = `part: lid
material: aluminium-6061-t6
body: { x: 50, y: 30, z: 16 }
features:
  screw:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    counterbore: { diameter: 8, depth: 5.4 }
    depth: through
`;

export const screwHead: Rule = defineRule({
  name: 'hole/screw-head',
  severity: 'warning',
  summary: 'The head of the screw that the hole is for does not fit its counterbore or countersink.',
  why: 'A hole of a standard clearance size is for that screw. A counterbore that is too narrow keeps the head out; one that is too shallow lets it stick out. A countersink of another angle carries the head on a sharp line.',
  formula:
    'The screw is the one for which the hole has the clearance diameter (ISO 273, ASME B18.2.8). Holes held closer than H12 are seats and do not count. Cap heads are from ISO 4762 or ASME B18.3, flat heads from ISO 10642 or ASME B18.3. Holes of other sizes are checked only where the recess names a screw: it must go through.',
  bounds: 'Heads: ISO 4762, ISO 10642, ASME B18.3. Clearance holes: ISO 273, ASME B18.2.8.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['diameter: 8', 'diameter: 10']),
  mends: 'Write the screw’s size for the counterbore or countersink, or leave the diameter to the screw.',
  find: misfits,
  tell: (m) => ({
    severity: m.severity,
    message: m.message,
    of: [m.hole.name],
    span: m.length.span,
    related: [
      m.hole.diameterGiven ? { span: m.hole.diameter.span, message: `clearance hole for ${m.screw}` } : undefined,
    ],
    facts: { ...m.facts, screw: m.screw },
  }),
  keep: ({ hole, part, screw }) => ({ of: hole.name, part, screw }),
  mend({ of, part, screw }, { tree }) {
    if (part === 'hole')
      return [change(`Leave the diameter to the screw: ${screw} clears`, removeField(tree, of, 'diameter'))];
    // A bare `#` would begin a comment.
    const name = screw.startsWith('#') ? `"${screw}"` : screw;
    return [change(`Make the ${part} fit ${aScrew(screw)}`, setField(tree, of, part, name))];
  },
});
