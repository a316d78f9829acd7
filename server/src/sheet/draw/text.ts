/** Words on paper: measured with the printed font, broken into lines, signs drawn among them. */

import type { Edge, Point2 } from '../../geometry/types';
import { line as plain } from '../../text/shown';
import { ROUNDING } from '../../tolerance';
import type { Figure, Fill, Mark, Sign, Stroke } from './marks';
import { CAPITAL, extentOf, isPrintable } from './metrics';
import { drawingOf } from './signs';

/** Heights of capitals, mm (ISO 3098-1 series). */
export const SMALL = 2.5;
export const NUMBER = 3.5;
export const LARGE = 5;
export const HUGE = 7;

/** From baseline to baseline over a capital's height: 1.2 of the letter's size. */
export const LEADING = 1.2 / CAPITAL;

interface Styled {
  readonly text: string;
  readonly bold?: true;
  readonly cap?: number;
  readonly white?: true;
}
/** Plain words, or words in a style of their own. */
export type Inline = string | Styled;

export const bold = (text: string, cap?: number): Styled => ({ text, bold: true, ...(cap !== undefined && { cap }) });

/** A piece of a line without a break: letters of one style, or a sign. */
interface Piece {
  readonly text: string;
  readonly sign: boolean;
  readonly cap: number;
  readonly bold: boolean;
  readonly white: boolean;
  readonly width: number;
}
/** What is not broken: pieces that stand side by side. */
interface Word {
  readonly pieces: readonly Piece[];
  readonly width: number;
  /** The space before it, where it does not begin a line. */
  readonly space: number;
}
export interface Line {
  readonly pieces: readonly (Piece & { readonly x: number })[];
  readonly width: number;
  readonly cap: number;
}

/** What is shown of a text: nothing that hides, nothing that the font lacks without a word. */
export function printable(text: string): string {
  let out = '';
  for (const letter of plain(text.normalize('NFC').replace(/\s/g, ' '))) {
    if (drawingOf(letter) || isPrintable(letter)) out += letter;
    else out += `‹U+${letter.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}›`;
  }
  return out;
}

const SIGN_WEIGHT = 0.1;

function piecesOf(text: string, style: Omit<Piece, 'text' | 'sign' | 'width'>): Piece[] {
  const pieces: Piece[] = [];
  let run = '';
  const end = () => {
    if (run !== '')
      pieces.push({ ...style, text: run, sign: false, width: extentOf(run, style.cap, style.bold).width });
    run = '';
  };
  for (const letter of text) {
    const drawing = drawingOf(letter);
    if (!drawing) {
      run += letter;
      continue;
    }
    end();
    pieces.push({ ...style, text: letter, sign: true, width: drawing.advance * style.cap });
  }
  end();
  return pieces;
}

function wordsOf(parts: readonly Inline[], cap: number): Word[] {
  const words: { pieces: Piece[]; space: number }[] = [];
  let open = false;
  for (const part of parts) {
    const styled = typeof part === 'string' ? { text: part } : part;
    const style = { cap: styled.cap ?? cap, bold: styled.bold === true, white: styled.white === true };
    const space = extentOf(' ', style.cap, style.bold).width;
    for (const [i, text] of printable(styled.text).split(' ').entries()) {
      if (i > 0) open = false;
      if (text === '') continue;
      const pieces = piecesOf(text.replaceAll('\u00a0', ' '), style);
      if (open) words.at(-1)!.pieces.push(...pieces);
      else words.push({ pieces, space: words.length === 0 ? 0 : space });
      open = true;
    }
  }
  return words.map(({ pieces, space }) => ({ pieces, space, width: pieces.reduce((sum, q) => sum + q.width, 0) }));
}

/** Broken between words so that no line is wider; a word that is wider by itself is broken between its letters. */
export function linesOf(text: Inline | readonly Inline[], cap: number, width = Number.POSITIVE_INFINITY): Line[] {
  const parts = Array.isArray(text) ? (text as readonly Inline[]) : [text as Inline];
  const words = wordsOf(parts, cap).flatMap((w) => (w.width > width ? brokenUp(w, width) : [w]));
  const lines: { words: Word[]; width: number }[] = [];
  for (const word of words) {
    const last = lines.at(-1);
    if (last && last.width + word.space + word.width <= width + ROUNDING) {
      last.words.push(word);
      last.width += word.space + word.width;
    } else lines.push({ words: [word], width: word.width });
  }
  return lines.map((l) => setOut(l.words, l.width, cap));
}

function brokenUp(word: Word, width: number): Word[] {
  const out: { pieces: Piece[]; width: number; space: number }[] = [];
  for (const piece of word.pieces) {
    for (const letter of piece.sign ? [piece.text] : [...piece.text]) {
      const w = piece.sign ? piece.width : extentOf(letter, piece.cap, piece.bold).width;
      const last = out.at(-1);
      const one = { ...piece, text: letter, width: w };
      if (!last || last.width + w > width) {
        out.push({ pieces: [one], width: w, space: out.length === 0 ? word.space : Number.POSITIVE_INFINITY });
        continue;
      }
      const before = last.pieces.at(-1)!;
      if (before.sign || piece.sign || before.bold !== piece.bold || before.cap !== piece.cap) last.pieces.push(one);
      else last.pieces[last.pieces.length - 1] = { ...before, text: before.text + letter, width: before.width + w };
      last.width += w;
    }
  }
  return out;
}

function setOut(words: readonly Word[], width: number, cap: number): Line {
  const pieces: (Piece & { x: number })[] = [];
  let x = 0;
  for (const [i, word] of words.entries()) {
    if (i > 0) x += word.space;
    for (const [k, piece] of word.pieces.entries()) {
      const last = pieces.at(-1);
      const alike = last && !last.sign && !piece.sign && last.bold === piece.bold && last.cap === piece.cap;
      // words of one style are one text, spaces and all
      if (alike && k === 0 && i > 0 && last.white === piece.white)
        pieces[pieces.length - 1] = { ...last, text: `${last.text} ${piece.text}`, width: x + piece.width - last.x };
      else pieces.push({ ...piece, x });
      x += piece.width;
    }
  }
  return { pieces, width, cap: Math.max(cap, ...pieces.map((q) => q.cap)) };
}

/** One line, the left end of its baseline at a place. */
export function lineMarks(line: Line, x: number, y: number, turned = false): Mark[] {
  return line.pieces.map((piece): Mark => {
    const [px, py] = turned ? [x, y - piece.x] : [x + piece.x, y];
    if (piece.sign) return signAt(piece, px, py, turned);
    return {
      type: 'words',
      x: px,
      y: py,
      words: piece.text,
      cap: piece.cap,
      width: piece.width,
      ...(piece.bold && { bold: true as const }),
      ...(piece.white && { white: true as const }),
      ...(turned && { turned: true as const }),
    };
  });
}

function signAt({ text, cap, width, bold: heavy, white }: Piece, x: number, y: number, turned: boolean): Sign {
  const drawing = drawingOf(text)!;
  const place = ({ u, v }: Point2): Point2 =>
    turned ? { u: x - v * cap, v: y - u * cap } : { u: x + u * cap, v: y - v * cap };
  const put = (e: Edge): Edge => {
    const ends = { a: place(e.a), b: place(e.b) };
    return e.type === 'line'
      ? { ...e, ...ends }
      : { ...e, ...ends, centre: place(e.centre), radius: e.radius * cap, ccw: !e.ccw };
  };
  const colour = white && { white: true as const };
  const stroke: Stroke = {
    type: 'stroke',
    edges: drawing.edges.map(put),
    width: cap * SIGN_WEIGHT * (heavy ? 1.5 : 1),
    ...colour,
  };
  const fills = (drawing.filled ?? []).map((l): Fill => ({ type: 'fill', loops: [l.map(put)], ...colour }));
  const [above, below] = [(1 + (drawing.above ?? 0)) * cap, (drawing.below ?? 0) * cap];
  const box = turned
    ? { x0: x - above, y0: y - width, x1: x + below, y1: y }
    : { x0: x, y0: y - above, x1: x + width, y1: y + below };
  return { type: 'sign', name: text, box, strokes: [stroke, ...fills] };
}

interface Setting {
  readonly cap?: number;
  readonly width?: number;
  readonly align?: 'left' | 'right' | 'middle';
}

/** Lines below each other; the figure's upper edge is one leading above the first line's foot, less what is free there. */
export function textFigure(
  text: Inline | readonly Inline[],
  { cap = SMALL, width, align = 'left' }: Setting = {},
): Figure {
  const lines = linesOf(text, cap, width);
  const w = width ?? Math.max(0, ...lines.map((l) => l.width));
  let y = 0;
  const marks: Mark[] = [];
  for (const l of lines) {
    const free = align === 'left' ? 0 : (w - l.width) * (align === 'right' ? 1 : 0.5);
    marks.push(...lineMarks(l, free, y + l.cap * 1.26));
    y += l.cap * LEADING;
  }
  return { marks, w, h: y };
}
