/** access/angle – a set-up holds the work so that the spindle does not look along what it is to cut there. */

import type { Solid } from '../../geometry/types';
import { breaksEdges } from '../../model/feature-kinds';
import type { Axis, Feature, Named, Setup } from '../../model/model';
import { leanFor, offBy, SAME_DEG, type Spindle, spindleOf, wantedBy } from '../../process/tilted/spindle';
import { at, type MapNode } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { addEntry } from '../kit/edits';
import { together } from '../kit/fields';
import { trimmed } from '../kit/message';
import { moveCut } from '../kit/moves';
import type { Fix, Rule, RuleContext } from '../kit/rule';

interface Missed {
  readonly setup: Setup;
  readonly cut: Named;
  /** Absent for a face. */
  readonly feature: Feature | undefined;
  readonly spindle: Spindle | undefined;
  readonly offDeg: number;
}

interface Lean {
  readonly deg: number;
  readonly about: Axis;
}
interface Hit extends Missed {
  /** How it must be held; `square`: level; none: no turn about one axis does. */
  readonly lean: Lean | 'square' | undefined;
}

function leanOf({ setup, feature }: Missed, { solid }: RuleContext): Hit['lean'] {
  const wanted = feature && wantedBy(feature, solid);
  return wanted ? leanFor(wanted, setup.up!.name) : 'square';
}

function* missed({ part, solid }: RuleContext): Generator<Missed> {
  for (const setup of part.setups ?? []) {
    if (!setup.up) continue;
    const spindle = spindleOf(setup, part);
    if (setup.hold?.type === 'angle' && !spindle) continue;
    for (const cut of setup.cuts) {
      const feature = part.featureByName.get(cut.name);
      // A broken edge may be cut with the work held at its own angle or with a cutter that has it.
      if (breaksEdges(feature)) continue;
      const offDeg = spindle ? offTilted(feature, spindle, solid) : offLevel(feature, { part, solid });
      if (offDeg !== undefined) yield { setup, cut, feature, spindle, offDeg };
    }
  }
}

/** How far off a level spindle looks along it. A slope has other ways, told by `access/no-setup`. */
function offLevel(feature: Feature | undefined, of: Pick<RuleContext, 'part' | 'solid'>): number | undefined {
  if (!feature?.tilt || !wantedBy(feature, of.solid) || elsewhereHeld(feature, of)) return undefined;
  return Math.abs(feature.tilt.angle.deg);
}

/** How far off a tilted one is, of a feature or of a face (none); absent where it does look along it. */
function offTilted(feature: Feature | undefined, spindle: Spindle, solid: Solid): number | undefined {
  const leanDeg = Math.abs(spindle.deg);
  if (leanDeg <= SAME_DEG) return undefined;
  if (!feature) return leanDeg;
  if (!wantedBy(feature, solid)) return solid.voidsOf(feature.name).length > 0 ? leanDeg : undefined;
  const offDeg = offBy(feature, spindle, solid)!;
  return offDeg > SAME_DEG ? offDeg : undefined;
}

/** Another set-up that lists it holds it right. */
function elsewhereHeld(feature: Feature, { part, solid }: Pick<RuleContext, 'part' | 'solid'>): boolean {
  return part.setups!.some((s) => {
    const spindle = s.cuts.some((c) => c.name === feature.name) && spindleOf(s, part);
    return spindle && offBy(feature, spindle, solid)! <= SAME_DEG;
  });
}

const degrees = (deg: number) => `${trimmed(deg, 2)}°`;

function tellMissed({ setup, cut, feature, spindle, offDeg, lean }: Hit): Told {
  const held = spindle ? `tilted ${degrees(spindle.deg)} about ${spindle.about}` : 'level';
  const wanted = feature && lean !== 'square';
  const what = wanted ? 'needs another angle' : 'is square to the part';
  const cure =
    typeof lean === 'object'
      ? `Hold it at ${degrees(lean.deg)} about ${lean.about} (\`hold: { angle: ${trimmed(lean.deg, 2)}, about: ${lean.about} }\`).`
      : wanted
        ? `Turn up the face that it starts on: with ${setup.up!.name} up no single tilt reaches it.`
        : 'Cut it in a set-up that holds the workpiece level.';
  return {
    message: `Set-up ${setup.name} holds the workpiece ${held}. Feature ${cut.name} ${what}, ${degrees(offDeg)} off. ${cure}`,
    of: [cut.name],
    span: cut.span,
    related: [setup.hold && { span: setup.hold.span, message: 'how it is held' }],
    facts: {
      off_deg: offDeg,
      held_deg: spindle?.deg ?? 0,
      wanted_deg: typeof lean === 'object' ? lean.deg : undefined,
      about: typeof lean === 'object' ? lean.about : undefined,
    },
  };
}

const BAD = `part: nozzle-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  jet: { kind: hole, face: top, at: { x: 30, y: center }, diameter: 5, depth: 18, tilt: { about: y, angle: 20 } }
setups:
  first: { up: top, hold: { angle: 15, about: y }, cuts: [jet] }
`;

export const angle: Rule = defineRule({
  name: 'access/angle',
  severity: 'error',
  summary: 'A set-up holds the workpiece at an angle that is not the feature’s.',
  why: 'The spindle of a three-axis mill points straight down. A tilted hole comes out right only when the workpiece is held at just that angle. In a tilted workpiece a square hole comes out tilted.',
  formula:
    'The spindle’s direction is square to `up`, turned by `hold.angle` about `hold.about`. If `about` is left out, it is the axis of the first tilted cut. A tilted feature needs the direction against its depth, a sloped face the one square to its plane. Over 0.05° between the two is another angle (rule of thumb).',
  bounds: 'Geometry. That angles within 0.05° are the same is a rule of thumb.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['angle: 15', 'angle: 20']),
  mends: 'Hold the workpiece at the feature’s angle, or move a square feature to a set-up that holds it level.',
  *find(context) {
    for (const found of missed(context)) yield { ...found, lean: leanOf(found, context) };
  },
  tell: tellMissed,
  keep: ({ setup, cut, lean }) => ({
    setup: setup.name,
    cut: cut.name,
    lean: typeof lean === 'object' ? { deg: lean.deg, about: lean.about } : undefined,
  }),
  *mend({ setup: name, cut, lean }, context) {
    const { part } = context;
    const setup = part.setups?.find((s) => s.name === name);
    if (!setup) return;
    if (lean) yield heldAt(setup, lean, context);
    for (const to of part.setups ?? [])
      if (to !== setup) yield change(`Cut it in ${to.name}`, moveCut(context, setup, to, cut));
  },
});

/** The angle written anew, and the axis where it is another. */
function heldAt(setup: Setup, { deg, about }: Lean, { tree }: RuleContext): Fix | undefined {
  const hold = setup.hold?.type === 'angle' ? setup.hold.tilt : undefined;
  if (!hold) return undefined;
  const turned = { span: hold.angle.span, newText: trimmed(deg, 4) };
  const map = at(at(at(tree.root, 'setups'), setup.name), 'hold') as MapNode;
  const axis = at(map, 'about');
  const other = axis ? { span: axis.span, newText: about } : addEntry(tree, map, 'about', about);
  return change(`Hold it at ${degrees(deg)} in ${setup.name}`, hold.about === about ? turned : together(turned, other));
}
