/** Clearance holes for screws: ISO 273 and ASME B18.2.8. The rows are in `clearance.data.ts`. */
import { ASME_B18_2_8, B18_2_8_ROWS, ISO_273_ROWS } from './clearance.data';
import { screwSize } from './screw-size';
import { MM_PER_INCH } from './units';

export type ClearanceClass = 'fine' | 'medium' | 'coarse';

export interface ClearanceHole {
  readonly screw: string;
  readonly class: ClearanceClass;
  readonly diameterMm: number;
  /** The drill by name, for inch sizes: `#9`, `17/64`. */
  readonly drill?: string;
  readonly source: string;
}

const METRIC = new Map(ISO_273_ROWS.map((row) => [row[0], row]));
const INCH = new Map(B18_2_8_ROWS.map((row) => [row[0], row]));

/**
 * The clearance hole of a screw size (`M5`, `#10`, `1/4`, or a whole thread designation), medium unless told.
 * ASME's close, normal and loose fits answer to fine, medium and coarse. Undefined for a size that is not listed.
 */
export function clearanceHole(size: string, fit: ClearanceClass = 'medium'): ClearanceHole | undefined {
  const screw = screwSize(size);
  if (screw === undefined) return undefined;
  const column = fit === 'fine' ? 0 : fit === 'medium' ? 1 : 2;
  const metric = METRIC.get(screw);
  if (metric) return { screw, class: fit, diameterMm: [metric[1], metric[2], metric[3]][column]!, source: metric[4] };
  const inch = INCH.get(screw);
  if (!inch) return undefined;
  const drill = [inch[1], inch[3], inch[5]][column]!;
  const inches = [inch[2], inch[4], inch[6]][column]!;
  return { screw, class: fit, diameterMm: Number((inches * MM_PER_INCH).toFixed(4)), drill, source: ASME_B18_2_8 };
}

/** The screw and class that a plain hole of this size would be a clearance hole for, if it is one of the listed sizes. */
export function clearanceOf(diameterMm: number): ClearanceHole | undefined {
  metricHoles ??= ISO_273_ROWS.flatMap(([screw]) =>
    (['medium', 'fine', 'coarse'] as const).flatMap((fit) => clearanceHole(screw, fit) ?? []),
  );
  return metricHoles.find((hole) => Math.abs(hole.diameterMm - diameterMm) < 1e-6);
}

/** Every hole of ISO 273, made when first asked for. */
let metricHoles: readonly ClearanceHole[] | undefined;
