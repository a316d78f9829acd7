/** Numbers as lists have them: with a decimal comma, a fraction of an inch, a unit behind. */
import { type Code, quantityOf } from './properties';
import type { Unit, Value } from './row';

const UNITS: readonly (readonly [RegExp, Unit, number])[] = [
  [/^(?:mm|millimet(?:er|re)s?|millimeter)$/, 'mm', 1],
  [/^(?:cm|centimet(?:er|re)s?)$/, 'mm', 10],
  [/^(?:m|met(?:er|re)s?)$/, 'mm', 1000],
  [/^(?:µm|um|micromet(?:er|re)s?)$/, 'mm', 0.001],
  [/^(?:in|inch|inches|zoll|"|”|″|'')$/, 'in', 1],
  [/^(?:°|deg|degrees?|grad|º)$/, '°', 1],
  [/^(?:rad|radians?)$/, '°', 180 / Math.PI],
];

/** A unit by its word, and how many of ours it is. */
export function unitOf(word: string): readonly [Unit, number] | undefined {
  const plain = word.trim().toLowerCase();
  const found = UNITS.find(([pattern]) => pattern.test(plain));
  return found && [found[1], found[2]];
}

interface Measured {
  readonly n: number;
  /** Where one stands with it. */
  readonly unit?: Unit;
}

/** `commas`: a comma is the decimal sign for sure, as it parts no cells. A string says why it is no number. */
export function readMeasured(cell: string, commas: boolean): Measured | string {
  const found = /^[ø⌀]?\s*([-+]?[\d.,]+(?:[ -]\d+\/\d+|\/\d+)?)\s*(.*)$/i.exec(cell.trim());
  if (!found) return 'is no number';
  const [, digits = '', word = ''] = found;
  const unit = word === '' ? undefined : unitOf(word);
  if (word !== '' && !unit) return 'has a unit that is not known';
  const n = plainNumber(digits, commas);
  if (typeof n === 'string') return n;
  return unit ? { n: tidy(n * unit[1]), unit: unit[0] } : { n };
}

function plainNumber(digits: string, commas: boolean): number | string {
  const fraction = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(digits);
  if (fraction) {
    const [, whole = '0', over, under] = fraction;
    return Number(under) === 0 ? 'divides by nothing' : Number(whole) + Number(over) / Number(under);
  }
  const [dot, comma] = [digits.lastIndexOf('.'), digits.lastIndexOf(',')];
  let plain = digits;
  if (dot >= 0 && comma >= 0)
    plain = dot > comma ? digits.replaceAll(',', '') : digits.replaceAll('.', '').replace(',', '.');
  else if (comma >= 0) {
    if (!commas && /^[-+]?\d{1,3},\d{3}$/.test(digits)) return 'may mean thousands or a decimal comma';
    plain = digits.replace(',', '.');
  }
  const n = /^[-+]?(?:\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
  return Number.isFinite(n) ? n : 'is no number';
}

/** Without what arithmetic in twos leaves behind. */
export function tidy(n: number): number {
  return Number(n.toPrecision(12));
}

/** In the unit that a property of this kind has where none is said; a string says why it cannot be. */
export function valueIn(code: Code, n: number, unit: Unit | undefined): Value | string {
  const is = quantityOf(code);
  switch (is) {
    case 'length':
      return unit === '°' ? 'is an angle where a length is asked' : { n, unit: unit ?? 'mm' };
    case 'angle':
      return unit === 'mm' || unit === 'in' ? 'is a length where an angle is asked' : { n, unit: '°' };
    case 'count':
    case 'speed':
      return unit === undefined ? { n } : 'has a unit where a plain number is asked';
    case 'words':
      return { text: String(n) };
    default:
      return is satisfies never;
  }
}
