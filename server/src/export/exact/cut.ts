/**
 * Volumes cut from the body, and made sure of. Where cuts just touch or run along each other the kernel now and then loses one
 * and calls the rest sound; so what it answers counts only when the volume is what is expected, or when two ways of cutting
 * come to the same.
 */

import type { Box } from '../../geometry/types';
import { boxesNear } from '../../geometry/vector';
import { ROUNDING, SAME } from '../../tolerance';
import { isValid, joined, subtract, volumeIn } from './boolean';
import { ExactError, type Room, type Shape } from './kernel';

interface Cutter {
  readonly shape: Shape;
  readonly bounds: Box;
}

/** What the part's volume is by other means, and whether to the last digits or roughly. */
export interface Expected {
  readonly volumeMm3: number;
  readonly exact: boolean;
}

/** Two ways agree when they differ by less than this, as a part of the volume. */
const SAME_SHARE = 1e-8;
const AS_EXPECTED = 1e-6;
const AS_ROUGHLY_EXPECTED = 1e-4;
/** More volumes than this are not first joined into one: that takes longer than all else. */
const MOST_JOINED = 80;

export function cutFrom(room: Room, block: Shape, cutters: readonly Cutter[], expected?: Expected): Shape {
  const ways = waysFor(cutters).map((way) => () => way(room, block, cutters));
  const cut = verified(room, ways, expected);
  if (cut) return cut;
  throw new ExactError(
    'Cuts that just touch or run along each other could not be told apart exactly. Move or resize one of them a little: by a hundredth of a millimetre is enough.',
  );
}

/**
 * What the first way makes that comes out whole and as large as expected, or as large as by a way before it; a single way
 * need only come out whole. Undefined where there is none.
 */
export function verified(room: Room, ways: readonly (() => Shape)[], expected?: Expected): Shape | undefined {
  const seen: { readonly shape: Shape; readonly volume: number }[] = [];
  for (const way of ways) {
    const shape = attempt(way);
    if (!shape || !isValid(room, shape)) continue;
    const volume = volumeIn(room, shape);
    const twin = seen.find((s) => near(s.volume, volume, SAME_SHARE));
    if (ways.length === 1 || twin || (expected && isExpected(volume, expected))) return twin?.shape ?? shape;
    seen.push({ shape, volume });
  }
  return undefined;
}

type Way = (room: Room, block: Shape, cutters: readonly Cutter[]) => Shape;

function waysFor(cutters: readonly Cutter[]): readonly Way[] {
  if (cutters.length === 1) return [together];
  const inTurn: Way = (room, block, all) => inLayers(room, block, layersOf(all));
  const backwards: Way = (room, block, all) => inLayers(room, block, layersOf([...all].reverse()));
  return cutters.length <= MOST_JOINED ? [together, inTurn, asOne, backwards] : [together, inTurn, backwards];
}

/** All at once, which is quickest. */
function together(room: Room, block: Shape, cutters: readonly Cutter[]): Shape {
  return subtract(
    room,
    block,
    cutters.map((c) => c.shape),
  );
}

function asOne(room: Room, block: Shape, cutters: readonly Cutter[]): Shape {
  const shapes = cutters.map((c) => c.shape);
  return subtract(room, block, [joined(room, shapes)]);
}

/** One layer after the other: volumes of one layer have nothing to do with each other. */
function inLayers(room: Room, block: Shape, layers: readonly (readonly Cutter[])[]): Shape {
  return layers.reduce((left, layer) => together(room, left, layer), block);
}

/** Each goes into the first layer in which it touches nothing. */
function layersOf(cutters: readonly Cutter[]): readonly (readonly Cutter[])[] {
  const layers: Cutter[][] = [];
  for (const cutter of cutters) {
    const free = layers.find((layer) => layer.every((c) => !boxesNear(c.bounds, cutter.bounds, SAME)));
    if (free) free.push(cutter);
    else layers.push([cutter]);
  }
  return layers;
}

function attempt(work: () => Shape): Shape | undefined {
  try {
    return work();
  } catch (error) {
    // the kernel itself is broken: no other way will do
    if (error instanceof Error && error.name === 'RuntimeError') throw error;
    return undefined;
  }
}

function isExpected(volume: number, { volumeMm3, exact }: Expected): boolean {
  return near(volume, volumeMm3, exact ? AS_EXPECTED : AS_ROUGHLY_EXPECTED);
}

function near(a: number, b: number, relative: number): boolean {
  return Math.abs(a - b) <= relative * Math.max(Math.abs(a), Math.abs(b), ROUNDING);
}
