/**
 * How far a bar's section, or a plate's thickness, is off as it is bought: extruded aluminium by its alloy group, cold
 * drawn steel and stainless, brass and copper, in metric and in inch sizes. A range, not a promise: measure the bar. The
 * rows are in `bar-tolerances.data.ts` and `rod-tolerances.data.ts`.
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
import { fitLimits } from './fits';
import type { MaterialFamily } from './materials.data';
import {
  A108_ROUND,
  B221_MAGNESIUM,
  EN_485_3,
  EN_754,
  EN_755_ROUND,
  EN_755_SQUARE,
  EN_12167,
  ROD_FIELDS,
} from './rod-tolerances.data';
import { MM_PER_INCH } from './units';

export interface BarDeviation {
  readonly upperMm: number;
  readonly lowerMm: number;
  readonly source: string;
}

export interface BarSort {
  /** Flat where it is left out. Of a plate only the thickness is the plate's. */
  readonly form?: 'flat' | 'square' | 'round' | 'plate';
  /** Of a flat bar, which side; the narrower one is its thickness. */
  readonly side?: 'width' | 'thickness';
  /** Bars of inch sizes are made to American standards. */
  readonly inch?: boolean;
  /** Percent; 0.2 where not known. */
  readonly carbon?: number;
  /** Four digits of an aluminium alloy; of group I where not known. */
  readonly alloy?: string;
}

/** Percent of carbon of a steel, by its name; undefined for what is not in the list. */
export function carbonOf(material: string): number | undefined {
  return CARBON[material];
}

/** `7075` of `aluminium-7075-t6`. */
export function alloyOf(material: string): string | undefined {
  return /^aluminium-(\d{4})/.exec(material)?.[1];
}

/** EN 755 parts alloys in two: those of 2000 and 7000, and of 5000 but for the weakest three, are harder to press. */
export function alloyGroup(alloy: string | undefined): 'I' | 'II' {
  return alloy && /^[257]/.test(alloy) && !/^(5005|5051|5251)/.test(alloy) ? 'II' : 'I';
}

/** Limits of a bar's section or a plate's thickness at a nominal size, mm; undefined for what no row has. */
export function barDeviation(sizeMm: number, family: MaterialFamily, sort: BarSort = {}): BarDeviation | undefined {
  const field = sort.inch ? undefined : ROD_FIELDS[`${family} ${sort.form}` as keyof typeof ROD_FIELDS];
  if (field) {
    const limits = sizeMm <= field.upToMm ? fitLimits(sizeMm, 'h', field.grade) : undefined;
    return limits && { upperMm: limits.upperMm, lowerMm: limits.lowerMm, source: field.source };
  }
  for (const table of tablesFor(family, sort)) {
    const scale = table.unit === 'in' ? MM_PER_INCH : 1;
    const size = sizeMm / scale;
    // The first row of a table begins at its size, but for nothing at all.
    if (!(size > 0) || size < table.over - 1e-9) continue;
    const row = table.rows.find(([upTo]) => size <= upTo + 1e-9);
    if (row) return { upperMm: row[1] * scale, lowerMm: row[2] * scale, source: table.source };
  }
  return undefined;
}

/** In the order they are asked. */
function tablesFor(family: MaterialFamily, sort: BarSort): readonly BarTable[] {
  const { form, side, inch, carbon = 0.2 } = sort;
  if (family === 'aluminium') return aluminium(sort);
  if (form === 'plate') return [];
  if (family === 'copper') return inch || form === 'round' || form === 'square' ? [] : [EN_12167];
  if (family === 'stainless') return inch ? [] : [EN_10278_OTHER];
  if (family !== 'steel') return [];
  if (inch) {
    const by = form === 'round' ? A108_ROUND : form === 'square' ? A108_SQUARE : A108_FLAT;
    return [by[carbon <= 0.28 ? 'low' : 'high']];
  }
  if (carbon > 0.2) return [EN_10278_OTHER];
  return [side === 'thickness' ? EN_10278_THICKNESS : EN_10278_WIDTH];
}

function aluminium({ form, inch, alloy }: BarSort): readonly BarTable[] {
  const group = alloyGroup(alloy);
  // A plate of inch sizes is rolled to other limits, which no row here has.
  if (form === 'plate') return inch ? [] : [EN_485_3];
  if (inch) return [/^5(083|086|454|456)/.test(alloy ?? '') ? B221_MAGNESIUM : B221_BAR];
  if (form === 'round') return [EN_755_ROUND[group], EN_754];
  if (form === 'square') return [EN_755_SQUARE[group], EN_754];
  return [EN_755_5[group]];
}
