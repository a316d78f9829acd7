/**
 * Into how many lumps a cluster of voids cuts the body: the body is sliced between all depths where a section changes
 * its make-up, each slice's section is split into its connected regions, and regions of neighbouring slices that lie
 * over each other are one lump. Sections that change within a slice are looked at twice; where that shows more than one
 * lump, again and closer.
 */

import { Priced, within } from '../../effort';
import { memo } from '../../memo';
import { ROUNDING } from '../../tolerance';
import { chainLoops, regionsOfLoops } from '../2d/assemble-loops';
import { boundaryOf } from '../2d/boolean';
import { lengthOf, pointAt, tangentAt } from '../2d/edge';
import type { Sheet } from '../2d/indexed-region';
import { isInside } from '../2d/inside';
import { regionEdges, regionMoments } from '../2d/moments';
import { insetRegion } from '../2d/offset';
import type { Point2, Region } from '../types';
import type { AxisIndex } from '../vector';
import { boundsOf, insetAt, type Prism } from './prism';
import { sectionOf, standing } from './section';
import { plainStopsOf } from './stops';
import { bestAxis } from './volume-integral';

/** Regions smaller than this are rounding, mm². */
const SPECK_MM2 = 1e-4;
/** Lumps smaller than this are chips that nobody would call a piece of the part, mm³. */
const CRUMB_MM3 = 0.5;
const LOOKS = 2;
/** The same where more than one lump was seen and sections change on the way: nobody is told of two for a coarse look. */
const CLOSE_LOOKS = 4;
/** Looks at an edge that looking closer may cost. */
const CLOSE_COST = 2e6;
/** Where in a slice its section is taken: the first place at which the outlines can be followed. */
const SHARES = [0.5, 0.37, 0.61, 0.29, 0.83];

/** What is seen where a slice is looked at. */
interface Look {
  readonly body: Sheet;
  readonly cuts: readonly Sheet[];
  readonly regions: readonly Region[];
  /** Points well inside each of its regions. */
  points(): readonly Point2[];
}

interface Slab extends Look {
  readonly height: number;
  /** Number of its first region among all. */
  readonly first: number;
}

/** Lumps of the body less the voids; undefined where the sections cannot be followed. */
export function lumpsOf(body: Prism, voids: readonly Prism[]): number | undefined {
  const axis = bestAxis([...voids, body]);
  const layers = voids.flatMap((v) => inLayers(v, axis));
  const seen = volumesOf(body, layers, axis, LOOKS);
  if (!seen || seen.length < 2 || [...voids, body].every((p) => isStill(p, axis))) return seen && sizable(seen);
  // chips one way, chips the other way
  if (sizable(seen.map((mm3) => 4 * mm3)) < 2) return sizable(seen);
  const closer = within(
    { remaining: CLOSE_COST },
    () => volumesOf(body, voids, axis, CLOSE_LOOKS),
    () => undefined,
  );
  return closer && sizable(closer);
}

const sizable = (volumes: readonly number[]) =>
  volumes.length < 2 ? volumes.length : volumes.filter((v) => v > CRUMB_MM3).length;

/** Volumes of the lumps, mm³, about; of one lump alone its volume is not worked out. */
function volumesOf(
  body: Prism,
  voids: readonly Prism[],
  axis: AxisIndex,
  looks: number,
): readonly number[] | undefined {
  const slabs = slabsOf(body, voids, axis, looks);
  if (!slabs) return undefined;
  const count = slabs.reduce((n, s) => n + s.regions.length, 0);
  const root = Array.from({ length: count }, (_, i) => i);
  const find = (i: number): number => {
    while (root[i] !== i) i = root[i]!;
    return i;
  };
  const join = (a: number, b: number) => {
    root[find(a)] = find(b);
  };
  // a point that regions of both slices hold joins them; when that makes all one, nothing more need be asked
  for (let n = 0; n + 1 < slabs.length; n++) linkBySight(slabs[n]!, slabs[n + 1]!, join);
  if (root.every((_, i) => find(i) === find(0))) return count > 0 ? [body.to - body.from] : [];
  for (let n = 0; n + 1 < slabs.length; n++) {
    const below = slabs[n]!;
    const above = slabs[n + 1]!;
    const common = materialOf(once([below.body, above.body]), once([...below.cuts, ...above.cuts]));
    if (!common) return undefined;
    for (const r of common) {
      const p = pointsIn(r)[0];
      if (p) link(below, above, p, join);
    }
  }
  const volumes = new Map<number, number>();
  for (const s of slabs) {
    s.regions.forEach((r, i) => {
      const lump = find(s.first + i);
      volumes.set(lump, (volumes.get(lump) ?? 0) + regionMoments(r).area * s.height);
    });
  }
  return [...volumes.values()];
}

/** Sections that do not change from slice to slice are the same sheet. */
function once(sheets: readonly Sheet[]): readonly Sheet[] {
  return [...new Set(sheets)];
}

function slabsOf(body: Prism, voids: readonly Prism[], axis: AxisIndex, closely: number): readonly Slab[] | undefined {
  const stops = plainStopsOf([...voids, body], axis, body.bounds.min[axis], body.bounds.max[axis]);
  const slabs: Slab[] = [];
  let first = 0;
  for (let n = 0; n + 1 < stops.length; n++) {
    const a = stops[n]!;
    const b = stops[n + 1]!;
    const here = voids.filter((v) => v.bounds.min[axis] < b - ROUNDING && v.bounds.max[axis] > a + ROUNDING);
    const looks = [...here, body].every((p) => isStill(p, axis)) ? 1 : closely;
    for (let k = 0; k < looks; k++) {
      const height = (b - a) / looks;
      const places = SHARES.map((share) => a + (k + share) * height);
      const made = lookAtOne(here[0] ?? body, places, axis, body, here);
      if (!made) return undefined;
      slabs.push({ ...made, height, first });
      first += made.regions.length;
    }
  }
  return slabs;
}

function isStill(p: Prism, axis: AxisIndex): boolean {
  return p.profile.type === 'straight' && standing(p, axis) === 'along';
}

/**
 * A tapered volume that does not stand along the axis, as a few straight layers: what hangs together does not turn on
 * the curve between them, and its sections are rectangles.
 */
const inLayers = memo(
  (p: Prism, axis: AxisIndex): readonly Prism[] => {
    if (p.profile.type === 'straight' || standing(p, axis) === 'along') return [p];
    const n = p.to - p.from > 2 ? 4 : 2;
    const profile = { type: 'straight' } as const;
    return Array.from({ length: n }, (_, k) => k).flatMap((k) => {
      const from = p.from + ((p.to - p.from) * k) / n;
      const to = p.from + ((p.to - p.from) * (k + 1)) / n;
      return (insetRegion(p.region, insetAt(p, (from + to) / 2)) ?? []).map((region) => {
        const bounds = boundsOf(p.frame, region, from, to, profile);
        return { frame: p.frame, region, from, to, profile, bounds };
      });
    });
  },
  { size: 3 },
);

/**
 * At the first place at which the outlines can be followed; undefined where there is none. Kept with the first volume that
 * is cut: an edit costs the slices that a changed volume runs through.
 */
const lookAtOne = memo(
  (
    _first: Prism,
    places: readonly number[],
    axis: AxisIndex,
    body: Prism,
    voids: readonly Prism[],
  ): Look | undefined => {
    for (const at of places) {
      const seen = lookAt(body, voids, axis, at);
      if (seen) return seen;
    }
    return undefined;
  },
  { size: 160 },
);

function lookAt(body: Prism, voids: readonly Prism[], axis: AxisIndex, at: number): Look | undefined {
  const sheet = sectionOf(body, axis, at).sheet;
  const cuts = voids.map((v) => sectionOf(v, axis, at).sheet).filter((s) => s.edges.length > 0);
  const regions = materialOf([sheet], cuts);
  return regions && { body: sheet, cuts, regions, points: seenIn(regions) };
}

function materialOf(within: readonly Sheet[], without: readonly Sheet[]): readonly Region[] | undefined {
  const loops = chainLoops(boundaryOf(within, without));
  const regions = loops && regionsOfLoops(loops);
  return regions?.filter((r) => regionMoments(r).area > SPECK_MM2);
}

/** Joins the regions of two neighbouring slices that both hold the point. */
function link(below: Slab, above: Slab, p: Point2, join: (a: number, b: number) => void): void {
  const a = below.regions.findIndex((x) => isInside(x, p.u, p.v));
  const b = a < 0 ? -1 : above.regions.findIndex((x) => isInside(x, p.u, p.v));
  if (b >= 0) join(below.first + a, above.first + b);
}

function linkBySight(below: Slab, above: Slab, join: (a: number, b: number) => void): void {
  for (const p of [...below.points(), ...above.points()]) link(below, above, p, join);
}

/** Asked for by both neighbours of a slice, and worked out once; as the look is kept, whoever asks pays. */
function seenIn(regions: readonly Region[]): Slab['points'] {
  const points = new Priced(() => regions.flatMap(pointsIn));
  return () => points.get();
}

/** Points well inside a region: a little in from the middles of its longest edges. */
function pointsIn(r: Region): readonly Point2[] {
  const edges = regionEdges(r)
    .map((e) => ({ e, mm: lengthOf(e) }))
    .sort((a, b) => b.mm - a.mm)
    .slice(0, 6);
  for (const hair of [0.05, 0.005, 0.0005]) {
    const found = edges.flatMap(({ e }) => {
      const m = pointAt(e, 0.5);
      const t = tangentAt(e, m);
      const p = { u: m.u - t.v * hair, v: m.v + t.u * hair };
      return isInside(r, p.u, p.v) ? [p] : [];
    });
    if (found.length > 0) return found;
  }
  return [];
}
