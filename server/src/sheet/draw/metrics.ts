/** The printed font's own measures: how wide words come out, and how far above and below the line their ink goes. */
import { BOLD, PLAIN, RANGES, UNITS } from './metrics.generated';

/** Height of a capital over the size of the letter (DejaVu Sans Condensed: 1493 of 2048). */
export const CAPITAL = 1493 / UNITS;

interface Glyph {
  readonly advance: number;
  readonly high: number;
  readonly low: number;
}

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const HIGH_STEP = 40;
const LOW_STEP = 16;

/** Undefined where the font has no such letter. */
function glyphOf(code: number, bold: boolean): Glyph | undefined {
  let before = 0;
  for (const [from, to] of RANGES) {
    if (code <= to) {
      if (code < from) return undefined;
      const at = 4 * (before + code - from);
      const letters = (bold ? BOLD : PLAIN).slice(at, at + 4);
      if (letters.startsWith('.')) return undefined;
      const [a, b, high, low] = [...letters].map((c) => DIGITS.indexOf(c)) as [number, number, number, number];
      return { advance: a * 64 + b, high: high * HIGH_STEP, low: low * LOW_STEP };
    }
    before += to - from + 1;
  }
  return undefined;
}

export function isPrintable(letter: string): boolean {
  return glyphOf(letter.codePointAt(0)!, false) !== undefined;
}

interface Extent {
  readonly width: number;
  /** Of the ink, above and below the baseline. */
  readonly above: number;
  readonly below: number;
}

/** In mm, for letters whose capitals are `cap` mm high. */
export function extentOf(words: string, cap: number, bold = false): Extent {
  const scale = cap / CAPITAL / UNITS;
  let [width, above, below] = [0, 0, 0];
  for (const letter of words) {
    const glyph = glyphOf(letter.codePointAt(0)!, bold) ?? glyphOf(0x3f, bold)!;
    width += glyph.advance;
    above = Math.max(above, glyph.high);
    below = Math.max(below, glyph.low);
  }
  return { width: width * scale, above: above * scale, below: below * scale };
}
