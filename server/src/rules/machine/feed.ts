/** machine/feed – a tap that must go in faster than the machine feeds. */
import type { Hole } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { tapsOfHole } from '../../process/tapping';
import { threadMillsOf } from '../../process/thread-milling';
import { ROUNDING } from '../../tolerance';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { memberPhrase, spanOf, trimmed } from '../kit/message';
import type { Rule } from '../kit/rule';
import { machinesFor } from './shared';

const BAD = `part: foot
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 40, z: 16 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, thread: M8, depth: through }
`;

/** No tap is there, and a thread mill is: it is fed as a mill. */
const isMilled = (hole: Hole, shop: Shop) =>
  tapsOfHole(hole, shop).length === 0 && threadMillsOf(hole, shop).length > 0;

export const feed: Rule = defineRule({
  name: 'machine/feed',
  severity: 'warning',
  summary: 'A thread that is tapped under power needs a faster feed than the machine has.',
  why: 'A tap moves by its pitch with every turn, whatever the feed is set to. A machine that cannot follow strips the thread or breaks the tap. Then tap by hand, or in a floating holder.',
  formula: 'Pitch × the spindle’s lowest speed, against the machine’s feed. Not reported where the shop gives no feed.',
  bounds: 'The feed and the lowest speed of the machine in the shop file.',
  limits: [],
  shop: `shop: bench
units: mm
machines:
  bench-mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [500, 3000], power: 0.75 kW }, feed: 400 mm/min, coolant: flood, zero-error: { edge-finder: 0.02 } }
vises: { small: { jaw: { width: 80, height: 30 }, opens: 80, force: 8 kN, face: smooth } }
tools:
  dr-6.8: { kind: drill, diameter: 6.8, flute-length: 69, point: 118, material: hss }
  dr-4.2: { kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss }
  tap-m8: { kind: tap, thread: M8, chamfer: plug, reach: 30 }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 22 }
`,
  bad: BAD,
  good: edited(BAD, ['z: 16 }', 'z: 10 }'], ['thread: M8', 'thread: M5']),
  *find({ part, shop }) {
    const machines = machinesFor(part, shop).filter((m) => m.feedMmPerMin !== undefined);
    const [machine] = machines;
    if (!machine) return;
    for (const hole of part.features) {
      const spec = hole.kind === 'hole' ? hole.thread?.spec : undefined;
      if (hole.kind !== 'hole' || !spec || isMilled(hole, shop)) continue;
      if (machines.every((m) => spec.pitchMm * m.rpm[0] > m.feedMmPerMin! + ROUNDING)) yield { hole, spec, machine };
    }
  },
  tell({ hole, spec, machine }, { part }) {
    const needed = spec.pitchMm * machine.rpm[0];
    return {
      message: `${spec.designation} in ${memberPhrase(part, hole.name)} needs a feed of ${trimmed(spec.pitchMm, 3)} mm per turn: ${Math.round(needed)} mm/min at ${machine.rpm[0]} rpm, the slowest. ${machine.name} has ${machine.feedMmPerMin} mm/min. Tap it by hand.`,
      has: `${machine.feedMmPerMin} mm/min`,
      needs: `${Math.round(needed)} mm/min`,
      of: [hole.name],
      span: hole.thread!.span ?? spanOf(hole, 'diameter'),
      facts: { needed_mm_per_min: needed, feed_mm_per_min: machine.feedMmPerMin, rpm: machine.rpm[0] },
    };
  },
});
