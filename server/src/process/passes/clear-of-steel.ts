/**
 * A cutter keeps as far from the steel that holds the work as it may wherever it makes as much so: obstacles are taken as
 * larger by the margin. Where it then would not come to all that it makes, not on the side where they lie against the work,
 * of which some stands between; and where that does not do either, they are taken as they are.
 */
import { distanceTo, lengthOf, pointAt } from '../../geometry/2d/edge';
import { isInside } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { rectLoop } from '../../geometry/2d/shape-outline';
import type { Box, Edge, Point2, Region, Void } from '../../geometry/types';
import { sharedBox } from '../../geometry/vector';
import { ROUNDING } from '../../tolerance';
import { boxLeft } from '../stock';
import { marginOf } from '../workholding/margin';
import type { Obstacle } from '../workholding/seating';
import { type Around, type Cutting, centreAreas, GRID, metal, planeOf, SLACK_MM, seenFromAbove } from './centre-area';
import type { Making } from './making';

/** Rounding of what is printed: a path may be so much nearer. */
const INSIDE_MM = 0.02;
/** Looks along an outline, mm. */
const STEP_MM = 1;
const ALONG_MOST = 60;

export function keptClear(voids: readonly Void[], cutting: Cutting, plain: Around, m: Making): Around {
  const marginMm = marginOf(m.asked.shop);
  const reach = 4 * Math.max(...cutting.stages.map((s) => s.radiusMm));
  const work = boxLeft(plain.before);
  const grown = (towardWork: boolean, other = true): Around => ({
    ...plain,
    obstacles: plain.obstacles.map((o) =>
      o.what === 'parallel' || (o.on && !other) ? o : larger(o, marginMm, towardWork ? undefined : work),
    ),
  });
  const wide = grown(true);
  if (!voids.some((v) => wide.obstacles.some((o) => isNear(o, v, reach)))) return wide;
  const ways = [
    wide,
    grown(false),
    ...(plain.obstacles.some((o) => o.on) ? [grown(true, false), grown(false, false)] : []),
  ];
  return ways.find((a) => voids.every((v) => makesAsMuch(v, cutting, a, plain))) ?? plain;
}

/** Of a side that faces work beside it nothing is added where that is given; of another piece, whatever is cut in it. */
function larger({ box: { min, max }, what }: Obstacle, byMm: number, work?: Box): Obstacle {
  const low = min.map((x, k) => (work && x >= work.max[k]! - ROUNDING ? x : x - byMm));
  const high = max.map((x, k) => (work && x <= work.min[k]! + ROUNDING ? x : x + byMm));
  return { what, box: { min: [low[0]!, low[1]!, low[2]!], max: [high[0]!, high[1]!, high[2]!] } };
}

function isNear({ box }: Obstacle, { bounds }: Void, byMm: number): boolean {
  const { min, max } = sharedBox(box, bounds, byMm);
  return [0, 1, 2].every((k) => max[k]! > min[k]!);
}

/** Every place of the volume that it comes to otherwise it comes to so too. */
function makesAsMuch(v: Void, cutting: Cutting, wary: Around, plain: Around): boolean {
  const places = looksAt(v, plain);
  const some = missedBy(v, cutting, wary, places);
  return some.length === 0 || missedBy(v, cutting, plain, some).length === some.length;
}

function missedBy(v: Void, cutting: Cutting, around: Around, places: readonly Point2[]): readonly Point2[] {
  const filling = { ...cutting, leaveMm: -SLACK_MM };
  const areas = [
    ...(centreAreas(v, { ...filling, closed: false }, around) ?? []),
    ...(cutting.closed ? (centreAreas(v, filling, around) ?? []) : []),
  ].map((area) => ({ area, edges: regionEdges(area) }));
  const radius = cutting.stages[0]!.radiusMm + 2 * SLACK_MM;
  return places.filter(
    (p) => !areas.some((x) => isInside(x.area, p.u, p.v) || x.edges.some((e) => distanceTo(e, p.u, p.v) < radius)),
  );
}

/** A grid of places over what is metal, and close together along its edges, just inside. */
function looksAt(v: Void, { readOut, before }: Around): readonly Point2[] {
  const [a, b] = planeOf(readOut);
  const { min, max } = metal(v, before);
  const [u0, v0, u1, v1] = [min[a] + INSIDE_MM, min[b] + INSIDE_MM, max[a] - INSIDE_MM, max[b] - INSIDE_MM];
  const outline: Region = seenFromAbove(v, a, b);
  const grid = Array.from({ length: GRID * GRID }, (_, n): Point2 => {
    const [i, k] = [n % GRID, Math.floor(n / GRID)];
    return { u: u0 + ((i + 0.5) * (u1 - u0)) / GRID, v: v0 + ((k + 0.5) * (v1 - v0)) / GRID };
  });
  const edges = [...rectLoop(u0, v0, u1, v1).edges, ...regionEdges(outline)];
  return [...grid, ...edges.flatMap(along)].filter(
    (p) => p.u >= u0 && p.u <= u1 && p.v >= v0 && p.v <= v1 && isInside(outline, p.u, p.v),
  );
}

function along(e: Edge): readonly Point2[] {
  const n = Math.min(ALONG_MOST, Math.max(2, Math.ceil(lengthOf(e) / STEP_MM)));
  return Array.from({ length: n }, (_, k) => pointAt(e, (k + 0.5) / n));
}
