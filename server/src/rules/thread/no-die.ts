/** thread/no-die – the shop has no die for the thread on a boss. */
import { threadedBoss } from '../../model/feature-kinds';
import { findThread } from '../../tables/thread-names';
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
  summary: 'The shop has no die for a thread on a boss.',
  why: 'A die makes one thread only, and is turned by hand on a boss that was milled to size. Borrow or buy a missing one before the day at the machine.',
  formula:
    'The shop’s `dies` by thread, however each is written. A warning where the shop lists none, or is the built-in one.',
  bounds: 'The `dies` in the shop file.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['M10x0.75', 'M10']),
  shop: SHOP,
  *find({ part, shop }) {
    for (const feature of part.features) {
      const boss = threadedBoss(feature);
      if (boss && !shop.dies?.some((d) => findThread(d)?.designation === boss.thread.spec.designation)) yield boss;
    }
  },
  tell(boss, { part, shop }) {
    const { spec, span } = boss.thread;
    const listed = shop.dies !== undefined;
    return {
      severity: listed && !shop.builtIn ? 'error' : 'warning',
      message: listed
        ? `${subjectOf(part, boss.name)} needs a die for ${spec.designation}; the shop has none. Borrow or buy one, and add it to \`dies\`.`
        : `${subjectOf(part, boss.name)} needs a die for ${spec.designation}; ${shop.builtIn ? 'the built-in shop' : 'the shop file'} lists no dies. Add \`dies: [${spec.designation}]\` to the shop file if there is one.`,
      of: [boss.name],
      span,
      facts: { thread: spec.designation },
    };
  },
});
