/** Work that an outline cuts free of its frame of stock, but for the tabs: where they stand. */
import { lengthOf, pointAt } from '../../geometry/2d/edge';
import { keptLoops } from '../../geometry/solid/voids/contours';
import type { Edge, Point2 } from '../../geometry/types';
import type { Contour, Feature, Setup } from '../../model/model';
import { isThroughContour } from './loose';

export function isFreedOnTabs({ hold }: Setup, feature: Feature | undefined): feature is Contour {
  return hold?.type === 'tabs' && hold.tabs !== undefined && isThroughContour(feature);
}

/**
 * Their middles on the outline, in the plane of its face: as far from one another along it as they can be, from the middle of
 * its longest straight side on; each moved to the middle of a straight side that it would stand at the end of.
 */
export function tabPlaces(contour: Contour, count: number, wideMm: number): readonly Point2[] {
  return keptLoops(contour).flatMap(({ edges }) => {
    const starts = startsOf(edges);
    const total = edges.reduce((sum, e) => sum + lengthOf(e), 0);
    const straight = edges.map((e, i) => ({ e, from: starts[i]! })).filter(({ e }) => e.type === 'line');
    const longest = straight.reduce<(typeof straight)[number] | undefined>(
      (best, s) => (!best || lengthOf(s.e) > lengthOf(best.e) ? s : best),
      undefined,
    );
    const first = longest ? longest.from + lengthOf(longest.e) / 2 : 0;
    return Array.from({ length: count }, (_, k) => along(edges, starts, (first + (k * total) / count) % total, wideMm));
  });
}

function startsOf(edges: readonly Edge[]): readonly number[] {
  let at = 0;
  return edges.map((e) => {
    const from = at;
    at += lengthOf(e);
    return from;
  });
}

/** On a side with room for it a tab stands wholly on that side. */
function along(edges: readonly Edge[], starts: readonly number[], at: number, wideMm: number): Point2 {
  const i = starts.findLastIndex((from) => from <= at);
  const e = edges[Math.max(0, i)]!;
  const mm = lengthOf(e);
  const own = at - starts[Math.max(0, i)]!;
  const inside = e.type === 'line' && mm > wideMm ? Math.min(Math.max(own, wideMm / 2), mm - wideMm / 2) : own;
  return pointAt(e, inside / mm);
}
