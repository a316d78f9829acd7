/** ISO 2768 as rows. Data only; `general-tolerances.ts` reads it. A range is "over the one before, up to and including". */

export interface RangeTable {
  readonly source: string;
  /** Upper end of each range, mm. */
  readonly upToMm: readonly number[];
  /** By class, one value for each range; null where the standard gives none. */
  readonly values: Readonly<Record<string, readonly (number | null)[]>>;
}

/** ± mm, by the dimension; the first range starts at and includes 0.5 mm. */
export const LINEAR: RangeTable = {
  source: 'ISO 2768-1:1989 Table 1, from public tables that agree',
  upToMm: [3, 6, 30, 120, 400, 1000, 2000, 4000],
  values: {
    f: [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, null],
    m: [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2],
    c: [0.2, 0.3, 0.5, 0.8, 1.2, 2, 3, 4],
    v: [null, 0.5, 1, 1.5, 2.5, 4, 6, 8],
  },
};

/** ± mm for external radii and chamfer heights; the first range starts at and includes 0.5 mm. */
export const RADII: RangeTable = {
  source: 'ISO 2768-1:1989 Table 2, from a public table',
  upToMm: [3, 6, Number.POSITIVE_INFINITY],
  values: { f: [0.2, 0.5, 1], m: [0.2, 0.5, 1], c: [0.4, 1, 2], v: [0.4, 1, 2] },
};

/** ± minutes of arc, by the shorter leg of the angle. */
export const ANGLES: RangeTable = {
  source: 'ISO 2768-1:1989 Table 3, from public tables (four of five agree)',
  upToMm: [10, 50, 120, 400, Number.POSITIVE_INFINITY],
  values: {
    f: [60, 30, 20, 10, 5],
    m: [60, 30, 20, 10, 5],
    c: [90, 60, 30, 15, 10],
    v: [180, 120, 60, 30, 20],
  },
};

export const STRAIGHTNESS_AND_FLATNESS: RangeTable = {
  source: 'ISO 2768-2:1989 (withdrawn 2021, ISO 22081 in its place) Table 1, from a public table',
  upToMm: [10, 30, 100, 300, 1000, 3000],
  values: {
    H: [0.02, 0.05, 0.1, 0.2, 0.3, 0.4],
    K: [0.05, 0.1, 0.2, 0.4, 0.6, 0.8],
    L: [0.1, 0.2, 0.4, 0.8, 1.2, 1.6],
  },
};

export const PERPENDICULARITY: RangeTable = {
  source:
    'ISO 2768-2:1989 (withdrawn 2021, ISO 22081 in its place) Table 2, from a public table; a second has 0.8 for L to 100 mm',
  upToMm: [100, 300, 1000, 3000],
  values: { H: [0.2, 0.3, 0.4, 0.5], K: [0.4, 0.6, 0.8, 1], L: [0.6, 1, 1.5, 2] },
};

export const SYMMETRY: RangeTable = {
  source: 'ISO 2768-2:1989 (withdrawn 2021, ISO 22081 in its place) Table 3, from a public table',
  upToMm: [100, 300, 1000, 3000],
  values: { H: [0.5, 0.5, 0.5, 0.5], K: [0.6, 0.6, 0.8, 1], L: [0.6, 1, 1.5, 2] },
};

export const RUNOUT: RangeTable = {
  source: 'ISO 2768-2:1989 (withdrawn 2021, ISO 22081 in its place) Table 4, from a public table',
  upToMm: [Number.POSITIVE_INFINITY],
  values: { H: [0.1], K: [0.2], L: [0.5] },
};
