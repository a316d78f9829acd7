/**
 * General tolerances: what an untoleranced dimension gets by ISO 2768-1 (f, m, c, v) and ISO 2768-2 (H, K, L).
 * Part 2 was withdrawn in 2021 for ISO 22081 (from memory), but drawings still cite `ISO 2768-mK`.
 */
import {
  ANGLES,
  LINEAR,
  PERPENDICULARITY,
  RADII,
  type RangeTable,
  RUNOUT,
  STRAIGHTNESS_AND_FLATNESS,
  SYMMETRY,
} from './general-tolerances.data';

export type LinearClass = 'f' | 'm' | 'c' | 'v';
export type GeometricClass = 'H' | 'K' | 'L';

interface GeneralTolerance {
  readonly linear: LinearClass;
  readonly geometric?: GeometricClass;
}

export interface GeneralValue {
  /** ± for sizes and angles; the whole zone for geometric characteristics. */
  readonly value: number;
  readonly unit: 'mm' | 'deg';
  readonly source: string;
}

/** Reads `ISO 2768-m`, `ISO 2768 mK`, `2768-f-H`, `DIN ISO 2768 - c`; undefined where it is none of these. */
export function parseGeneralTolerance(text: string): GeneralTolerance | undefined {
  const found = /^(?:DIN\s+|EN\s+)*(?:ISO\s*)?2768(?:-1)?\s*[-–:\s]\s*([fmcv])\s*-?\s*([HKL])?$/i.exec(text.trim());
  if (!found) return undefined;
  const linear = found[1]!.toLowerCase() as LinearClass;
  return found[2] === undefined ? { linear } : { linear, geometric: found[2].toUpperCase() as GeometricClass };
}

/** ± mm of a linear size, 0.5 to 4000 mm; below 0.5 the standard wants it written at the size. */
export function generalLinear(nominalMm: number, of: LinearClass): GeneralValue | undefined {
  return nominalMm < 0.5 ? undefined : lookUp(LINEAR, nominalMm, of);
}

/** ± mm of an external radius or a chamfer height, from 0.5 mm. */
export function generalRadius(nominalMm: number, of: LinearClass): GeneralValue | undefined {
  return nominalMm < 0.5 ? undefined : lookUp(RADII, nominalMm, of);
}

/** ± degrees of an angle, by its shorter leg. */
export function generalAngle(shorterLegMm: number, of: LinearClass): GeneralValue | undefined {
  const minutes = lookUp(ANGLES, shorterLegMm, of);
  return minutes && { value: minutes.value / 60, unit: 'deg', source: minutes.source };
}

const GEOMETRIC = {
  straightness: STRAIGHTNESS_AND_FLATNESS,
  flatness: STRAIGHTNESS_AND_FLATNESS,
  perpendicularity: PERPENDICULARITY,
  symmetry: SYMMETRY,
  runout: RUNOUT,
} as const;

/** The zone in mm: straightness and flatness by the longer side, perpendicularity and symmetry by the shorter leg. */
export function generalGeometric(
  characteristic: keyof typeof GEOMETRIC,
  lengthMm: number,
  of: GeometricClass,
): GeneralValue | undefined {
  return lookUp(GEOMETRIC[characteristic], lengthMm, of);
}

function lookUp(table: RangeTable, lengthMm: number, of: string): GeneralValue | undefined {
  if (!(lengthMm > 0)) return undefined;
  const value = table.values[of]?.[table.upToMm.findIndex((upTo) => lengthMm <= upTo)];
  return value === undefined || value === null ? undefined : { value, unit: 'mm', source: table.source };
}
