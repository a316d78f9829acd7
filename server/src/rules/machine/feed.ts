/** machine/feed – a tap that must go in faster than the machine feeds. */
import { fact, spanOf, trimmed } from '../kit/message';
import type { Finding, Rule } from '../kit/rule';
import { machinesFor } from './shared';

const NAME = 'machine/feed';

export const feed: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'Tapped under power, a thread asks for a faster feed than the machine has.',
  why: 'A tap goes in by its pitch with every turn, whatever the feed says. A machine that cannot follow strips the thread or breaks the tap: then it is tapped by hand, or in a floating holder.',
  formula:
    'Pitch × the spindle’s lowest speed, against the machine’s feed. Nothing is said where the shop gives no feed.',
  limits: [],
  shop: `shop: bench
units: mm
machines:
  bench-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [500, 3000], power: 0.75 kW }, feed: 400 mm/min, coolant: flood, locates: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-6.8: { kind: drill, diameter: 6.8, flute-length: 69, point: 118, material: hss }
  dr-4.2: { kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss }
  tap-m8: { kind: tap, thread: M8, chamfer: plug, reach: 30 }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }
`,
  bad: `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 16 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, thread: M8, depth: through }
`,
  good: `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 10 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, thread: M5, depth: through }
`,
  *find({ part, shop }): Generator<Finding> {
    const machines = machinesFor(part, shop).filter((m) => m.feedMmPerMin !== undefined);
    const [first] = machines;
    if (!first) return;
    for (const feature of part.features) {
      const pitch = feature.kind === 'hole' ? feature.thread?.spec?.pitchMm : undefined;
      if (pitch === undefined || feature.kind !== 'hole') continue;
      if (machines.some((m) => pitch * m.rpm[0] <= m.feedMmPerMin! + 1e-9)) continue;
      yield {
        rule: NAME,
        severity: 'warning',
        message: `${feature.thread!.spec!.designation} goes in ${trimmed(pitch, 3)} mm a turn: ${Math.round(pitch * first.rpm[0])} mm/min at the ${first.rpm[0]} rpm that ${first.name} turns at least, and it feeds ${first.feedMmPerMin} mm/min. Tap it by hand.`,
        of: [feature.name],
        span: feature.thread!.span ?? spanOf(feature, 'diameter'),
        related: [],
        facts: {
          needed_mm_per_min: fact(pitch * first.rpm[0]),
          feed_mm_per_min: first.feedMmPerMin!,
          rpm: first.rpm[0],
        },
      };
    }
  },
};
