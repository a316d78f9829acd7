/**
 * A hole as its drill meets it in its set-up: on the workpiece as it is then, with what is cut later still there and stock
 * still on its faces. Depths count from the plane of the stock.
 */

import type { Solid, Void } from '../geometry/types';
import type { Face, Hole, Part } from '../model/model';
import type { Place } from './access/column';
import { beforeCrossing } from './drill-order';
import { type Bored, bored, boresOf, without } from './drilling';
import { facesToJudge } from './milling';
import { timelineOf } from './stock';
import type { Cut, Timeline } from './stock/types';

export interface BoredThen {
  readonly b: Bored;
  /** What it is drilled into: the workpiece then; without set-ups the part before what crosses it is drilled. */
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
  if (hole.tilt) return boresOf(hole, part, solid).map((b) => ({ b, place: solid }));
  if (!part.setups) return inWorkshopOrder(hole, part, solid);
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
  return bores.map((of) => ({ b: boredIn(cut.before, of, up, faces, hole), place: cut.before }));
}

/** A bore seen from `face` in a place; the same object as long as that and what is about it are. */
function boredIn(place: Place, of: Void, face: Face, faces: readonly Face[], hole: Hole): Bored {
  const around = without(place, hole.name, of);
  const from = [hole, place.body, face, faces.join()];
  const known = kept.get(of) ?? [];
  const same = known.find((k) => alike(k.from, from) && alike(k.near, around.voids));
  if (same) return same.made;
  const made = bored(hole, of, face, faces, around);
  kept.set(of, [...known.slice(1 - KEEP), { from, near: around.voids, made }]);
  return made;
}

/** Without set-ups: what crosses it is there where a workshop drills it first. */
function inWorkshopOrder(hole: Hole, part: Part, solid: Solid): readonly BoredThen[] {
  const bores = boresOf(hole, part, solid);
  const place = beforeCrossing(hole, part, solid);
  if (place === solid) return bores.map((b) => ({ b, place: solid }));
  return bores.map(({ of, face, faces }) => ({ b: boredIn(place, of, face, faces, hole), place }));
}

function alike(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}
