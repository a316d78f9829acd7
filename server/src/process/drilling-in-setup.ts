/**
 * A hole as its drill meets it in its set-up: on the workpiece as it is then, with what is cut later still there and stock
 * still on its faces. Depths count from the plane of the stock.
 */

import type { Solid } from '../geometry/types';
import { memo } from '../memo';
import type { Hole, Part } from '../model/model';
import type { Place } from './column';
import { beforeCrossing } from './drill-order';
import { type Bored, bored, boresOf, without } from './drilling';
import { facesToJudge } from './milling';
import { timelineOf } from './stock';
import type { Cut, Timeline } from './stock/types';

export interface BoredInSetup {
  readonly b: Bored;
  /** What it is drilled into: the workpiece then; without set-ups the part before what crosses it is drilled. */
  readonly place: Place;
}

const cutsByName = memo(({ setups }: Timeline): ReadonlyMap<string, readonly Cut[]> => {
  const found = new Map<string, Cut[]>();
  for (const cut of setups.flatMap((s) => s.cuts)) {
    const known = found.get(cut.name);
    if (known) known.push(cut);
    else found.set(cut.name, [cut]);
  }
  return found;
});

/** The bores of a hole where it is drilled first; on the finished part where no set-up drills it. None for a leaning hole. */
export function boresInSetup(hole: Hole, part: Part, solid: Solid): readonly BoredInSetup[] {
  if (hole.tilt) return boresOf(hole, part, solid).map((b) => ({ b, place: solid }));
  if (!part.setups) return inWorkshopOrder(hole, solid, part);
  return inTime(hole, timelineOf(part, solid), part, solid);
}

const inTime = memo(
  (hole: Hole, timeline: Timeline, part: Part, solid: Solid): readonly BoredInSetup[] => {
    const faces = facesToJudge(hole, part, solid);
    const cut = cutsByName(timeline)
      .get(hole.name)
      ?.find((c) => {
        const { up, setup } = timeline.setups[c.setup]!;
        return up !== undefined && faces.includes(up) && setup.hold?.type !== 'angle';
      });
    const bores = cut?.removes.filter((v) => v.role === 'bore') ?? [];
    if (!cut || bores.length === 0) return boresOf(hole, part, solid).map((b) => ({ b, place: solid }));
    const up = timeline.setups[cut.setup]!.up!;
    const place = cut.before;
    return bores.map((of) => ({ b: bored(of, hole, up, faces, without(place, hole.name, of)), place }));
  },
  { owners: 'second' },
);

/** Without set-ups: what crosses it is there where a workshop drills it first. Each hole is held against all others, once for all rules. */
const inWorkshopOrder = memo(
  (hole: Hole, solid: Solid, part: Part): readonly BoredInSetup[] => {
    const bores = boresOf(hole, part, solid);
    const place = beforeCrossing(hole, part, solid);
    if (place === solid) return bores.map((b) => ({ b, place: solid }));
    return bores.map(({ of, face, faces }) => ({
      b: bored(of, hole, face, faces, without(place, hole.name, of)),
      place,
    }));
  },
  { owners: 'second' },
);
