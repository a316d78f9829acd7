/** machine/speed – the cutter wants to turn faster, or slower, than the spindle does. */
import { fact, spanOf, trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { demandsOf, drilledHoles } from './drilling';

const NAME = 'machine/speed';

export const speed: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A drill wants to turn much faster, or slower, than the spindle can.',
  why: 'Too slow a small drill is pushed rather than cut in, and snaps; too fast a large one burns its corners in seconds. Where the spindle has no read-out, its speed must be set by the belt table: the sheet tells what to set.',
  formula:
    'rpm = 1000 v / (π D) at the middle of the drill’s surface-speed range in this material, against the spindle’s range. Told where the fastest spindle reaches less than `share` of the range’s low end, or the slowest turns faster than its high end.',
  limits: [
    {
      name: 'share',
      value: 0.25,
      unit: 'ratio',
      what: 'Of the lowest usual surface speed, what still drills well enough',
      source: 'common practice, no source',
    },
  ],
  shop: `shop: bench
units: mm
machines:
  bench-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [450, 2000], power: 0.75 kW }, feed: 1000 mm/min, coolant: flood, locates: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-25: { kind: drill, diameter: 25, flute-length: 120, point: 118, material: hss }
  dr-10: { kind: drill, diameter: 10, flute-length: 80, point: 118, material: hss }
`,
  bad: `part: foot
units: mm
material: stainless-304
body: { x: 60, y: 60, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 25, depth: through }
`,
  good: `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 10, depth: through }
`,
  *find(context): Generator<Finding> {
    for (const drilled of drilledHoles(context)) {
      const demands = [...demandsOf(drilled, context)];
      const surface = (rpm: number) => (rpm * Math.PI * drilled.drill.diameterMm) / 1000;
      const tooSlow = demands.every((d) => surface(d.machine.rpm[1]) < context.limit('share') * d.range[0]);
      const tooFast = demands.every((d) => surface(d.machine.rpm[0]) > d.range[1] + 1e-9);
      const [one] = demands;
      if (!one || (!tooSlow && !tooFast)) continue;
      const turns = tooSlow ? one.machine.rpm[1] : one.machine.rpm[0];
      yield {
        rule: NAME,
        severity: tooFast ? 'warning' : 'hint',
        message: `${drilled.drill.name} wants about ${Math.round(one.rpm)} rpm here (${trimmed(one.range[0], 0)} to ${trimmed(one.range[1], 0)} m/min), and ${one.machine.name} turns no ${tooSlow ? 'faster' : 'slower'} than ${turns}. ${tooSlow ? 'Feed it gently and clear the chips often.' : 'Drill it small and open it with an end mill or boring head.'}`,
        of: [drilled.hole.name],
        span: spanOf(drilled.hole, 'diameter', 'thread'),
        related: [],
        facts: {
          rpm: Math.round(one.rpm),
          spindle_rpm: turns,
          tool: drilled.drill.name,
          speed_m_per_min: fact(surface(turns)),
        },
      };
    }
  },
};
