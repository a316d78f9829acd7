/**
 * Milled volumes as their cutter meets them in their set-ups: with stock still on the faces, and what is cut later still
 * standing beside them. Depths count from the plane of the stock. Which corners there are the finished part says: where a
 * wall is cut away later the cutter runs on into it.
 */

import type { Solid, Void } from '../geometry/types';
import { memo } from '../memo';
import type { Face, Feature, Part } from '../model/model';
import { SAME } from '../tolerance';
import { beside, inward, type Place } from './column';
import { type Corner, insideCorners, isSameCorner } from './corners';
import { lowestDepth } from './lowest';
import { MILLED, type MilledVoid, milledVoids } from './milling';
import { dot } from './section';
import { cutsOf, timelineOf } from './stock';
import type { Cut, Timeline } from './stock/types';

export interface MilledInSetup {
  readonly milled: MilledVoid;
  /** The same on the finished part. */
  readonly finished: MilledVoid;
  /** What stands round it then; the finished part where no set-up cuts it from above. */
  readonly place: Place;
  readonly cut?: Cut;
}

/** One for each milled volume and each cut of it. */
export function milledInSetup(feature: Feature, part: Part, solid: Solid): readonly MilledInSetup[] {
  const then = part.setups ? inTime(feature, timelineOf(part, solid), part, solid) : [];
  return then.length > 0
    ? then
    : milledVoids(feature, part, solid).map((milled) => ({ milled, finished: milled, place: solid }));
}

const inTime = memo(
  (feature: Feature, timeline: Timeline, part: Part, solid: Solid): readonly MilledInSetup[] =>
    cutsOf(timeline, feature).flatMap((cut) => {
      const { up, setup } = timeline.setups[cut.setup]!;
      if (!up || setup.hold?.type === 'angle') return [];
      return milledInCut(cut, up, feature, part, solid);
    }),
  { owners: 'second' },
);

/** What a cut takes of a feature, seen from the face that is up. */
export function milledInCut(
  cut: Cut,
  up: Face,
  feature: Feature,
  part: Part,
  solid: Solid,
): readonly (MilledInSetup & { readonly cut: Cut })[] {
  return inCut(cut, milledVoids(feature, part, solid), up);
}

const inCut = memo(
  (cut: Cut, finished: readonly MilledVoid[], up: Face): readonly (MilledInSetup & { readonly cut: Cut })[] => {
    const own = cut.removes.filter((v) => MILLED.has(v.role) && Math.abs(dot(v.frame.w, inward(up))) > 1 - SAME);
    const corners = own.flatMap((v) => cornersThen(v, cut, up));
    return own.flatMap((v) => {
      const m = finished.find((f) => isOf(v, f.of));
      if (!m) return [];
      const tipMm = lowestDepth(v, cut.before, cut.removes, up);
      const kept = m.corners.flatMap((c) => asThen(c, corners) ?? []);
      return [{ milled: { ...m, of: v, face: up, corners: kept, tipMm }, finished: m, place: cut.after, cut }];
    });
  },
  { size: 2 },
);

/** The volume of the finished part that was carried on through the stock, or cut off where the set-up stops. */
function isOf(v: Void, drawn: Void): boolean {
  return v.member === drawn.member && v.role === drawn.role && v.from < drawn.to - SAME && v.to > drawn.from + SAME;
}

function cornersThen(v: Void, { after }: Cut, up: Face): readonly Corner[] {
  return insideCorners(v, { body: after.body, voids: beside(v, after) }, up);
}

/** A corner of the finished part where its walls begin and end then; undefined where this cut makes nothing of it. */
function asThen(c: Corner, then: readonly Corner[]): Corner | undefined {
  const same = then.filter((d) => isSameCorner(d, c));
  if (same.length === 0) return undefined;
  return {
    ...c,
    topMm: Math.min(...same.map((d) => d.topMm)),
    floorMm: Math.max(...same.map((d) => d.floorMm)),
  };
}
