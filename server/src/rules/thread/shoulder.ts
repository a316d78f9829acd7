/** thread/shoulder – a thread on a boss runs nearer to its shoulder than a die or thread mill comes. */
import { type Boss, runOutOf, threadedBosses, threadingOf } from '../../process/boss-threads';
import { millAsked } from '../../process/operations/boss-thread';
import { threadUndercut, type UndercutSeries } from '../../tables/thread-undercuts';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField, setField, together } from '../kit/fields';
import { roundDown, spanOf, subjectOf } from '../kit/message';
import type { Rule } from '../kit/rule';

const BAD = `part: spindle
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 30 }
features:
  end: { kind: contour, face: top, at: { x: center, y: center }, thread: M10, thread-depth: 13.5, depth: 14 }
`;
const SHOP = `shop: bench
machines:
  mill: { travel: { x: 300, y: 150, z: 250 }, spindle: { rpm: [60, 5000], power: 1 kW } }
vises:
  vise-100: { jaw: { width: 100, height: 32 }, opens: 110 }
parallels: [8, 12, 16]
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 24 }
dies: [M10]
`;

export const shoulder: Rule = defineRule({
  name: 'thread/shoulder',
  severity: 'error',
  summary: 'A thread on a boss runs nearer to the shoulder than a die or thread mill comes.',
  why: 'The first turns of a die are tapered, so the last turns before a shoulder stay half cut. With its other side first it comes nearer. A thread mill needs half a tooth below the last full turn, and must not touch the shoulder. An undercut makes that room, and lets a nut come to the shoulder.',
  formula:
    'Depth of the boss − length of full thread, over the pitch, against what cuts it. A die: an error under `die-turned`, a hint under `die`, where the last turns need its other side. A thread mill: an error under `mill`.',
  limits: [
    {
      name: 'die',
      value: 2.5,
      unit: 'ratio',
      what: 'Pitches between full thread and shoulder, for a die.',
      source: 'DIN 76-1 and ISO 3508, run-out x1, from memory',
    },
    {
      name: 'die-turned',
      value: 1.25,
      unit: 'ratio',
      what: 'The same for a die whose other side cuts the last turns.',
      source: 'DIN 76-1 and ISO 3508, short run-out x2, from memory',
    },
    {
      name: 'mill',
      value: 1,
      unit: 'ratio',
      what: 'The same for a thread mill: half a tooth, and as much clear of the shoulder.',
      source: 'common practice, no source',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['thread-depth: 13.5', 'thread-depth: 10']),
  shop: SHOP,
  mends: 'Make the thread shorter, the boss longer, or give it an undercut at its shoulder.',
  *find({ part, shop, limit }) {
    for (const boss of threadedBosses(part.features)) {
      const { pitchMm } = boss.thread.spec;
      const roomMm = runOutOf(boss);
      const { by } = threadingOf(boss, shop, millAsked(boss, part, shop));
      const [least, usual] = by === 'mill' ? [limit('mill'), 0] : [limit('die-turned'), limit('die')];
      const fails = roomMm < least * pitchMm - SAME;
      // A die that nobody has is missed first.
      if (
        fails
          ? by !== 'nothing' || roomMm < limit('mill') * pitchMm - SAME
          : by === 'die' && roomMm < usual * pitchMm - SAME
      )
        yield {
          boss,
          roomMm,
          by,
          needMm: (fails ? least : usual) * pitchMm,
          goodMm: Math.max(least, usual) * pitchMm,
          fails,
        };
    }
  },
  tell({ boss, roomMm, by, needMm, goodMm, fails }, { part, length, about }) {
    const what = by === 'mill' ? 'A thread mill' : fails ? 'A die, even with its other side first,' : 'A die';
    const shorter = roundDown(boss.depth.mm - goodMm, part.units);
    const thread = isWorthIt(shorter, boss) ? `make the thread ${length(shorter)} long` : undefined;
    const groove = undercutFor(boss) ? ', or give it an undercut' : '';
    const cure = fails
      ? thread
        ? `M${thread.slice(1)}, or the boss longer${groove}.`
        : 'Make the boss longer.'
      : `Cut the last turns with its other side first${thread ? `, or ${thread}` : ', or make the boss longer'}.`;
    return {
      severity: fails ? undefined : 'hint',
      message: `${subjectOf(part, boss.name)} has ${about(roomMm, needMm)} between its thread and the shoulder. ${what} needs ${about(needMm)} there. ${cure}`,
      has: about(roomMm),
      needs: about(needMm),
      of: [boss.name],
      span: spanOf(boss, 'thread', 'depth'),
      facts: {
        room_mm: roomMm,
        needed_mm: needMm,
        pitch_mm: boss.thread.spec.pitchMm,
        would_do_mm: isWorthIt(shorter, boss) ? shorter : undefined,
      },
    };
  },
  keep: ({ boss, goodMm }) => ({ of: boss.name, goodMm }),
  mend({ of, goodMm }, { part, tree, write, length }) {
    const boss = [...threadedBosses(part.features)].find((b) => b.name === of);
    if (!boss || boss.depth.through) return [];
    const shorter = roundDown(boss.depth.mm - goodMm, part.units);
    const found = undercutFor(boss);
    return [
      ...(isWorthIt(shorter, boss)
        ? [change(`Make the thread ${length(shorter)} long`, setField(tree, of, 'thread-depth', write(shorter)))]
        : []),
      ...(found
        ? [
            change(
              `Give it ${found === 'regular' ? 'an' : 'a short'} undercut, with the thread up to it`,
              together(removeField(tree, of, 'thread-depth'), setField(tree, of, 'undercut', found)),
            ),
          ]
        : []),
    ];
  },
});

/** Fewer turns hold no nut. Common practice, no source. */
const LEAST_TURNS = 2;

function isWorthIt(threadMm: number, { thread: { spec } }: Boss): boolean {
  return threadMm >= LEAST_TURNS * spec.pitchMm;
}

/** The wider of the standards' undercuts that leaves it a thread; a nut comes to the shoulder then. */
function undercutFor(boss: Boss): UndercutSeries | undefined {
  const { spec, undercut } = boss.thread;
  if (undercut || boss.floorRadius.mm > 0 || boss.tilt) return undefined;
  return (['regular', 'short'] as const).find((series) => {
    const found = threadUndercut(spec, series);
    return found && isWorthIt(boss.depth.mm - found.mostMm, boss);
  });
}
