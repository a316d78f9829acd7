/** thread/no-die – the shop has no die for the thread on a boss. */
import { threadedBosses, threadingOf } from '../../process/boss-threads';
import { millAsked } from '../../process/operations/boss-thread';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { subjectOf } from '../kit/message';
import type { Rule } from '../kit/rule';

const BAD = `part: spindle
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 30 }
features:
  end: { kind: contour, face: top, at: { x: center, y: center }, thread: M10x0.75, depth: 14 }
`;
const SHOP = `shop: bench
machines:
  mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [60, 5000], power: 1 kW } }
vises:
  vise-100: { jaw: { width: 100, height: 32 }, opens: 110 }
parallels: [8, 12, 16]
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 24 }
dies: [M8, M10]
`;

export const noDie: Rule = defineRule({
  name: 'thread/no-die',
  severity: 'error',
  mildByBuiltIn: true,
  summary: 'The shop has no die, and no thread mill, for a thread on a boss.',
  why: 'A die makes one thread only, and is turned by hand on a boss that was milled to size. A thread mill goes round the boss and makes any diameter of its pitch. Borrow or buy what is missing before the day at the machine.',
  formula:
    'The shop’s `dies` by thread, however each is written. A thread mill of its pitch does too, unless it `cuts` only `inside`. That one must reach half a pitch below the last full turn. A control must move the axes. A warning where the shop lists no dies, or is the built-in one.',
  bounds: 'The `dies` and thread mills in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['M10x0.75', 'M10']),
  shop: SHOP,
  *find({ part, shop }) {
    for (const boss of threadedBosses(part.features)) {
      const made = threadingOf(boss, shop, millAsked(boss, part, shop));
      if (made.by === 'nothing') yield { boss, why: made.why };
    }
  },
  tell({ boss, why }, { part, shop }) {
    const { spec, span } = boss.thread;
    const listed = shop.dies !== undefined;
    const mill = why ? ` Thread mill ${why.tool.name} does not cut it: ${why.because}.` : '';
    return {
      severity: listed && !shop.builtIn ? 'error' : 'warning',
      message: listed
        ? `${subjectOf(part, boss.name)} needs a die for ${spec.designation}; the shop has none. Borrow or buy one, and add it to \`dies\`.${mill}`
        : `${subjectOf(part, boss.name)} needs a die for ${spec.designation}; ${shop.builtIn ? 'the built-in shop' : 'the shop file'} lists no dies. Add \`dies: [${spec.designation}]\` to the shop file if there is one.${mill}`,
      of: [boss.name],
      span,
      facts: { thread: spec.designation },
    };
  },
});
