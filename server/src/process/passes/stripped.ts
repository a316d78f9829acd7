/** What stands along one straight wall comes off in strokes, each as wide as a pass takes, from outside in. */
import type { Void } from '../../geometry/types';
import { ROUNDING, SAME } from '../../tolerance';
import { boxWithin } from '../stock/band';
import type { Cut } from '../stock/types';
import { type Around, type Cutting, centreAreas } from './centre-area';
import type { Step } from './cuts-in-setup';
import { steppedOut } from './depths';
import type { Shape } from './making';
import { rangeOf } from './read-out';
import { axisOf } from './sides';
import type { Station, Where } from './types';
import { alongWalls, type Walls } from './ways';

export type Found = { readonly where: Where } & Pick<Shape, 'offs'>;

interface Stripping {
  readonly cutting: Cutting;
  readonly around: Around;
  readonly cut: Cut;
  readonly step: Step;
}

/** Undefined where it is not one straight wall, all along what goes. */
export function strippedOff(
  voids: readonly Void[],
  walls: Walls,
  { cutting, around, cut, step }: Stripping,
): Found | undefined {
  const [v] = voids;
  const aeMm = step.priced?.milling?.aeMm;
  if (voids.length !== 1 || !v || !aeMm || cutting.closed) return undefined;
  const areas = centreAreas(v, cutting, around);
  const ways = areas && alongWalls(areas, walls);
  const [only] = ways ?? [];
  const [move] = only?.moves ?? [];
  if (ways?.length !== 1 || only?.moves.length !== 1 || move?.type !== 'line') return undefined;
  const { readOut } = around;
  const k = Math.abs(only.start[0] - move.to[0]) < ROUNDING ? 0 : 1;
  if (Math.abs(only.start[k] - move.to[k]) > ROUNDING) return undefined;
  const [across, along] = k === 0 ? (['X', 'Y'] as const) : (['Y', 'X'] as const);
  const box = boxWithin(cut.before, v.bounds);
  const ends = [only.start[1 - k]!, move.to[1 - k]!].sort((p, q) => p - q);
  const [low, high] = rangeOf(readOut[along], box);
  if (ends[0]! > low + SAME || ends[1]! < high - SAME) return undefined;
  const [from, to] = rangeOf(readOut[across], box);
  // The wall is that end of what goes which the axis keeps its distance from.
  const wall = only.start[k];
  const out = Math.abs(wall - walls.offMm - from) < Math.abs(wall + walls.offMm - to) ? 1 : -1;
  const wideMm = to - from - cutting.leaveMm;
  if (wideMm <= 0) return undefined;
  const strokes = steppedOut(0, wideMm, aeMm).map((done) => {
    const place = wall + out * (wideMm - done);
    const moved = (s: Station): Station => (k === 0 ? [place, s[1]] : [s[0], place]);
    return { start: moved(only.start), moves: [{ type: 'line' as const, to: moved(move.to) }] };
  });
  const face = cut.face && axisOf(readOut, cut.face).name;
  return {
    where: { type: 'along', ways: strokes },
    ...(face && face !== 'Z' && { offs: { axis: face, mm: strokes.map(() => wideMm / strokes.length) } }),
  };
}
