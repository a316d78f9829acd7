/**
 * Work that is held at an angle: heights are told along the spindle, from a place on the plane that zero is taken from.
 * That is where the first cut begins there, else the plane's middle. A pin lies on the plane over that place.
 */
import type { Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, scale } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Part } from '../../model/model';
import { SAME } from '../../tolerance';
import type { SetupInTime } from '../stock/types';
import { type Axes, axesToward, seen } from '../tilted/place';
import { spindleOf } from '../tilted/spindle';
import { isFace } from '../workholding/references';
import { leanOf, normalOf } from '../workholding/square-up';
import type { ReadOut, ReadOutWay } from './types';

export interface AlongSpindle {
  readonly axes: Axes;
  /** As the spindle sees it, Z from that place. */
  readonly readOut: ReadOut;
  /** The plane that the pin lies on, and by how much it leans. */
  readonly on: string;
  readonly deg: number;
  /** In part axes. */
  readonly at: Vec3;
  /** What begins there. */
  readonly begins?: string;
}

/** Undefined where the work lies square, or the text does not say enough. */
export function alongSpindle(then: SetupInTime, part: Part, solid: Solid): AlongSpindle | undefined {
  const spindle = spindleOf(then.setup, part);
  if (!spindle || !then.up) return undefined;
  const axes = axesToward(spindle.toward);
  const written = then.setup.zero[FACE_AXIS[then.up].axis]?.name;
  const on = written !== undefined && leanOf(written, spindle.toward, part) !== undefined ? written : then.up;
  const deg = leanOf(on, spindle.toward, part);
  const mouth = mouthOn(on, then, solid);
  const at = mouth?.at ?? middleOf(on, then);
  if (deg === undefined || !at) return undefined;
  const way = (axis: 0 | 1 | 2, zeroMm: number): ReadOutWay => ({ axis, sign: 1, from: FROM[axis], zeroMm });
  const from = seen(at, axes);
  const readOut = { X: way(0, from[0]), Y: way(1, from[1]), Z: way(2, from[2]) };
  return { axes, readOut, on, deg, at, ...(mouth && { begins: mouth.of }) };
}

const FROM: readonly [Face, Face, Face] = ['left', 'front', 'bottom'];

interface Mouth {
  readonly at: Vec3;
  readonly of: string;
}

/** Where a cut's axis meets the plane, or a slope's plane does. */
function mouthOn(on: string, { cuts }: SetupInTime, solid: Solid): Mouth | undefined {
  if (!isFace(on)) return undefined;
  for (const { feature } of cuts) {
    if (!feature || feature.face !== on) continue;
    const at = 'widthMm' in feature ? crestOf(feature, solid) : solid.voidsOf(feature.name)[0]?.frame.origin;
    if (at && isOn(on, at, solid)) return { at, of: feature.name };
  }
  return undefined;
}

/** The middle of the edge between a slope and the face that it is drawn from. */
function crestOf({ face, along, widthMm }: Crest, { body }: Solid): Vec3 | undefined {
  if (!body) return undefined;
  const { min, max } = body.box;
  const at = [0, 1, 2].map((i) => (min[i]! + max[i]!) / 2) as [number, number, number];
  const end = (f: Face) => (FACE_AXIS[f].sign > 0 ? max : min)[AXIS_INDEX[FACE_AXIS[f].axis]];
  at[AXIS_INDEX[FACE_AXIS[face].axis]] = end(face);
  at[AXIS_INDEX[FACE_AXIS[along.name].axis]] = end(along.name) - FACE_AXIS[along.name].sign * widthMm;
  return at;
}

interface Crest {
  readonly face: Face;
  readonly along: { readonly name: Face };
  readonly widthMm: number;
}

function isOn(face: Face, at: Vec3, { body }: Solid): boolean {
  if (!body) return false;
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  return Math.abs((sign > 0 ? body.box.max[i] : body.box.min[i]) - at[i]) < SAME;
}

/** Of a face or a slope that was milled: halfway along it and across. */
function middleOf(on: string, then: SetupInTime): Vec3 | undefined {
  const { box } = then.before.body;
  const own = then.before.voids.find((v) => v.feature === on)?.bounds;
  const middle = [0, 1, 2].map((i) => {
    const [low, high] = own
      ? [Math.max(own.min[i]!, box.min[i]!), Math.min(own.max[i]!, box.max[i]!)]
      : [box.min[i]!, box.max[i]!];
    return (low + high) / 2;
  }) as [number, number, number];
  if (own) return middle;
  if (!isFace(on)) return undefined;
  const i = AXIS_INDEX[FACE_AXIS[on].axis];
  middle[i] = FACE_AXIS[on].sign > 0 ? box.max[i] : box.min[i];
  return middle;
}

/** Whether there is metal under the pin: just inside the plane, at that place. */
export function justInside({ on, at }: AlongSpindle, part: Part): Vec3 {
  const normal = normalOf(on, part);
  if (!normal) return at;
  const inside = scale(normal, -INSIDE_MM);
  return [at[0] + inside[0], at[1] + inside[1], at[2] + inside[2]];
}
const INSIDE_MM = 0.05;
