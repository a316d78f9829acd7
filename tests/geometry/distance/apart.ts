/** Least distances of whole edges, loops and regions, summed up from the places that the program finds for two edges. */
import { outlineOf, type Side, signedDistance } from '../../../server/src/geometry/distance/outline';
import { boundsApart, eachNearest } from '../../../server/src/geometry/distance/planar';
import type { Edge, Loop, Point2, Region } from '../../../server/src/geometry/types';

interface Nearest {
  readonly mm: number;
  readonly p: Point2;
  readonly q: Point2;
}

const sidesOf = (edges: readonly Edge[]): readonly Side[] => outlineOf({ outer: { edges }, holes: [] }).sides;

/** 0 where they cross. */
function sidesApart(a: readonly Side[], b: readonly Side[]): Nearest {
  let best: Nearest | undefined;
  for (const e of a) {
    for (const f of b) {
      if (best && boundsApart(e, f) >= best.mm) continue;
      eachNearest(e, f, (p, q) => {
        const mm = Math.hypot(p.u - q.u, p.v - q.v);
        if (!best || mm < best.mm) best = { mm, p, q };
      });
    }
  }
  return best!;
}

export const edgesApart = (e: Edge, f: Edge): Nearest => sidesApart(sidesOf([e]), sidesOf([f]));

export const loopsApart = (a: Loop, b: Loop): Nearest => sidesApart(sidesOf(a.edges), sidesOf(b.edges));

interface RegionGap extends Nearest {
  /** They share area or touch; `inside` where one lies wholly in the other: 0 apart then. */
  readonly relation: 'apart' | 'meet' | 'a-inside-b' | 'b-inside-a';
}

/** Regions as areas: 0 where they share a point, with how they lie to each other. */
export function regionsApart(a: Region, b: Region): RegionGap {
  const [one, two] = [outlineOf(a), outlineOf(b)];
  const gap = sidesApart(one.sides, two.sides);
  if (gap.mm <= 1e-9) return { ...gap, mm: 0, relation: 'meet' };
  const [sa, sb] = [one.sides[0]!, two.sides[0]!];
  if (signedDistance(two, sa.ax, sa.ay) < 0) return { ...gap, mm: 0, relation: 'a-inside-b' };
  if (signedDistance(one, sb.ax, sb.ay) < 0) return { ...gap, mm: 0, relation: 'b-inside-a' };
  return { ...gap, relation: 'apart' };
}
