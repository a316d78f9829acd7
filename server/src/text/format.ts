/**
 * Lengths as text: for people to read in messages, and for edits to write into a document.
 */
import { ROUNDING } from '../tolerance';

type Units = 'mm' | 'in';

/** Exact by definition (NIST SP 811, appendix B.8: 1 in = 2.54 cm; from memory). */
export const MM_PER_INCH = 25.4;

/** What the bare number 1 means, in mm. */
export function mmPer(units: Units): number {
  return units === 'in' ? MM_PER_INCH : 1;
}

const SHOWN_DECIMALS = 3;
const MOST_DECIMALS = 9;
/** Written into documents: a micrometre, or a tenth of a thou. */
const WRITTEN_DECIMALS: Readonly<Record<Units, number>> = { mm: 3, in: 4 };

/**
 * A length for people: `0.4 mm`, `0.016 in`. Three decimals, more where the value would else read as nothing, or as
 * the same as `besideMm`, which the message compares it with. No trailing zeros.
 */
export function formatLength(mm: number, units: Units, besideMm?: number): string {
  return `${digits(mm / mmPer(units), besideMm === undefined ? undefined : besideMm / mmPer(units))} ${units}`;
}

/** A computed length for people: to 0.01 mm or 0.001 in, finer below 1 mm, and where it would else read as `besideMm`. */
export function formatNear(mm: number, units: Units, besideMm?: number): string {
  const fine = Math.abs(mm) < 1 || units === 'in';
  const [value, beside] = [mm / mmPer(units), besideMm === undefined ? undefined : besideMm / mmPer(units)];
  return `${digits(value, beside, fine ? SHOWN_DECIMALS : SHOWN_DECIMALS - 1)} ${units}`;
}

/** A length as a micrometer has it: to 0.001 mm or 0.0001 in. */
export function formatFine(mm: number, units: Units): string {
  return `${digits(mm / mmPer(units), undefined, WRITTEN_DECIMALS[units])} ${units}`;
}

/** A text that says its lengths in millimetres, with them in the document’s units. */
export function lengthsIn(text: string, units: Units): string {
  if (units === 'mm') return text;
  return text.replace(/(\d+(?:\.\d+)?) mm\b/g, (_, mm) => formatLength(Number(mm), units));
}

function digits(value: number, beside: number | undefined, least = SHOWN_DECIMALS): string {
  if (!Number.isFinite(value)) return String(value);
  let text = '';
  for (let decimals = least; decimals <= MOST_DECIMALS; decimals++) {
    text = fixed(value, decimals);
    const vanished = value !== 0 && Math.abs(Number(text) - value) > Math.abs(value) * 0.05;
    const confused = beside !== undefined && beside !== value && text === fixed(beside, decimals);
    if (!vanished && !confused) break;
  }
  return text;
}

/**
 * A length for an edit, as a bare number in the document's units, short: on the grid of 0.001 mm or 0.0001 in, or
 * finer only for values that the grid would swallow. `round` says which way, for limits that must be kept.
 */
export function writeLength(mm: number, units: Units, round: 'nearest' | 'up' | 'down' = 'nearest'): string {
  const value = mm / mmPer(units);
  for (let decimals = 0; decimals < WRITTEN_DECIMALS[units]; decimals++) {
    const text = fixed(value, decimals);
    if (Math.abs(Number(text) - value) <= Math.abs(value) * ROUNDING) return text;
  }
  let decimals = WRITTEN_DECIMALS[units];
  while (decimals < MOST_DECIMALS && Math.abs(value) < 10 ** (1 - decimals)) decimals++;
  return fixed(roundTo(value, decimals, round), decimals);
}

function roundTo(value: number, decimals: number, round: 'nearest' | 'up' | 'down'): number {
  const nearest = Number(value.toFixed(decimals));
  if (round === 'nearest' || Math.abs(nearest - value) <= Math.abs(value) * ROUNDING) return nearest;
  const step = 10 ** -decimals;
  if (round === 'up') return nearest < value ? nearest + step : nearest;
  return nearest > value ? nearest - step : nearest;
}

/** A plain decimal without trailing zeros, and never `-0`. */
function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  const short = text.includes('.') && !text.includes('e') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}
