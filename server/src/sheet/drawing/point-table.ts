/** Points that a view names and a table places: holes where there are many, corners of outlines. */
import { FACE_PLANE, type Face, type Feature } from '../../model/model';
import type { Figure } from '../draw/marks';
import { table } from '../draw/stack';
import { bold } from '../draw/text';
import { num } from '../part/numbers';
import { type Drafted, textOf } from './callout';
import { locatedOf, type Point } from './points';

/** A table is made of rows, so that it can go on over pages. */
export interface Rows {
  readonly count: number;
  figure(from: number, to: number): Figure;
  readonly w: number;
}

interface Row {
  readonly cells: readonly [string, string, string, string];
  readonly head: boolean;
}

const COLUMNS = [14, 18, 18, 50] as const;

/** The name of a point of a feature: its letter, and which one it is where it has several. */
export function pointNames(feature: Feature, of: Drafted): readonly { readonly name: string; readonly at: Point }[] {
  const { points } = locatedOf(feature);
  const letter = of.letters.get(feature) ?? '';
  return points.map((at, i) => ({ name: points.length > 1 ? `${letter}${i + 1}` : letter, at }));
}

/** `whole`: features that have no callout of their own. */
export function pointTable(face: Face, features: readonly Feature[], whole: ReadonlySet<Feature>, of: Drafted): Rows {
  const [a, b] = FACE_PLANE[face];
  const rows = features.flatMap((f): Row[] => {
    const named = pointNames(f, of).map(
      ({ name, at }): Row => ({
        cells: [name, of.origin.said(a, at.u), of.origin.said(b, at.v), treatedOf(at, f, of)],
        head: false,
      }),
    );
    if (!whole.has(f)) return named;
    const [first, ...rest] = named;
    const count = f.places.length > 1 ? `${f.places.length}× ` : '';
    const text = `${count}${textOf(f, of)}`;
    if (!first) return [{ cells: [of.letters.get(f) ?? '', '', '', text], head: false }];
    return [
      {
        ...first,
        cells: [
          first.cells[0],
          first.cells[1],
          first.cells[2],
          [text, first.cells[3]].filter((t) => t !== '').join(' · '),
        ],
      },
      ...rest.map(
        (r): Row => ({
          ...r,
          cells: [r.cells[0], r.cells[1], r.cells[2], locatedOf(f).outline ? r.cells[3] : of.said.same(first.cells[0])],
        }),
      ),
    ];
  });
  const head: Row = { cells: [of.words.faces[face], a, b, of.said.tableSize], head: true };
  return {
    count: rows.length,
    w: COLUMNS.reduce((s, w) => s + w, 0),
    figure: (from, to) =>
      table(
        COLUMNS.map((w, i) => ({ w, ...(i === 1 || i === 2 ? { align: 'right' as const } : {}) })),
        [head, ...rows.slice(from, to)].map(({ cells, head: bolds }) =>
          cells.map((text, i) => ({ text: bolds || i === 0 ? bold(text) : text })),
        ),
      ),
  };
}

/** Of a corner: its rounding or bevel, and through where its arc runs. */
function treatedOf({ corner }: Point, feature: Feature, { part, said, origin }: Drafted): string {
  if (!corner) return '';
  const { units } = part;
  const [a, b] = FACE_PLANE[feature.face];
  const [p] = feature.places;
  const parts: string[] = [];
  if (corner.round) parts.push(`R${num(corner.round.mm, units)}`);
  if (corner.bevel) parts.push(`${num(corner.bevel.mm, units)} × 45°`);
  if (corner.arc)
    parts.push(
      said.arcThrough(`${origin.said(a, (p?.u ?? 0) + corner.arc.u)}/${origin.said(b, (p?.v ?? 0) + corner.arc.v)}`),
    );
  return parts.join(', ');
}
