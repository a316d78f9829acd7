/**
 * Where the workpiece lies when a set-up begins: on its lowest surface, on parallels or the bed; between jaws that touch
 * its farthest surfaces within the grip; against a stop.
 */

import type { Box } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face, type Hold, OPPOSITE, type Part } from '../../model/model';
import type { Shop, Vise } from '../../model/shop-model';
import { boxBetween } from '../stock/band';
import { boxLeft } from '../stock/in-process-stock';
import type { SetupInTime } from '../stock/types';
import { alongJaws, endClearanceMm } from './along';
import { obstaclesOf } from './obstacles';
import { chooseParallels } from './parallels';
import { pairOf } from './parallels-position';
import type { InVise, Seating, Span1 } from './seating-types';
import { avoidedBy, secondMm } from './two-pieces';
import { blockAddsMm } from './v-block';

export { fromJaw, overlaps, PAIR, PAIR_RULE, throughCuts } from './parallels-position';
export type * from './seating-types';
export { aboveLowest } from './seating-types';

/** Undefined where the text does not say which face is up. */
export function seatingOf(of: SetupInTime, part: Part, shop: Shop): Seating | undefined {
  return of.up && seated(of, of.up, part, shop);
}

const seated = memo(seat, { size: 2, by: (_, up, { size }, shop) => [shop, up, size] });

function seat(of: SetupInTime, up: Face, part: Part, shop: Shop): Seating {
  const box = boxLeft(of.before);
  const { axis, sign } = FACE_AXIS[up];
  const upAxis = AXIS_INDEX[axis];
  const lowestMm = sign > 0 ? box.min[upAxis] : box.max[upAxis];
  const highestMm = sign > 0 ? box.max[upAxis] : box.min[upAxis];
  const base = {
    of,
    up,
    upAxis,
    upSign: sign,
    box,
    lowestMm,
    highestMm,
    heightMm: (highestMm - lowestMm) * sign,
  };
  const held = inVise(base, shop);
  const obstacles = obstaclesOf(base, held, of.setup.hold, { part, shop });
  return { ...base, ...(held && { held }), obstacles, avoided: avoidedBy(obstacles, held) };
}

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;

function inVise(base: Base, shop: Shop): InVise | undefined {
  const hold = base.of.setup.hold;
  if (!hold || !(hold.type === 'vise' || hold.type === 'soft-jaws' || inTiltingVise(hold))) return undefined;
  const faces = jawFaces(hold, base);
  if (!faces) return undefined;
  const one = viseOf(hold, base.box, faces[0], shop);
  if (!one) return undefined;
  const two = inLine(one, hold);
  // What presses on two presses half as hard on each.
  const vise = hold.pieces ? { ...two, forceN: two.forceN / 2 } : two;
  const seatMm = chooseParallels(base, hold, vise, shop);
  const [fixed, moving] = faces;
  const jawAxis = AXIS_INDEX[FACE_AXIS[fixed].axis];
  const alongAxis = (3 - jawAxis - base.upAxis) as AxisIndex;
  // Only what lies between the jaws decides where they stop: a ledge above them does not.
  const band = boxBetween(
    base.of.before,
    base.upAxis,
    base.lowestMm,
    base.lowestMm + base.upSign * Math.min(seatMm.gripMm, base.heightMm),
  );
  const at = (face: Face) => (FACE_AXIS[face].sign > 0 ? band.max[jawAxis] : band.min[jawAxis]);
  const made = {
    vise,
    fixed,
    moving,
    jawAxis,
    fixedAtMm: at(fixed),
    movingAtMm: at(moving),
    openingMm: Math.abs(at(fixed) - at(moving)),
    blockMm: blockAddsMm(base, hold, shop) + (hold.pieces?.padMm ?? 0),
    alongAxis,
    workFromMm: band.min[alongAxis],
    workToMm: band.max[alongAxis],
    ...secondAt(secondMm(base, hold, alongAxis)),
    ...seatMm,
  };
  const [jawFromMm, jawToMm] = alongJaws(base, hold, vise, made, endClearanceMm(shop));
  const gapMm = gapBetween(one, two, [jawFromMm, jawToMm]);
  const between = { ...made, jawFromMm, jawToMm, ...(gapMm && { gapMm }) };
  const pair = pairOf(base, between, shop);
  return pair ? { ...between, pair } : between;
}

/** A vise that tilts, or stands on a sine table: jaws and parallels lean with the work. */
function inTiltingVise(hold: Hold): boolean {
  return hold.type === 'angle' && (hold.vise !== undefined || hold.jaws !== undefined);
}

/** As written, where they are a pair beside the face that is up; else the narrower way through. */
function jawFaces(hold: Hold, { up, box }: Base): readonly [Face, Face] | undefined {
  const [a, b] = hold.jaws ?? [];
  if (a && b) {
    const fits = OPPOSITE[a.name] === b.name && FACE_AXIS[a.name].axis !== FACE_AXIS[up].axis;
    return fits ? [a.name, b.name] : undefined;
  }
  const pairs = (['back', 'left', 'bottom'] as const).filter((f) => FACE_AXIS[f].axis !== FACE_AXIS[up].axis);
  const size = (f: Face) => {
    const i = AXIS_INDEX[FACE_AXIS[f].axis];
    return box.max[i] - box.min[i];
  };
  const [first, second] = pairs as [Face, Face];
  const fixed = size(second) < size(first) ? second : first;
  return [fixed, OPPOSITE[fixed]];
}

function secondAt(mm: number | undefined): Pick<InVise, 'secondMm'> {
  return mm === undefined ? {} : { secondMm: mm };
}

/** Two in line are one long vise with a gap in it, that presses twice as hard. */
function inLine(vise: Vise, hold: Hold): Vise {
  if (!hold.apart || hold.apart.mm <= vise.jawWidthMm) return vise;
  return { ...vise, jawWidthMm: hold.apart.mm + vise.jawWidthMm, forceN: 2 * vise.forceN };
}

function gapBetween(one: Vise, two: Vise, [from, to]: Span1): Span1 | undefined {
  return one === two ? undefined : [from + one.jawWidthMm, to - one.jawWidthMm];
}

/** As written; else of those that open wide enough the one with the widest jaws. */
function viseOf(hold: Hold, box: Box, jaw: Face, shop: Shop): Vise | undefined {
  if (hold.vise) {
    const named = shop.vises.find((v) => v.name === hold.vise!.name);
    if (named || hold.type === 'vise') return named;
  }
  const i = AXIS_INDEX[FACE_AXIS[jaw].axis];
  const needed = box.max[i] - box.min[i];
  return [...shop.vises]
    .sort((a, b) => b.jawWidthMm - a.jawWidthMm)
    .sort((a, b) => Number(b.opensMm >= needed) - Number(a.opensMm >= needed))[0];
}
