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

const SIGNS: Readonly<Record<string, string>> = {
  ',': 'Decimals are written with a point: `3.5`.',
  '^': 'There is no power sign: write `a * a`.',
  '×': 'Write `*` to multiply.',
  '·': 'Write `*` to multiply.',
  x: 'Write `*` to multiply.',
  '÷': 'Write `/` to divide.',
  ø: 'Leave the diameter sign out: the key says that it is a diameter.',
  '⌀': 'Leave the diameter sign out: the key says that it is a diameter.',
  '=': 'A dimension has no equals sign: write only the value.',
  '%': 'Per cent is not a unit here: write the fraction, like `0.25 * depth`.',
  '±': 'A tolerance is `±` and one number at the very end, like `40 ±0.05`.',
  ')': 'This bracket was not opened.',
};

/** The best explanation of why the text cannot go on at `at`. */
export function whyNot(source: string, at: number, end: number): GrammarError {
  if (at >= end) return new GrammarError('A value is missing at the end.', Math.max(0, end - 1), Math.max(1, end));
  const sign = source[at]!;
  const word = /^[^\s()+*/,]+/.exec(source.slice(at, end))?.[0] ?? sign;
  const to = at + word.length;
  const before = source.slice(0, at).trimEnd();
  const afterValue = /[\w)"°]$/.test(before);
  const hint = SIGNS[sign.toLowerCase()];
  if (hint && (sign.toLowerCase() !== 'x' || (afterValue && /^x\s*\d/i.test(source.slice(at))))) {
    return new GrammarError(hint, at, at + 1);
  }
  if (/^[*/+)]/.test(sign)) return new GrammarError(`A value is missing before \`${sign}\`.`, at, at + 1);
  if (afterValue && /^[A-Za-z]{1,2}\d{1,2}$/.test(word)) {
    const message = `\`${word}\` is no tolerance class of ISO 286 or ANSI B4.1. Hole classes look like \`H7\` or \`RC4\`, shaft classes like \`g6\` or \`rc4\`.`;
    return new GrammarError(message, at, to);
  }
  if (afterValue && /\d$/.test(before) && /^[A-Za-zµ°'"]+$/.test(word)) {
    const message = `\`${word}\` is no unit. Lengths are in mm, cm, m, µm or in; angles in deg. To multiply, write \`*\`.`;
    return new GrammarError(message, at, to);
  }
  if (afterValue && /^[a-z0-9.(]/.test(word)) {
    return new GrammarError(`An operator is missing before \`${word}\`: \`+\`, \`-\`, \`*\` or \`/\`.`, at, to);
  }
  if (/^[A-Z]/.test(word)) return new GrammarError(`\`${word}\` is no name: names are in lower case.`, at, to);
  return new GrammarError(`\`${word}\` cannot be read as part of a dimension.`, at, to);
}
