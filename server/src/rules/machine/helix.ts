/** machine/helix – a thread mill on a machine whose axes are moved by hand. */
import { materialOf } from '../../model/material-of';
import { operationsOf } from '../../process/operations';
import { movesInCircles } from '../../process/thread-milling';
import { machineOf } from '../../process/workholding/forces';
import { setText } from '../../text/edit';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setupMap } from '../kit/holds';
import type { Rule } from '../kit/rule';

const BAD = `part: nut
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 22 }
features:
  eye: { kind: hole, face: top, at: { x: center, y: center }, thread: M20, depth: through }
setups:
  first:
    up: top
    hold: { vise: small, jaws: [back, front], grip: 8, parallels: 22 }
    cuts: [eye]
    machine: old-mill
`;

export const helix: Rule = defineRule({
  name: 'machine/helix',
  severity: 'error',
  summary: 'A thread mill is on a machine whose axes are moved by hand.',
  why: 'A thread mill goes round and down by its pitch at the same time. No hands turn three wheels in step: the thread comes out wrong, or the cutter breaks.',
  formula:
    'Set-ups with a cut that a thread mill makes, on a machine whose `control` is not `program`. Of shops where no machine has a control, threads are not milled at all (`thread/no-tap`, `thread/no-die`).',
  bounds: 'The `control` of the machine in the shop file.',
  limits: [],
  shop: `shop: attic
machines:
  new-mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW } }
  old-mill: { travel: { x: 300, y: 200, z: 300 }, spindle: { rpm: [100, 3000], power: 1 kW }, control: read-out }
parallels: [22]
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-17.5: { kind: drill, diameter: 17.5, flute-length: 120 }
  tm-12: { kind: thread-mill, diameter: 12, pitch: 2.5, reach: 35 }
`,
  bad: BAD,
  good: edited(BAD, ['machine: old-mill', 'machine: new-mill']),
  mends: 'Put the set-up on a machine with a control.',
  *find({ part, solid, shop }) {
    if (!materialOf(part) || !movesInCircles(shop)) return;
    const able = shop.machines.find((m) => m.control === 'program');
    for (const setup of part.setups ?? []) {
      const machine = machineOf(setup, shop);
      if (!machine || !able || machine.control === 'program') continue;
      for (const { name } of setup.cuts) {
        const feature = part.featureByName.get(name);
        const milled = feature && operationsOf(feature, { part, solid, shop }).find((o) => o.does === 'thread');
        if (milled?.does !== 'thread') continue;
        const span = setup.machine?.span ?? setup.span;
        yield { span, name, setup: setup.name, tool: milled.tool.name, machine: machine.name, able: able.name };
        break;
      }
    }
  },
  tell: ({ span, name, setup, tool, machine, able }) => ({
    message: `Set-up ${setup} mills the thread of ${name} with ${tool}, on a helix. Hands move the axes of ${machine}. Use ${able} for this set-up.`,
    of: [name],
    span,
    facts: { machine, tool },
  }),
  keep: ({ setup, able }) => ({ setup, able }),
  *mend({ setup, able }, context) {
    const of = context.part.setups?.find((s) => s.name === setup);
    const map = of && setupMap(context, of);
    yield change(`Put set-up ${setup} on ${able}`, map ? setText(context.tree, map, 'machine', able) : undefined);
  },
});
