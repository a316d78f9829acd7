/** thread/no-room – a blind hole ends before the tap has cut the thread in full. */

import type { Hole } from '../../model/model';
import type { Tap } from '../../model/shop-model';
import type { Bored } from '../../process/drilling';
import { boresOf } from '../../process/drilling';
import type { Thread } from '../../tables/threads';
import { setLength } from '../kit/edits';
import { setField, subjectOf } from '../kit/fields';
import { fact, roundDown, roundUp, spanOf, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';
import { CHAMFER_PITCHES, isBlind, tapped } from './judge';

const NAME = 'thread/no-room';

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
    const b = boresOf(hole, part, solid).find(isBlind);
    if (!b) continue;
    const roomMm = hole.depth.mm - hole.threadDepth.mm;
    const pitches = (t: Tap) => (t.chamfer === 'taper' ? CHAMFER_PITCHES.taper : limit(t.chamfer));
    const tap = [...taps].sort((x, y) => pitches(x) - pitches(y))[0];
    const leastMm = (tap ? pitches(tap) : limit('plug')) * thread.pitchMm;
    const plugMm = limit('plug') * thread.pitchMm;
    if (roomMm >= Math.max(leastMm, plugMm) - 1e-6) continue;
    yield { hole, thread, b, roomMm, leastMm, plugMm, ...(tap && { tap }) };
  }
}

function findingOf({ hole, thread, b, roomMm, leastMm, plugMm, tap }: Cramped, context: RuleContext): Finding {
  const { length, part } = context;
  const none = roomMm < leastMm - 1e-6;
  const need = none ? leastMm : plugMm;
  const deeper = roundUp(hole.depth.mm + need - roomMm, part.units);
  const shorter = roundDown(hole.threadDepth!.mm - (need - roomMm), part.units);
  const cure = [
    `a hole ${length(deeper)} deep`,
    ...(shorter >= thread.diameterMm ? [`a thread ${length(shorter)} deep`] : []),
  ].join(' or ');
  const left = roomMm < 1e-6 ? 'nothing is left below the thread' : `only ${length(roomMm)} are left below the thread`;
  const starts = left[0]!.toUpperCase() + left.slice(1);
  return {
    rule: NAME,
    severity: none ? 'error' : 'hint',
    message: none
      ? `${starts}, and ${tap ? `${tap.name} (${tap.chamfer})` : 'a plug tap'} tapers over ${trimmed(leastMm / thread.pitchMm, 1)} turns, ${length(leastMm)}: the last turns stay uncut. ${cure[0]!.toUpperCase()}${cure.slice(1)} would do.`
      : `${starts}: enough for ${tap!.name} (${tap!.chamfer}, ${length(leastMm)}) after a plug tap has gone first, which needs ${length(plugMm)}. ${cure[0]!.toUpperCase()}${cure.slice(1)} saves the second tap.`,
    of: [hole.name],
    span: hole.threadDepth!.span,
    related: [{ span: spanOf(hole, 'depth'), message: `the hole is ${length(hole.depth.mm)} deep` }],
    facts: {
      room_mm: fact(roomMm),
      needed_mm: fact(need),
      chamfer_mm: fact(leastMm),
      plug_mm: fact(plugMm),
      pitch_mm: fact(thread.pitchMm),
      turns: fact(leastMm / thread.pitchMm),
      hole_depth_mm: fact(hole.depth.mm),
      thread_depth_mm: fact(hole.threadDepth!.mm),
      needed_depth_mm: fact(deeper),
      allowed_thread_mm: fact(shorter),
      ...(tap && { tool: tap.name }),
    },
    at: [b.axis],
  };
}

export const noRoom: Rule = {
  name: NAME,
  severity: 'error',
  summary: 'A blind tapped hole has too little room below the thread for the tap’s tapered end.',
  why: 'The first turns of a tap are ground away so that it starts; what they pass last stays half cut. A tap driven on to the bottom breaks, and a broken tap is a lost part.',
  formula:
    '`room_mm` = hole depth − thread depth, against the turns the tap tapers over × pitch: 3 to 5 for a plug tap, 1 to 2 for a bottoming tap. Error where no tap on hand has the room, hint where only a bottoming tap has. The cone below the hole is not counted: small taps have a point of their own there.',
  limits: [
    {
      name: 'plug',
      value: 4,
      unit: 'count',
      what: 'turns that a plug tap tapers over',
      source: 'US Army TM 9-254, para. 4-27: 3 to 5',
    },
    {
      name: 'bottoming',
      value: 1.5,
      unit: 'count',
      what: 'turns that a bottoming tap tapers over',
      source: 'US Army TM 9-254, para. 4-27: 1 to 2',
    },
  ],
  bad: `part: stud-block
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
`,
  good: `part: stud-block
material: aluminium-6061-t6
body: { x: 30, y: 30, z: 25 }
features:
  stud:
    kind: hole
    face: top
    at: { x: center, y: center }
    thread: M6
    thread-depth: 12
    depth: 17
`,
  mends: 'A deeper hole, or a shorter thread.',
  *find(context) {
    for (const c of cramped(context)) yield findingOf(c, context);
  },
  *mend(finding, context): Generator<Fix> {
    const c = [...cramped(context)].find((x) => x.hole === subjectOf(finding, context.part));
    if (!c) return;
    const { hole, thread, roomMm, plugMm } = c;
    const { part, length, tree, write } = context;
    const deeper = roundUp(hole.depth.mm + plugMm - roomMm, part.units);
    const edit = setLength(hole.depth.length, deeper, part);
    if (edit) yield { title: `Drill it ${length(deeper)} deep`, safe: false, edits: [edit] };
    const shorter = roundDown(hole.threadDepth!.mm - (plugMm - roomMm), part.units);
    const edits = shorter >= thread.diameterMm ? setField(tree, hole.name, 'thread-depth', write(shorter)) : undefined;
    if (edits) yield { title: `Thread it ${length(shorter)} deep`, safe: false, edits };
  },
};
