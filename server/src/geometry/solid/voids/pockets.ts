/** Pockets with their islands and corner reliefs. An island lower than the pocket is deep splits it into layers. */

import type { Island, Pocket, Shape } from '../../../model/model';
import { ROUNDING } from '../../../tolerance';
import { reversedLoop, subtractRegions } from '../../2d/assemble-loops';
import { windingOf } from '../../2d/inside';
import { meetings } from '../../2d/intersect';
import { insetRegion } from '../../2d/offset';
import { mapLoop, shift } from '../../2d/plane-map';
import { outlineOf } from '../../2d/shape-outline';
import type { Loop, Profile, Region, Void } from '../../types';
import { depthRange, eachPlace, floorProfile, makeVoid, STRAIGHT, type Surroundings } from './make';
import { reliefsOf, reliefVoids } from './relief';

/** For each member: a void for each layer between island tops, then its corner reliefs. None for an empty outline. */
export function pocketVoids(pocket: Pocket, { part, size }: Surroundings): readonly Void[] {
  const outer = outlineOf(pocket.shape);
  if (!outer) return [];
  const range = depthRange(pocket, pocket.depth, size, { outer, holes: [] });
  if (!range) return [];
  const islands = pocket.islands.flatMap((island) => {
    const loop = islandLoop(island);
    // how far down its top lies; above the pocket's rim is as good as at it
    const top = Math.max(range.from, range.to - island.height.mm);
    return loop && top < range.to - ROUNDING ? [{ loop, top, rootMm: island.rib?.root?.mm ?? 0 }] : [];
  });
  const levels = [...new Set([range.from, ...islands.map((i) => i.top)])].sort((a, b) => a - b);
  const layers = levels.flatMap((from, n) => {
    const to = levels[n + 1] ?? range.to;
    const standing = islands.filter((i) => i.top <= from + ROUNDING);
    const loops = standing.map((i) => i.loop);
    const rootMm = Math.max(0, ...standing.map((i) => i.rootMm));
    return withIslands(outer, loops)
      .flatMap((r) => rounded(r, rootMm))
      .map((region) => ({ region, from, to, lowest: to === range.to }));
  });
  const reliefs = reliefsOf(pocket, outer, islands, range);
  const out: Void[] = [];
  for (const { member, frame } of eachPlace(pocket, size)) {
    for (const l of layers) {
      const profile: Profile = pocket.draft
        ? { type: 'taper', insetFrom: 0, insetTo: (l.to - l.from) * Math.tan((pocket.draft.deg * Math.PI) / 180) }
        : l.lowest
          ? floorProfile(pocket.floorRadius.mm, { ...l, through: range.through })
          : STRAIGHT;
      out.push(
        makeVoid(pocket, {
          member,
          role: 'pocket',
          frame,
          region: l.region,
          from: l.from,
          to: l.to,
          profile,
          through: range.through && l.lowest,
        }),
      );
    }
    out.push(...reliefVoids(pocket, { member, frame }, reliefs, range, part));
  }
  return out;
}

/** Its corners as round as a cutter of this radius leaves them: all that such a cutter gets to. */
function rounded(region: Region, radiusMm: number): readonly Region[] {
  if (radiusMm <= 0) return [region];
  const centres = insetRegion(region, radiusMm) ?? [];
  const reached = centres.flatMap((r) => insetRegion(r, -radiusMm) ?? []);
  return reached.length > 0 ? reached : [region];
}

function islandLoop(island: Island): Loop | undefined {
  const loop = outlineOf(island.shape as Shape);
  return loop && mapLoop(shift(island.place.u, island.place.v), loop);
}

/** The outline less its islands. Loops that do not touch are holes as they are; else the difference is worked out. */
export function withIslands(outer: Loop, islands: readonly Loop[]): readonly Region[] {
  if (islands.length === 0) return [{ outer, holes: [] }];
  const loops = [outer, ...islands];
  let apart = islands.every((i) => windingOf(outer.edges, i.edges[0]!.a.u, i.edges[0]!.a.v) !== 0);
  for (let a = 0; apart && a < loops.length; a++) {
    for (let b = a + 1; apart && b < loops.length; b++) {
      apart = !loops[a]!.edges.some((e) => loops[b]!.edges.some((f) => meetings(e, f).length > 0));
      if (apart && a > 0) {
        const [p, q] = [loops[a]!.edges[0]!.a, loops[b]!.edges[0]!.a];
        apart = windingOf(loops[b]!.edges, p.u, p.v) === 0 && windingOf(loops[a]!.edges, q.u, q.v) === 0;
      }
    }
  }
  if (apart) return [{ outer, holes: islands.map(reversedLoop) }];
  const cut = subtractRegions(
    { outer, holes: [] },
    islands.map((i) => ({ outer: i, holes: [] })),
  );
  return cut ?? [{ outer, holes: [] }];
}
