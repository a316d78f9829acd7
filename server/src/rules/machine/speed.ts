/** machine/speed – the cutter wants to turn faster, or slower, than the spindle does. */
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { spanOf, trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { type Drilled, demandsOf, drilledHoles } from './drilling';

const BAD = `part: foot
units: mm
material: stainless-304
body: { x: 60, y: 60, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 25, depth: through }
`;

export const speed: Rule = defineRule({
  name: 'machine/speed',
  severity: 'warning',
  summary: 'A drill needs to turn much faster, or slower, than the spindle can.',
  why: 'A small drill that turns too slowly is pushed rather than cut in, and snaps. A large one that turns too fast burns its corners in seconds. Where the spindle has no read-out, set its speed by the belt table.',
  formula:
    'rpm = 1000 v / (π D) at the middle of the drill’s speed range in this material, against the spindle’s range. Reported where the fastest spindle reaches less than `share` of the low end. Also where the slowest turns faster than the high end.',
  limits: [
    {
      name: 'share',
      value: 0.25,
      unit: 'ratio',
      what: 'Share of the lowest usual surface speed that still drills well enough.',
      source: 'common practice, no source',
    },
  ],
  shop: `shop: bench
units: mm
machines:
  bench-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [450, 2000], power: 0.75 kW }, feed: 1000 mm/min, coolant: flood, zero-error: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-25: { kind: drill, diameter: 25, flute-length: 120, point: 118, material: hss }
  dr-10: { kind: drill, diameter: 10, flute-length: 80, point: 118, material: hss }
`,
  bad: BAD,
  good: edited(BAD, ['stainless-304', 'aluminium-6061-t6'], ['diameter: 25', 'diameter: 10']),
  *find(context) {
    for (const drilled of drilledHoles(context)) {
      const demands = [...demandsOf(drilled, context)];
      const [demand] = demands;
      const surface = (rpm: number) => surfaceOf(drilled, rpm);
      const tooSlow = demands.every((d) => surface(d.machine.rpm[1]) < context.limit('share') * d.range[0]);
      const tooFast = demands.every((d) => surface(d.machine.rpm[0]) > d.range[1] + ROUNDING);
      if (demand && (tooSlow || tooFast)) yield { drilled, demand, tooSlow, tooFast };
    }
  },
  tell({ drilled, demand: { rpm, range, machine }, tooSlow, tooFast }) {
    const turns = tooSlow ? machine.rpm[1] : machine.rpm[0];
    return {
      severity: tooFast ? 'warning' : 'hint',
      message: `The drill ${drilled.drill.name} needs about ${Math.round(rpm)} rpm here (${trimmed(range[0], 0)} to ${trimmed(range[1], 0)} m/min). ${machine.name} turns ${tooSlow ? `${turns} at most` : `at least ${turns}`}. ${tooSlow ? 'Feed' : 'Drill'} ${tooSlow ? 'it gently and clear the chips often' : 'a smaller hole, and open it with an end mill or boring head'}.`,
      has: `${turns} rpm`,
      needs: `${Math.round(rpm)} rpm`,
      of: [drilled.hole.name],
      span: spanOf(drilled.hole, 'diameter', 'thread'),
      facts: {
        rpm: Math.round(rpm),
        spindle_rpm: turns,
        tool: drilled.drill.name,
        speed_m_per_min: surfaceOf(drilled, turns),
      },
    };
  },
});

/** m/min at the drill's corners. */
function surfaceOf({ drill }: Drilled, rpm: number): number {
  return (rpm * Math.PI * drill.diameterMm) / 1000;
}
