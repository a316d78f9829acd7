/** machine/material – the machine takes other materials than this one. */
import { materialOf } from '../../model/material-of';
import type { Machine } from '../../model/shop-model';
import { machineOf } from '../../process/workholding/forces';
import { setText } from '../../text/edit';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { setupMap } from '../kit/holds';
import { list } from '../kit/message';
import type { Rule } from '../kit/rule';

const BAD = `part: bracket
material: steel-s235jr
body: { x: 60, y: 40, z: 12 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, diameter: 6, depth: through }
setups:
  first:
    up: top
    hold: { vise: small, jaws: [back, front], grip: 8, parallels: 22 }
    cuts: [mount]
    machine: router
`;

export const material: Rule = defineRule({
  name: 'machine/material',
  severity: 'error',
  summary: 'The machine that a part goes on does not take its material.',
  why: 'A router or a small machine is too limp and too fast for steel. The cutter chatters, rubs and burns, or breaks and flies. What a machine takes is for its keepers to say.',
  formula:
    'The family of the part’s material is looked for in `takes` of the machine. With set-ups each one’s own machine is asked, or the shop’s first. Without set-ups all machines are.',
  bounds: 'The `takes` of the machine in the shop file. A machine without it takes everything.',
  limits: [],
  shop: `shop: attic
machines:
  router: { travel: { x: 600, y: 400, z: 100 }, spindle: { rpm: [8000, 24000], power: 0.8 kW }, takes: [plastic, aluminium] }
  mill: { travel: { x: 300, y: 200, z: 300 }, spindle: { rpm: [100, 3000], power: 1 kW } }
parallels: [22]
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-6: { kind: drill, diameter: 6, flute-length: 57, point: 118, material: hss }
`,
  bad: BAD,
  good: edited(BAD, ['machine: router', 'machine: mill']),
  mends: 'Put the set-up on a machine of the shop that takes the material.',
  *find({ part, shop }) {
    const family = materialOf(part)?.family;
    if (!family || !part.material) return;
    const refuses = (m: Machine) => m.takes !== undefined && !m.takes.includes(family);
    const able = shop.machines.find((m) => !refuses(m));
    const { span } = part.material;
    const setups = part.setups ?? [];
    if (setups.length === 0 || !able) {
      const [first] = shop.machines;
      if (first && !able) yield { span, machine: first, family, setup: undefined, able: undefined };
      return;
    }
    for (const setup of setups) {
      const machine = machineOf(setup, shop);
      if (!machine || !refuses(machine)) continue;
      yield { span: setup.machine?.span ?? setup.span, machine, family, setup: setup.name, able: able.name };
    }
  },
  tell: ({ span, machine, family, setup, able }, { part, shop }) => ({
    message: `${part.name} is of ${FAMILY[family] ?? family}. ${machine.name} takes ${list(machine.takes!, 'and')} alone. ${
      able
        ? `Use ${able} for set-up ${setup}.`
        : shop.machines.length > 1
          ? 'No machine of this shop does. Choose another material, or ask a shop with a stiffer one.'
          : 'Choose another material, or ask a shop with a stiffer machine.'
    }`,
    has: list(machine.takes!, 'and'),
    needs: family,
    of: [],
    span,
    facts: { machine: machine.name, material: family },
  }),
  keep: ({ setup, able }) => (setup === undefined || able === undefined ? undefined : { setup, able }),
  *mend({ setup, able }, context) {
    const of = context.part.setups?.find((s) => s.name === setup);
    const map = of && setupMap(context, of);
    yield change(`Put set-up ${setup} on ${able}`, map ? setText(context.tree, map, 'machine', able) : undefined);
  },
});

/** As a sentence has it, where that is another word. */
const FAMILY: Readonly<Record<string, string>> = {
  stainless: 'stainless steel',
  'cast-iron': 'cast iron',
  copper: 'a copper alloy',
};
