/** How far bars are off as they are bought, as published rows. Data only; `bar-tolerances.ts` reads it. */

/** Up to and including; what it may be more, and less, than its nominal size. All in the unit of its table. */
type BarRow = readonly [upTo: number, upper: number, lower: number];

export interface BarTable {
  readonly unit: 'mm' | 'in';
  /** Sizes below are not in the table. */
  readonly over: number;
  readonly rows: readonly BarRow[];
  readonly source: string;
}

const EN_10278 = 'EN 10278, from public tables';
const A108 = 'ASTM A108, from a public table';
const B221 = 'ASTM B221 / ANSI H35.2, from memory';
const END = Number.POSITIVE_INFINITY;

export const EN_10278_WIDTH: BarTable = {
  unit: 'mm',
  over: 0,
  source: EN_10278,
  rows: [
    [18, 0, -0.11],
    [30, 0, -0.13],
    [50, 0, -0.16],
    [80, 0, -0.19],
    [100, 0, -0.22],
    [150, 0.5, -0.5],
    [200, 1, -1],
    [300, 2, -2],
    [400, 2.5, -2.5],
  ],
};
/** Steel of at most 0.20 % carbon. */
export const EN_10278_THICKNESS: BarTable = {
  unit: 'mm',
  over: 3,
  source: EN_10278,
  rows: [
    [6, 0, -0.075],
    [10, 0, -0.09],
    [18, 0, -0.11],
    [30, 0, -0.13],
    [50, 0, -0.16],
    [60, 0, -0.19],
    [80, 0, -0.3],
    [100, 0, -0.35],
  ],
};
/** Steel of more carbon, and other steels. The table's widths are for little carbon only; theirs are taken to be these. */
export const EN_10278_OTHER: BarTable = {
  unit: 'mm',
  over: 3,
  source: EN_10278,
  rows: EN_10278_THICKNESS.rows.map(([upTo, upper, lower]) => [upTo, upper, 2 * lower] as const),
};

/** Cold finished flats, width and thickness: at most 0.28 % carbon, and up to 0.55 %. */
export const A108_FLAT = {
  low: {
    unit: 'in',
    over: 0,
    source: A108,
    rows: [
      [0.75, 0, -0.003],
      [1.5, 0, -0.004],
      [3, 0, -0.005],
      [4, 0, -0.006],
      [6, 0, -0.008],
      [END, 0, -0.013],
    ],
  },
  high: {
    unit: 'in',
    over: 0,
    source: A108,
    rows: [
      [0.75, 0, -0.004],
      [1.5, 0, -0.005],
      [3, 0, -0.006],
      [4, 0, -0.008],
      [6, 0, -0.01],
      [END, 0, -0.015],
    ],
  },
} as const satisfies Record<string, BarTable>;

export const A108_SQUARE = {
  low: {
    unit: 'in',
    over: 0,
    source: A108,
    rows: [
      [0.75, 0, -0.002],
      [1.5, 0, -0.003],
      [2.5, 0, -0.004],
      [4, 0, -0.006],
    ],
  },
  high: {
    unit: 'in',
    over: 0,
    source: A108,
    rows: [
      [0.75, 0, -0.004],
      [1.5, 0, -0.005],
      [2.5, 0, -0.006],
      [4, 0, -0.008],
    ],
  },
} as const satisfies Record<string, BarTable>;

/** Extruded bar of the usual alloys, circumscribed circle under 10 in. Its ranges end a thousandth before the next begins. */
export const B221_BAR: BarTable = {
  unit: 'in',
  over: 0,
  source: B221,
  rows: [
    [0.1245, 0.006, -0.006],
    [0.2495, 0.007, -0.007],
    [0.4995, 0.008, -0.008],
    [0.7495, 0.009, -0.009],
    [0.9995, 0.01, -0.01],
    [1.4995, 0.012, -0.012],
    [1.9995, 0.014, -0.014],
    [3.9995, 0.024, -0.024],
    [5.9995, 0.034, -0.034],
    [7.9995, 0.044, -0.044],
  ],
};

/**
 * Flat bar of extruded aluminium. The widths are a bar dealer's public table, for both groups. A thickness is allowed what
 * the narrowest bar of that thickness is: the same rows from 10 mm on (so says a second public table for widths to 30, group
 * I), and two of its own below; wide bars may be off a little more.
 */
export const EN_755_5 = {
  I: {
    unit: 'mm',
    over: 2,
    source: 'EN 755-5 alloy group I, from public tables',
    rows: [
      [6, 0.2, -0.2],
      [10, 0.25, -0.25],
      [18, 0.25, -0.25],
      [30, 0.3, -0.3],
      [50, 0.4, -0.4],
      [80, 0.6, -0.6],
      [120, 0.8, -0.8],
      [180, 1, -1],
      [240, 1.4, -1.4],
      [350, 1.8, -1.8],
    ],
  },
  II: {
    unit: 'mm',
    over: 2,
    source: 'EN 755-5 alloy group II, from a public table; below 10 mm from memory',
    rows: [
      [6, 0.25, -0.25],
      [10, 0.3, -0.3],
      [18, 0.35, -0.35],
      [30, 0.4, -0.4],
      [50, 0.5, -0.5],
      [80, 0.7, -0.7],
      [120, 1, -1],
      [180, 1.4, -1.4],
      [240, 1.8, -1.8],
      [350, 2.2, -2.2],
    ],
  },
} as const satisfies Record<string, BarTable>;

/** Percent of carbon, about the middle of what the standard allows. From memory. */
export const CARBON: Readonly<Record<string, number>> = {
  'steel-s235jr': 0.17,
  'steel-s355j2': 0.2,
  'steel-1018': 0.18,
  'steel-c45': 0.45,
  'steel-4140': 0.41,
  'steel-4140-qt': 0.41,
  'steel-11smn30': 0.11,
  'steel-o1': 0.95,
};
