/**
 * Single-stroke letters for engraving, our own: centre lines on a grid six units high. Upper case only; lower case is
 * cut as upper case. Each stroke is a chain `x,y` joined by lines, or by an arc where `(x,y)` names a point it passes
 * through before the next. A lone point is a dot.
 */

export interface Glyph {
  /** Width of the centre lines in grid units. */
  readonly width: number;
  readonly strokes: readonly string[];
}

/** Units of the grid from the base line to the top of a capital. */
export const CAP_UNITS = 6;
/** Clear space between two letters and width of a blank, grid units. */
export const GAP_UNITS = 1.2;
export const BLANK_UNITS = 2.4;

const bowl = '1.5,3 (3,1.5) 1.5,0 (0,1.5) 1.5,3';
const oval = '0,4.5 (1.5,6) 3,4.5 3,1.5 (1.5,0) 0,1.5 0,4.5';
const ring = '0,4 (2,6) 4,4 4,2 (2,0) 0,2 0,4';

const GLYPHS: Readonly<Record<string, Glyph>> = {
  A: { width: 4, strokes: ['0,0 2,6 4,0', '0.667,2 3.333,2'] },
  B: { width: 3.6, strokes: ['0,3 0,6 2.1,6 (3.6,4.5) 2.1,3 0,3 0,0 2.1,0 (3.6,1.5) 2.1,3'] },
  C: { width: 4, strokes: ['4,4 (2,6) 0,4 0,2 (2,0) 4,2'] },
  D: { width: 4, strokes: ['0,0 0,6 2,6 (3.41421,5.41421) 4,4 4,2 (3.41421,0.58579) 2,0 0,0'] },
  E: { width: 3.4, strokes: ['3.4,6 0,6 0,0 3.4,0', '0,3 2.6,3'] },
  F: { width: 3.4, strokes: ['3.4,6 0,6 0,0', '0,3 2.6,3'] },
  G: { width: 4, strokes: ['4,4 (2,6) 0,4 0,2 (2,0) 4,2 4,3 2.4,3'] },
  H: { width: 4, strokes: ['0,0 0,6', '4,0 4,6', '0,3 4,3'] },
  I: { width: 0, strokes: ['0,0 0,6'] },
  J: { width: 3, strokes: ['3,6 3,1.5 (1.5,0) 0,1.5'] },
  K: { width: 4, strokes: ['0,0 0,6', '4,6 0,2', '1.5,3.5 4,0'] },
  L: { width: 3.2, strokes: ['0,6 0,0 3.2,0'] },
  M: { width: 5, strokes: ['0,0 0,6 2.5,2 5,6 5,0'] },
  N: { width: 4, strokes: ['0,0 0,6 4,0 4,6'] },
  O: { width: 4, strokes: [ring] },
  P: { width: 3.6, strokes: ['0,0 0,6 2.1,6 (3.6,4.5) 2.1,3 0,3'] },
  Q: { width: 4, strokes: [ring, '2.6,1.4 4,0'] },
  R: { width: 3.8, strokes: ['0,0 0,6 2.1,6 (3.6,4.5) 2.1,3 0,3', '1.8,3 3.8,0'] },
  S: { width: 3, strokes: ['3,4.5 (0.43934,5.56066) 1.5,3 (2.56066,0.43934) 0,1.5'] },
  T: { width: 4, strokes: ['0,6 4,6', '2,6 2,0'] },
  U: { width: 4, strokes: ['0,6 0,2 (2,0) 4,2 4,6'] },
  V: { width: 4, strokes: ['0,6 2,0 4,6'] },
  W: { width: 6, strokes: ['0,6 1.5,0 3,5 4.5,0 6,6'] },
  X: { width: 4, strokes: ['0,0 4,6', '0,6 4,0'] },
  Y: { width: 4, strokes: ['0,6 2,3 4,6', '2,3 2,0'] },
  Z: { width: 4, strokes: ['0,6 4,6 0,0 4,0'] },
  '0': { width: 3, strokes: [oval] },
  '1': { width: 1.5, strokes: ['0,4.5 1.5,6 1.5,0'] },
  '2': { width: 3, strokes: ['0,4.5 (1.5,6) 3,4.5 0,0 3,0'] },
  '3': { width: 2.56066, strokes: ['0,5.56066 (2.56066,4.5) 1.06066,3 (2.56066,1.5) 0,0.43934'] },
  '4': { width: 3.4, strokes: ['2.4,0 2.4,6 0,2 3.4,2'] },
  '5': { width: 3, strokes: ['2.7,6 0,6 0,3.3 1.35,3.3 (3,1.65) 1.35,0 0,0'] },
  '6': { width: 3, strokes: [bowl, '0,1.5 0,3 (0.87868,5.12132) 3,6'] },
  '7': { width: 3, strokes: ['0,6 3,6 1,0'] },
  '8': { width: 3, strokes: ['1.5,6 (2.9,4.6) 1.5,3.2 (0.1,4.6) 1.5,6', '1.5,3.2 (3.1,1.6) 1.5,0 (-0.1,1.6) 1.5,3.2'] },
  '9': { width: 3, strokes: ['1.5,6 (3,4.5) 1.5,3 (0,4.5) 1.5,6', '3,4.5 3,3 (2.12132,0.87868) 0,0'] },
  '.': { width: 0, strokes: ['0,0'] },
  ',': { width: 0.5, strokes: ['0.5,0.2 0,-1'] },
  ':': { width: 0, strokes: ['0,1', '0,4'] },
  ';': { width: 0.5, strokes: ['0.5,4', '0.5,0.6 0,-0.6'] },
  '-': { width: 2.4, strokes: ['0,3 2.4,3'] },
  '–': { width: 3.4, strokes: ['0,3 3.4,3'] },
  _: { width: 3.4, strokes: ['0,-0.6 3.4,-0.6'] },
  '+': { width: 3, strokes: ['0,3 3,3', '1.5,1.5 1.5,4.5'] },
  '=': { width: 3, strokes: ['0,2 3,2', '0,4 3,4'] },
  '/': { width: 3, strokes: ['0,0 3,6'] },
  '\\': { width: 3, strokes: ['0,6 3,0'] },
  '|': { width: 0, strokes: ['0,-0.6 0,6.6'] },
  '(': { width: 1.2, strokes: ['1.2,6.4 (0,3) 1.2,-0.4'] },
  ')': { width: 1.2, strokes: ['0,6.4 (1.2,3) 0,-0.4'] },
  '[': { width: 1.2, strokes: ['1.2,6.4 0,6.4 0,-0.4 1.2,-0.4'] },
  ']': { width: 1.2, strokes: ['0,6.4 1.2,6.4 1.2,-0.4 0,-0.4'] },
  '<': { width: 2.6, strokes: ['2.6,5 0,3 2.6,1'] },
  '>': { width: 2.6, strokes: ['0,5 2.6,3 0,1'] },
  '!': { width: 0, strokes: ['0,6 0,2', '0,0'] },
  '?': { width: 2.6, strokes: ['0,4.7 (1.3,6) 2.6,4.7 1.3,3 1.3,2', '1.3,0'] },
  "'": { width: 0, strokes: ['0,6 0,4.6'] },
  '"': { width: 1.4, strokes: ['0,6 0,4.6', '1.4,6 1.4,4.6'] },
  '*': { width: 2.4, strokes: ['1.2,2.6 1.2,5.4', '0,3.3 2.4,4.7', '0,4.7 2.4,3.3'] },
  '#': { width: 4, strokes: ['1,0.5 1.6,5.5', '2.4,0.5 3,5.5', '0,2 3.7,2', '0.3,4 4,4'] },
  '%': { width: 4, strokes: ['0,0 4,6', '0,5 (0.9,5.9) 1.8,5 (0.9,4.1) 0,5', '2.2,1 (3.1,1.9) 4,1 (3.1,0.1) 2.2,1'] },
  '&': { width: 3.8, strokes: ['3.8,0 0.7,4 (1.6,6) 2.5,4 0.4,2.4 (1.6,0) 3.8,2.4'] },
  '°': { width: 1.6, strokes: ['0,5.2 (0.8,6) 1.6,5.2 (0.8,4.4) 0,5.2'] },
  '×': { width: 2.6, strokes: ['0,1.7 2.6,4.3', '0,4.3 2.6,1.7'] },
  '±': { width: 3, strokes: ['0,3.6 3,3.6', '1.5,2.1 1.5,5.1', '0,0.6 3,0.6'] },
  Ø: { width: 4, strokes: [ring, '0,-0.3 4,6.3'] },
};

/** A character that is not in the set: an upright box, so that it is seen to be missing. */
const MISSING: Glyph = { width: 3, strokes: ['0,0 0,6 3,6 3,0 0,0'] };

/** The strokes of a character; undefined for a blank. */
export function glyphOf(character: string): Glyph | undefined {
  if (/^\s$/u.test(character)) return undefined;
  return GLYPHS[character] ?? GLYPHS[character.toUpperCase()] ?? MISSING;
}
