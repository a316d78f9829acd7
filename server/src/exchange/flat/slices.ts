/**
 * The part cut into slices square to a direction of sight, nearest first. Between two neighbouring depths its section
 * changes smoothly and one way only, so the sections at both ends say all that is seen of it.
 */
import { bodyPrism } from '../../geometry/body';
import { chainLoops, regionsOfLoops, uniteRegions } from '../../geometry/chain';
import { boundaryOf } from '../../geometry/combine';
import { perimeterOf, regionEdges, regionMoments } from '../../geometry/moments';
import { mapRegion } from '../../geometry/plane-map';
import type { Prism } from '../../geometry/prism';
import { sectionOf, standing } from '../../geometry/section';
import { type Sheet, sheetOf } from '../../geometry/sheet';
import { plainStopsOf } from '../../geometry/stops';
import type { Region, Solid } from '../../geometry/types';
import type { View } from './view';

/** Slices thinner than this are rounding, mm. */
const THIN = 1e-9;
/** Sections are taken this far inside their slice, mm: at the very end they are of two minds. Far below any tolerance. */
const INSIDE = 1e-12;
/** Narrower than this all over, mm: a surface touched by the plane, not cut. */
const HAIR = 1e-3;

/** Material of one slice at its ends, in the drawing's coordinates. */
export interface Slice {
  /** Depth below the near end of the body, mm. */
  readonly from: number;
  readonly to: number;
  readonly near: readonly Region[];
  readonly far: readonly Region[];
}

/** The slices seen from a face. Undefined where a section is too tangled to follow. */
export function slicesOf({ body, voids }: Pick<Solid, 'body' | 'voids'>, view: View): readonly Slice[] | undefined {
  const { axis, looks } = view;
  const block = bodyPrism(body);
  const [low, high] = [body.box.min[axis], body.box.max[axis]];
  const stops = plainStopsOf([...voids, block], axis, low, high);
  const slices: Slice[] = [];
  let last: { readonly still: readonly Prism[]; readonly material: readonly Region[] } | undefined;
  for (let n = 0; n + 1 < stops.length; n++) {
    const [a, b] = [stops[n]!, stops[n + 1]!];
    const here = voids.filter((v) => v.bounds.min[axis] < b - THIN && v.bounds.max[axis] > a + THIN);
    const still = [block, ...here].every((p) => standing(p, axis) === 'along' && p.profile.type === 'straight');
    if (still && last && last.still.length === here.length && last.still.every((p, i) => p === here[i])) {
      const { material } = last;
      slices.push({ from: a, to: b, near: material, far: material });
      continue;
    }
    const low2 = materialAt(block, here, view, a + INSIDE);
    const high2 = still ? low2 : materialAt(block, here, view, b - INSIDE);
    if (!low2 || !high2) return undefined;
    slices.push({ from: a, to: b, near: low2, far: high2 });
    last = still ? { still: here, material: low2 } : undefined;
  }
  if (looks > 0) return slices.map((s) => ({ ...s, from: s.from - low, to: s.to - low }));
  return slices.reverse().map((s) => ({ from: high - s.to, to: high - s.from, near: s.far, far: s.near }));
}

function materialAt(block: Prism, voids: readonly Prism[], view: View, at: number): readonly Region[] | undefined {
  const cuts = voids
    .map((v) => sectionOf(v, view.axis, at).sheet)
    .filter((s) => s.edges.length > 0 && s.rect.u1 - s.rect.u0 > THIN && s.rect.v1 - s.rect.v0 > THIN);
  const loops = chainLoops(boundaryOf([sectionOf(block, view.axis, at).sheet], cuts));
  const regions = loops && regionsOfLoops(loops);
  return regions?.filter(isBroad).map((r) => mapRegion(view.map, r));
}

/** Everything that any of these covers; those that are the same are looked at once. Undefined where too tangled. */
export function united(...groups: readonly (readonly Region[])[]): readonly Region[] | undefined {
  const all = [...new Set(groups.flat())];
  return all.length === 0 ? [] : uniteRegions(all)?.filter(isBroad);
}

/** What is in `all` and not in `less`. */
export function without(all: readonly Region[], less: readonly Region[]): readonly Region[] | undefined {
  if (all === less) return [];
  const loops = chainLoops(boundaryOf([sheetOfAll(all)], [sheetOfAll(less)]));
  const regions = loops && regionsOfLoops(loops);
  return regions?.filter(isBroad);
}

export function sheetOfAll(regions: readonly Region[]): Sheet {
  return sheetOf(regions.flatMap(regionEdges), regions.length > 1);
}

/** Hairs come from planes that touch a curved side. */
export function isBroad(r: Region): boolean {
  const { area } = regionMoments(r);
  return area > 1e-6 && area > (HAIR * perimeterOf(r.outer)) / 2;
}

/** What is seen of the whole part: its shadow. */
export function shadowOf(slices: readonly Slice[]): readonly Region[] | undefined {
  return united(...slices.flatMap((s) => [s.near, s.far]));
}
