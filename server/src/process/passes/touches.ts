/**
 * What each axis is set from: what is touched, with what, when, and what the read-out shows at contact. A face is touched
 * where it is there: after the pass that cuts it, above the jaws. A bore is swept. Heights come from the parallels with a pin
 * under the tool, where the pin is thicker than the grip is high; else from the top.
 */
import { AXIS_INDEX } from '../../geometry/vector';
import { type Axis, FACE_AXIS, FACE_PLANE, type Face, OPPOSITE, type Part } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { wayToZero } from '../stackup/zeros';
import { isMaterial } from '../stock';
import { boxWithin } from '../stock/band';
import { extremeOf } from '../stock/in-process-stock';
import { facesTakenOff } from '../stock/taken-off';
import type { Cut, SetupInTime, Workpiece } from '../stock/types';
import { isFreedOnTabs } from '../workholding/on-tabs';
import { isFace } from '../workholding/references';
import { ballTopMm, tiltedZero } from '../workholding/square-up';
import { axesTouched } from '../workholding/zero-anew';
import { type AlongSpindle, justInside } from './along-spindle';
import { stationOf } from './read-out';
import { axisOf, isAcross, toward } from './sides';
import type { Holding, ReadOut, ReadOutAxis, Touch } from './types';

/** Diameters of what touches, mm: an edge finder's tip, a probe's ball. Common practice, no source: 10 and 6. */
const TIP_MM = { 'edge-finder': 10, probe: 6 } as const;
/** Pins that a tool is let down on, mm: gauge pins, shanks of cutters. Common practice, no source. */
const PINS_MM = [10, 20] as const;
/** Of a face so much must stand above the jaws to be touched, mm. */
const SEEN_MM = 0.5;
/** How near its plane material counts as the face, mm. */
const SKIN_MM = 0.05;

export interface Touching {
  readonly then: SetupInTime;
  readonly part: Part;
  readonly shop: Shop;
  readonly readOut: ReadOut;
  readonly holding: Holding;
  /** The plane that the work lies on and the jaws' tops, as shown. */
  readonly seatZ: number;
  readonly jawsZ?: number;
  /** Held at an angle. */
  readonly spindle?: AlongSpindle;
}

/** `firstAfter`: the number of the last pass of a cut. */
export function touchesOf(x: Touching, firstAfter: (cut: Cut) => number): readonly Touch[] {
  const all = (['X', 'Y', 'Z'] as const).map((name) => touchOf(name, x, firstAfter));
  const lowered = all.flatMap((t) => (t.how === 'top' ? (faced(t, x, firstAfter) ?? []) : []));
  return [...all, ...lowered];
}

/** Tools that are put in after the top was faced come down on the finished one. */
function faced(t: Touch, { then, part, readOut }: Touching, firstAfter: (cut: Cut) => number): Touch | undefined {
  const cut = then.cuts.findLast((c) => facesTakenOff(c, part).includes(then.up!));
  if (!cut || t.afterPass > 0) return undefined;
  const placeMm = shownTop(cut.after, then, readOut);
  return { ...t, placeMm, showsMm: placeMm + t.tipMm, afterPass: firstAfter(cut) };
}

function touchOf(name: ReadOutAxis, x: Touching, firstAfter: (cut: Cut) => number): Touch {
  const { then, readOut } = x;
  const axis = (['x', 'y', 'z'] as const)[readOut[name].axis];
  const written = then.setup.zero[axis]?.name;
  const everyPiece = axesTouched(then.setup).includes(axis);
  const made =
    written === undefined ? undefined : from(written, { axis: name, of: written, everyPiece }, x, firstAfter);
  if (made) return made;
  // What does not lie along the axis says nothing of it.
  const of = usual(name, x);
  return from(of, { axis: name, of, everyPiece }, x, firstAfter)!;
}

function from(of: string, base: Base, x: Touching, firstAfter: (cut: Cut) => number): Touch | undefined {
  const { then, readOut, part } = x;
  const axis = (['x', 'y', 'z'] as const)[readOut[base.axis].axis];
  const up = base.axis === 'Z';
  if (up && x.spindle) return onLeaning(base, x.spindle, x);
  if (up && (of === 'parallels' || of === OPPOSITE[then.up!])) return onParallels(base, x);
  if (isFace(of)) return FACE_AXIS[of].axis === axis ? onFace(base, of, x, firstAfter) : undefined;
  if (up) return onSlope(base, of, x, firstAfter);
  return part.featureByName.has(of) ? onBore(base, axis, x, firstAfter) : undefined;
}

type Base = Pick<Touch, 'axis' | 'of' | 'everyPiece'>;

/** Where the text says nothing: the fixed jaw, the stop or the left end, the parallels. */
function usual(name: ReadOutAxis, { readOut, holding }: Touching): string {
  if (name === 'Z') return 'parallels';
  if (name === 'Y') return holding.fixed?.face ?? OPPOSITE[readOut.Y.from];
  const { stop } = holding;
  return stop && axisOf(readOut, stop.face).name === 'X' ? stop.face : readOut.X.from;
}

function onParallels(base: Base, { seatZ, jawsZ, then, readOut }: Touching): Touch {
  const gripMm = jawsZ === undefined ? 0 : jawsZ - seatZ;
  const pin = PINS_MM.find((mm) => mm > gripMm);
  const common = { ...base, with: 'pin', afterPass: 0 } as const;
  if (pin !== undefined && jawsZ !== undefined)
    return { ...common, how: 'parallels', tipMm: pin, placeMm: seatZ, showsMm: seatZ + pin };
  const top = shownTop(then.before, then, readOut);
  return { ...common, how: 'top', tipMm: PINS_MM[0], placeMm: top, showsMm: top + PINS_MM[0] };
}

function shownTop(w: Workpiece, { up }: SetupInTime, { Z }: ReadOut): number {
  const at = extremeOf(w, Z.axis, FACE_AXIS[up!].sign > 0 ? -1 : 1);
  return (at - Z.zeroMm) * Z.sign;
}

function onFace(base: Base, face: Face, x: Touching, firstAfter: (cut: Cut) => number): Touch {
  const { then, part, readOut, shop } = x;
  // On tabs the frame stays round the part: what is touched is its outside.
  const cut = then.cuts.findLast(
    (c) => !isFreedOnTabs(then.setup, c.feature) && (c.face === face || facesTakenOff(c, part).includes(face)),
  );
  const work = cut?.after ?? then.before;
  const way = readOut[base.axis];
  const { sign } = FACE_AXIS[face];
  const planeMm = extremeOf(work, way.axis, sign > 0 ? -1 : 1);
  const placeMm = (planeMm - way.zeroMm) * way.sign;
  const afterPass = cut ? firstAfter(cut) : 0;
  if (base.axis === 'Z')
    return { ...base, how: 'top', with: 'pin', tipMm: PINS_MM[0], placeMm, showsMm: placeMm + PINS_MM[0], afterPass };
  const found = wayToZero(then.setup, shop)?.method ?? 'edge-finder';
  const method = METHODS.find((m) => m === found) ?? 'edge-finder';
  const tipMm = method === 'edge-finder' || method === 'probe' ? TIP_MM[method] : 0;
  const from = toward(readOut, face);
  const out = axisOf(readOut, face).sign;
  const made: Touch = {
    ...base,
    how: 'face',
    with: method,
    tipMm,
    ...(isAcross(from) && { cameFrom: from }),
    placeMm,
    showsMm: placeMm + (out * tipMm) / 2,
    afterPass,
  };
  return isThere(work, planeMm, face, x) ? made : { ...made, missing: `nothing of ${face} stands above the jaws` };
}

/** A pin that lies on a plane of work that is held at an angle, over the place that heights count from. */
function onLeaning(base: Base, spindle: AlongSpindle, { then, part, readOut }: Touching): Touch {
  const { on, deg, at, begins } = spindle;
  const tipMm = PINS_MM[0];
  const topMm = ballTopMm(tipMm / 2, deg);
  const made: Touch = {
    ...base,
    of: on,
    how: 'leaning',
    with: 'pin',
    tipMm,
    leans: { at: stationOf(readOut, at), deg, topMm, ...(begins !== undefined && { begins }) },
    placeMm: 0,
    showsMm: topMm,
    afterPass: 0,
  };
  return isMaterial(then.before, justInside(spindle, part)) ? made : { ...made, missing: `nothing of ${on} is there` };
}

/** A pin that lies on a milled slope: over the middle of that, where its height is known. */
function onSlope(base: Base, of: string, x: Touching, firstAfter: (cut: Cut) => number): Touch | undefined {
  const { then, part, readOut } = x;
  const leans = tiltedZero(then, part);
  const boxes = then.after.voids.filter((v) => v.feature === of).map((v) => v.bounds);
  const [box] = boxes;
  if (!leans || leans.on !== of || !box) return undefined;
  const cut = then.cuts.findLast((c) => c.name === of);
  const work = cut?.after ?? then.before;
  const middle: [number, number, number] = [0, 1, 2].map((i) => {
    const [low, high] = [work.body.box.min[i]!, work.body.box.max[i]!];
    return (Math.max(low, box.min[i]!) + Math.min(high, box.max[i]!)) / 2;
  }) as [number, number, number];
  const height = surfaceAt(work, middle, readOut.Z);
  if (height === undefined) return undefined;
  const tipMm = PINS_MM[0];
  const topMm = ballTopMm(tipMm / 2, leans.deg);
  const placeMm = (height - readOut.Z.zeroMm) * readOut.Z.sign;
  return {
    ...base,
    how: 'leaning',
    with: 'pin',
    tipMm,
    leans: { at: stationOf(readOut, middle), deg: leans.deg, topMm },
    placeMm,
    showsMm: placeMm + topMm,
    afterPass: cut ? firstAfter(cut) : 0,
  };
}

/** From above at one place: where the work begins, found by halving. Undefined where something stands over what was looked for, or nothing is there. */
function surfaceAt(
  work: Workpiece,
  at: readonly [number, number, number],
  { axis, sign }: ReadOut['Z'],
): number | undefined {
  const { min, max } = work.body.box;
  const [foot, top] = sign > 0 ? [min[axis], max[axis]] : [max[axis], min[axis]];
  const isThere = (height: number) => {
    const p = [...at] as [number, number, number];
    p[axis] = height;
    return isMaterial(work, p);
  };
  let [low, high] = [foot + (top - foot) * 1e-4, top];
  if (!isThere(low)) return undefined;
  for (let i = 0; i < HALVINGS; i++) {
    const half = (low + high) / 2;
    if (isThere(half)) low = half;
    else high = half;
  }
  return low;
}
const HALVINGS = 40;

const METHODS = ['edge-finder', 'probe', 'tool-edge', 'indicator', 'stop'] as const;

/** Material at the face's plane, above what holds the work. */
function isThere(work: Workpiece, planeMm: number, face: Face, { readOut, jawsZ, seatZ }: Touching): boolean {
  const { box } = work.body;
  const [min, max] = [[...box.min], [...box.max]] as [[number, number, number], [number, number, number]];
  const i = AXIS_INDEX[FACE_AXIS[face].axis];
  if (FACE_AXIS[face].sign > 0) [min[i], max[i]] = [planeMm - SKIN_MM, planeMm];
  else [min[i], max[i]] = [planeMm, planeMm + SKIN_MM];
  const { Z } = readOut;
  const low = Z.zeroMm + Z.sign * ((jawsZ ?? seatZ) + SEEN_MM / 2);
  if (Z.sign > 0) min[Z.axis] = low;
  else max[Z.axis] = low;
  if (min[Z.axis] >= max[Z.axis]) return false;
  const left = boxWithin(work, { min, max });
  return left.max[Z.axis] - left.min[Z.axis] > SEEN_MM / 2;
}

function onBore(base: Base, axis: Axis, x: Touching, firstAfter: (cut: Cut) => number): Touch | undefined {
  const { then, readOut, part } = x;
  const way = readOut[base.axis];
  const cut = then.cuts.find((c) => c.name === base.of);
  const feature = part.featureByName.get(base.of)!;
  const at = middleAlong(feature.places, feature.face, axis);
  if (at === undefined) return undefined;
  const placeMm = (at - way.zeroMm) * way.sign;
  const common = { ...base, how: 'bore', with: 'indicator', tipMm: 0 } as const;
  return { ...common, placeMm, showsMm: placeMm, afterPass: cut ? firstAfter(cut) : 0 };
}

/** Of a feature with several places: its middle. */
function middleAlong(places: readonly { u: number; v: number }[], face: Face, axis: Axis): number | undefined {
  const k = FACE_PLANE[face].indexOf(axis);
  if (k < 0 || places.length === 0) return undefined;
  return places.reduce((sum, p) => sum + (k === 0 ? p.u : p.v), 0) / places.length;
}
