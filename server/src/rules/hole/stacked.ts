/** hole/stacked – a counterbore or countersink that the screw's own head does not fit. */
import { clearanceOf } from '../../reference/clearance';
import { counterboreFor, countersinkFor, headFor } from '../../reference/heads';
import type { Hole, Length } from '../../spec/model';
import { setField, subjectOf } from '../fields';
import { fact } from '../message';
import type { Facts, Finding, Fix, Rule, RuleContext, Severity } from '../rule';

const NAME = 'hole/stacked';

interface Misfit {
  readonly hole: Hole;
  readonly screw: string;
  readonly part: 'counterbore' | 'countersink';
  readonly length: Length;
  readonly severity: Severity;
  readonly message: string;
  readonly facts: Facts;
}

function* misfits({ part, length }: RuleContext): Generator<Misfit> {
  for (const hole of part.features) {
    if (hole.kind !== 'hole' || hole.thread) continue;
    const screw = clearanceOf(hole.diameter.mm)?.screw;
    if (!screw) continue;
    const common = { hole, screw };
    const cap = headFor(screw, 'cap');
    const bore = hole.counterbore;
    if (bore && !bore.screw && cap) {
      const { diameter, depth } = bore;
      if (diameter.mm < cap.diameterMm - 1e-6)
        yield {
          ...common,
          part: 'counterbore',
          length: diameter,
          severity: 'warning',
          message: `A counterbore ${length(diameter.mm)} wide is narrower than the head of an ${screw} cap screw (${length(cap.diameterMm)}), which the hole is the clearance for; ${length(counterboreFor(screw)!.diameterMm)} is usual.`,
          facts: {
            diameter_mm: fact(diameter.mm),
            head_mm: fact(cap.diameterMm),
            usual_mm: fact(counterboreFor(screw)!.diameterMm),
          },
        };
      else if (depth.mm < cap.heightMm - 1e-6)
        yield {
          ...common,
          part: 'counterbore',
          length: depth,
          severity: 'hint',
          message: `In a counterbore ${length(depth.mm)} deep the head of an ${screw} cap screw (${length(cap.heightMm)} high) stands proud; ${length(counterboreFor(screw)!.depthMm)} sinks it.`,
          facts: {
            depth_mm: fact(depth.mm),
            head_mm: fact(cap.heightMm),
            usual_mm: fact(counterboreFor(screw)!.depthMm),
          },
        };
    }
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
          message: `A countersink of ${fact(angle.deg)}° does not seat an ${screw} flat head of ${flat.angleDeg}°: it touches on a line.`,
          facts: { angle_deg: fact(angle.deg), head_deg: flat.angleDeg },
        };
      else if (diameter.mm < 0.85 * flat.diameterMm)
        yield {
          ...common,
          part: 'countersink',
          length: diameter,
          severity: 'hint',
          message: `In a countersink ${length(diameter.mm)} wide the flat head of an ${screw} screw (${length(flat.diameterMm)} to its sharp edge) stands proud by about ${length((flat.diameterMm - diameter.mm) / 2 / Math.tan((flat.angleDeg * Math.PI) / 360))}.`,
          facts: {
            diameter_mm: fact(diameter.mm),
            head_mm: fact(flat.diameterMm),
            proud_mm: fact((flat.diameterMm - diameter.mm) / 2 / Math.tan((flat.angleDeg * Math.PI) / 360)),
          },
        };
    }
  }
}

export const stacked: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A counterbore or countersink does not take the head of the screw that the hole is for.',
  why: 'A hole of a standard clearance size is for that screw; a counterbore narrower than its head keeps the screw out, one too shallow lets the head stand proud, and a countersink of another angle carries it on a sharp line.',
  formula:
    'The screw is the one whose clearance hole (ISO 273) the hole is; its head is from ISO 4762 (cap) or ISO 10642 (flat). Holes of other sizes are not judged.',
  limits: [],
  bad: `part: lid
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
`,
  good: `part: lid
material: aluminium-6061-t6
body: { x: 50, y: 30, z: 16 }
features:
  screw:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    counterbore: { diameter: 10, depth: 5.4 }
    depth: through
`,
  mends: 'The counterbore or countersink written as the screw’s size.',
  *find(context): Generator<Finding> {
    for (const m of misfits(context)) {
      yield {
        rule: NAME,
        severity: m.severity,
        message: m.message,
        of: [m.hole.name],
        span: m.length.span,
        related: m.hole.diameterGiven ? [{ span: m.hole.diameter.span, message: `clearance hole for ${m.screw}` }] : [],
        facts: { ...m.facts, screw: m.screw },
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const m = [...misfits(context)].find(
      (x) => x.hole === subjectOf(finding, context.part) && x.length.span === finding.span,
    );
    const edits = m && setField(context.tree, m.hole.name, m.part, m.screw);
    if (m && edits) yield { title: `Make the ${m.part} fit an ${m.screw} screw`, safe: false, edits };
  },
};
