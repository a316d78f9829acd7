/**
 * Deep-groove ball bearings by their designation: boundary sizes of ISO 15 (as all makers' tables have them, from memory),
 * tolerances of the normal class of ISO 492 (public tables; bore to 10 mm and width to 10 mm from memory).
 */

interface BearingSize {
  readonly boreMm: number;
  readonly outsideMm: number;
  readonly widthMm: number;
}

/** Designation → bore, outside, width, mm. */
const ROWS: Readonly<Record<string, readonly [number, number, number]>> = {
  '623': [3, 10, 4],
  '624': [4, 13, 5],
  '625': [5, 16, 5],
  '626': [6, 19, 6],
  '604': [4, 12, 4],
  '605': [5, 14, 5],
  '606': [6, 17, 6],
  '607': [7, 19, 6],
  '608': [8, 22, 7],
  '609': [9, 24, 7],
  '627': [7, 22, 7],
  '628': [8, 24, 8],
  '629': [9, 26, 8],
  '6000': [10, 26, 8],
  '6001': [12, 28, 8],
  '6002': [15, 32, 9],
  '6003': [17, 35, 10],
  '6004': [20, 42, 12],
  '6005': [25, 47, 12],
  '6006': [30, 55, 13],
  '6007': [35, 62, 14],
  '6008': [40, 68, 15],
  '6200': [10, 30, 9],
  '6201': [12, 32, 10],
  '6202': [15, 35, 11],
  '6203': [17, 40, 12],
  '6204': [20, 47, 14],
  '6205': [25, 52, 15],
  '6206': [30, 62, 16],
  '6300': [10, 35, 11],
  '6301': [12, 37, 12],
  '6302': [15, 42, 13],
  '6303': [17, 47, 14],
  '6304': [20, 52, 15],
  '6305': [25, 62, 17],
  '6700': [10, 15, 3],
  '6701': [12, 18, 4],
  '6702': [15, 21, 4],
  '6703': [17, 23, 4],
  '6704': [20, 27, 4],
  '6705': [25, 32, 4],
  '6706': [30, 37, 4],
  '6707': [35, 44, 5],
  '6708': [40, 50, 6],
  '6800': [10, 19, 5],
  '6801': [12, 21, 5],
  '6802': [15, 24, 5],
  '6803': [17, 26, 5],
  '6804': [20, 32, 7],
  '6805': [25, 37, 7],
  '6806': [30, 42, 7],
  '6900': [10, 22, 6],
  '6901': [12, 24, 6],
  '6902': [15, 28, 7],
  '6903': [17, 30, 7],
  '6904': [20, 37, 9],
  '6905': [25, 42, 9],
  '6906': [30, 47, 9],
};

/** Up to mm, lower deviation of the mean bore, µm; the upper is 0. */
const BORE_UM: readonly (readonly [number, number])[] = [
  [2.5, -8],
  [10, -8],
  [18, -8],
  [30, -10],
  [50, -12],
  [80, -15],
  [120, -20],
];
/** The same of the mean outside diameter. */
const OUTSIDE_UM: readonly (readonly [number, number])[] = [
  [18, -8],
  [30, -9],
  [50, -11],
  [80, -13],
  [120, -15],
  [150, -18],
  [180, -25],
];

export const BEARING_SOURCE = 'ISO 15 boundary sizes from memory; ISO 492 normal class, from public tables';

/** `608`, `608-2RS`, `6001 ZZ`: what stands behind the number is shields and clearance, and no size. */
export function findBearing(text: string): (BearingSize & { readonly designation: string }) | undefined {
  const designation = /^(\d{3,5})(?:[\s/-]*[A-Z0-9]*)*$/i.exec(text.trim())?.[1];
  const row = designation === undefined ? undefined : ROWS[designation];
  return row && { designation: designation!, boreMm: row[0], outsideMm: row[1], widthMm: row[2] };
}

export function bearingNames(): readonly string[] {
  return Object.keys(ROWS);
}

/** Limits of a normal-class ring, mm; undefined above the rows. */
export function ringLimits(of: 'bore' | 'outside', mm: number): { lowerMm: number; upperMm: number } | undefined {
  const um = (of === 'bore' ? BORE_UM : OUTSIDE_UM).find(([upTo]) => mm <= upTo)?.[1];
  return um === undefined ? undefined : { lowerMm: um / 1000, upperMm: 0 };
}

/** Width of a ring, normal class: 0 to −120 µm, to 50 mm bore; −150 to 80 mm. */
export function widthLimits(boreMm: number): { lowerMm: number; upperMm: number } {
  return { lowerMm: boreMm <= 50 ? -0.12 : -0.15, upperMm: 0 };
}
