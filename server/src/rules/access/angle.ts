/** access/angle – a set-up holds the work so that the spindle does not look along what it is to cut there. */

import { breaksEdges } from '../../model/feature-kinds';
import type { Feature, Named, Setup } from '../../model/model';
import { leanFor, offBy, SAME_DEG, type Spindle, spindleOf, wantedBy } from '../../process/tilted/spindle';
import { at, type MapNode, samePlace } from '../../text/tree';
import { addEntry } from '../kit/edits';
import { fact, trimmed } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Finding, Fix, Rule, RuleContext, SpanEdit } from '../kit/rule';

const NAME = 'access/angle';

interface Missed {
  readonly setup: Setup;
  readonly cut: Named;
  /** Absent for a face. */
  readonly feature: Feature | undefined;
  readonly spindle: Spindle | undefined;
  readonly offDeg: number;
}

function* missed({ part, solid }: RuleContext): Generator<Missed> {
  for (const setup of part.setups ?? []) {
    if (!setup.up) continue;
    const spindle = spindleOf(setup, part);
    if (setup.hold?.type === 'angle' && !spindle) continue;
    const lean = Math.abs(spindle?.deg ?? 0);
    for (const cut of setup.cuts) {
      const feature = part.featureByName.get(cut.name);
      // A broken edge may be cut with the work held at its own angle or with a cutter that has it.
      if (breaksEdges(feature)) continue;
      const leaning = feature && wantedBy(feature, solid);
      if (!spindle) {
        // Level: an incline has other ways, told by `access/no-setup`.
        if (feature?.tilt && leaning && !elsewhereHeld(feature, { part, solid }))
          yield { setup, cut, feature, spindle, offDeg: Math.abs(feature.tilt.angle.deg) };
        continue;
      }
      if (lean <= SAME_DEG) continue;
      if (!leaning) {
        if (!feature || solid.voidsOf(feature.name).length > 0) yield { setup, cut, feature, spindle, offDeg: lean };
        continue;
      }
      const offDeg = offBy(feature, spindle, solid)!;
      if (offDeg > SAME_DEG) yield { setup, cut, feature, spindle, offDeg };
    }
  }
}

/** Another set-up that lists it holds it right. */
function elsewhereHeld(feature: Feature, { part, solid }: Pick<RuleContext, 'part' | 'solid'>): boolean {
  return part.setups!.some((s) => {
    const spindle = s.cuts.some((c) => c.name === feature.name) && spindleOf(s, part);
    return spindle && offBy(feature, spindle, solid)! <= SAME_DEG;
  });
}

const degrees = (deg: number) => `${trimmed(deg, 2)}°`;

function findingOf({ setup, cut, feature, spindle, offDeg }: Missed, { solid }: RuleContext): Finding {
  const wanted = feature && wantedBy(feature, solid);
  const lean = wanted && leanFor(wanted, setup.up!.name);
  const held = spindle ? `leans ${degrees(spindle.deg)} about ${spindle.about}` : 'is held level';
  const what = wanted ? 'wants another angle' : 'stands square to the part';
  const cure = lean
    ? `Hold it at ${degrees(lean.deg)} about ${lean.about} (\`hold: { angle: ${trimmed(lean.deg, 2)}, about: ${lean.about} }\`).`
    : wanted
      ? `With ${setup.up!.name} up no turn about one axis does: turn up the face that it starts on.`
      : 'Cut it in a set-up in which the work is held level.';
  return {
    rule: NAME,
    severity: 'error',
    message: `In ${setup.name} the work ${held}, but ${cut.name} ${what}: the spindle looks ${degrees(offDeg)} past it. ${cure}`,
    of: [cut.name],
    span: cut.span,
    related: setup.hold ? [{ span: setup.hold.span, message: 'how it is held' }] : [],
    facts: {
      off_deg: fact(offDeg),
      held_deg: fact(spindle?.deg ?? 0),
      ...(lean && { wanted_deg: fact(lean.deg), about: lean.about }),
    },
  };
}

export const angle: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'A set-up holds the work at an angle that is not the feature’s.',
  why: 'The spindle of a three-axis mill looks straight down. A hole that leans comes out leaning only when the work is held at just that angle, and what stands square to the part comes out leaning in work that is held at one.',
  formula:
    'The spindle’s direction is the outward normal of `up`, turned by `hold.angle` about `hold.about` (left out: the axis that the first leaning cut leans about); a leaning feature wants the direction against its depth, an incline the one square to its plane. `off_deg` is the angle between the two; more than 0.05° is another angle.',
  limits: [],
  bad: `part: nozzle-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  jet: { kind: hole, face: top, at: { x: 30, y: center }, diameter: 5, depth: 18, tilt: { about: y, angle: 20 } }
setups:
  first: { up: top, hold: { angle: 15, about: y }, cuts: [jet] }
`,
  good: `part: nozzle-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  jet: { kind: hole, face: top, at: { x: 30, y: center }, diameter: 5, depth: 18, tilt: { about: y, angle: 20 } }
setups:
  first: { up: top, hold: { angle: 20, about: y }, cuts: [jet] }
`,
  mends: 'The set-up held at the feature’s angle; a square feature moved to a set-up held level.',
  *find(context) {
    for (const found of missed(context)) yield findingOf(found, context);
  },
  *mend(finding, context): Generator<Fix> {
    const { part, tree } = context;
    const found = [...missed(context)].find((m) => samePlace(m.cut.span, finding.span));
    if (!found) return;
    const { setup, cut } = found;
    const { wanted_deg: deg, about } = finding.facts;
    const hold = setup.hold?.type === 'angle' ? setup.hold.tilt : undefined;
    if (hold && typeof deg === 'number') {
      const edits: SpanEdit[] = [{ span: hold.angle.span, newText: trimmed(deg, 4) }];
      const map = at(at(at(tree.root, 'setups'), setup.name), 'hold') as MapNode;
      const axis = at(map, 'about');
      const other = axis ? { span: axis.span, newText: String(about) } : addEntry(tree, map, 'about', String(about));
      if (!hold.about || hold.about !== about) {
        if (!other) return;
        edits.push(other);
      }
      yield { title: `Hold it at ${degrees(deg)} in ${setup.name}`, safe: false, edits };
    }
    for (const to of part.setups ?? []) {
      if (to === setup) continue;
      const edits = moveCut(context, setup, to, cut.name);
      if (edits) yield { title: `Cut it in ${to.name}`, safe: false, edits };
    }
  },
};
