/** The title block: the fields of ISO 7200, 180 mm wide, and how the drawing is read. Date and names are left for a person. */
import { materialOf } from '../../model/material-of';
import { type Figure, FRAME, moved, NARROW } from '../draw/marks';
import { frame, polyline } from '../draw/shapes';
import { type Inline, LARGE, NUMBER, SMALL, textFigure } from '../draw/text';
import { num } from '../part/numbers';
import type { Drafted } from './callout';

export const BLOCK_W = 180;

interface BlockOf extends Drafted {
  readonly owner: string;
  readonly quantity: number;
  readonly projection: 'first' | 'third';
  readonly grams?: number;
}

interface Field {
  readonly w: number;
  readonly label: string;
  readonly text: Inline;
  readonly cap?: number;
}

const PAD = 1;
const LEAST = 9.5;

/** `sheet`: `1 / 2`. Its height does not turn on scale and sheet. */
export function titleBlock(of: BlockOf, scale: string, sheet: string): Figure {
  const { part, said, owner, quantity, projection, grams } = of;
  const material = part.material && (materialOf(part)?.title ?? part.material.name);
  const sign = projection === 'first' ? '⌲' : '⌱';
  const rows: readonly (readonly Field[])[] = [
    [
      { w: 48, label: said.material, text: material ?? '–' },
      { w: 30, label: said.general, text: part.tolerance?.name ?? said.noGeneral },
      { w: 32, label: said.edges, text: edgesText(of) },
      { w: 32, label: said.projection[projection], text: sign },
      { w: 38, label: said.scale, text: `${scale}, ${said.lengths[part.units]}` },
    ],
    [
      { w: 48, label: said.owner, text: owner },
      { w: 30, label: said.made, text: '' },
      { w: 32, label: said.approved, text: '' },
      { w: 32, label: said.date, text: '' },
      { w: 19, label: said.mass, text: grams === undefined ? '–' : massText(grams) },
      { w: 19, label: said.quantity, text: String(quantity) },
    ],
    [
      { w: 78, label: said.title, text: part.title ?? part.name, cap: LARGE },
      { w: 48, label: said.number, text: part.name, cap: NUMBER },
      { w: 24, label: said.type, text: said.partDrawing },
      { w: 11, label: said.revision, text: part.revision ?? '–', cap: NUMBER },
      { w: 19, label: said.sheet, text: sheet, cap: NUMBER },
    ],
  ];
  const marks: Figure['marks'][number][] = [];
  let y = 0;
  for (const row of rows) {
    const made = rowFigure(row);
    marks.push(...moved(made.marks, 0, y));
    y += made.h;
    if (row !== rows.at(-1))
      marks.push(
        polyline(
          [
            [0, y],
            [BLOCK_W, y],
          ],
          NARROW,
        ),
      );
  }
  return { marks: [...marks, frame({ x0: 0, y0: 0, x1: BLOCK_W, y1: y }, FRAME)], w: BLOCK_W, h: y };
}

function rowFigure(fields: readonly Field[]): Figure {
  const cells = fields.map((f) => {
    const label = textFigure(f.label, { width: f.w - 2 * PAD });
    const text = textFigure(f.text, { width: f.w - 2 * PAD, cap: f.cap ?? SMALL });
    return { f, marks: [...label.marks, ...moved(text.marks, 0, label.h + 0.3)], h: label.h + text.h + 0.6 };
  });
  const h = Math.max(LEAST, ...cells.map((c) => c.h + PAD));
  const marks: Figure['marks'][number][] = [];
  let x = 0;
  for (const [i, { f, marks: own }] of cells.entries()) {
    marks.push(...moved(own, x + PAD, 0.3));
    if (i > 0)
      marks.push(
        polyline(
          [
            [x, 0],
            [x, h],
          ],
          NARROW,
        ),
      );
    x += f.w;
  }
  return { marks, w: x, h };
}

/** Three digits: what a text can say of a mass. */
function massText(grams: number): string {
  const [value, unit] = grams >= 1000 ? [grams / 1000, 'kg'] : [grams, 'g'];
  return `${Number(value.toPrecision(3))} ${unit}`;
}

/** ISO 13715: what may be missing outside, with its minus, and be left inside. */
function edgesText({ part: { deburr, units }, said }: Drafted): string {
  if (!deburr) return `⌞\u00a0${said.burrs}`;
  const of = [
    ...(deburr.outside ? [`−${num(deburr.outside.mm, units)}`] : []),
    ...(deburr.inside ? [`+${num(deburr.inside.mm, units)}`] : []),
  ];
  return `⌞\u00a0${of.join('\u00a0/\u00a0')}`;
}
