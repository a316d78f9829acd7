/**
 * What the jaws of a vise touch, exactly: the section of the workpiece just inside each jaw's plane, within the jaw's
 * length and the height of the grip, holes and pockets taken out; and what of the two lies opposite each other.
 */

import { chainLoops, regionsOfLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { type Sheet, sheetOf } from '../../geometry/2d/indexed-region';
import { momentsOf, regionEdges } from '../../geometry/2d/moments';
import { rectLoop } from '../../geometry/2d/shape-outline';
import type { BodyShape, Region, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face } from '../../model/model';
import { HAIR, NEAR, SAME } from '../../tolerance';
import { crossOf } from '../stock/in-process-stock';
import type { Workpiece } from '../stock/types';
import { alongOf } from './jaws-along';
import type { InVise, Seating } from './seating-types';

/** One clamped area, in the plane square to the jaws' axis: coordinates are the two part axes after it, in turn. */
interface Clamped {
  readonly areaMm2: number;
  readonly regions: readonly Region[];
}

export interface Contact {
  readonly fixed: Clamped;
  readonly moving: Clamped;
  /** What of the two lies opposite each other: only there the jaws press through the work. */
  readonly opposed: Clamped;
  /** The rectangle that jaw and grip could touch on work that fills it, mm². */
  readonly possibleMm2: number;
  readonly exact: boolean;
  /** False where the outlines could not be followed: then the areas say nothing, and nobody may read them as nothing. */
  readonly known: boolean;
}

/** So many states of the work are kept with the stock: what was not cut at a jaw does not change what the jaws touch. */
const KEEP = 24;

/** The work may be another than the one that was put in the vise: a later one, with more cut from it. */
export function contactOf({ body, voids }: Workpiece, s: Seating, h: InVise): Contact {
  return clampedBy(
    body,
    voids.filter((v) => touches(v, s, h)),
    s,
    h,
  );
}

const clampedBy = memo(
  (body: BodyShape, voids: readonly Void[], s: Seating, h: InVise): Contact => work({ body, voids }, s, h),
  {
    size: KEEP,
    by: (_, voids, s, h) => [
      h.jawAxis,
      h.fixed,
      h.fixedAtMm,
      h.movingAtMm,
      s.lowestMm,
      s.upSign * gripOf(s, h),
      h.jawFromMm,
      h.jawToMm,
      h.gapMm?.[0],
      h.workFromMm,
      h.workToMm,
      voids,
    ],
  },
);

/** Its box reaches the plane of a jaw, within the grip and the length of the jaw. */
export function touches({ bounds: { min, max } }: Void, s: Seating, h: InVise): boolean {
  const [u, a, j] = [s.upAxis, h.alongAxis, h.jawAxis];
  const top = s.lowestMm + s.upSign * gripOf(s, h);
  if (max[u] <= Math.min(s.lowestMm, top) + SAME || min[u] >= Math.max(s.lowestMm, top) - SAME) return false;
  if (max[a] <= h.jawFromMm || min[a] >= h.jawToMm) return false;
  return [h.fixedAtMm, h.movingAtMm].some((at) => min[j] <= at + HAIR && max[j] >= at - HAIR);
}

/** How much of the work really is between the jaws, in height: no more than either is high. */
export function gripOf(s: Pick<Seating, 'heightMm'>, h: Pick<InVise, 'gripMm' | 'vise'>): number {
  return Math.max(0, Math.min(h.gripMm, h.vise.jawHeightMm, s.heightMm));
}

function work(w: Workpiece, s: Seating, h: InVise): Contact {
  const grip = gripOf(s, h);
  const spans = {
    [s.upAxis]: ordered(s.lowestMm, s.lowestMm + s.upSign * grip),
    [h.alongAxis]: ordered(h.jawFromMm, h.jawToMm),
  } as Record<AxisIndex, readonly [number, number]>;
  const [u, v] = [spans[((h.jawAxis + 1) % 3) as AxisIndex], spans[((h.jawAxis + 2) % 3) as AxisIndex]];
  const jaw = sheetOf(rectLoop(u[0], v[0], u[1], v[1]).edges);
  // Of two vises in line, nothing is touched between them.
  const alongU = (h.jawAxis + 1) % 3 === h.alongAxis;
  const between = h.gapMm
    ? [
        sheetOf(
          (alongU ? rectLoop(h.gapMm[0], v[0], h.gapMm[1], v[1]) : rectLoop(u[0], h.gapMm[0], u[1], h.gapMm[1])).edges,
        ),
      ]
    : [];
  const at = (face: Face, plane: number) => plane - FACE_AXIS[face].sign * NEAR;
  const fixed = crossOf(w, h.jawAxis, at(h.fixed, h.fixedAtMm));
  const moving = crossOf(w, h.jawAxis, at(h.moving, h.movingAtMm));
  const possible =
    alongOf(h).reduce(
      (sum, [from, to]) => sum + Math.max(0, Math.min(h.workToMm, to) - Math.max(h.workFromMm, from)),
      0,
    ) * grip;
  const base = { possibleMm2: possible, exact: fixed.exact && moving.exact };
  if (!fixed.regions || !moving.regions) return { ...base, fixed: NONE, moving: NONE, opposed: NONE, known: false };
  const of = (regions: readonly Region[]) => sheetOf(regions.flatMap(regionEdges));
  const [a, b] = [of(fixed.regions), of(moving.regions)];
  const both = (sheets: readonly Sheet[]) => common(sheets, between);
  return { ...base, fixed: both([a, jaw]), moving: both([b, jaw]), opposed: both([a, b, jaw]), known: true };
}

const NONE: Clamped = { areaMm2: 0, regions: [] };

function common(sheets: readonly Sheet[], without: readonly Sheet[] = []): Clamped {
  if (sheets.some((s) => s.edges.length === 0 || !(s.rect.u1 > s.rect.u0 && s.rect.v1 > s.rect.v0))) return NONE;
  const edges = boundaryOf(sheets, without);
  const loops = chainLoops(edges);
  const regions = (loops && regionsOfLoops(loops)) ?? [];
  return { areaMm2: Math.max(0, momentsOf(edges).area), regions };
}

function ordered(a: number, b: number): readonly [number, number] {
  return a < b ? [a, b] : [b, a];
}
