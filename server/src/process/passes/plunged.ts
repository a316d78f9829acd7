/** Passes that go straight down: drills and what follows them in a hole. */

import { featureFrame, type Size } from '../../geometry/frame';
import type { Void } from '../../geometry/types';
import { threadedBoss } from '../../model/feature-kinds';
import { pointLengthMm } from '../../tables/drill-point';
import { SAME } from '../../tolerance';
import { type Boss, tipBelowMm } from '../boss-threads';
import { pointBelowMm } from '../cutters';
import type { Operation, Plunge } from '../operations/types';
import { boxWithin } from '../stock/band';
import type { Cut } from '../stock/types';
import type { Step } from './cuts-in-setup';
import { steppedOut } from './depths';
import type { Making, Shape } from './making';
import { rangeOf, stationOf } from './read-out';
import type { Look, ReadOut, Station } from './types';
import { heightsIn, volumesOf } from './volumes';

type Made = Exclude<Operation, { does: 'missing' }>;

/** What a boring head takes off across in each of its last cuts, mm. Common practice: 0.1 to 0.25 a side. */
const BORED_MM = 0.3;
/** The last but one stays so far under, and is measured. Common practice, no source. */
const LAST_MM = 0.1;

export function plunged(operation: Made, { priced }: Step, cut: Cut, { readOut, seatZ, asked }: Making): Shape {
  const boss = operation.does === 'thread' && operation.outside && cut.feature && threadedBoss(cut.feature);
  if (boss) return roundBoss(boss, cut, readOut, asked.part.size);
  const voids = volumesOf(operation, cut, readOut);
  const own = voids.length > 0 ? voids : cut.removes;
  const [endZ, topZ] = heightsIn(own, cut, readOut);
  const floorZ = Math.max(endZ, metalEndsZ(own, cut, readOut));
  const places = own.map((v) => middleOf(v, readOut));
  const spots = operation.does === 'spot';
  const tip = spots ? surfaceZ(own, cut, readOut) - operation.depthMm : tipOf(operation, cut, floorZ, topZ);
  const lift = priced?.peckMm;
  return {
    direction: 'down',
    where: { type: 'at', places: distinct(places) },
    tipsZ: [tip],
    ...(lift !== undefined && Number.isFinite(lift) && { liftEachMm: lift }),
    ...(operation.does === 'bore' && { diametersMm: boredIn(operation.diameterMm) }),
    leavesMm: 0,
    needsProgram: operation.does === 'thread',
    looks: looksOf(operation, tip < seatZ + SAME),
  };
}

/** Round each boss's axis, half a tooth below the last full turn. */
function roundBoss(boss: Boss, cut: Cut, readOut: ReadOut, size: Size): Shape {
  const [shoulderZ] = heightsIn(cut.removes, cut, readOut);
  const places = boss.places.map((p) => stationOf(readOut, featureFrame(boss, size, p).origin));
  return {
    direction: 'down',
    where: { type: 'at', places: distinct(places) },
    tipsZ: [shoulderZ + boss.depth.mm - tipBelowMm(boss)],
    leavesMm: 0,
    needsProgram: true,
    looks: [{ look: 'smooth' }],
  };
}

function tipOf(o: Made, cut: Cut, floorZ: number, topZ: number): number {
  const hole = cut.feature?.kind === 'hole' ? cut.feature : undefined;
  const flat = hole?.bottom === 'flat' && !hole.depth.through;
  // Down until its cone is as wide as the seat; from there its tip is as much lower.
  if (o.does === 'countersink') return topZ - sunkMm(o);
  if (o.does === 'tap' || o.does === 'thread') {
    const through = hole?.depth.through && o.depthMm >= topZ - floorZ - SAME;
    return through ? floorZ - o.pitchMm : topZ - o.depthMm;
  }
  return o.does === 'drill' && o.seat !== 'floor' ? floorZ - pointBelowMm(o.tool, flat) : floorZ;
}

function sunkMm(o: Plunge): number {
  const tip = 'tipMm' in o.tool ? o.tool.tipMm : 0;
  const deg = 'angleDeg' in o.tool ? o.tool.angleDeg : 90;
  return pointLengthMm(o.diameterMm - tip, deg);
}

/** Diameters of the last cuts, one by one. */
function boredIn(diameterMm: number): readonly number[] {
  return [...steppedOut(diameterMm - 2 * BORED_MM - LAST_MM, diameterMm - LAST_MM, BORED_MM), diameterMm];
}

function looksOf(o: Made, isThrough: boolean): readonly Look[] {
  if (o.does === 'spot') return [{ look: 'this-wide', diameterMm: o.diameterMm }];
  if (o.does === 'countersink') return [{ look: 'this-wide', diameterMm: o.diameterMm }];
  if (o.does === 'tap') return [{ look: 'square-start' }];
  if (o.does === 'bore' || o.does === 'ream' || o.does === 'thread') return [{ look: 'smooth' }];
  return isThrough ? [{ look: 'no-parallel-hit' }] : o.does === 'drill' ? [{ look: 'chips-clear' }] : [];
}

function middleOf({ bounds: { min, max } }: Void, readOut: ReadOut): Station {
  return stationOf(readOut, [(min[0] + max[0]) / 2, (min[1] + max[1]) / 2, (min[2] + max[2]) / 2]);
}

/** Where a throat is open below already, no tool follows the hole through air into what the work lies on. */
function metalEndsZ(voids: readonly Void[], cut: Cut, { Z }: ReadOut): number {
  const met = voids.map(({ bounds }) => rangeOf(Z, boxWithin(cut.before, bounds)));
  const lows = met.flatMap(([low, high]) => (high - low > SAME ? [low] : []));
  return lows.length > 0 ? Math.min(...lows) : Number.NEGATIVE_INFINITY;
}

/** Of what stands over a hole yet: a seat that is cut later begins higher than the hole. */
function surfaceZ(voids: readonly Void[], cut: Cut, { Z }: ReadOut): number {
  const { box } = cut.before.body;
  const tops = voids.map(({ bounds }) => {
    const [min, max] = [[...bounds.min], [...bounds.max]] as [[number, number, number], [number, number, number]];
    if (Z.sign > 0) max[Z.axis] = box.max[Z.axis];
    else min[Z.axis] = box.min[Z.axis];
    return rangeOf(Z, boxWithin(cut.before, { min, max }))[1];
  });
  return Math.max(...tops);
}

/** A bore that comes in two pieces is one place. */
function distinct(places: readonly Station[]): readonly Station[] {
  return places.filter((p, i) => places.findIndex((q) => Math.hypot(p[0] - q[0], p[1] - q[1]) < SAME) === i);
}
