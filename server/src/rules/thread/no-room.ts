/** thread/no-room – a blind hole ends before the tap has cut the thread in full. */

import type { Hole } from '../../model/model';
import type { Tap } from '../../model/shop-model';
import type { Bored } from '../../process/drilling';
import { boresOf } from '../../process/drilling';
import { threadMillsOf } from '../../process/thread-milling';
import type { Thread } from '../../tables/thread-form';
import { SAME } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { setLength } from '../kit/edits';
import { setField } from '../kit/fields';
import { PRINTED_ALIKE_MM, roundDown, roundUp, spanOf, subjectOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { CHAMFER_PITCHES, isBlind, tapped } from './tapped-holes';

interface Cramped {
  readonly hole: Hole;
  readonly thread: Thread;
  readonly b: Bored;
  readonly roomMm: number;
  /** What the tap with the shortest chamfer (on hand, or that can be had) needs. */
  readonly leastMm: number;
  readonly plugMm: number;
  readonly tap?: Tap;
}

function* cramped(context: RuleContext): Generator<Cramped> {
  const { part, solid, limit } = context;
  for (const { hole, thread, taps } of tapped(context)) {
    if (!hole.threadDepth || hole.threadDepth.from) continue;
    // A thread mill has no taper.
    if (taps.length === 0 && threadMillsOf(hole, context.shop).length > 0) continue;
    const b = boresOf(hole, part, solid).find(isBlind);
    if (!b) continue;
    const roomMm = hole.depth.mm - hole.threadDepth.mm;
    const pitches = (t: Tap) => (t.chamfer === 'taper' ? CHAMFER_PITCHES.taper : limit(t.chamfer));
    const tap = [...taps].sort((x, y) => pitches(x) - pitches(y))[0];
    const leastMm = (tap ? pitches(tap) : limit('plug')) * thread.pitchMm;
    const plugMm = limit('plug') * thread.pitchMm;
    if (roomMm >= Math.max(leastMm, plugMm) - PRINTED_ALIKE_MM) continue;
    yield { hole, thread, b, roomMm, leastMm, plugMm, ...(tap && { tap }) };
  }
}

function tell({ hole, thread, b, roomMm, leastMm, plugMm, tap }: Cramped, context: RuleContext): Told {
  const { length, part, about } = context;
  const none = roomMm < leastMm - PRINTED_ALIKE_MM;
  const need = none ? leastMm : plugMm;
  const deeper = roundUp(hole.depth.mm + need - roomMm, part.units);
  const shorter = roundDown(hole.threadDepth!.mm - (need - roomMm), part.units);
  const cure = [
    `Drill it ${length(deeper)} deep`,
    ...(shorter >= thread.diameterMm ? [`make the thread ${length(shorter)} deep`] : []),
  ].join(', or ');
  const left = roomMm < SAME ? 'nothing' : about(roomMm, need);
  const starts = `${subjectOf(part, hole.name)} has ${left} below its thread`;
  return {
    severity: none ? 'error' : 'hint',
    message: none
      ? `${starts}. The taper of ${tap ? `${tap.name} (${tap.chamfer})` : 'a plug tap'} needs ${about(leastMm)}, ${trimmed(leastMm / thread.pitchMm, 1)} turns: the last turns stay uncut. ${cure}.`
      : `${starts}. That is enough for ${tap!.name} (${tap!.chamfer}, ${about(leastMm)}), but a plug tap must go first and needs ${about(plugMm)}. ${cure}: this saves the second tap.`,
    has: `${left} below the thread`,
    needs: about(need),
    of: [hole.name],
    span: hole.threadDepth!.span,
    related: [{ span: spanOf(hole, 'depth'), message: `the hole is ${length(hole.depth.mm)} deep` }],
    facts: {
      room_mm: roomMm,
      needed_mm: need,
      chamfer_mm: leastMm,
      plug_mm: plugMm,
      pitch_mm: thread.pitchMm,
      turns: leastMm / thread.pitchMm,
      hole_depth_mm: hole.depth.mm,
      thread_depth_mm: hole.threadDepth!.mm,
      needed_depth_mm: deeper,
      allowed_thread_mm: shorter,
      tool: tap?.name,
    },
    at: [b.axis],
  };
}

const BAD = `part: stud-block
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 25 }
features:
  stud:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M6
    thread-depth: 13
    depth: 14
`;

export const noRoom: Rule = defineRule({
  name: 'thread/no-room',
  severity: 'error',
  summary: 'A blind tapped hole is too short below the thread for the tapered end of the tap.',
  why: 'The first turns of a tap are tapered so that it starts. The last turns of the hole therefore stay half cut. A tap that is forced to the bottom breaks, and a broken tap is a lost part.',
  formula:
    'The room below the thread is hole depth − thread depth. It must hold the tapered turns × pitch. A plug tap has 3 to 5 such turns, a bottoming tap 1 to 2. An error where no tap in the shop fits, a hint where only a bottoming tap does. The cone below the hole is not counted: small taps have a point of their own there.',
  limits: [
    {
      name: 'plug',
      value: 4,
      unit: 'count',
      what: 'Tapered turns of a plug tap.',
      source: 'US Army TM 9-254, para. 4-27: 3 to 5',
    },
    {
      name: 'bottoming',
      value: 1.5,
      unit: 'count',
      what: 'Tapered turns of a bottoming tap.',
      source: 'US Army TM 9-254, para. 4-27: 1 to 2',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['thread-depth: 13', 'thread-depth: 12'], ['    depth: 14', '    depth: 17']),
  mends: 'Drill the hole deeper, or make the thread shorter.',
  find: cramped,
  tell,
  keep: ({ hole, thread, roomMm, plugMm }) => ({
    of: hole.name,
    missingMm: plugMm - roomMm,
    shortestMm: thread.diameterMm,
  }),
  *mend({ of, missingMm, shortestMm }, { part, length, tree, write }) {
    const hole = part.featureByName.get(of);
    if (hole?.kind !== 'hole' || !hole.threadDepth) return;
    const deeper = roundUp(hole.depth.mm + missingMm, part.units);
    yield change(`Drill it ${length(deeper)} deep`, setLength(hole.depth.length, deeper, part));
    const shorter = roundDown(hole.threadDepth.mm - missingMm, part.units);
    if (shorter < shortestMm) return;
    yield change(`Make the thread ${length(shorter)} deep`, setField(tree, of, 'thread-depth', write(shorter)));
  },
});
