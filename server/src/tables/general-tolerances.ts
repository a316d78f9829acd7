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
import { MM_PER_INCH } from './units';

type LinearClass = 'f' | 'm' | 'c' | 'v';
export type GeometricClass = 'H' | 'K' | 'L';

/** One ± for every size (ISO 22081), or one for each number of decimals that a size is written with. */
export type LinearRule =
  | LinearClass
  | { readonly halfMm: number }
  | { readonly byDecimals: ReadonlyMap<number, number> };

interface GeneralTolerance {
  readonly linear: LinearRule;
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
  const linear = oneForAll(text) ?? byDecimals(text);
  return linear ? { linear } : byClass(text);
}

/** `ISO 22081 ±0.1`, `ISO 22081 ±0.005 in`: bare numbers are mm. */
function oneForAll(text: string): LinearRule | undefined {
  const found = /^ISO\s*22081\s*[:,]?\s*(?:±|\+\/-)\s*(\d*\.?\d+)\s*(mm|in)?$/i.exec(text.trim());
  return found ? { halfMm: Number(found[1]) * (found[2] === 'in' ? MM_PER_INCH : 1) } : undefined;
}

/** `.X ±0.1, .XX ±0.01, .XXX ±0.005`: inches, by how many decimals a size is written with. */
function byDecimals(text: string): LinearRule | undefined {
  const places = /\.(X+)\s*(?:±|\+\/-)\s*(\d*\.?\d+)(?:\s*in)?/gi;
  if (text.replace(places, '').replace(/[,;\s]/g, '') !== '') return undefined;
  const found = [...text.matchAll(places)].map(([, x = '', value]) => [x.length, Number(value) * MM_PER_INCH] as const);
  return found.length > 0 ? { byDecimals: new Map(found) } : undefined;
}

/** How the text has to be written in a document in these units; undefined where it is fine. */
export function unitTrouble(text: string, units: 'mm' | 'in'): 'no unit' | 'inches only' | undefined {
  if (units === 'mm') return byDecimals(text) ? 'inches only' : undefined;
  return oneForAll(text) && !/(?:mm|in)$/i.test(text.trim()) ? 'no unit' : undefined;
}

function byClass(text: string): GeneralTolerance | undefined {
  const found = /^(?:DIN\s+|EN\s+)*(?:ISO\s*)?2768(?:-1)?\s*[-–:\s]\s*([fmcv])\s*-?\s*([HKL])?$/i.exec(text.trim());
  if (!found) return undefined;
  const linear = found[1]!.toLowerCase() as LinearClass;
  return found[2] === undefined ? { linear } : { linear, geometric: found[2].toUpperCase() as GeometricClass };
}

/** ± mm of a linear size. By class from 0.5 to 4000 mm: below, the standard wants it written at the size. `text`: as it is written. */
export function generalLinear(nominalMm: number, of: LinearRule, text?: string): GeneralValue | undefined {
  if (typeof of !== 'string') return written(of, text);
  return nominalMm < 0.5 ? undefined : lookUp(LINEAR, nominalMm, of);
}

/** ± mm of an external radius or a chamfer height, from 0.5 mm. */
export function generalRadius(nominalMm: number, of: LinearRule, text?: string): GeneralValue | undefined {
  if (typeof of !== 'string') return written(of, text);
  return nominalMm < 0.5 ? undefined : lookUp(RADII, nominalMm, of);
}

/** ± degrees of an angle, by its shorter leg. */
export function generalAngle(shorterLegMm: number, of: LinearRule): GeneralValue | undefined {
  if (typeof of !== 'string') return undefined;
  const minutes = lookUp(ANGLES, shorterLegMm, of);
  return minutes && { value: minutes.value / 60, unit: 'deg', source: minutes.source };
}

function written(of: Exclude<LinearRule, LinearClass>, text: string | undefined): GeneralValue {
  if ('halfMm' in of) return { value: of.halfMm, unit: 'mm', source: 'ISO 22081: as the part says' };
  const all = [...of.byDecimals].sort(([a], [b]) => a - b);
  const places = text === undefined ? undefined : decimalsOf(text);
  // More decimals than any row has are as close as the last; what is worked out, or has fewer, is as loose as the first.
  const row = all.findLast(([count]) => places !== undefined && count <= places) ?? all[0]!;
  return { value: row[1], unit: 'mm', source: `by its decimals: .${'X'.repeat(row[0])}` };
}

/** Of a plain number; undefined for fractions and what is worked out. */
function decimalsOf(text: string): number | undefined {
  const found = /^\s*\d*(?:\.(\d+))?\s*(?:in|")?\s*$/.exec(text);
  return found ? (found[1] ?? '').length : undefined;
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
