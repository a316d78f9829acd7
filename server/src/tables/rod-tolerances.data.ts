/** Round and square rod, plate, and bar of other metals: how far they are off as bought, as published rows. Data only. */
import type { BarTable } from './bar-tolerances.data';

const EN_755_3 = 'from two public tables';
const MEMORY = 'from memory';

/** Extruded round bar of aluminium. EN 755-4 has the same rows for square bar, from 10 mm. */
export const EN_755_ROUND = {
  I: {
    unit: 'mm',
    over: 8,
    source: `EN 755-3 alloy group I, ${EN_755_3}`,
    rows: [
      [18, 0.22, -0.22],
      [25, 0.25, -0.25],
      [40, 0.3, -0.3],
      [50, 0.35, -0.35],
      [65, 0.4, -0.4],
      [80, 0.45, -0.45],
      [100, 0.55, -0.55],
      [120, 0.65, -0.65],
      [150, 0.8, -0.8],
      [180, 1, -1],
      [220, 1.15, -1.15],
      [270, 1.3, -1.3],
      [320, 1.6, -1.6],
    ],
  },
  II: {
    unit: 'mm',
    over: 8,
    source: `EN 755-3 alloy group II, ${EN_755_3}`,
    rows: [
      [18, 0.3, -0.3],
      [25, 0.35, -0.35],
      [40, 0.4, -0.4],
      [50, 0.45, -0.45],
      [65, 0.5, -0.5],
      [80, 0.7, -0.7],
      [100, 0.9, -0.9],
      [120, 1, -1],
      [150, 1.2, -1.2],
      [180, 1.4, -1.4],
      [220, 1.7, -1.7],
      [270, 2, -2],
      [320, 2.5, -2.5],
    ],
  },
} as const satisfies Record<string, BarTable>;

/** The table has square bar to 80 mm; above it the rows are those of round bar, as below. */
const SQUARE = {
  over: 10,
  source: 'EN 755-4, from a public table to 80 mm; beyond as round bar, from memory',
} as const;
const toHalf = (rows: BarTable['rows']) => rows.filter(([upTo]) => upTo <= 220);
export const EN_755_SQUARE = {
  I: { ...EN_755_ROUND.I, ...SQUARE, rows: toHalf(EN_755_ROUND.I.rows) },
  II: { ...EN_755_ROUND.II, ...SQUARE, rows: toHalf(EN_755_ROUND.II.rows) },
} as const satisfies Record<string, BarTable>;

/** Thinner than extruded bar is listed, rod is drawn. */
export const EN_754: BarTable = {
  unit: 'mm',
  over: 3,
  source: 'EN 754-3 and -4, from a public table',
  rows: [
    [6, 0, -0.08],
    [10, 0, -0.09],
  ],
};

/**
 * Thickness of hot rolled aluminium plate rolled up to 1250 mm wide. A plate dealer's public table, which leaves out 12 to
 * 15; the row there is from memory.
 */
export const EN_485_3: BarTable = {
  unit: 'mm',
  over: 2.5,
  source: 'EN 485-3, from a public table',
  rows: [
    [4, 0.28, -0.28],
    [5, 0.3, -0.3],
    [6, 0.32, -0.32],
    [8, 0.35, -0.35],
    [10, 0.45, -0.45],
    [15, 0.5, -0.5],
    [20, 0.6, -0.6],
    [30, 0.65, -0.65],
    [40, 0.75, -0.75],
    [50, 0.9, -0.9],
    [60, 1.1, -1.1],
    [80, 1.4, -1.4],
    [100, 1.7, -1.7],
    [150, 2.1, -2.1],
    [200, 2.5, -2.5],
    [350, 2.8, -2.8],
    [400, 3.5, -3.5],
  ],
};

/** Extruded bar of alloys with much magnesium (5083, 5086, 5454): half as much again as of the others. */
export const B221_MAGNESIUM: BarTable = {
  unit: 'in',
  over: 0,
  source: `ASTM B221 / ANSI H35.2, alloys with much magnesium, ${MEMORY}`,
  rows: [
    [0.1245, 0.009, -0.009],
    [0.2495, 0.011, -0.011],
    [0.4995, 0.012, -0.012],
    [0.7495, 0.014, -0.014],
    [0.9995, 0.015, -0.015],
    [1.4995, 0.018, -0.018],
    [1.9995, 0.021, -0.021],
    [3.9995, 0.036, -0.036],
    [5.9995, 0.051, -0.051],
    [7.9995, 0.066, -0.066],
  ],
};

/** Rectangular bar of copper and brass, width and thickness. */
export const EN_12167: BarTable = {
  unit: 'mm',
  over: 3,
  source: `EN 12167 (EN 13601 for copper is close), ${MEMORY}`,
  rows: [
    [6, 0.06, -0.06],
    [10, 0.07, -0.07],
    [18, 0.1, -0.1],
    [30, 0.15, -0.15],
    [50, 0.2, -0.2],
    [80, 0.25, -0.25],
    [120, 0.3, -0.3],
  ],
};

/** Rod that standards give a field of ISO 286 for: the widest that is usual. */
export const ROD_FIELDS = {
  'steel round': { grade: 11, upToMm: 200, source: 'EN 10278, h11 (h9 can be had), from a public table' },
  'stainless round': { grade: 11, upToMm: 200, source: 'EN 10278, h11 (h9 can be had), from a public table' },
  'stainless square': { grade: 12, upToMm: 100, source: 'EN 10278, h12, from a public table' },
  'copper round': { grade: 11, upToMm: 80, source: `EN 12164 and EN 12163, h11 at the widest, ${MEMORY}` },
  'copper square': { grade: 11, upToMm: 60, source: `EN 12164 and EN 12163, h11, ${MEMORY}` },
} as const;

/** Cold finished round steel in inch sizes, at most 0.28 % carbon, and up to 0.55 %. */
export const A108_ROUND = {
  low: {
    unit: 'in',
    over: 0,
    source: `ASTM A108, ${MEMORY}`,
    rows: [
      [1.5, 0, -0.002],
      [2.5, 0, -0.003],
      [4, 0, -0.004],
      [6, 0, -0.005],
    ],
  },
  high: {
    unit: 'in',
    over: 0,
    source: `ASTM A108, ${MEMORY}`,
    rows: [
      [1.5, 0, -0.003],
      [2.5, 0, -0.004],
      [4, 0, -0.005],
      [6, 0, -0.006],
    ],
  },
} as const satisfies Record<string, BarTable>;
