/** Inch fits and general tolerances: other tables, and what the standard builds its classes of. */
import { near, type Second, same, textOf } from './row';

const UP_TO = [0.12, 0.24, 0.4, 0.71, 1.19, 1.97, 3.15, 4.73, 7.09, 9.85, 12.41, 15.75, 19.69];

/**
 * ANSI B4.1: a public page of LC6 to LC11 to 1.97 in (read in 2026-12): hole, shaft. It is cut off in its last line, and
 * prints 2 for the most clearance of LC8 to 0.12 in, where its own limits make 3.6: the limits are compared.
 */
const LOOSE: Readonly<Record<string, readonly (readonly [hole: number, upper: number, lower: number])[]>> = {
  LC6: [
    [1, -0.3, -0.9],
    [1.2, -0.4, -1.1],
    [1.4, -0.5, -1.4],
    [1.6, -0.6, -1.6],
    [2, -0.8, -2],
    [2.5, -1, -2.6],
  ],
  LC7: [
    [1.6, -0.6, -1.6],
    [1.8, -0.8, -2],
    [2.2, -1, -2.4],
    [2.8, -1.2, -2.8],
    [3.5, -1.6, -3.6],
    [4, -2, -4.5],
  ],
  LC8: [
    [1.6, -1, -2],
    [1.8, -1.2, -2.4],
    [2.2, -1.6, -3],
    [2.8, -2, -3.6],
    [3.5, -2.5, -4.5],
  ],
  LC9: [
    [2.5, -2.5, -4.1],
    [3, -2.8, -4.6],
    [3.5, -3, -5.2],
    [4, -3.5, -6.3],
    [5, -4.5, -8],
  ],
  LC10: [
    [4, -4, -8],
    [5, -4.5, -9.5],
    [6, -5, -11],
    [7, -6, -13],
    [8, -7, -15],
  ],
  LC11: [
    [6, -5, -11],
    [7, -6, -13],
    [9, -7, -16],
    [10, -8, -18],
    [12, -10, -22],
  ],
};

/** Most clearance of RC1 and RC2 in every range: the 1987 edition, by way of a public copy (read in 2026-12). */
const MOST: Readonly<Record<string, readonly number[]>> = {
  RC1: [0.45, 0.5, 0.6, 0.75, 0.95, 1.1, 1.2, 1.5, 1.8, 2, 2.3, 2.7, 3],
  RC2: [0.55, 0.65, 0.85, 0.95, 1.2, 1.4, 1.6, 2, 2.3, 2.6, 2.9, 3.4, 3.8],
};

/** Least and most interference of force fits to 3.94 in: Machinery's Handbook 27 p. 663, another edition than the rows' (read in 2026-12). */
const FORCE_UP_TO = [0.12, 0.24, 0.4, 0.56, 0.71, 0.95, 1.19, 1.58, 1.97, 2.56, 3.15];
const FORCE: Readonly<Record<string, readonly (readonly [number, number] | null)[]>> = {
  FN1: [
    [0.05, 0.5],
    [0.1, 0.6],
    [0.1, 0.75],
    [0.1, 0.8],
    [0.2, 0.9],
    [0.2, 1.1],
    [0.3, 1.2],
    [0.3, 1.3],
    [0.4, 1.4],
    [0.6, 1.8],
    [0.7, 1.9],
  ],
  FN2: [
    [0.2, 0.85],
    [0.2, 1],
    [0.4, 1.4],
    [0.5, 1.6],
    [0.5, 1.6],
    [0.6, 1.9],
    [0.6, 1.9],
    [0.8, 2.4],
    [0.8, 2.4],
    [0.8, 2.7],
    [1, 2.9],
  ],
  FN3: [null, null, null, null, null, null, [0.8, 2.1], [1, 2.6], [1.2, 2.8], [1.3, 3.2], [1.8, 3.7]],
  FN4: [
    [0.3, 0.95],
    [0.4, 1.2],
    [0.6, 1.6],
    [0.7, 1.8],
    [0.7, 1.8],
    [0.8, 2.1],
    [1, 2.3],
    [1.5, 3.1],
    [1.8, 3.4],
    [2.3, 4.2],
    [2.8, 4.7],
  ],
  FN5: [
    [0.3, 1.3],
    [0.5, 1.7],
    [0.5, 2],
    [0.6, 2.3],
    [0.8, 2.5],
    [1, 3],
    [1.3, 3.3],
    [1.4, 4],
    [2.4, 5],
    [3.2, 6.2],
    [4.2, 7.2],
  ],
};

export const inchFits: Second = (row) => {
  const [name, upTo] = [row.class as string, row.up_to_in as number];
  const [hole, shaft] = [row.hole_thou, row.shaft_thou] as [[number, number], [number, number]];
  const range = UP_TO.indexOf(upTo);
  const loose = LOOSE[name]?.[range];
  if (loose) return same([hole[1], shaft[1], shaft[0]], loose, textOf(row));
  const most = MOST[name]?.[range];
  if (most !== undefined) return near(hole[1] - shaft[0], most, 0.011, textOf(row));
  const force = FORCE[name]?.[FORCE_UP_TO.indexOf(upTo)];
  if (!force) return undefined;
  near(shaft[0] - hole[1], force[0], 0.011, textOf(row));
  return near(shaft[1] - hole[0], force[1], 0.011, textOf(row));
};

/** DIN ISO 2768-1, a library of tolerances: github.com/rf-ghofmockel/rf-tolerance, data/DIN2768 (read in 2026-12). */
const LENGTHS: Readonly<Record<string, readonly (number | null)[]>> = {
  f: [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, null],
  m: [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2],
  c: [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4],
  v: [null, 0.5, 1, 1.5, 2.5, 4, 6, 8],
};
const LENGTHS_TO = [3, 6, 30, 120, 400, 1000, 2000, 4000];
const EDGES: Readonly<Record<string, readonly number[]>> = {
  f: [0.2, 0.5, 1],
  m: [0.2, 0.5, 1],
  c: [0.4, 1, 2],
  v: [0.4, 1, 2],
};

export const general: Second = (row) => {
  const of = row.class as string;
  if (row.table === 'linear')
    return same(row.value ?? null, LENGTHS[of]![LENGTHS_TO.indexOf(row.up_to_mm as number)], textOf(row));
  if (row.table === 'radii')
    return same(row.value, EDGES[of]![row.up_to_mm === null ? 2 : [3, 6].indexOf(row.up_to_mm as number)], textOf(row));
  return undefined;
};
