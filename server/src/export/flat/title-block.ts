/** The title block: what the text says of the part, and how the drawing is to be read. */

import { materialOf } from '../../model/material-of';
import type { Part } from '../../model/model';
import { n, text } from './sheet-svg';

const ROW = 6;
const LETTER = 3.5;
const SMALL = 2.5;
/** Width of a letter over its height, for making room: no font is at hand to measure with. */
const WIDE = 0.62;
const LABELS = 28;

interface TitleBlock {
  readonly width: number;
  readonly height: number;
  /** As SVG, its upper left corner at a place, mm. */
  at(x: number, y: number): string;
}

export function titleBlock(part: Part, allSix: boolean, hidden: boolean): TitleBlock {
  const rows: [label: string, words: string][] = [];
  if (part.title) rows.push(['title', part.title]);
  rows.push(['part', part.name]);
  if (part.revision) rows.push(['revision', part.revision]);
  if (part.material) rows.push(['material', materialOf(part)?.title ?? part.material.name]);
  rows.push(['quantity', String(part.quantity)]);
  if (part.tolerance) rows.push(['general tolerance', part.tolerance.name]);
  rows.push(['scale', '1:1, lengths in mm']);
  if (allSix) rows.push(['projection', 'first angle (ISO 5456-2)']);
  if (hidden) rows.push(['dashed', 'cuts that are out of sight']);
  const longest = Math.max(...rows.map(([, words]) => words.length));
  const symbol = allSix ? 24 : 0;
  const width = LABELS + longest * LETTER * WIDE + 6 + symbol;
  const height = rows.length * ROW;
  return {
    width,
    height,
    at(x, y) {
      const lines = rows.map(([label, words], i) => {
        const base = y + (i + 0.7) * ROW;
        const rule = i === 0 ? '' : `<path class="size" d="M${n(x)} ${n(y + i * ROW)}H${n(x + width - symbol)}"/>`;
        return `${rule}${text(x + 2, base, SMALL, label)}${text(x + LABELS, base, LETTER, words)}`;
      });
      const frame = `<rect class="visible" x="${n(x)}" y="${n(y)}" width="${n(width)}" height="${n(height)}"/>`;
      const sign = allSix ? firstAngle(x + width - symbol / 2, y + height / 2) : '';
      return `<g class="title-block">\n${frame}\n${lines.join('\n')}${sign}\n</g>`;
    },
  };
}

/**
 * The sign for first-angle projection (ISO 5456-2): a blunt cone from the side, and to its right what is seen of it
 * from the left: both circles.
 */
function firstAngle(x: number, y: number): string {
  const [a, b, c] = [x - 9, x - 1, x + 5];
  const cone = `M${n(a)} ${n(y - 2)}L${n(b)} ${n(y - 4)}V${n(y + 4)}L${n(a)} ${n(y + 2)}Z`;
  const ring = (r: number) => `<circle class="visible" cx="${n(c)}" cy="${n(y)}" r="${r}"/>`;
  const axes = `M${n(a - 1)} ${n(y)}H${n(b + 1)}M${n(c - 5)} ${n(y)}H${n(c + 5)}M${n(c)} ${n(y - 5)}V${n(y + 5)}`;
  return `\n<path class="visible" d="${cone}"/>${ring(2)}${ring(4)}<path class="centre" d="${axes}"/>`;
}
