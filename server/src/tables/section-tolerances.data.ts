/** How far tube, angle, channel and tee are off as they are bought, as published rows. Data only; `section-tolerances.ts` reads it. */
import type { BarTable } from './bar-tolerances.data';

const EN_755_9 = 'EN 755-9 alloy group I, from a public table';
const MEMORY = 'from memory';

const even = (rows: readonly (readonly [upTo: number, mm: number])[]): BarTable['rows'] =>
  rows.map(([upTo, mm]) => [upTo, mm, -mm] as const);

/** Extruded aluminium: outside sizes, by the circle that the section fits into, up to and including mm. */
export const EN_755_9_SIZES: readonly (readonly [circleUpTo: number, table: BarTable])[] = [
  [
    100,
    {
      unit: 'mm',
      over: 0,
      source: EN_755_9,
      rows: even([
        [10, 0.25],
        [25, 0.3],
        [50, 0.5],
        [100, 0.7],
      ]),
    },
  ],
  [
    200,
    {
      unit: 'mm',
      over: 0,
      source: EN_755_9,
      rows: even([
        [10, 0.3],
        [25, 0.4],
        [50, 0.6],
        [100, 0.9],
        [150, 1.1],
        [200, 1.3],
      ]),
    },
  ],
  [
    300,
    {
      unit: 'mm',
      over: 0,
      source: EN_755_9,
      rows: even([
        [10, 0.35],
        [25, 0.5],
        [50, 0.8],
        [100, 1.1],
        [150, 1.3],
        [200, 1.5],
        [300, 1.7],
      ]),
    },
  ],
];

/** Its walls, by thickness: of open sections, and those round a hollow; in a circle to 100 mm, and to 300. */
export const EN_755_9_WALLS: readonly (readonly [
  upTo: number,
  open: readonly [to100: number, to300: number],
  hollow: readonly [to100: number, to300: number],
])[] = [
  [1.5, [0.15, 0.2], [0.2, 0.3]],
  [3, [0.15, 0.25], [0.25, 0.4]],
  [6, [0.2, 0.3], [0.4, 0.6]],
  [10, [0.25, 0.35], [0.6, 0.8]],
  [15, [0.3, 0.4], [0.8, 1]],
  [20, [0.35, 0.45], [1.2, 1.5]],
  [30, [0.4, 0.5], [1.5, 1.8]],
];
export const SECTION_SOURCE = EN_755_9;

/** How far a face of such a section is bowed across, by its width: of open ones, and of tube with a wall to 5 mm and over. */
export const EN_755_9_BOWED: readonly (readonly [upTo: number, open: number, thin: number, thick: number])[] = [
  [30, 0.2, 0.3, 0.2],
  [60, 0.3, 0.4, 0.3],
  [100, 0.4, 0.6, 0.4],
  [150, 0.6, 0.9, 0.6],
  [200, 0.8, 1.2, 0.8],
  [300, 1.2, 1.8, 1.2],
];
/** And along it, over any 300 mm. */
export const STRAIGHT_IN_300 = { mm: 0.6, source: `EN 755-9, ${MEMORY}` } as const;

/** Round tube of extruded aluminium: outside diameter, as the mean of what is measured. */
export const EN_755_8_ROUND: BarTable = {
  unit: 'mm',
  over: 8,
  source: `EN 755-8 alloy group I, ${MEMORY}`,
  rows: even([
    [18, 0.25],
    [30, 0.3],
    [50, 0.35],
    [80, 0.4],
    [120, 0.6],
    [200, 0.9],
  ]),
};

/** Hot rolled steel angle: its legs. */
export const EN_10056_2: BarTable = {
  unit: 'mm',
  over: 0,
  source: `EN 10056-2, ${MEMORY}`,
  rows: even([
    [50, 1],
    [100, 2],
    [150, 3],
    [200, 4],
  ]),
};

/** Cold formed steel tube: a share of its size, and never less than so much, mm. */
export const EN_10219_2 = { share: 0.01, leastMm: 0.5, upToMm: 100, source: `EN 10219-2, ${MEMORY}` } as const;
