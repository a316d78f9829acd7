/** Where clamps could press on work in V-blocks while a lot is cut. */
import type { Box } from '../geometry/types';
import { AXIS_INDEX } from '../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Face } from '../model/model';
import type { VBlock } from '../model/shop-model';
import type { RoundBar } from '../process/workholding/v-block';

/** In the plane of the face that is pressed, mm along its two part axes. */
interface Spot {
  readonly u: number;
  readonly v: number;
}

/** Along a bar, so far from place to place. */
const GRID_MM = 3;
/** Half a strap. */
const HALF_MM = 12.5;
/** Handed on, the clearest first. */
const MOST = 4;

/** Farther than this from what is cut no holder comes to a clamp's nut. Common sizes, no source: half of 50 and a nut. */
const FAR_MM = 40;

/**
 * Pairs of places on the crown of a bar, with nothing of the lot cut below the straps: those farthest from what is cut first,
 * then those with a block each, then the widest apart. `cut`: from where to where along the bar.
 */
export function overBlocks(
  bar: RoundBar,
  block: VBlock,
  box: Box,
  up: Face,
  cut: readonly (readonly [number, number])[],
): readonly (readonly Spot[])[] {
  const { axis } = bar;
  const [low, high] = [box.min[axis], box.max[axis]];
  const first = AXIS_INDEX[FACE_PLANE[up][0]] === axis;
  const across = ([0, 1, 2] as const).find((i) => i !== axis && i !== AXIS_INDEX[FACE_AXIS[up].axis])!;
  const clearMm = (x: number) => Math.min(FAR_MM, ...cut.map(([from, to]) => Math.max(from - x, x - to) - HALF_MM));
  const steps = Math.max(1, Math.floor((high - low - 2 * HALF_MM) / GRID_MM));
  const places = Array.from({ length: steps + 1 }, (_, i) =>
    rounded(low + HALF_MM + (i / steps) * (high - low - 2 * HALF_MM)),
  ).filter((x) => clearMm(x) > 0);
  const two = (mm: number) => block.count > 1 && mm >= block.lengthMm;
  const pairs = places.flatMap((a) => places.filter((b) => b - a > 2 * HALF_MM).map((b) => [a, b] as const));
  const score = ([a, b]: readonly [number, number]) =>
    Math.min(clearMm(a), clearMm(b)) + (two(b - a) ? FAR_MM / 4 : 0) + (FAR_MM / 2) * ((b - a) / (high - low));
  return pairs
    .filter(([a, b]) => block.count > 1 || b - a < block.lengthMm)
    .sort((p, q) => score(q) - score(p))
    .filter((_, i) => i % SPREAD === 0)
    .slice(0, MOST)
    .map((pair) => pair.map((x) => (first ? { u: x, v: bar.middle[across] } : { u: bar.middle[across], v: x })));
}

/** Of pairs that score alike, every so many: the next one is next to it. */
const SPREAD = 5;

function rounded(mm: number): number {
  return Math.round(mm * 2) / 2;
}
