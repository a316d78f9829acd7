/**
 * The Kienzle law summed along every engaged edge of a helical cutter. A tooth at the angle φ from where its chip begins
 * takes a chip of fz · sin φ; along its height the helix turns it back by tan β · z / R. The force of each short piece,
 * kc1.1 · (fz sin φ)^(1 − mc) dz around, and a share of it inward, is added up as a vector; the cutter is turned through
 * one tooth's pitch, and what it pushes with at its heaviest is told. Closed form, but for one integral of a power of the
 * sine, which is tabulated. Rigid cutter, circular path: feed small against the diameter.
 *
 * Source: the oblique-edge model of milling as textbooks have it (Altintas, Manufacturing Automation, chapter 2; Tlusty),
 * from memory; `tests/machining/cutting/helix.test.ts` holds it against a sum over small pieces that shares no code.
 */
import { heed } from '../../effort';
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

const STEPS = 1024;
/** Turned through a tooth's pitch in so many steps, besides the angles where an edge enters or leaves. */
const TURNS = 60;
const TAU = 2 * Math.PI;

/** ∫ sin^p and ∫ sin^(p+1) from 0 to φ, for φ up to π. */
class SinePowers {
  readonly #p: number;
  readonly #plain = new Float64Array(STEPS + 1);
  readonly #over = new Float64Array(STEPS + 1);

  constructor(p: number) {
    this.#p = p;
    const h = Math.PI / STEPS;
    for (let i = 0; i < STEPS; i++) {
      this.#plain[i + 1] = this.#plain[i]! + piece(p, i * h, h);
      this.#over[i + 1] = this.#over[i]! + piece(p + 1, i * h, h);
    }
  }

  plain(angle: number): number {
    return this.#at(this.#plain, this.#p, angle);
  }
  over(angle: number): number {
    return this.#at(this.#over, this.#p + 1, angle);
  }
  /** ∫ sin^p cos. */
  cosine(angle: number): number {
    return Math.sin(angle) ** (this.#p + 1) / (this.#p + 1);
  }

  #at(sums: Float64Array, power: number, angle: number): number {
    const h = Math.PI / STEPS;
    const i = Math.min(STEPS - 1, Math.max(0, Math.floor(angle / h)));
    return sums[i]! + piece(power, i * h, angle - i * h);
  }
}

/** ∫ sin^power over [from, from + h]; at the root of the sine, where the power is not smooth, by (φ)^power in closed form. */
function piece(power: number, from: number, h: number): number {
  if (h <= 0) return 0;
  const at = (x: number) => Math.max(0, Math.sin(x)) ** power;
  if (from < 1e-12) {
    const middle = (Math.sin(h / 2) / (h / 2)) ** power;
    return (h ** (power + 1) / (power + 1)) * middle;
  }
  const half = h / 2;
  const [x, far] = [from + half, half * Math.sqrt(0.6)];
  return (half * (5 * at(x - far) + 8 * at(x) + 5 * at(x + far))) / 9;
}

const powers = new Map<number, SinePowers>();

function sinePowers(p: number): SinePowers {
  let known = powers.get(p);
  if (!known) {
    if (powers.size > 64) powers.clear();
    known = new SinePowers(p);
    powers.set(p, known);
  }
  return known;
}

/** One tooth's share, with the lower end of its edge at the angle `tip` and all of it between `from` and `to` in the cut. */
interface Sums {
  tangential: number;
  along: number;
  into: number;
  edgeMm: number;
}

/** `radialShare`: inward against around; `mc`: of the Kienzle law. */
export function pushOf(cut: HelicalCut, mc: number, radialShare: number): Push {
  const slope = Math.tan((cut.helixDeg * Math.PI) / 180);
  const exit = engagedAngle(cut.aeMm, cut.diameterMm);
  const twist = (2 * cut.apMm * slope) / cut.diameterMm;
  const pitch = TAU / cut.teeth;
  const at = (turn: number): Sums => {
    const sums: Sums = { tangential: 0, along: 0, into: 0, edgeMm: 0 };
    const first = turn - pitch * Math.floor(turn / pitch);
    for (let tip = first; tip <= exit + twist; tip += pitch) addTooth(sums, tip, cut, mc, radialShare);
    return sums;
  };
  const turns = turnsOf(exit, twist, pitch);
  const most = (what: (s: Sums) => number) => heaviest(turns, pitch / TURNS, (turn) => what(at(turn)));
  const tangential = most((s) => s.tangential);
  return {
    tangential: tangential.value,
    resultant: most((s) => Math.hypot(s.along, s.into)).value,
    normal: most((s) => Math.abs(s.into)).value,
    axial: tangential.value * slope,
    edgeMm: at(tangential.turn).edgeMm,
  };
}

/** The largest of a value over one pitch: the best of all turns, then between its neighbours, where it has one summit. */
function heaviest(turns: readonly number[], step: number, value: (turn: number) => number) {
  let best = { turn: 0, value: 0 };
  const take = (turn: number): number => {
    const v = value(turn);
    if (v > best.value) best = { turn, value: v };
    return v;
  };
  for (const turn of turns) take(turn);
  let [low, high] = [best.turn - step, best.turn + step];
  for (let i = 0; i < 14; i++) {
    const third = (high - low) / 3;
    if (take(low + third) < take(high - third)) low += third;
    else high -= third;
  }
  return best;
}

/** Angles of the first tooth's tip: evenly, and wherever an edge of some tooth has just come in, gone out, or filled the cut. */
function turnsOf(exit: number, twist: number, pitch: number): readonly number[] {
  const turns = [exit, exit - 1e-9, twist, exit + twist];
  for (let i = 0; i < TURNS; i++) turns.push((pitch * i) / TURNS);
  return turns;
}

/** Square to the wall both shares press when the tooth leaves at the wall (climb milling); that is the harder of the two directions. */
function addTooth(sums: Sums, tip: number, cut: HelicalCut, mc: number, share: number): void {
  heed(8);
  const { apMm, diameterMm } = cut;
  const radius = diameterMm / 2;
  const slope = Math.tan((cut.helixDeg * Math.PI) / 180);
  const exit = engagedAngle(cut.aeMm, diameterMm);
  const p = 1 - mc;
  if (slope * apMm < 1e-6 * radius) {
    if (tip > exit) return;
    const force = Math.sin(tip) ** p * apMm;
    sums.tangential += force;
    sums.along += force * (Math.cos(tip) - share * Math.sin(tip));
    sums.into += force * (Math.sin(tip) + share * Math.cos(tip));
    sums.edgeMm += apMm;
    return;
  }
  const from = Math.max(0, tip - (apMm * slope) / radius);
  const to = Math.min(exit, tip);
  if (to <= from) return;
  const sines = sinePowers(p);
  const perMm = radius / slope;
  const plain = perMm * (sines.plain(to) - sines.plain(from));
  const over = perMm * (sines.over(to) - sines.over(from));
  const cosine = perMm * (sines.cosine(to) - sines.cosine(from));
  sums.tangential += plain;
  sums.along += cosine - share * over;
  sums.into += over + share * cosine;
  sums.edgeMm += perMm * (to - from);
}

/** Pieces that a tooth's edge is taken in where each counts by its height. */
const PIECES = 40;

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
  const dz = apMm / PIECES;
  let most = 0;
  for (let step = 0; step < TURNS; step++) {
    let sum = 0;
    for (let i = 0; i < PIECES; i++) {
      const z = wallMm - apMm + (i + 0.5) * dz;
      const weight = (z / wallMm) ** 2 * (1.5 - z / wallMm / 2);
      // The tip leads: higher up the tooth is still further from the wall that it leaves.
      const turned = (pitch * step) / TURNS + (i + 0.5) * dz * back;
      for (let angle = turned - pitch * Math.floor(turned / pitch); angle < exit; angle += pitch)
        sum += Math.sin(angle) ** (1 - mc) * (Math.sin(angle) + share * Math.cos(angle)) * weight * dz;
    }
    most = Math.max(most, sum);
  }
  return most;
}
