/** Screws, threads and bearings: other public tables, and formulas of the standards. */
import { near, type Row, type Second, same, textOf } from './row';

/**
 * ISO 965-1, clause 13: TD1 of grade 6 is 433 P − 190 P^1.22 (µm) below a pitch of 1 mm, 230 P^0.7 from there; the standard
 * rounds to steps of some 6 %. The basic minor diameter is D − 1.0825 P (ISO 68-1); the drill lies within.
 */
export const threads: Second = (row) => {
  if ((row.series !== 'coarse' && row.series !== 'fine') || row.minor_class !== '6H') return undefined;
  const [d, p, [least, most]] = [row.diameter_mm, row.pitch_mm, row.minor_mm] as [number, number, [number, number]];
  near(least, d - 1.082532 * p, 0.0011, textOf(row));
  const um = p < 1 ? 433 * p - 190 * p ** 1.22 : 230 * p ** 0.7;
  near(1000 * (most - least), um, 0.05 * um + 1, textOf(row));
  const drill = row.tap_drill_mm as number;
  return near(drill, (least + most) / 2, (most - least) / 2, textOf(row));
};

/** Sizes of DIN 74-1: the hole d1 (H13) of each screw, a public table (read in 2026-11). */
const DIN_74: Readonly<Record<string, number>> = {
  M3: 3.4,
  M4: 4.5,
  M5: 5.5,
  M6: 6.6,
  M8: 9,
  M10: 11,
  M12: 13.5,
  M14: 15.5,
  M16: 17.5,
  M18: 20,
  M20: 22,
  M22: 24,
  M24: 26,
};
export const clearances: Second = (row) => {
  const second = row.fit === 'medium' ? DIN_74[String(row.screw)] : undefined;
  return second === undefined ? undefined : same(row.diameter_mm, second, textOf(row));
};

/** Heads of ISO 4762 (DIN 912), a university's page of metric screws (read in 2026-12). */
const CAP: Readonly<Record<string, readonly [number, number]>> = {
  'M1.6': [3, 1.6],
  M2: [3.8, 2],
  'M2.5': [4.5, 2.5],
  M3: [5.5, 3],
  M4: [7, 4],
  M5: [8.5, 5],
  M6: [10, 6],
  M8: [13, 8],
  M10: [16, 10],
  M12: [18, 12],
  M16: [24, 16],
  M20: [30, 20],
  M24: [36, 24],
};
export const heads: Second = (row) => {
  const second = row.what === 'cap head' ? CAP[String(row.screw)] : undefined;
  return second && same([row.diameter_mm, row.height_mm], second, textOf(row));
};

/** Across flats, height of the head: a dealer's table of ISO 4017. Across flats, height of the nut: a page of ISO 4032. Read in 2026-12. */
const HEXAGONS: Readonly<Record<string, readonly [flats: number, head: number, nut: number]>> = {
  'M1.6': [3.2, 1.1, 1.3],
  M2: [4, 1.4, 1.6],
  'M2.5': [5, 1.7, 2],
  M3: [5.5, 2, 2.4],
  M4: [7, 2.8, 3.2],
  M5: [8, 3.5, 4.7],
  M6: [10, 4, 5.2],
  M8: [13, 5.3, 6.8],
  M10: [16, 6.4, 8.4],
  M12: [18, 7.5, 10.8],
  M14: [21, 8.8, 12.8],
  M16: [24, 10, 14.8],
  M20: [30, 12.5, 18],
  M24: [36, 15, 21.5],
};
export const hexagons: Second = (row) => {
  const second = HEXAGONS[String(row.screw)];
  return second && same([row.flats, row.head, row.nut], second, textOf(row));
};

/** Two dealers' tables of ISO 7089 that agree (read in 2026-12). */
const WASHERS: Readonly<Record<string, readonly [number, number, number]>> = {
  'M1.6': [1.7, 4, 0.3],
  M2: [2.2, 5, 0.3],
  'M2.5': [2.7, 6, 0.5],
  M3: [3.2, 7, 0.5],
  M4: [4.3, 9, 0.8],
  M5: [5.3, 10, 1],
  M6: [6.4, 12, 1.6],
  M8: [8.4, 16, 1.6],
  M10: [10.5, 20, 2],
  M12: [13, 24, 2.5],
  M14: [15, 28, 2.5],
  M16: [17, 30, 3],
  M18: [19, 34, 3],
  M20: [21, 37, 3],
  M24: [25, 44, 4],
};
export const washers: Second = (row) => {
  const second = row.standard === 'ISO 7089' ? WASHERS[String(row.screw)] : undefined;
  return second && same([row.inside_mm, row.outside_mm, row.thickness_mm], second, textOf(row));
};

/** A public table of ten usual bearings (read in 2026-12). */
const BEARINGS: Readonly<Record<string, readonly [number, number, number]>> = {
  608: [8, 22, 7],
  6000: [10, 26, 8],
  6200: [10, 30, 9],
  6300: [10, 35, 11],
  6001: [12, 28, 8],
  6201: [12, 32, 10],
  6202: [15, 35, 11],
  6203: [17, 40, 12],
  6204: [20, 47, 14],
  6205: [25, 52, 15],
};
export const bearings: Second = (row: Row) => {
  const second = BEARINGS[String(row.designation)];
  return second && same([row.bore_mm, row.outside_mm, row.width_mm], second, textOf(row));
};
