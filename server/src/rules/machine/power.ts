/** machine/power and machine/torque – the spindle stalls under the drill. */
import { SPINDLE_EFFICIENCY } from '../../process/cutting/conditions';
import { defineRule } from '../kit/define';
import { spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { type Demand, type Drilled, demandsOf, drilledHoles } from './drilling';

const SHOP = `shop: bench
units: mm
machines:
  bench-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [100, 3000], power: 0.35 kW, torque: 8 N·m }, feed: 1000 mm/min, coolant: flood, zero-error: { edge-finder: 0.02 } }
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
  summary: 'A hole drilled in one go needs more power than the spindle has.',
  why: 'A drill cuts on its whole width at once. No other cut needs so much for its size. A spindle that stalls in the hole breaks the drill or turns the workpiece in the vise.',
  formula:
    'The power is by Kienzle’s law on the two lips, at the smallest feed and the lowest usual speed. It is compared with `efficiency` of the motor’s power. Milling can use lighter passes and is never stopped by power.',
  limits: [
    {
      name: 'efficiency',
      value: SPINDLE_EFFICIENCY,
      unit: 'ratio',
      what: 'Share of the motor’s power that reaches the cutter.',
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
      message: `Drilling this hole with ${drill.name} needs about ${Math.round(powerW)} W at the smallest feed. ${machine.name} has ${Math.round(hasW)} W at the cutter. ${CURE}`,
      has: `${Math.round(hasW)} W`,
      needs: `${Math.round(powerW)} W`,
      of: [hole.name],
      span: spanOf(hole, 'diameter', 'thread'),
      facts: { power_w: powerW, has_w: hasW, tool: drill.name },
    };
  },
});

export const torque: Rule = defineRule({
  name: 'machine/torque',
  severity: 'warning',
  summary: 'A hole drilled in one go needs more torque than the spindle has.',
  why: 'Torque grows with the square of a drill’s diameter and does not fall with speed. A spindle that stalls in the hole breaks the drill or turns the workpiece in the vise.',
  formula:
    'Torque kc · f · D² / 8 by Kienzle’s law at the smallest feed of the tables, against the spindle’s. Not reported where the shop gives none.',
  bounds: 'The torque of the machine in the shop file; cutting forces after Kienzle, from the tables.',
  limits: [],
  shop: SHOP,
  bad: partWith(20),
  good: partWith(8),
  find: (context) =>
    stalled(context, ({ machine, torqueNm }) => machine.torqueNm !== undefined && torqueNm > machine.torqueNm),
  tell: ({ drilled: { hole, drill }, demand: { machine, torqueNm } }) => ({
    message: `Drilling this hole with ${drill.name} needs about ${trimmed(torqueNm, 1)} N·m at the smallest feed. ${machine.name} has ${machine.torqueNm} N·m. ${CURE}`,
    has: `${machine.torqueNm} N·m`,
    needs: `${trimmed(torqueNm, 1)} N·m`,
    of: [hole.name],
    span: spanOf(hole, 'diameter', 'thread'),
    facts: { torque_nm: torqueNm, has_nm: machine.torqueNm, tool: drill.name },
  }),
});
