/** machine/power and machine/torque – the spindle stalls under the drill. */
import { SPINDLE_EFFICIENCY } from '../../process/cutting/conditions';
import { defineRule } from '../kit/define';
import { spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { type Demand, type Drilled, demandsOf, drilledHoles } from './drilling';

const SHOP = `shop: bench
units: mm
machines:
  bench-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [100, 3000], power: 0.35 kW, torque: 8 N·m }, feed: 1000 mm/min, coolant: flood, locates: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-20: { kind: drill, diameter: 20, flute-length: 120, point: 118, material: hss }
  dr-8: { kind: drill, diameter: 8, flute-length: 75, point: 118, material: hss }
`;
const partWith = (diameter: number) => `part: foot
units: mm
material: steel-c45
body: { x: 60, y: 60, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: through }
`;

function* stalled(context: RuleContext, over: (d: Demand) => boolean): Generator<{ drilled: Drilled; demand: Demand }> {
  for (const drilled of drilledHoles(context)) {
    const demands = [...demandsOf(drilled, context)];
    const [demand] = demands;
    if (demand && demands.every(over)) yield { drilled, demand };
  }
}

const SOURCE = 'common practice, from memory: belts and bearings take 10 to 30 %';
const CURE = 'Drill a smaller hole first and open it in steps, or with an end mill or boring head.';

export const power: Rule = defineRule({
  name: 'machine/power',
  severity: 'warning',
  summary: 'Drilled in one go, a hole takes more power than the spindle has.',
  why: 'A drill cuts on its whole width at once: no other cut takes as much for its size. A spindle that stalls in the hole breaks the drill or turns the work in the vise.',
  formula:
    'Kienzle’s law on the two lips at the gentlest feed of the tables and the lowest usual speed: `power_w` against `efficiency` of the motor’s. Milling takes as small a bite as it must, and is never stopped by power.',
  limits: [
    {
      name: 'efficiency',
      value: SPINDLE_EFFICIENCY,
      unit: 'ratio',
      what: 'Of the motor’s power, what reaches the cutter',
      source: SOURCE,
    },
  ],
  shop: SHOP,
  bad: partWith(20),
  good: partWith(8),
  find: (context) => stalled(context, (d) => d.powerW > context.limit('efficiency') * d.machine.powerW),
  tell({ drilled: { hole, drill }, demand: { machine, powerW } }, { limit }) {
    const hasW = limit('efficiency') * machine.powerW;
    return {
      message: `Drilling it with ${drill.name} takes about ${Math.round(powerW)} W at the gentlest feed, and ${machine.name} has ${Math.round(hasW)} W at the cutter. ${CURE}`,
      of: [hole.name],
      span: spanOf(hole, 'diameter', 'thread'),
      facts: { power_w: powerW, has_w: hasW, tool: drill.name },
    };
  },
});

export const torque: Rule = defineRule({
  name: 'machine/torque',
  severity: 'warning',
  summary: 'Drilled in one go, a hole takes more torque than the spindle has.',
  why: 'Torque grows with the square of a drill’s diameter and does not shrink with speed. A spindle that stalls in the hole breaks the drill or turns the work in the vise.',
  formula:
    'Torque kc · f · D² / 8 by Kienzle’s law at the gentlest feed of the tables: `torque_nm` against the spindle’s. Nothing is said where the shop gives none.',
  limits: [],
  shop: SHOP,
  bad: partWith(20),
  good: partWith(8),
  find: (context) =>
    stalled(context, ({ machine, torqueNm }) => machine.torqueNm !== undefined && torqueNm > machine.torqueNm),
  tell: ({ drilled: { hole, drill }, demand: { machine, torqueNm } }) => ({
    message: `Drilling it with ${drill.name} takes about ${trimmed(torqueNm, 1)} N·m at the gentlest feed, and ${machine.name} has ${machine.torqueNm}. ${CURE}`,
    of: [hole.name],
    span: spanOf(hole, 'diameter', 'thread'),
    facts: { torque_nm: torqueNm, has_nm: machine.torqueNm, tool: drill.name },
  }),
});
