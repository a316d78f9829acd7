/**
 * The Kienzle law summed along every engaged edge of a helical cutter. A tooth at the angle φ from where its chip begins
 * takes a chip of fz · sin φ; along its height the helix turns it back by tan β · z / R. The force of each short piece,
 * kc1.1 · (fz sin φ)^(1 − mc) dz around, and a share of it inward, is added up as a vector; the cutter is turned through
 * one tooth's pitch, and what it pushes with at its heaviest is told. Closed form, but for one integral of a power of the
 * sine, which is tabulated. Rigid cutter, circular path: feed small against the diameter.
 *
 * Source: the oblique-edge model of milling as textbooks have it (Altintas, Manufacturing Automation, chapter 2; Tlusty),
 * from memory; `tests/process/cutting/helix.test.ts` holds it against a sum over small pieces that shares no code.
 */

import { heed } from '../../effort';
import { memoByValue } from '../../memo';
import { DIGITS, ROUNDING, SAME } from '../../tolerance';
import { engagedAngle } from './chip';

export interface HelicalCut {
  readonly diameterMm: number;
  readonly teeth: number;
  readonly aeMm: number;
  readonly apMm: number;
  readonly helixDeg: number;
}

/** What the cut pushes with, all for kc1.1 · fz^(1 − mc) = 1 N/mm: multiply by that. Each is the most over one turn, mm. */
export interface Push {
  /** Around: the sum of the tangential forces. */
  readonly tangential: number;
  /** Across the cutter, as a vector. */
  readonly resultant: number;
  /** Square to the wall that the cut leaves, in whichever direction of milling it is more. */
  readonly normal: number;
  /** Along the axis, out of the holder and up: tangential · tan β. */
  readonly axial: number;
  /** At the heaviest moment: height of edge in the cut, of all teeth, mm. */
  readonly edgeMm: number;
}

/** Of π: cubic between them from values and slopes, which leaves a millionth. */
const STEPS = 1024;
/** Turned through a tooth's pitch in so many steps, besides the angles where an edge enters or leaves; then once more between. */
const TURNS = 28;
const NARROWER = 7;
const TAU = 2 * Math.PI;

/** sin^p, and from 0 to φ its integral, that of sin^(p+1) and of sin^p cos, for φ up to π. */
class SinePowers {
  readonly power = new Float64Array(STEPS + 2);
  readonly plain = new Float64Array(STEPS + 2);
  readonly over = new Float64Array(STEPS + 2);
  readonly cosine = new Float64Array(STEPS + 2);
  readonly sin = new Float64Array(STEPS + 2);
  readonly cos = new Float64Array(STEPS + 2);

  constructor(p: number) {
    const h = Math.PI / STEPS;
    for (let i = 0; i <= STEPS + 1; i++) {
      this.sin[i] = Math.max(0, Math.sin(i * h));
      this.cos[i] = Math.cos(i * h);
      this.power[i] = this.sin[i]! ** p;
      this.cosine[i] = this.sin[i]! ** (p + 1) / (p + 1);
      if (i === 0) continue;
      this.plain[i] = this.plain[i - 1]! + piece(p, (i - 1) * h, h);
      this.over[i] = this.over[i - 1]! + piece(p + 1, (i - 1) * h, h);
    }
  }

  /** Adds `times` the three integrals at an angle to what is summed. */
  add(sums: Sums, angle: number, times: number, share: number): void {
    const h = Math.PI / STEPS;
    const i = Math.min(STEPS - 1, Math.max(0, Math.floor(angle / h)));
    const t = angle / h - i;
    // Hermite's cubics: of the values at both ends, and of the slopes there.
    const b = t * t * (3 - 2 * t);
    const c = h * t * (1 - t) * (1 - t);
    const d = -h * t * t * (1 - t);
    const a = 1 - b;
    const [p0, p1] = [this.power[i]!, this.power[i + 1]!];
    const plain = a * this.plain[i]! + b * this.plain[i + 1]! + c * p0 + d * p1;
    const over = a * this.over[i]! + b * this.over[i + 1]! + c * p0 * this.sin[i]! + d * p1 * this.sin[i + 1]!;
    const cosine = a * this.cosine[i]! + b * this.cosine[i + 1]! + c * p0 * this.cos[i]! + d * p1 * this.cos[i + 1]!;
    sums.tangential += times * plain;
    sums.along += times * (cosine - share * over);
    sums.into += times * (over + share * cosine);
  }

  /** sin^p, between its nodes as straight. */
  powerAt(angle: number): number {
    const at = (angle * STEPS) / Math.PI;
    const i = Math.min(STEPS - 1, Math.floor(at));
    return this.power[i]! + (at - i) * (this.power[i + 1]! - this.power[i]!);
  }
}

/** ∫ sin^power over [from, from + h]; at the root of the sine, where the power is not smooth, by (φ)^power in closed form. */
function piece(power: number, from: number, h: number): number {
  const at = (x: number) => Math.max(0, Math.sin(x)) ** power;
  if (from < DIGITS) {
    const middle = (Math.sin(h / 2) / (h / 2)) ** power;
    return (h ** (power + 1) / (power + 1)) * middle;
  }
  const half = h / 2;
  const [x, far] = [from + half, half * Math.sqrt(0.6)];
  return (half * (5 * at(x - far) + 8 * at(x) + 5 * at(x + far))) / 9;
}

/** More laws of force than a shop's materials have. */
const POWERS = 64;
const sinePowers = memoByValue((power: number) => new SinePowers(power), POWERS);

interface Sums {
  tangential: number;
  along: number;
  into: number;
  edgeMm: number;
}

/** A cut as its teeth see it, radians and mm. */
interface Engagement {
  /** Where a tooth leaves the cut that it entered at 0. */
  readonly exit: number;
  /** How far the upper end of an edge is behind its lower one. */
  readonly twist: number;
  readonly pitch: number;
  readonly apMm: number;
  /** mm of height for each radian that the edge is turned back; infinite for straight teeth. */
  readonly perRadMm: number;
  readonly sines: SinePowers;
  readonly share: number;
}

/** `radialShare`: inward against around; `mc`: of the Kienzle law. */
export function pushOf(cut: HelicalCut, mc: number, radialShare: number): Push {
  heed(200);
  const slope = Math.tan((cut.helixDeg * Math.PI) / 180);
  const twist = (2 * cut.apMm * slope) / cut.diameterMm;
  const engagement: Engagement = {
    exit: engagedAngle(cut.aeMm, cut.diameterMm),
    twist,
    pitch: TAU / cut.teeth,
    apMm: cut.apMm,
    perRadMm: twist < SAME ? Number.POSITIVE_INFINITY : cut.diameterMm / 2 / slope,
    sines: sinePowers(1 - mc),
    share: radialShare,
  };
  const turns = turnsOf(engagement).map((turn) => ({ turn, sums: sumsAt(turn, engagement) }));
  const tangential = heaviest(turns, engagement, (s) => s.tangential);
  return {
    tangential: tangential.value,
    resultant: heaviest(turns, engagement, (s) => Math.hypot(s.along, s.into)).value,
    normal: heaviest(turns, engagement, (s) => Math.abs(s.into)).value,
    axial: tangential.value * slope,
    edgeMm: sumsAt(tangential.turn, engagement).edgeMm,
  };
}

/** The largest of a value over one pitch: the best of all turns, then between its neighbours, where it has one summit. */
function heaviest(
  turns: readonly { readonly turn: number; readonly sums: Sums }[],
  engagement: Engagement,
  value: (sums: Sums) => number,
) {
  let best = { turn: 0, value: 0 };
  const take = (turn: number, sums: Sums): number => {
    const v = value(sums);
    if (v > best.value) best = { turn, value: v };
    return v;
  };
  for (const { turn, sums } of turns) take(turn, sums);
  const step = engagement.pitch / TURNS;
  let [low, high] = [best.turn - step, best.turn + step];
  for (let i = 0; i < NARROWER; i++) {
    const third = (high - low) / 3;
    const at = (turn: number) => take(turn, sumsAt(turn, engagement));
    if (at(low + third) < at(high - third)) low += third;
    else high -= third;
  }
  return best;
}

/** Angles of the first tooth's tip: evenly, and wherever an edge of some tooth has just come in, gone out, or filled the cut. */
function turnsOf({ exit, twist, pitch }: Engagement): readonly number[] {
  const turns = [exit, exit - ROUNDING, twist, exit + twist];
  for (let i = 0; i < TURNS; i++) turns.push((pitch * i) / TURNS);
  return turns;
}

/**
 * All teeth, one of them with its lower end at the angle `turn`. Square to the wall both shares press when the tooth leaves
 * at the wall (climb milling); that is the harder of the two directions.
 */
function sumsAt(turn: number, { exit, twist, pitch, apMm, perRadMm, sines, share }: Engagement): Sums {
  const sums: Sums = { tangential: 0, along: 0, into: 0, edgeMm: 0 };
  for (let tip = turn - pitch * Math.floor(turn / pitch); tip <= exit + twist; tip += pitch) {
    if (perRadMm === Number.POSITIVE_INFINITY) {
      if (tip > exit) continue;
      const [sin, cos] = [Math.sin(tip), Math.cos(tip)];
      const force = sines.powerAt(tip) * apMm;
      sums.tangential += force;
      sums.along += force * (cos - share * sin);
      sums.into += force * (sin + share * cos);
      sums.edgeMm += apMm;
      continue;
    }
    const [from, to] = [Math.max(0, tip - twist), Math.min(exit, tip)];
    if (to <= from) continue;
    sines.add(sums, to, perRadMm, share);
    sines.add(sums, from, -perRadMm, share);
    sums.edgeMm += perRadMm * (to - from);
  }
  return sums;
}

/** Pieces that the stretch of an edge that cuts at once is taken in, where each counts by its height; and of the whole edge at most. */
const PIECES = 14;
const MOST_PIECES = 400;

/**
 * What a wall that stands on its foot feels at its top, as a force there, mm as above: each piece of the force square to
 * the wall counts by its height z on a wall `wallMm` high as z² (3 H − z) / (2 H³), a load at z against one at the end of a
 * cantilever. The cut reaches from the foot up `apMm`; the edge passes from the foot to the top in turn, so that a slender
 * pass never pushes all along its height at once. Climb milling: around and inward both press on the wall.
 */
export function wallPush(cut: HelicalCut, wallMm: number, mc: number, share: number): number {
  const { diameterMm, teeth, apMm } = cut;
  const exit = engagedAngle(cut.aeMm, diameterMm);
  const back = Math.tan((cut.helixDeg * Math.PI) / 180) / (diameterMm / 2);
  const pitch = TAU / teeth;
  const pieces = Math.min(MOST_PIECES, Math.ceil(Math.max(1, (apMm * back) / exit) * PIECES));
  const dz = apMm / pieces;
  const passes = Math.min(MOST_PIECES, Math.ceil((pitch / exit) * PIECES));
  const sines = sinePowers(1 - mc);
  heed(passes * 20);
  let most = 0;
  for (let step = 0; step < passes; step++) {
    let sum = 0;
    for (let i = 0; i < pieces; i++) {
      const z = wallMm - apMm + (i + 0.5) * dz;
      // The tip leads: higher up the tooth is still further from the wall that it leaves.
      const turned = (pitch * step) / passes + (i + 0.5) * dz * back;
      let angle = turned - pitch * Math.floor(turned / pitch);
      if (angle >= exit) continue;
      const weight = (z / wallMm) ** 2 * (1.5 - z / wallMm / 2) * dz;
      for (; angle < exit; angle += pitch)
        sum += sines.powerAt(angle) * (Math.sin(angle) + share * Math.cos(angle)) * weight;
    }
    most = Math.max(most, sum);
  }
  return most;
}
