/**
 * How far a bar's section is off as it is bought, as rows of "over the one before, up to and including" mm. Extruded
 * aluminium by EN 755-5 (from memory), cold drawn steel by EN 10278 (public pages that agree to 100 mm). A range, not a
 * promise: measure the bar.
 */
import type { MaterialFamily } from './materials.data';

export interface BarDeviation {
  readonly upperMm: number;
  readonly lowerMm: number;
  readonly source: string;
}

type Row = readonly [upToMm: number, upperMm: number, lowerMm: number];

/** Widths of extruded rectangular bar, alloy group I; the first row starts at 10 mm. */
const EXTRUDED: readonly Row[] = [
  [18, 0.25, -0.25],
  [30, 0.3, -0.3],
  [50, 0.4, -0.4],
  [80, 0.6, -0.6],
  [120, 0.8, -0.8],
  [180, 1, -1],
  [240, 1.4, -1.4],
  [350, 1.8, -1.8],
];
/** Widths of cold drawn flats of steel with up to 0.2 % carbon; thicknesses to 60 mm have the same. */
const DRAWN: readonly Row[] = [
  [18, 0, -0.11],
  [30, 0, -0.13],
  [50, 0, -0.16],
  [80, 0, -0.19],
  [100, 0, -0.22],
  [150, 0.5, -0.5],
  [200, 1, -1],
  [300, 2, -2],
  [400, 2.5, -2.5],
];

/** Limits of a flat or square bar's width at a nominal size, mm; undefined for materials and sizes that no row has. */
export function barDeviation(sizeMm: number, family: MaterialFamily): BarDeviation | undefined {
  const table =
    family === 'aluminium' && sizeMm >= 10
      ? { rows: EXTRUDED, source: 'EN 755-5, from memory' }
      : family === 'steel'
        ? { rows: DRAWN, source: 'EN 10278, from public pages' }
        : undefined;
  const row = sizeMm > 0 ? table?.rows.find(([upTo]) => sizeMm <= upTo) : undefined;
  return table && row && { upperMm: row[1], lowerMm: row[2], source: table.source };
}
