/**
 * Forces by Kienzle's law: the pressure on a chip falls with its thickness, kc = kc11 · h^-mc. From it tangential force,
 * power and torque. The resultant takes in the radial share.
 */
import { RADIAL_SHARE } from '../../reference/cutting.data';
import { meanChip, teethEngaged, thickestChip } from './chip';

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

export interface MillingCut {
  readonly diameterMm: number;
  readonly teeth: number;
  readonly feedPerToothMm: number;
  /** Radial and axial width of the cut. */
  readonly aeMm: number;
  readonly apMm: number;
  readonly rpm: number;
}

export interface MillingLoad {
  /** Largest tangential force of all teeth in the cut, N: at least one tooth at its thickest chip. */
  readonly tangentialN: number;
  /** With the radial share: what bends the cutter and pushes the work. */
  readonly resultantN: number;
  readonly powerW: number;
  readonly torqueNm: number;
  readonly removalMm3PerMin: number;
  readonly meanChipMm: number;
  readonly feedMmPerMin: number;
}

/** What a milling cut takes. Power from the mean chip (all of the metal removed), force from the thickest. */
export function millingLoad(law: ForceLaw, cut: MillingCut): MillingLoad {
  const { diameterMm, teeth, feedPerToothMm, aeMm, apMm, rpm } = cut;
  const feedMmPerMin = feedPerToothMm * teeth * rpm;
  const removalMm3PerMin = Math.min(aeMm, diameterMm) * apMm * feedMmPerMin;
  const mean = meanChip(feedPerToothMm, aeMm, diameterMm);
  const thick = thickestChip(feedPerToothMm, aeMm, diameterMm);
  const powerW = (removalMm3PerMin * cuttingPressure(law, mean)) / 60_000;
  const oneTooth = cuttingPressure(law, thick) * apMm * thick;
  const tangentialN = Math.max(
    oneTooth,
    teethEngaged(aeMm, diameterMm, teeth) * cuttingPressure(law, mean) * apMm * mean,
  );
  return {
    tangentialN,
    resultantN: tangentialN * Math.hypot(1, RADIAL_SHARE.share),
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

/** Thickness of a tap's chips against its pitch: the lead spreads a flank over the teeth of its chamfer. Common practice, no source. */
const TAP_CHIP = 0.1;

/** Turning a tap, N·m: kc · P² · D / 8, the area of one thread's groove at its radius (from memory, tap makers' formula). */
export function tappingTorqueNm(law: ForceLaw, diameterMm: number, pitchMm: number): number {
  return (cuttingPressure(law, TAP_CHIP * pitchMm) * pitchMm ** 2 * diameterMm) / 8000;
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
