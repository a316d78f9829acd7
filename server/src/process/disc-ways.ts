/**
 * How a disc about the spindle cuts a channel from its side: the channel's width lies along the spindle, the rim goes in
 * at a face and travels along the channel, or down it. What it makes is the channel exactly, or it is no way: both ends of
 * its travel are in the open, or run out as round as the disc.
 */

import type { Void } from '../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../geometry/vector';
import { type Feature, type Forms, isChannel } from '../model/feature-kinds';
import { FACE_AXIS, FACE_PLANE, FACES, type Face, OPPOSITE } from '../model/model';
import { SAME } from '../tolerance';
import { depthBelow, type Place } from './column';
import { holds } from './section';

export interface DiscWay {
  /** Either may be up. */
  readonly ups: readonly [Face, Face];
  /** Where the rim goes in. */
  readonly enters: Face;
  /** From that plane of the work to where the rim is deepest, mm. */
  readonly deepMm: number;
  /** The axis that it travels along, and where the channel begins and ends there. */
  readonly along: AxisIndex;
  readonly fromMm: number;
  readonly toMm: number;
  /** The ends run out as round as a disc of this radius; left out: they are in the open. */
  readonly runOutMm?: number;
  readonly of: Void;
  /** The same way for each member of a pattern. */
  readonly members: readonly Omit<DiscWay, 'members'>[];
}
type OneWay = Omit<DiscWay, 'members'>;

/** Ways that every member of a pattern can be cut. */
export function discWaysOf(feature: Feature | undefined, voids: readonly Void[], place: Place): readonly DiscWay[] {
  if (!isChannel(feature) || feature.tilt || feature.tee || feature.dovetail) return [];
  if (feature.counterbore || feature.countersink) return [];
  const own = voids.filter((v) => v.feature === feature.name && (v.role === 'slot' || feature.runOutMm !== undefined));
  const [first = [], ...others] = own.map((of) => waysOf(feature, of, place));
  return first.flatMap((way): DiscWay[] => {
    const alike = others.map((ways) => ways.find((w) => w.enters === way.enters && w.along === way.along));
    if (alike.some((w) => w === undefined)) return [];
    const members = [way, ...(alike as OneWay[])];
    return [{ ...way, deepMm: Math.max(...members.map((m) => m.deepMm)), members }];
  });
}

function waysOf(feature: Forms['channel'], of: Void, place: Place): readonly OneWay[] {
  const [a, b] = feature.line;
  if (feature.line.length !== 2 || !a || !b || feature.floorRadius.mm > 0) return [];
  const [du, dv] = [Math.abs(a.u - b.u), Math.abs(a.v - b.v)];
  if (du > SAME === dv > SAME) return [];
  const [first, second] = FACE_PLANE[feature.face];
  const along = AXIS_INDEX[du > SAME ? first : second];
  const width = du > SAME ? second : first;
  const ups = FACES.filter((f) => FACE_AXIS[f].axis === width) as unknown as readonly [Face, Face];
  const down = AXIS_INDEX[FACE_AXIS[feature.face].axis];
  const ends = FACES.filter((f) => AXIS_INDEX[FACE_AXIS[f].axis] === along);
  const { min, max } = of.bounds;
  const bottomMm = Math.max(depthBelow(place, feature.face, min), depthBelow(place, feature.face, max));
  const heightMm = extent(place, down);
  const ways: OneWay[] = [];
  const runOutMm = feature.runOutMm;
  const open = ends.filter((f) => reaches(of, f, place));
  if (open.length === 2 || runOutMm !== undefined) {
    const way = { ups, enters: feature.face, deepMm: Math.min(bottomMm, heightMm), along, of };
    ways.push({ ...way, fromMm: min[along], toMm: max[along], ...(runOutMm !== undefined && { runOutMm }) });
  }
  if (!reaches(of, feature.face, place) || !reaches(of, OPPOSITE[feature.face], place)) return ways;
  for (const enters of open) {
    const inner = endInAir(of, enters, feature.width.mm, place);
    if (inner === undefined) continue;
    ways.push({ ups, enters, deepMm: inner, along: down, fromMm: min[down], toMm: max[down], of });
  }
  return ways;
}

function extent({ body: { box } }: Place, i: AxisIndex): number {
  return box.max[i] - box.min[i];
}

/** The volume runs out of the work through that face. */
function reaches(v: Void, face: Face, { body: { box } }: Place): boolean {
  const { axis, sign } = FACE_AXIS[face];
  const i = AXIS_INDEX[axis];
  return sign > 0 ? v.bounds.max[i] >= box.max[i] - SAME : v.bounds.min[i] <= box.min[i] + SAME;
}

/** How deep from the face that end of a channel lies which is opposite to it, where nothing of it is in material. */
function endInAir(v: Void, enters: Face, widthMm: number, place: Place): number | undefined {
  const { axis, sign } = FACE_AXIS[enters];
  const i = AXIS_INDEX[axis];
  const { box } = place.body;
  if (reaches(v, OPPOSITE[enters], place)) return extent(place, i);
  const tip = sign > 0 ? v.bounds.min[i] : v.bounds.max[i];
  // The drawn end is round: its centre lies half the width before its tip, and there the rim stops.
  const stop = tip + (sign * widthMm) / 2;
  const w = ([0, 1, 2] as const).find((k) => Math.abs(v.frame.w[k]) > 0.5)!;
  const q = ([0, 1, 2] as const).find((k) => k !== i && k !== w)!;
  const others = place.voids.filter((o) => o.feature !== v.feature);
  const inAir = (at: number, across: number, deep: number): boolean => {
    const p: [number, number, number] = [0, 0, 0];
    p[i] = at;
    p[q] = across;
    p[w] = deep;
    return others.some((o) => holds(o, p));
  };
  const middle = (v.bounds.min[q] + v.bounds.max[q]) / 2;
  const levels = [0.01, 0.5, 0.99].map((t) => box.min[w] + t * (box.max[w] - box.min[w]));
  const half = 0.999 * (widthMm / 2);
  const clear = levels.every(
    (level) => inAir(stop, middle - half, level) && inAir(stop, middle + half, level) && inAir(tip, middle, level),
  );
  return clear ? Math.abs((sign > 0 ? box.max[i] : box.min[i]) - stop) : undefined;
}
