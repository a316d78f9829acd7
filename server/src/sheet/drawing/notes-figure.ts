/** What a drawing says in words: edges that no view shows, toleranced distances, from where numbers count, what stands against it. */
import { barOf } from '../../model/bar';
import { breaksEdges } from '../../model/feature-kinds';
import type { Figure } from '../draw/marks';
import { column } from '../draw/stack';
import { bold, textFigure } from '../draw/text';
import { askedLines } from '../part/asked';
import { calledBy, toleranceFigure, toleranceFrame } from '../part/frames';
import { barText } from '../part/saw';
import { type Drafted, textOf } from './callout';
import type { Plans } from './plans';

const NOTES_W = 82;

export function notesFigure(
  of: Drafted,
  { missing, unseen, distances }: Pick<Plans, 'missing' | 'unseen' | 'distances'>,
  errors: number,
): Figure {
  const { part, said, words } = of;
  const called = calledBy(of);
  const w = NOTES_W;
  const edges = part.features.filter(breaksEdges);
  const names = new Set(edges.map((f) => f.name));
  // Frames stand at their features; what has no callout, and a distance that no view shows, is said here.
  const rest = part.tolerances.filter(
    (t) => !distances.has(t) && (!toleranceFrame(t, part) || t.of.every((n) => names.has(n.name))),
  );
  const bar = part.stock.section && barOf(part);
  const lines = [
    part.body?.form === 'round' ? said.countsAxis : said.counts,
    ...(bar ? [words.madeFrom(barText(part, bar, words))] : []),
    ...askedLines(part, words, called),
    ...unseen.map((f) => textOf(f, of)),
    ...(missing.length > 0 ? [words.notShown(missing.map((f) => words.faces[f]).join(', '))] : []),
  ];
  return column(
    [
      ...(errors > 0 ? [textFigure(bold(said.errors(errors)), { width: w })] : []),
      ...lines.map((l, i) => textFigure(i === 0 ? ['◎ ', l] : l, { width: w })),
      ...rest.map((t) => toleranceFigure(t, { part, w }, called)),
    ],
    0.8,
  );
}
