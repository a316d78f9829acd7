/** setup/clocked – nothing places the workpiece in rotation when it is put in again. */
import { type Clocking, type ClockWay, clockingOf, waysToClock } from '../../process/workholding/clocking';
import { setText } from '../../text/edit';
import { change } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setupMap } from '../kit/holds';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { setupsIn, setupsToJudge } from '../kit/setups';

/** Named in a sentence, at most. */
const MOST_NAMED = 3;

const COMMAND: Readonly<Record<ClockWay, (of: string) => string>> = {
  indicator: (of) => `Indicate along ${of}`,
  pin: (of) => `Set a pin in ${of} level`,
  square: (of) => `Set ${of} to a square`,
};

function* loose(context: RuleContext): Generator<Clocking> {
  const { part, solid, shop } = context;
  for (const s of setupsToJudge(context)) {
    const found = clockingOf(s, { part, solid, shop });
    if (found && (found.by === 'nothing' || found.notYet)) yield found;
  }
}

function tellLoose(c: Clocking, { part }: RuleContext): Told {
  const { s, round, earlier, notYet } = c;
  const { setup } = s;
  const [way] = waysToClock(c, part);
  const cure = way ? ` ${COMMAND[way.by](way.of)}, and write it under clock.` : '';
  const was = list(earlier.slice(0, MOST_NAMED));
  const message = notYet
    ? `Set-up ${setup.name}: clock names ${setup.clock!.of.name}, which no earlier set-up cuts.${cure}`
    : round
      ? `Set-up ${setup.name}: nothing places the round stock in rotation, to where ${was} is.${cure}`
      : `Set-up ${setup.name}: nothing under the clamps places it straight to ${was}.${cure}`;
  return {
    severity: round || notYet ? undefined : 'hint',
    message,
    of: [],
    span: setup.clock?.of.span ?? setup.hold?.span ?? setup.span,
    facts: {
      set_up: setup.name,
      earlier: earlier.join(' '),
      here: c.here.join(' '),
      about: 'xyz'[c.about],
      why: notYet ? 'not-yet' : 'nothing',
    },
  };
}

const sample = (clock: string) => `part: shaft
material: steel-c45
body: { diameter: 20, length: 120, axis: x }
stock: { form: round-bar, diameter: 20, axis: x }
features:
  key: { kind: slot, face: top, ends: [{ x: 20, y: center }, { x: 40, y: center }], width: 6, depth: 3.5 }
  cross: { kind: hole, face: front, at: { x: 30, z: center }, diameter: 5, depth: through }
setups:
  first:
    up: top
    hold: { v-block: v-block-45, clamps: [{ x: 70, y: center }, { x: 106, y: center }] }
    cuts: [key]
  second:
    up: front
    hold: { v-block: v-block-45, clamps: [{ x: 76, z: center }, { x: 106, z: center }] }
${clock}    cuts: [cross]
`;

export const clocked: Rule = defineRule({
  name: 'setup/clocked',
  severity: 'warning',
  summary: 'Nothing places the workpiece in rotation when it is put in again.',
  why: 'Round stock turns in a V and between jaws. In a second set-up it is at another angle, and the keyway is not square to the hole. A flat, an indicator or a pin brings it back.',
  formula:
    'A feature of this set-up and one of an earlier set-up are both not concentric with the round stock. A milled flat at the fixed jaw places them, or jaws milled to what was cut. So do screws through its holes, a stop in a feature, or the feature under `clock`. Under clamps, a stop or `clock` places a block: without them it is a hint.',
  bounds: 'Geometry: round stock can turn, so something must place it.',
  limits: [],
  bad: sample(''),
  good: sample('    clock: { indicator: key }\n'),
  mends: 'Use an indicator along what was milled before, or a pin in a hole, written under clock.',
  find: loose,
  tell: tellLoose,
  keep: (c, { part }) => ({ setup: c.s.index, ways: waysToClock(c, part) }),
  *mend({ setup: index, ways }, context) {
    const setup = setupsIn(context)[index]?.setup;
    const map = setup && setupMap(context, setup);
    for (const { by, of } of map ? ways : [])
      yield change(COMMAND[by](of), setText(context.tree, map!, 'clock', `{ ${by}: ${of} }`));
  },
});
