/** Screw threads as published rows: nominal diameter, pitch, tap drill. Data only; `threads.ts` reads it. */

/** Metric: [designation, series, diameter mm, pitch mm, tap drill mm, source]. */
const HANDBOOK = "tap drill: Mechanical Engineer's Data Handbook p. 299; pitch: ISO 261 and the same page";
const TRAINEES = "tap drill: a trainees' handbook at nzdl.org, D − P to 0.1 mm; pitch: ISO 261, from memory";
const MEMORY_COARSE = 'tap drill: ISO 2306, from memory; pitch: ISO 261, from memory';
const MEMORY_FINE = 'tap drill D − P: ISO 2306, from memory; pitch: ISO 261, from memory';

type MetricRow = readonly [string, 'coarse' | 'fine', number, number, number, string];
export const METRIC_ROWS: readonly MetricRow[] = [
  ['M1.6', 'coarse', 1.6, 0.35, 1.25, HANDBOOK],
  ['M2', 'coarse', 2, 0.4, 1.6, HANDBOOK],
  ['M2.5', 'coarse', 2.5, 0.45, 2.05, HANDBOOK],
  ['M3', 'coarse', 3, 0.5, 2.5, HANDBOOK],
  ['M3.5', 'coarse', 3.5, 0.6, 2.9, MEMORY_COARSE],
  ['M4', 'coarse', 4, 0.7, 3.3, HANDBOOK],
  ['M5', 'coarse', 5, 0.8, 4.2, HANDBOOK],
  ['M6', 'coarse', 6, 1, 5, HANDBOOK],
  ['M7', 'coarse', 7, 1, 6, MEMORY_COARSE],
  ['M8', 'coarse', 8, 1.25, 6.8, HANDBOOK],
  ['M10', 'coarse', 10, 1.5, 8.5, HANDBOOK],
  ['M12', 'coarse', 12, 1.75, 10.2, HANDBOOK],
  ['M14', 'coarse', 14, 2, 12, MEMORY_COARSE],
  ['M16', 'coarse', 16, 2, 14, HANDBOOK],
  ['M18', 'coarse', 18, 2.5, 15.5, MEMORY_COARSE],
  ['M20', 'coarse', 20, 2.5, 17.5, HANDBOOK],
  ['M22', 'coarse', 22, 2.5, 19.5, MEMORY_COARSE],
  ['M24', 'coarse', 24, 3, 21, HANDBOOK],
  ['M2x0.25', 'fine', 2, 0.25, 1.75, MEMORY_FINE],
  ['M2.5x0.35', 'fine', 2.5, 0.35, 2.15, MEMORY_FINE],
  ['M3x0.35', 'fine', 3, 0.35, 2.65, MEMORY_FINE],
  ['M4x0.5', 'fine', 4, 0.5, 3.5, MEMORY_FINE],
  ['M5x0.5', 'fine', 5, 0.5, 4.5, MEMORY_FINE],
  ['M6x0.75', 'fine', 6, 0.75, 5.2, TRAINEES],
  ['M8x0.75', 'fine', 8, 0.75, 7.25, TRAINEES],
  ['M8x1', 'fine', 8, 1, 7, TRAINEES],
  ['M10x0.75', 'fine', 10, 0.75, 9.25, TRAINEES],
  ['M10x1', 'fine', 10, 1, 9, TRAINEES],
  ['M10x1.25', 'fine', 10, 1.25, 8.8, TRAINEES],
  ['M12x1', 'fine', 12, 1, 11, TRAINEES],
  ['M12x1.25', 'fine', 12, 1.25, 10.8, TRAINEES],
  ['M12x1.5', 'fine', 12, 1.5, 10.5, TRAINEES],
  ['M14x1.5', 'fine', 14, 1.5, 12.5, TRAINEES],
  ['M16x1', 'fine', 16, 1, 15, MEMORY_FINE],
  ['M16x1.5', 'fine', 16, 1.5, 14.5, MEMORY_FINE],
  ['M18x1.5', 'fine', 18, 1.5, 16.5, MEMORY_FINE],
  ['M20x1.5', 'fine', 20, 1.5, 18.5, MEMORY_FINE],
  ['M22x1.5', 'fine', 22, 1.5, 20.5, TRAINEES],
  ['M24x1.5', 'fine', 24, 1.5, 22.5, TRAINEES],
  ['M24x2', 'fine', 24, 2, 22, TRAINEES],
];

/** Minor diameter tolerance TD1 of class 6H by pitch, µm: ISO 965-1, from memory; the standard's formula gives the same within 4 %. */
export const TD1_6H_UM: ReadonlyMap<number, number> = new Map([
  [0.35, 100],
  [0.4, 112],
  [0.45, 125],
  [0.5, 140],
  [0.6, 160],
  [0.7, 180],
  [0.75, 190],
  [0.8, 200],
  [1, 236],
  [1.25, 265],
  [1.5, 300],
  [1.75, 335],
  [2, 375],
  [2.5, 450],
  [3, 500],
]);

/** Pitches too fine for grade 6: ISO 965-1 has no 6H of them; TD1 of 5H, µm, from memory. */
export const TD1_5H_UM: ReadonlyMap<number, number> = new Map([[0.25, 56]]);

const MH_DRILLS = "drill decimals: Machinery's Handbook 31 p. 2168; threads: ASME B1.1";
const MH_NUMBER_TWO = "drill and percentages: Machinery's Handbook 31 p. 2155; threads: ASME B1.1";
const NUMBER_DRILLS = 'number drills and threads (ASME B1.1): from memory';

/** Unified: [designation, series, diameter in, threads per inch, tap drill by name, tap drill in, source]. */
type UnifiedRow = readonly [string, 'UNC' | 'UNF', number, number, string, number, string];
export const UNIFIED_ROWS: readonly UnifiedRow[] = [
  ['2-56 UNC', 'UNC', 0.086, 56, '#50', 0.07, MH_NUMBER_TWO],
  ['2-64 UNF', 'UNF', 0.086, 64, '#50', 0.07, MH_NUMBER_TWO],
  ['3-48 UNC', 'UNC', 0.099, 48, '#47', 0.0785, NUMBER_DRILLS],
  ['3-56 UNF', 'UNF', 0.099, 56, '#45', 0.082, NUMBER_DRILLS],
  ['4-40 UNC', 'UNC', 0.112, 40, '#43', 0.089, NUMBER_DRILLS],
  ['4-48 UNF', 'UNF', 0.112, 48, '#42', 0.0935, NUMBER_DRILLS],
  ['5-40 UNC', 'UNC', 0.125, 40, '#38', 0.1015, NUMBER_DRILLS],
  ['5-44 UNF', 'UNF', 0.125, 44, '#37', 0.104, NUMBER_DRILLS],
  ['6-32 UNC', 'UNC', 0.138, 32, '#36', 0.1065, NUMBER_DRILLS],
  ['6-40 UNF', 'UNF', 0.138, 40, '#33', 0.113, NUMBER_DRILLS],
  ['8-32 UNC', 'UNC', 0.164, 32, '#29', 0.136, NUMBER_DRILLS],
  ['8-36 UNF', 'UNF', 0.164, 36, '#29', 0.136, NUMBER_DRILLS],
  ['10-24 UNC', 'UNC', 0.19, 24, '#25', 0.1495, NUMBER_DRILLS],
  ['10-32 UNF', 'UNF', 0.19, 32, '#21', 0.159, NUMBER_DRILLS],
  ['1/4-20 UNC', 'UNC', 0.25, 20, '#7', 0.201, MH_DRILLS],
  ['1/4-28 UNF', 'UNF', 0.25, 28, '#3', 0.213, MH_DRILLS],
  ['5/16-18 UNC', 'UNC', 0.3125, 18, 'F', 0.257, MH_DRILLS],
  ['5/16-24 UNF', 'UNF', 0.3125, 24, 'I', 0.272, MH_DRILLS],
  ['3/8-16 UNC', 'UNC', 0.375, 16, '5/16', 0.3125, MH_DRILLS],
  ['3/8-24 UNF', 'UNF', 0.375, 24, 'Q', 0.332, MH_DRILLS],
  ['7/16-14 UNC', 'UNC', 0.4375, 14, 'U', 0.368, MH_DRILLS],
  ['7/16-20 UNF', 'UNF', 0.4375, 20, '25/64', 0.390625, MH_DRILLS],
  ['1/2-13 UNC', 'UNC', 0.5, 13, '27/64', 0.421875, MH_DRILLS],
  ['1/2-20 UNF', 'UNF', 0.5, 20, '29/64', 0.453125, MH_DRILLS],
];
