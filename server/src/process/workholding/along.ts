/**
 * Where along the work the jaws stand: centred on it, unless an end is cut that would then be between them; then the work is
 * pushed out at that end. Where the text says how far it stands out at an end, it does.
 */

import { chainLoops } from '../../geometry/2d/assemble-loops';
import { boundaryOf } from '../../geometry/2d/boolean';
import { type Sheet, sheetOf } from '../../geometry/2d/indexed-region';
import { regionEdges } from '../../geometry/2d/moments';
import { rectLoop } from '../../geometry/2d/shape-outline';
import type { Region, Void } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACES, type Face, type Hold } from '../../model/model';
import type { Shop, Vise } from '../../model/shop-model';
import { HAIR, NEAR, SAME } from '../../tolerance';
import { crossOf } from '../stock/in-process-stock';
import type { Workpiece } from '../stock/types';
import { marginOf } from './margin';
import type { InVise, Seating } from './seating-types';
import { bothOf, onOuter } from './two-pieces';
import { WITHIN } from './within';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;
/** The work between the jaws: across them, along them, in height. */
type Band = Pick<
  InVise,
  | 'fixed'
  | 'moving'
  | 'fixedAtMm'
  | 'movingAtMm'
  | 'jawAxis'
  | 'alongAxis'
  | 'secondMm'
  | 'workFromMm'
  | 'workToMm'
  | 'gripMm'
>;

/** An end that is milled stands out of the jaws by so much at least beyond its finished plane. Common practice, no source. */
const CLEAR_MM = 3;

/** The same in a shop that wants its tools still farther from the jaws. */
export function endClearanceMm(shop: Shop): number {
  return Math.max(CLEAR_MM, marginOf(shop));
}

/** Pushed out, no less than this share of the work stays between the jaws. Common practice, no source. */
export const STAYS_SHARE = 0.5;
const END_MM = 0.01;

/**
 * Where the jaws begin and end, mm. Where both ends are milled and the work is shorter than the jaws, no place does for
 * both, and it stays in the middle.
 */
export function alongJaws(base: Base, hold: Hold, vise: Vise, band: Band, clearMm: number): readonly [number, number] {
  const half = vise.jawWidthMm / 2;
  const { alongAxis: axis, secondMm } = band;
  const [fromMm, toMm] = bothOf([band.workFromMm, band.workToMm], secondMm);
  const middle = (fromMm + toMm) / 2;
  const centred = [middle - half, middle + half] as const;
  const { overhang } = hold;
  if (overhang && AXIS_INDEX[FACE_AXIS[overhang.face].axis] === axis) {
    const { sign } = FACE_AXIS[overhang.face];
    const jaw = (sign > 0 ? toMm : fromMm) - sign * overhang.by.mm;
    return sign > 0 ? [jaw - 2 * half, jaw] : [jaw, jaw + 2 * half];
  }
  const ends = FACES.filter((f) => AXIS_INDEX[FACE_AXIS[f].axis] === axis).flatMap((face) => {
    // A step at an end that is milled as well goes in farther than the end does.
    const milled = finishedPlane(base, face, axis);
    const finished = cutBack(base, face, band, milled) ?? milled;
    return finished === undefined ? [] : [{ face, finished: onOuter(face, finished, secondMm) }];
  });
  const [end] = ends;
  if (!end || ends.length !== 1) return centred;
  const { sign } = FACE_AXIS[end.face];
  const edge = end.finished - sign * clearMm;
  const overhangs = (sign > 0 ? centred[1] : centred[0]) * sign <= edge * sign;
  if (overhangs || hold.stop?.name === end.face) return centred;
  return sign > 0 ? [edge - 2 * half, edge] : [edge, edge + 2 * half];
}

/** How far in an end will be when the face itself is cut; undefined where it is not. */
function finishedPlane({ of, box }: Base, face: Face, axis: AxisIndex): number | undefined {
  const cuts = of.cuts.filter((c) => c.face === face);
  if (cuts.length === 0) return undefined;
  const { sign } = FACE_AXIS[face];
  const planes = cuts.flatMap((c) => c.removes.map((v) => (sign > 0 ? v.bounds.min[axis] : v.bounds.max[axis])));
  const outer = sign > 0 ? box.max[axis] : box.min[axis];
  return planes.reduce((at, p) => (p * sign < at * sign ? p : at), outer);
}

/**
 * How far in an end is cut back where a jaw would lie against it: a corner that is taken off, a step at the end. Undefined
 * where nothing is, or so much that too little would be left between the jaws. `milled`: where the end itself will be.
 */
function cutBack(base: Base, face: Face, band: Band, milled: number | undefined): number | undefined {
  const { of } = base;
  const { sign } = FACE_AXIS[face];
  const { alongAxis: axis, workFromMm, workToMm } = band;
  const end = sign > 0 ? workToMm : workFromMm;
  if (!of.cuts.some((c) => c.feature && c.removes.some((v) => comesNear(v, base, band, [end, milled ?? end]))))
    return undefined;
  let at = end;
  for (const plane of [inside(band.fixed, band.fixedAtMm), inside(band.moving, band.movingAtMm)]) {
    const taken = takenAt(of.before, of.after, plane, base, band);
    for (const [low, high] of taken) {
      // From end to end: the side itself goes, and no place along the jaws is better than another.
      if (low < workFromMm + END_MM && high > workToMm - END_MM) return undefined;
      if (Math.abs((sign > 0 ? high : low) - end) > END_MM) continue;
      const inner = sign > 0 ? low : high;
      if (inner * sign < at * sign) at = inner;
    }
  }
  const stays = 1 - Math.abs(end - at) / (workToMm - workFromMm);
  return at === end || stays < STAYS_SHARE || axis === band.jawAxis ? undefined : at;
}

function inside(face: Face, at: number): number {
  return at - FACE_AXIS[face].sign * NEAR;
}

/** Its box reaches an end of the work, a jaw's plane, and below the tops of the jaws. */
function comesNear(v: Void, { upAxis, upSign, lowestMm }: Base, band: Band, end: readonly number[]): boolean {
  if (WITHIN.has(v.role)) return false;
  const { min, max } = v.bounds;
  const lowest = upSign > 0 ? min[upAxis] : max[upAxis];
  if ((lowest - lowestMm) * upSign > band.gripMm - SAME) return false;
  if (min[band.alongAxis] > Math.max(...end) + END_MM || max[band.alongAxis] < Math.min(...end) - END_MM) return false;
  return [band.fixedAtMm, band.movingAtMm].some((p) => min[band.jawAxis] < p + HAIR && max[band.jawAxis] > p - HAIR);
}

/** What a set-up takes of the work at a jaw's plane, within the grip: stretches along the jaws. */
function takenAt(
  before: Workpiece,
  after: Workpiece,
  plane: number,
  { upSign, lowestMm }: Base,
  { jawAxis, alongAxis, workFromMm, workToMm, gripMm }: Band,
): readonly (readonly [number, number])[] {
  const [was, is] = [crossOf(before, jawAxis, plane).regions, crossOf(after, jawAxis, plane).regions];
  if (!was || !is || was.length === 0) return [];
  const top = lowestMm + upSign * gripMm;
  const [low, high] = [Math.min(lowestMm, top), Math.max(lowestMm, top)];
  const alongU = (jawAxis + 1) % 3 === alongAxis;
  const strip = sheetOf(
    (alongU ? rectLoop(workFromMm, low, workToMm, high) : rectLoop(low, workFromMm, high, workToMm)).edges,
  );
  const loops = chainLoops(boundaryOf([strip, sheet(was)], [sheet(is)])) ?? [];
  return loops.map(({ edges }) => {
    const { rect } = sheetOf(edges);
    return alongU ? ([rect.u0, rect.u1] as const) : ([rect.v0, rect.v1] as const);
  });
}

function sheet(regions: readonly Region[]): Sheet {
  return sheetOf(regions.flatMap(regionEdges));
}
