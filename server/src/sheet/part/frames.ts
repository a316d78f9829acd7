/** Geometric tolerances in their frames (ISO 1101), datums, and what is broken: the notes under the table. */
import { breaksEdges } from '../../model/feature-kinds';
import type { Feature, GeometricTolerance, Part } from '../../model/model';
import { FACES, type Face } from '../../model/model';
import { type Figure, type Mark, moved, NARROW } from '../draw/marks';
import { frame, polyline } from '../draw/shapes';
import { column } from '../draw/stack';
import { SMALL, textFigure } from '../draw/text';
import type { SheetWords } from '../language/en';
import { askedInWords } from './asked';
import { briefOf } from './brief';
import { limits, num, sized } from './numbers';

/** ISO 1101. */
const SIGN: Readonly<Record<string, string>> = {
  position: '⌖',
  straightness: '⏤',
  flatness: '⏥',
  circularity: '○',
  cylindricity: '⌭',
  parallelism: '∥',
  perpendicularity: '⟂',
  angularity: '∠',
  concentricity: '◎',
  symmetry: '⌯',
  profile: '⌓',
  runout: '↗',
  'total-runout': '⌰',
};

interface Notes {
  readonly part: Part;
  readonly words: SheetWords;
  readonly letters: ReadonlyMap<Feature, string>;
  readonly w: number;
}

/** By letter where it has one, by face in the sheet's words, else by name. */
export function calledBy({ part, words, letters }: Omit<Notes, 'w'>): (name: string) => string {
  return (name) => {
    const base = name.replace(/\[\d+\]$/, '');
    const feature = part.featureByName.get(base);
    const letter = feature && letters.get(feature);
    if (letter) return letter + name.slice(base.length);
    return FACES.includes(name as Face) ? words.faces[name as Face] : name;
  };
}

export function notesFigure(of: Notes): Figure {
  const { part, words, w } = of;
  const called = calledBy(of);
  const frames = part.tolerances.map((t) => toleranceFigure(t, of, called));
  const datums = [...part.datums.values()].map((d) => words.datum(d.letter.name, called(d.target.name))).join(' · ');
  const edges = part.features.filter(breaksEdges).map((f) => briefOf(f, part, words, called));
  const lines = [...askedInWords(part, words, called), datums, ...edges]
    .filter((l) => l !== '')
    .map((l) => textFigure(l, { width: w }));
  return column([...frames, ...lines], 0.8);
}

/** What it is of behind its frame; a toleranced distance in words. */
export function toleranceFigure(
  t: GeometricTolerance,
  { part, w }: Pick<Notes, 'part' | 'w'>,
  called: (name: string) => string,
): Figure {
  const { units } = part;
  const of = t.of.map((n) => called(n.name)).join(', ');
  const made = toleranceFrame(t, part);
  if (!made) {
    const both = limits(t.value, units);
    const along = t.axis ? ` ${t.axis}` : '';
    return textFigure(`${of}${along}: ${sized(t.value, units)}${both ? ` (${both})` : ''}`, { width: w });
  }
  const said = textFigure([of, ...besides(t, called)].join(' · '), { width: Math.max(10, w - made.w - 2) });
  return { marks: [...made.marks, ...moved(said.marks, made.w + 2, 0.5)], w, h: Math.max(made.h, said.h + 0.5) };
}

/** What no cell of the frame has: between which two, and a remark. */
export function besides({ between, note }: GeometricTolerance, called: (name: string) => string): readonly string[] {
  return [...(between ? [between.map((n) => called(n.name)).join(' ↔ ')] : []), ...(note ? [note] : [])];
}

/** Its frame alone; none for a toleranced distance. */
export function toleranceFrame(t: GeometricTolerance, { units }: Part): Figure | undefined {
  const sign = SIGN[t.characteristic];
  if (!sign) return undefined;
  const round = t.characteristic === 'position' || t.characteristic === 'concentricity' ? '⌀' : '';
  // ISO 1101: projected zone and common zone stand behind the value, in its cell.
  const modifiers = [
    ...(t.maximumMaterial ? ['Ⓜ'] : []),
    ...(t.projected ? [`Ⓟ${num(t.projected.mm, units)}`] : []),
    ...(t.commonZone ? [' CZ'] : []),
  ].join('');
  const value = `${round}${num(t.value.mm, units)}${modifiers}`;
  return controlFrame([sign, value, ...t.datums.map((d) => d.name)]);
}

/** Cells beside each other, twice as high as their letters. */
function controlFrame(cells: readonly string[]): Figure {
  const h = 2 * SMALL;
  const marks: Mark[] = [];
  let x = 0;
  for (const [i, cell] of cells.entries()) {
    const said = textFigure(cell);
    const w = Math.max(h, said.w + 2);
    marks.push(...moved(said.marks, x + (w - said.w) / 2, (h - SMALL) / 2 - 0.26 * SMALL));
    if (i > 0)
      marks.push(
        polyline([
          [x, 0],
          [x, h],
        ]),
      );
    x += w;
  }
  return { marks: [...marks, frame({ x0: 0, y0: 0, x1: x, y1: h }, NARROW)], w: x, h };
}
