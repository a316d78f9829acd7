/**
 * How far a bar's section is off as it is bought: extruded aluminium, cold drawn steel, in metric and in inch sizes. A
 * range, not a promise: measure the bar. The rows are in `bar-tolerances.data.ts`.
 */
import {
  A108_FLAT,
  A108_SQUARE,
  B221_BAR,
  type BarTable,
  CARBON,
  EN_755_5,
  EN_10278_OTHER,
  EN_10278_THICKNESS,
  EN_10278_WIDTH,
} from './bar-tolerances.data';
import type { MaterialFamily } from './materials.data';
import { MM_PER_INCH } from './units';

export interface BarDeviation {
  readonly upperMm: number;
  readonly lowerMm: number;
  readonly source: string;
}

export interface BarSort {
  /** Of a flat bar, which side; the narrower one is its thickness. */
  readonly side?: 'width' | 'thickness';
  readonly square?: boolean;
  /** Bars of inch sizes are made to American standards. */
  readonly inch?: boolean;
  /** Percent; 0.2 where not known. */
  readonly carbon?: number;
}

/** Percent of carbon of a steel, by its name; undefined for what is not in the list. */
export function carbonOf(material: string): number | undefined {
  return CARBON[material];
}

/** Limits of a flat or square bar's section at a nominal size, mm; undefined for materials and sizes that no row has. */
export function barDeviation(sizeMm: number, family: MaterialFamily, sort: BarSort = {}): BarDeviation | undefined {
  const table = tableFor(family, sort);
  const scale = table?.unit === 'in' ? MM_PER_INCH : 1;
  const size = sizeMm / scale;
  // The first row of a table begins at its size, but for nothing at all.
  if (!table || !(size > 0) || size < table.over - 1e-9) return undefined;
  const row = table.rows.find(([upTo]) => size <= upTo + 1e-9);
  return row && { upperMm: row[1] * scale, lowerMm: row[2] * scale, source: table.source };
}

function tableFor(family: MaterialFamily, { side, square, inch, carbon = 0.2 }: BarSort): BarTable | undefined {
  if (family === 'aluminium') return inch ? B221_BAR : EN_755_5;
  if (family !== 'steel') return undefined;
  if (inch) return (square ? A108_SQUARE : A108_FLAT)[carbon <= 0.28 ? 'low' : 'high'];
  if (carbon > 0.2) return EN_10278_OTHER;
  return side === 'thickness' ? EN_10278_THICKNESS : EN_10278_WIDTH;
}
