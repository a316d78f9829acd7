/** Numbers as they stand on the sheet: in the part's unit, without its name, trailing zeros only where a limit has them. */
import type { Length, Tolerance, Units } from '../../model/model';
import { mmPer } from '../../text/format';

const DECIMALS: Readonly<Record<Units, number>> = { mm: 3, in: 4 };

export function num(mm: number, units: Units): string {
  const text = (mm / mmPer(units)).toFixed(DECIMALS[units]).replace(/\.?0+$/, '');
  return (text === '-0' ? '0' : text).replace('-', '−');
}

/** Two numbers with as many decimals as the finer of both has. */
export function pair(a: number, b: number, units: Units): readonly [string, string] {
  const decimals = Math.max(...[a, b].map((mm) => (num(mm, units).split('.')[1] ?? '').length));
  return [a, b].map((mm) => (mm / mmPer(units)).toFixed(decimals).replace('-', '−')) as [string, string];
}

/** `22.000 … 22.021`; undefined where the limits are not known. */
export function limits(length: Length, units: Units): string | undefined {
  const { upperMm, lowerMm } = length.tolerance ?? {};
  if (upperMm === undefined || lowerMm === undefined) return undefined;
  return pair(length.mm + lowerMm, length.mm + upperMm, units).join(' … ');
}

/** `22 H7`, `7 ±0.2`, `7`. */
export function sized(length: Length, units: Units): string {
  const { tolerance } = length;
  return tolerance ? `${num(length.mm, units)} ${classOf(tolerance)}` : num(length.mm, units);
}

function classOf({ text }: Tolerance): string {
  return text.replaceAll('+/-', '±').replace(/-(?=\d)/g, '−');
}
