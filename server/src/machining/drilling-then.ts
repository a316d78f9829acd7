/**
 * A hole as its drill meets it in its set-up: on the workpiece as it is then, with what is cut later still there and stock
 * still on its faces. Depths count from the plane of the stock.
 */

import type { Solid, Void } from '../geometry/types';
import type { Hole, Part } from '../spec/model';
import type { Place } from './column';
import { type Bored, bored, boresOf, without } from './drilling';
import { facesToJudge } from './milling';
import { timelineOf } from './workpiece';
import type { Cut, Timeline } from './workpiece/types';

export interface BoredThen {
  readonly b: Bored;
  /** What it is drilled into: the workpiece then, or where no set-up drills it the finished part. */
  readonly place: Place;
}

interface Kept {
  readonly from: readonly unknown[];
  readonly near: readonly Void[];
  readonly made: Bored;
}
const kept = new WeakMap<Void, Kept[]>();
/** A planner tries a hole in several orders. */
const KEEP = 6;

/** What several rules ask of one state of the text. */
interface Asked {
  readonly first: ReadonlyMap<string, readonly Cut[]>;
  readonly found: Map<Hole, readonly BoredThen[]>;
}
const asked = new WeakMap<Timeline, Asked>();

function askedOf(timeline: Timeline): Asked {
  let made = asked.get(timeline);
  if (!made) {
    const first = new Map<string, Cut[]>();
    for (const { cuts } of timeline.setups)
      for (const cut of cuts) {
        const known = first.get(cut.name);
        if (known) known.push(cut);
        else first.set(cut.name, [cut]);
      }
    made = { first, found: new Map() };
    asked.set(timeline, made);
  }
  return made;
}

/** The bores of a hole where it is drilled first; on the finished part where no set-up drills it. None for a leaning hole. */
export function boresThen(hole: Hole, part: Part, solid: Solid): readonly BoredThen[] {
  if (!part.setups || hole.tilt) return boresOf(hole, part, solid).map((b) => ({ b, place: solid }));
  const timeline = timelineOf(part, solid);
  const { first, found } = askedOf(timeline);
  let made = found.get(hole);
  if (!made) {
    made = inTime(hole, first.get(hole.name) ?? [], timeline, part, solid);
    found.set(hole, made);
  }
  return made;
}

function inTime(hole: Hole, cuts: readonly Cut[], timeline: Timeline, part: Part, solid: Solid): readonly BoredThen[] {
  const faces = facesToJudge(hole, part, solid);
  const cut = cuts.find((c) => {
    const { up, setup } = timeline.setups[c.setup]!;
    return up !== undefined && faces.includes(up) && setup.hold?.type !== 'angle';
  });
  const bores = cut?.removes.filter((v) => v.role === 'bore') ?? [];
  if (!cut || bores.length === 0) return boresOf(hole, part, solid).map((b) => ({ b, place: solid }));
  const up = timeline.setups[cut.setup]!.up!;
  return bores.map((of) => {
    const place = without(cut.before, hole.name, of);
    const from = [hole, cut.before.body, up, faces.join()];
    const known = kept.get(of) ?? [];
    const same = known.find((k) => alike(k.from, from) && alike(k.near, place.voids));
    if (same) return { b: same.made, place: cut.before };
    const made = bored(hole, of, up, faces, place);
    kept.set(of, [...known.slice(1 - KEEP), { from, near: place.voids, made }]);
    return { b: made, place: cut.before };
  });
}

function alike(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}
