/**
 * ANSI B4.1: inch fits by class. A class is both limits, of the hole and of the shaft; as in ISO 286 it is the hole's where it is
 * written in capitals, `RC4`, and the shaft's in small letters, `rc4`. The rows are in `inch-fits.data.ts`.
 */
import {
  FORCE_UP_TO,
  INCH_EQUAL,
  INCH_FITS,
  INCH_FORCE,
  INCH_GRADES,
  INCH_LETTERS,
  INCH_MEMORY,
  INCH_PRESSED,
  INCH_SOURCE,
  INCH_UP_TO,
} from './inch-fits.data';
import { MM_PER_INCH } from './units';

/** In order, loosest first, each with its last class. */
export const INCH_FAMILIES: ReadonlyMap<string, number> = new Map([
  ['RC', 9],
  ['LC', 11],
  ['LT', 6],
  ['LN', 3],
  ['FN', 5],
]);

export function isInchFit(letter: string): boolean {
  return INCH_FAMILIES.has(letter.toUpperCase());
}

interface InchLimits {
  readonly upperMm: number;
  readonly lowerMm: number;
  readonly source: string;
}

/** Undefined for a class that the standard does not have at this size; over 19.69 in it is not read. */
export function inchLimits(nominalMm: number, letter: string, grade: number): InchLimits | undefined {
  const inches = nominalMm / MM_PER_INCH;
  const name = `${letter.toUpperCase()}${grade}`;
  const range = inches > 0 ? indexOf(INCH_UP_TO, inches) : -1;
  const hole = (INCH_FITS[name] ?? INCH_EQUAL[name] ?? INCH_PRESSED[name] ?? INCH_FORCE[name])?.[0];
  const widthOfHole = hole === undefined ? undefined : INCH_GRADES[hole]?.[range];
  const shaft = shaftOf(name, inches, range);
  if (widthOfHole === undefined || !shaft) return undefined;
  const [lower, upper] = letter === letter.toUpperCase() ? [0, widthOfHole] : shaft;
  const source = isFromMemory(name, range) ? INCH_MEMORY : INCH_SOURCE;
  return { upperMm: toMm(upper), lowerMm: toMm(lower), source };
}

/**
 * Read are: of LC6 to LC9 what their table heads them by (H9 and f8, and so on), whose widths and deviations are those of the
 * RC classes; of LC10 and LC11 the sizes to 1.19 in; of LT1 those to 3.15.
 */
function isFromMemory(name: string, range: number): boolean {
  if (/^LC[1-5]$/.test(name)) return true;
  return /^LC1[01]$/.test(name) ? range > 4 : name === 'LT1' && range > 6;
}

/** Lower and upper deviation of the shaft, thousandths. */
function shaftOf(name: string, inches: number, range: number): readonly [number, number] | undefined {
  const pressed = INCH_PRESSED[name] ?? INCH_FORCE[name];
  if (pressed) {
    const at = name in INCH_FORCE ? indexOf(FORCE_UP_TO, inches) : range;
    const [lower, upper] = [pressed[1][at], pressed[2][at]];
    return typeof lower === 'number' && typeof upper === 'number' ? [lower, upper] : undefined;
  }
  const half = INCH_EQUAL[name]?.[1][range];
  if (half !== undefined) return [-half, half];
  const [, letter, grade] = INCH_FITS[name] ?? [];
  const deviation = letter === undefined ? undefined : INCH_LETTERS[letter]?.[range];
  if (typeof deviation !== 'number' || grade === undefined) return undefined;
  // The standard's table has 1.5 thousandths where the grade is 1.8.
  const width = name === 'RC9' && range === 1 ? 1.5 : INCH_GRADES[grade]![range]!;
  return deviation > 0 ? [deviation, deviation + width] : [deviation - width, deviation];
}

/** The ranges are in inches: 25.4 mm is 1 in whatever the last digit says. */
function indexOf(upTo: readonly number[], inches: number): number {
  return upTo.findIndex((end) => inches <= end + 1e-9);
}

function toMm(thousandths: number): number {
  return Math.round(thousandths * MM_PER_INCH * 1e3) / 1e6 || 0;
}
