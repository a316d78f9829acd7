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

/** The words for a fit: those of the trade and of ASME B18.2.8 first, those of ISO 273 beside them. */
const FITS: Readonly<Record<string, ClearanceClass>> = {
  close: 'fine',
  fine: 'fine',
  normal: 'medium',
  medium: 'medium',
  loose: 'coarse',
  coarse: 'coarse',
};
export const FIT_WORDS: readonly string[] = Object.keys(FITS);

type Cleared =
  | { readonly ok: true; readonly hole: ClearanceHole }
  | { readonly ok: false; readonly wrong: 'size' | 'fit'; readonly text: string };

/** A clearance as a part file writes it: a screw's size, and a fit where one is wanted: `M5`, `M5 close`, `1/4 loose`. */
export function readClearance(text: string): Cleared {
  const [, size = '', word] = /^(.*?)(?:\s+([a-z]+))?$/i.exec(text.trim()) ?? [];
  // The series of a thread is no fit: `10-24 UNC`.
  if (word === undefined || /^un[cf]$/i.test(word)) return cleared(text, 'medium');
  const fit = FITS[word.toLowerCase()];
  if (fit) return cleared(size, fit);
  return screwSize(size) === undefined ? { ok: false, wrong: 'size', text } : { ok: false, wrong: 'fit', text: word };
}

function cleared(size: string, fit: ClearanceClass): Cleared {
  const hole = clearanceHole(size, fit);
  return hole ? { ok: true, hole } : { ok: false, wrong: 'size', text: size.trim() };
}

/** What a fit is called where the screw's standard is read: ISO 273 says fine, medium, coarse; ASME close, normal, loose. */
export function fitText({ screw, class: fit }: Pick<ClearanceHole, 'screw' | 'class'>): string {
  const trade = { fine: 'close', medium: 'normal', coarse: 'loose' }[fit];
  return screw.startsWith('M') ? `${trade} fit, ISO 273 ${fit}` : `${trade} fit, ASME B18.2.8`;
}

/** ISO 273 gives each series a tolerance field. ASME's are ranges of their own. */
export const ISO_273_GRADE: Readonly<Record<ClearanceClass, 12 | 13 | 14>> = { fine: 12, medium: 13, coarse: 14 };

/** Every screw size with a clearance hole, metric first. */
export function clearanceSizes(): readonly string[] {
  return [...METRIC.keys(), ...INCH.keys()];
}

/** The screw and class that a plain hole of this size would be a clearance hole for, if it is one of the listed sizes. */
export function clearanceOf(diameterMm: number): ClearanceHole | undefined {
  everyHole ??= clearanceSizes().flatMap((screw) =>
    (['medium', 'fine', 'coarse'] as const).flatMap((fit) => clearanceHole(screw, fit) ?? []),
  );
  // An inch size written in mm to three places is still that size.
  return everyHole.find((hole) => Math.abs(hole.diameterMm - diameterMm) < (hole.drill ? 1e-3 : 1e-6));
}

/** Every hole of both standards, made when first asked for. */
let everyHole: readonly ClearanceHole[] | undefined;
