/**
 * Forces by Kienzle's law: the pressure on a chip falls with its thickness, kc = kc11 · h^-mc. From it forces along the
 * helix (`helix.ts`), power and torque.
 */
import { AXIAL_SHARE, RADIAL_SHARE } from '../../tables/cutting.data';
import { meanChip } from './chip';
import { type Push, pushOf } from './helix';

export interface ForceLaw {
  readonly kc11: number;
  readonly mc: number;
}

/** Chips thinner than this are rubbed off rather than cut: the law is not carried on below. Common practice, no source. */
const THINNEST_MM = 0.001;

/** N/mm² on a chip `hMm` thick. */
export function cuttingPressure({ kc11, mc }: ForceLaw, hMm: number): number {
  return kc11 * Math.max(hMm, THINNEST_MM) ** -mc;
}

interface MillingCut {
  readonly diameterMm: number;
  readonly teeth: number;
  readonly feedPerToothMm: number;
  /** Radial and axial width of the cut. */
  readonly aeMm: number;
  readonly apMm: number;
  readonly rpm: number;
  /** From the least to the most that it may be: each force is the largest of that range. Left out: straight teeth. */
  readonly helixDeg?: Range;
}
type Range = readonly [low: number, high: number];

export interface MillingLoad {
  /** Largest tangential force of all teeth in the cut, N. */
  readonly tangentialN: number;
  /** With the radial share, as a vector: what bends the cutter and pushes the work. */
  readonly resultantN: number;
  /** Of that, square to the wall that the cut leaves. */
  readonly normalN: number;
  /** Along the axis: the helix lifts the work and pulls the cutter out of its holder. */
  readonly axialN: number;
  /** Across and along together, for each helix that it may have: the steeper, the less across and the more along. */
  readonly together: readonly { readonly helixDeg: number; readonly acrossN: number; readonly alongN: number }[];
  /** When most is in the cut: height of edge there, of all teeth together, and the chip on it that takes this force. */
  readonly edgeMm: number;
  readonly edgeChipMm: number;
  readonly powerW: number;
  readonly torqueNm: number;
  readonly removalMm3PerMin: number;
  readonly meanChipMm: number;
  readonly feedMmPerMin: number;
}

/** For each helix that a cutter may have, for kc1.1 · fz^(1 − mc) = 1 N/mm. */
export function pushesOver(cut: Omit<MillingCut, 'feedPerToothMm' | 'rpm'>, mc: number): readonly Pushed[] {
  return helixesOf(cut.helixDeg).map((helixDeg) => ({
    helixDeg,
    push: pushOf({ ...cut, helixDeg }, mc, RADIAL_SHARE.share),
  }));
}

interface Pushed {
  readonly helixDeg: number;
  readonly push: Push;
}

/** Of a range its ends and its middle: each push rises or falls along it. */
export function helixesOf([low, high]: Range = [0, 0]): readonly number[] {
  return high > low ? [low, (low + high) / 2, high] : [low];
}

/**
 * What a milling cut takes. Forces at their heaviest as the cutter turns, along all engaged edges; power from the mean chip
 * (the textbooks' form, all of the metal removed: never less than the sum along the edges, and at most a twentieth more).
 */
export function millingLoad(law: ForceLaw, cut: MillingCut, pushes = pushesOver(cut, law.mc)): MillingLoad {
  const { diameterMm, teeth, feedPerToothMm, aeMm, apMm, rpm } = cut;
  const feedMmPerMin = feedPerToothMm * teeth * rpm;
  const removalMm3PerMin = Math.min(aeMm, diameterMm) * apMm * feedMmPerMin;
  const mean = meanChip(feedPerToothMm, aeMm, diameterMm);
  const powerW = (removalMm3PerMin * cuttingPressure(law, mean)) / 60_000;
  const perMm = law.kc11 * feedPerToothMm ** (1 - law.mc);
  const most = (of: keyof Push) => perMm * Math.max(...pushes.map((p) => p.push[of]));
  const { push } = pushes.reduce((a, b) => (b.push.tangential > a.push.tangential ? b : a));
  const lifts = AXIAL_SHARE.share * perMm;
  return {
    tangentialN: perMm * push.tangential,
    resultantN: most('resultant'),
    normalN: most('normal'),
    axialN: AXIAL_SHARE.share * most('axial'),
    together: pushes.map((p) => ({
      helixDeg: p.helixDeg,
      acrossN: perMm * p.push.resultant,
      alongN: lifts * p.push.axial,
    })),
    edgeMm: push.edgeMm,
    edgeChipMm: feedPerToothMm * (push.tangential / push.edgeMm || 0) ** (1 / (1 - law.mc)),
    powerW,
    torqueNm: rpm > 0 ? (powerW * 60) / (2 * Math.PI * rpm) : 0,
    removalMm3PerMin,
    meanChipMm: mean,
    feedMmPerMin,
  };
}

export interface DrillingLoad {
  readonly torqueNm: number;
  readonly thrustN: number;
  readonly powerW: number;
  readonly feedMmPerMin: number;
}

/**
 * A twist drill in the full: two lips, each of half the feed. Torque kc · f · D² / 8; thrust half of what the lips take,
 * with half as much again for the chisel edge (from memory).
 */
export function drillingLoad(
  law: ForceLaw,
  cut: { readonly diameterMm: number; readonly feedPerTurnMm: number; readonly pointDeg: number; readonly rpm: number },
): DrillingLoad {
  const { diameterMm, feedPerTurnMm, pointDeg, rpm } = cut;
  const half = (pointDeg / 2) * (Math.PI / 180);
  const pressure = cuttingPressure(law, (feedPerTurnMm / 2) * Math.sin(half));
  const torqueNm = (pressure * feedPerTurnMm * diameterMm ** 2) / 8 / 1000;
  return {
    torqueNm,
    thrustN: ((0.5 * pressure * diameterMm * feedPerTurnMm) / 2) * Math.sin(half) * 1.5,
    powerW: (torqueNm * 2 * Math.PI * rpm) / 60,
    feedMmPerMin: feedPerTurnMm * rpm,
  };
}

/** Turning a tap, N·m: kc · P² · D / 8, the area of one thread's groove at its radius, by the taps' own `kc` (N/mm²). */
export function tappingTorqueNm(kc: number, diameterMm: number, pitchMm: number): number {
  return (kc * pitchMm ** 2 * diameterMm) / 8000;
}

/** One edge of a boring head, `deepMm` a side at `feedMm` a turn: as in turning, kc · a · f at the bore's radius. */
export function boringLoad(
  law: ForceLaw,
  cut: { readonly diameterMm: number; readonly feedMm: number; readonly deepMm: number; readonly rpm: number },
): { readonly torqueNm: number; readonly powerW: number } {
  const force = cuttingPressure(law, cut.feedMm) * cut.deepMm * cut.feedMm;
  const torqueNm = (force * cut.diameterMm) / 2000;
  return { torqueNm, powerW: (torqueNm * 2 * Math.PI * cut.rpm) / 60 };
}
