/**
 * What gives way between the jaws: walls beside a pocket or bore as strips held at both ends (and at the floor, where
 * there is one), beside a slit or a gap that is open at one end as the arms of a fork, a tube that stands between flat jaws as
 * a ring. Closed forms; the pressure is the clamping force over the area that the jaws press on. A rigid jaw presses less on
 * what gives way: the strips are an upper bound.
 */

import { rectOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import type { Vec3, Void } from '../../geometry/types';
import type { AxisIndex } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, type Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { forkGives } from './fork';
import type { InJaws } from './in-jaws';

export interface Squeezed {
  readonly of: Void;
  /** As a strip, as an arm that is free at one end (or a wall that is at both), or as a ring. */
  readonly as: 'strip' | 'arm' | 'ring';
  /** The thinnest wall between it and a jaw, and how far that wall bridges. */
  readonly wallMm: number;
  readonly spanMm: number;
  /** For each newton of clamping force: how much narrower it gets, mm, and the highest stress, MPa. */
  readonly mmPerN: number;
  readonly mPaPerN: number;
  /** Of the free ends of a fork, where the force bears on them alone. */
  readonly pinchedMmPerN?: number;
}

/** Of a ring pressed at two opposite points: ΔD = (π/4 − 2/π) F R³ / (E I), M = F R / π (Timoshenko; Roark, from memory). */
const RING = { deflection: Math.PI / 4 - 2 / Math.PI, moment: 1 / Math.PI } as const;

/** A strip clamped at both ends under even pressure: p L⁴ / (32 E t³) for each unit of width (q L⁴ / 384 E I). */
export function stripMm(pMPa: number, spanMm: number, thickMm: number, youngMPa: number): number {
  return (pMPa * spanMm ** 4) / (32 * youngMPa * thickMm ** 3);
}

/** A wall that stands on a floor, or an arm, pressed evenly up to `highMm`: its end moves 3 p h⁴ / (2 E t³) (q h⁴ / 8 E I). */
export function ledgeMm(pMPa: number, highMm: number, thickMm: number, youngMPa: number): number {
  return (1.5 * pMPa * highMm ** 4) / (youngMPa * thickMm ** 3);
}

/** A ring of mean radius R, thickness t and width 1, pressed with `lineN` N/mm at two opposite places. */
export function ringMm(lineN: number, radiusMm: number, thickMm: number, youngMPa: number): number {
  return (RING.deflection * lineN * radiusMm ** 3 * 12) / (youngMPa * thickMm ** 3);
}

/** How far a bore's wall is less than twice as thick as at its thinnest: what of its width counts as a strip. */
export function thinSpan(radiusMm: number, thickMm: number): number {
  if (thickMm >= radiusMm) return 2 * radiusMm;
  return 2 * Math.sqrt(2 * radiusMm * thickMm - thickMm ** 2);
}

interface Sides {
  /** Of the two jaws, and of the two ends of the work. */
  readonly jaws: readonly [number, number];
  readonly ends: readonly [number, number];
  readonly spanMm: number;
  /** Of the opening, along the force. */
  readonly wideMm: number;
  /** Open at one end: how long the arms beside it are; at both: infinite, the walls stand on the floor alone. */
  readonly armMm: number | undefined;
  /** Of the bridge between those arms, and how far the jaws reach over it from the gap. */
  readonly bridgeMm: number;
  readonly overMm: number;
  /** In height between the jaws and, of a blind one, from its floor to where the pressing ends. */
  readonly deepMm: number;
  readonly floored: boolean;
  /** Of the wall beside it, how high it is and how much of that is pressed. */
  readonly highMm: number;
  readonly pressedMm: number;
  readonly radiusMm: number | undefined;
}

/** Every pocket and bore beside which a wall bears the clamping force, for a modulus in MPa. */
export const squeezedIn = memo((x: InJaws, youngMPa: number): readonly Squeezed[] => {
  const area = x.contact.opposed.areaMm2;
  const { body, voids } = x.inTime.after;
  // A round bar standing between flat jaws is pressed along two lines.
  const tube = body.form === 'round' && body.axis === x.seating.upAxis;
  if (area < 1 && !tube) return [];
  const made: Squeezed[] = [];
  for (const v of voids) {
    const sides = sidesOf(v, x);
    if (!sides || (sides.armMm === Number.POSITIVE_INFINITY && !sides.floored)) continue;
    const hollow = !tube && sides.radiusMm !== undefined && isHollowBar(v, sides.radiusMm, x);
    if (!tube && !hollow)
      made.push(
        isFork(sides) ? fork(v, sides, sides.armMm!, youngMPa) : strips(v, sides, bornBy(sides, area, x), youngMPa),
      );
    else if (sides.radiusMm !== undefined) made.push(ring(v, sides, sides.radiusMm, youngMPa));
  }
  return made;
});

/** Of its bar's outside radius so much is hollow: then the whole of it gives as a ring, whichever way it lies. */
const HOLLOW = 0.5;

/** A bore along a lying round bar's middle: flat jaws press it along two lines too. */
function isHollowBar(
  { bounds: { min, max }, frame }: Void,
  radiusMm: number,
  { inTime: s, inVise: h }: InJaws,
): boolean {
  const { body } = s.after;
  if (body.form !== 'round' || body.axis === h.jawAxis || axisOf(frame.w) !== body.axis) return false;
  if (radiusMm < HOLLOW * body.radius) return false;
  return ([0, 1, 2] as const).every(
    (i) => i === body.axis || Math.abs(min[i] + max[i] - body.box.min[i] - body.box.max[i]) < 2 * SAME,
  );
}

/**
 * What a wall is pressed over. Flat work bears where the jaws touch; a lying bar along a line, from which the force spreads at
 * 45° on its way to the wall.
 */
function bornBy({ jaws }: Sides, areaMm2: number, { inTime: s, inVise: h, gripMm }: InJaws): number {
  if (s.before.body.form !== 'round') return areaMm2;
  const long = Math.min(h.jawToMm, h.workToMm) - Math.max(h.jawFromMm, h.workFromMm);
  return Math.max(areaMm2, long * Math.min(gripMm, 2 * Math.min(...jaws)));
}

/** Free arms and nothing below them: a gap right through, open at one end. */
function isFork({ armMm, floored, bridgeMm }: Sides): boolean {
  return armMm !== undefined && Number.isFinite(armMm) && !floored && bridgeMm > 0;
}

function fork(of: Void, s: Sides, longMm: number, young: number): Squeezed {
  const { tipsMmPerN, pinchedMmPerN, mPaPerN } = forkGives(
    {
      gapMm: s.wideMm,
      armsMm: s.jaws,
      longMm,
      bridgeMm: s.bridgeMm,
      overMm: s.overMm,
      pressedMm: s.pressedMm,
      highMm: s.highMm,
    },
    young,
  );
  return { of, as: 'arm', wallMm: Math.min(...s.jaws), spanMm: longMm, mmPerN: tipsMmPerN, mPaPerN, pinchedMmPerN };
}

function strips(of: Void, s: Sides, areaMm2: number, young: number): Squeezed {
  const p = 1 / areaMm2;
  const { radiusMm: r, armMm } = s;
  const wallMm = Math.min(...s.jaws);
  let mmPerN = 0;
  let mPaPerN = 0;
  let spanMm = armMm ?? s.spanMm;
  for (const t of s.jaws) {
    const span = armMm ?? (r === undefined ? s.spanMm : thinSpan(r, t));
    // The wall above and below the jaw helps to bear it, half the span away at most.
    const high = Math.min(s.highMm, s.pressedMm + span / 2);
    const pressed = (p * s.pressedMm) / high;
    const strip = armMm === undefined ? stripMm(pressed, span, t, young) : ledgeMm(pressed, span, t, young);
    const ledge = s.floored ? ledgeMm(p, s.deepMm, t, young) : Number.POSITIVE_INFINITY;
    // Two ways for the load to go: both move alike, the stiffer takes more.
    const moves = together(strip, ledge);
    const root = Number.isFinite(span)
      ? (((armMm === undefined ? 0.5 : 3) * pressed * span ** 2) / t ** 2) * (moves / (strip || 1))
      : (3 * p * s.deepMm ** 2) / t ** 2;
    mmPerN += moves;
    mPaPerN = Math.max(mPaPerN, root);
    if (t === wallMm) spanMm = Number.isFinite(span) ? span : s.deepMm;
  }
  return { of, as: armMm === undefined ? 'strip' : 'arm', wallMm, spanMm, mmPerN, mPaPerN };
}

function together(a: number, b: number): number {
  if (!Number.isFinite(b)) return a;
  return Number.isFinite(a) ? (a * b) / (a + b || 1) : b;
}

/** The thinnest wall all round; what is above and below the jaws helps, a radius away at most. */
function ring(of: Void, s: Sides, r: number, young: number): Squeezed {
  const wallMm = Math.min(...s.jaws, ...s.ends);
  const line = 1 / Math.min(s.highMm, s.pressedMm + r);
  const mean = r + wallMm / 2;
  return {
    of,
    as: 'ring',
    wallMm,
    spanMm: 2 * r,
    mmPerN: ringMm(line, mean, wallMm, young),
    mPaPerN: (6 * RING.moment * line * mean) / wallMm ** 2,
  };
}

/** The part axis a direction runs along; undefined for a leaning one. */
function axisOf(d: Vec3): AxisIndex | undefined {
  for (const i of [0, 1, 2] as const) if (Math.abs(d[i]) > 1 - ROUNDING) return i;
  return undefined;
}

/** How a volume lies between the jaws; undefined where no wall of it is pressed. */
function sidesOf(v: Void, x: InJaws): Sides | undefined {
  const { inVise: h, seating, gripMm } = x;
  const { frame } = v;
  const { min, max } = v.bounds;
  const [up, along] = [seating.upAxis, h.alongAxis];
  // Most lie above the jaws: seen at once.
  const low = Math.min(seating.lowestMm, seating.lowestMm + seating.upSign * gripMm);
  const high = Math.min(max[up], low + gripMm) - Math.max(min[up], low);
  if (high < 0.05 || v.role === 'edge') return undefined;
  const jaw = [Math.max(h.jawFromMm, h.workFromMm), Math.min(h.jawToMm, h.workToMm)] as const;
  const long = Math.min(max[along], jaw[1]) - Math.max(min[along], jaw[0]);
  if (long < 0.05) return undefined;
  const u = axisOf(frame.u);
  const w = axisOf(frame.w);
  if (u === undefined || w === undefined || w === h.jawAxis) return undefined;
  const shared = w === up ? high : long;
  const plane = (face: Face, at: number) => (FACE_AXIS[face].sign > 0 ? at - max[h.jawAxis] : min[h.jawAxis] - at);
  const jaws = [plane(h.fixed, h.fixedAtMm), plane(h.moving, h.movingAtMm)] as const;
  // Open to a jaw: there is no wall, and the contact tells.
  if (Math.min(...jaws) < 0.05) return undefined;
  const across = (3 - h.jawAxis - w) as AxisIndex;
  const { box } = seating;
  const ends = [min[across] - box.min[across], box.max[across] - max[across]] as const;
  const arms = [max[across] - box.min[across], box.max[across] - min[across]] as const;
  const pressed = across === up ? ([low, low + gripMm] as const) : jaw;
  const [open0, open1] = ends.map((e) => e < 0.05);
  const armMm = open0 && open1 ? Number.POSITIVE_INFINITY : open0 ? arms[0] : open1 ? arms[1] : undefined;
  const rect = rectOf(regionEdges(v.region));
  const edges = v.region.outer.edges;
  const round = edges.length <= 2 && edges.every((e) => e.type === 'arc') ? (rect.u1 - rect.u0) / 2 : undefined;
  const floored = !v.through && w === seating.upAxis;
  // Standing on its floor the wall is pressed from there up; hanging from it, at its free end: as if all of it were.
  const stands = frame.w[w]! * seating.upSign < 0;
  const deepMm = stands ? shared : max[w] - min[w];
  return {
    jaws,
    ends,
    spanMm: max[across] - min[across],
    armMm,
    ...bridgeOf([min[across], max[across]], [box.min[across], box.max[across]], pressed),
    wideMm: max[h.jawAxis] - min[h.jawAxis],
    deepMm,
    floored,
    highMm: max[w] - min[w],
    pressedMm: shared,
    radiusMm: round,
  };
}

/** What joins the arms at the end that is not open, and how far the jaws come over it; all along one axis. */
function bridgeOf(
  [from, to]: readonly [number, number],
  [workFrom, workTo]: readonly [number, number],
  [jawFrom, jawTo]: readonly [number, number],
): Pick<Sides, 'bridgeMm' | 'overMm'> {
  const atHigh = workTo - to > from - workFrom;
  const bridgeMm = Math.max(0, atHigh ? workTo - to : from - workFrom);
  const overMm = atHigh ? jawTo - to : from - jawFrom;
  return { bridgeMm, overMm: Math.min(bridgeMm, overMm) };
}
