/**
 * How units are spelt, and what to say where a dimension's text goes wrong.
 */
import type { Unit } from './expression';

export const MOST_CHARACTERS = 1000;
export const MOST_NESTED = 40;

/** Spellings, longest first where one begins another. */
const SPELLINGS: readonly (readonly [string, Unit])[] = [
  ['mm', 'mm'],
  ['cm', 'cm'],
  ['µm', 'µm'],
  ['μm', 'µm'], // the Greek letter, which looks the same as the micro sign
  ['um', 'µm'],
  ['m', 'm'],
  ['inches', 'in'],
  ['inch', 'in'],
  ['in', 'in'],
  ['"', 'in'],
  ['″', 'in'],
  ['deg', 'deg'],
  ['°', 'deg'],
];
const UNIT_OF = new Map(SPELLINGS);

/** A unit after a number, with the space before it; not the beginning of a longer word. Group 1 is the spelling. */
export const UNIT_PATTERN = `\\s*(${SPELLINGS.map(([spelling]) => spelling).join('|')})(?![a-z0-9])`;

/** The unit of length or angle that a spelling names; undefined for any other. */
export function unitOf(spelling: string): Unit | undefined {
  return UNIT_OF.get(spelling);
}

export class GrammarError extends Error {
  constructor(
    message: string,
    readonly from: number,
    readonly to: number,
  ) {
    super(message);
  }
}

const MULTIPLY = 'This sign does not multiply here. Write `*` to multiply.';
const SIGNS: Readonly<Record<string, string>> = {
  ',': 'A comma is in this number. Write decimals with a point, like `3.5`.',
  '^': 'There is no power sign here. Write `a * a`.',
  '×': MULTIPLY,
  '·': MULTIPLY,
  x: MULTIPLY,
  '÷': 'This sign does not divide here. Write `/` to divide.',
  ø: 'The key already means a diameter. Delete the diameter sign.',
  '⌀': 'The key already means a diameter. Delete the diameter sign.',
  '=': 'A dimension has no equals sign. Write only the value, like `12`.',
  '%': 'Per cent is not a unit here. Write the fraction, like `0.25 * depth`.',
  '±': 'This `±` is not at the end. Write the tolerance last, as `±` and one number, like `40 ±0.05`.',
  ')': 'This bracket was not opened. Delete it, or add `(` before.',
};

/** The best explanation of why the text cannot go on at `at`. */
export function whyNot(source: string, at: number, end: number): GrammarError {
  if (at >= end)
    return new GrammarError(
      'A value is missing at the end. Write it, like `12 mm`.',
      Math.max(0, end - 1),
      Math.max(1, end),
    );
  const sign = source[at]!;
  const word = /^[^\s()+*/,]+/.exec(source.slice(at, end))?.[0] ?? sign;
  const to = at + word.length;
  const before = source.slice(0, at).trimEnd();
  const afterValue = /[\w)"°]$/.test(before);
  const hint = SIGNS[sign.toLowerCase()];
  if (hint && (sign.toLowerCase() !== 'x' || (afterValue && /^x\s*\d/i.test(source.slice(at))))) {
    return new GrammarError(hint, at, at + 1);
  }
  if (/^[*/+)]/.test(sign))
    return new GrammarError(
      `A value is missing before \`${sign}\`. Write it, like \`12 ${sign} 3\`, or delete the sign.`,
      at,
      at + 1,
    );
  if (afterValue && /^[A-Za-z]{1,2}\d{1,2}$/.test(word)) {
    const message = `\`${word}\` is not a tolerance class of ISO 286 or ANSI B4.1. Write one like \`H7\` or \`RC4\` for a hole, \`g6\` or \`rc4\` for a shaft.`;
    return new GrammarError(message, at, to);
  }
  if (afterValue && /\d$/.test(before) && /^[A-Za-zµ°'"]+$/.test(word)) {
    const message = `\`${word}\` is not a unit. Write mm, cm, m, µm or in for a length, and deg for an angle. Write \`*\` to multiply.`;
    return new GrammarError(message, at, to);
  }
  if (afterValue && /^[a-z0-9.(]/.test(word)) {
    return new GrammarError(
      `A sign is missing before \`${word}\`. Write \`+\`, \`-\`, \`*\` or \`/\` between the two.`,
      at,
      to,
    );
  }
  if (/^[A-Z]/.test(word))
    return new GrammarError(
      `\`${word}\` is not a name here. Write names in small letters, like \`${word.toLowerCase()}\`.`,
      at,
      to,
    );
  return new GrammarError(
    `\`${word}\` cannot be read in a dimension. Write a value and its unit, like \`12 mm\`.`,
    at,
    to,
  );
}
