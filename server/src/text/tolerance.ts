/**
 * The tolerance at the end of a dimension: `±0.05`, `+0.1/-0`, `H7`.
 *
 * Symbols of tolerance classes are those of ISO 286-1 (letters without I, L, O, Q, W; grades 1 to 18) and of ANSI B4.1
 * (`RC4`: capitals the hole, small letters the shaft).
 */
import { UNITS, type Unit } from './expression';
import { GrammarError, UNIT_PATTERN, unitOf } from './units';

interface Written {
  /** As written: `±0.05`. */
  readonly text: string;
  readonly from: number;
  readonly to: number;
}
/** A number with its own unit, where it has one. */
interface Deviation {
  readonly value: number;
  readonly unit?: Unit;
}
export type ParsedTolerance = Written &
  (
    | { readonly type: 'limits'; readonly upper: Deviation; readonly lower: Deviation }
    | { readonly type: 'fit'; readonly letter: string; readonly grade: number }
  );

/** Limits relative to the nominal, in mm for a length, degrees for an angle. */
type ToleranceLimits =
  | { readonly ok: true; readonly upper: number; readonly lower: number }
  | { readonly ok: false; readonly message: string };

/** What `±0.05` or `+0.1/-0` allow, in the terms of the dimension it belongs to. */
export function toleranceLimits(
  tolerance: { readonly upper: Deviation; readonly lower: Deviation },
  dimension: 'length' | 'angle',
  unitMm: number,
): ToleranceLimits {
  const values: number[] = [];
  for (const { value, unit } of [tolerance.upper, tolerance.lower]) {
    if (unit && UNITS[unit].dimension !== dimension) {
      const message = `The tolerance is in ${unit}, but the dimension is ${dimension === 'length' ? 'a length' : 'an angle'}. Write both alike, like \`${dimension === 'length' ? '40 ±0.05' : '30 ±0.5 deg'}\`.`;
      return { ok: false, message };
    }
    values.push(value * (unit ? UNITS[unit].factor : dimension === 'length' ? unitMm : 1));
  }
  const [a = 0, b = 0] = values;
  return { ok: true, upper: Math.max(a, b), lower: Math.min(a, b) };
}

const NUMBER = '(?:\\d+(?:\\.\\d*)?|\\.\\d+)';
const UNIT = `(?:${UNIT_PATTERN})?`;
const PLUS_MINUS = new RegExp(`(?:±|\\+/-|\\+-|\\+/−|\\+−)\\s*(${NUMBER})${UNIT}\\s*$`);
const LIMITS = new RegExp(
  `(?:([+\\-−]${NUMBER})|(?<=\\s)(0(?:\\.0*)?))${UNIT}\\s*/\\s*(?:([+\\-−]${NUMBER})|(0(?:\\.0*)?))${UNIT}\\s*$`,
);
const NO_SLASH = new RegExp(`(?<=\\s)\\+(${NUMBER})${UNIT}\\s+[-−](${NUMBER})${UNIT}\\s*$`);
const CLASS = /([A-Za-z]{1,2})(\d{1,2})\s*$/;
const TWO_CLASSES = /\b[A-Za-z]{1,2}\d{1,2}\s*\/\s*[A-Za-z]{1,2}\d{1,2}\s*$/;
const LETTERS = new Set(
  'A B C CD D E EF F FG G H J JS K M N P R S T U V X Y Z ZA ZB ZC RC LC LT LN FN'
    .split(' ')
    .flatMap((l) => [l, l.toLowerCase()]),
);
const ENDS_A_VALUE = /[\w.)"″°]$/;

/** Where the expression ends, and the tolerance after it. */
export function cutTolerance(source: string): { readonly end: number; readonly tolerance?: ParsedTolerance } {
  const found = limits(source) ?? fitClass(source);
  if (!found) return { end: source.trimEnd().length };
  const end = source.slice(0, found.from).trimEnd().length;
  if (limits(source.slice(0, end)) ?? fitClass(source.slice(0, end))) {
    throw new GrammarError('There are two tolerances here. Keep one of them, like `±0.05`.', found.from, found.to);
  }
  return { end, tolerance: found };
}

function limits(source: string): ParsedTolerance | undefined {
  const equal = PLUS_MINUS.exec(source);
  if (equal?.[1] && ENDS_A_VALUE.test(source.slice(0, equal.index).trimEnd())) {
    const upper = deviation(equal[1], equal[2]);
    return { type: 'limits', upper, lower: { ...upper, value: -upper.value }, ...written(source, equal.index) };
  }
  const pair = LIMITS.exec(source);
  if (pair && ENDS_A_VALUE.test(source.slice(0, pair.index).trimEnd())) {
    // One unit at the end serves both: `+0.1/-0.05 mm`.
    const a = deviation(pair[1] ?? pair[2] ?? '', pair[3] ?? pair[6]);
    const b = deviation(pair[4] ?? pair[5] ?? '', pair[6] ?? pair[3]);
    const [upper, lower] = a.value >= b.value ? [a, b] : [b, a];
    return { type: 'limits', upper, lower, ...written(source, pair.index) };
  }
  const apart = NO_SLASH.exec(source);
  if (apart) {
    const [, plus, , minus] = apart;
    const message = `This can be a tolerance or a sum. Write \`+${plus}/-${minus}\` or \`+ ${plus} - ${minus}\`.`;
    throw new GrammarError(message, apart.index, source.trimEnd().length);
  }
  return undefined;
}

function fitClass(source: string): ParsedTolerance | undefined {
  const two = TWO_CLASSES.exec(source);
  if (two) {
    const message = 'Two tolerance classes are here, and one part has one. Write only this part’s own, like `H7`.';
    throw new GrammarError(message, two.index, source.trimEnd().length);
  }
  const match = CLASS.exec(source);
  if (!match?.[1] || !match[2]) return undefined;
  const before = source.slice(0, match.index);
  const apart = /\s$/.test(before) && ENDS_A_VALUE.test(before.trimEnd());
  if (!apart && !new RegExp(`^\\s*${NUMBER}$`).test(before)) return undefined;
  if (!apart && /^[eE]$/.test(match[1])) return undefined; // `22e7` is a number
  const grade = Number(match[2]);
  if (!LETTERS.has(match[1]) || grade < 1 || grade > 18 || match[2].startsWith('0')) return undefined;
  return { type: 'fit', letter: match[1], grade, ...written(source, match.index) };
}

function deviation(number: string, spelling: string | undefined): Deviation {
  const unit = spelling === undefined ? undefined : unitOf(spelling);
  const value = Number(number.replace('−', '-'));
  return { value: value === 0 ? 0 : value, ...(unit && { unit }) };
}

function written(source: string, from: number): Written {
  const to = source.trimEnd().length;
  return { text: source.slice(from, to), from, to };
}
