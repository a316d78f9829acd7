/** Details (ISO 128-3): what would be too small to be read at the drawing's scale, drawn once more in a circle, larger. */
import { arc, line, pointAt } from '../../geometry/2d/edge';
import type { Edge, Point2 } from '../../geometry/types';
import type { Feature } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import { type Figure, type Mark, moved, NARROW, WIDE } from '../draw/marks';
import { ring, stroke } from '../draw/shapes';
import { bold, NUMBER, textFigure } from '../draw/text';
import { edgesOnPage, type Place } from '../view/projected';
import { calloutFigure, type Drafted } from './callout';
import { laneOf } from './lane';

/** In the picture's own millimetres. */
export interface Detail {
  readonly letter: string;
  readonly feature: Feature;
  readonly at: Point2;
  readonly radius: number;
  readonly scale: number;
  readonly words: string;
  /** Of what is round there: half of its width. */
  readonly round: number;
}

/** What comes out narrower than this on paper is drawn larger, until it is so wide. mm. */
const LEAST = 1.5;
const READABLE = 4;
const ROUND = 16;
const SCALES: readonly (readonly [scale: number, words: string])[] = [
  [2, '2:1'],
  [5, '5:1'],
  [10, '10:1'],
  [20, '20:1'],
  [50, '50:1'],
];
/** More than these are not told apart any better. */
const MOST = 3;

export interface Small {
  readonly feature: Feature;
  readonly at: Point2;
  /** Its narrowest there. */
  readonly wide: number;
  /** Half of its width, where it is round; 0 where it is not. */
  readonly round: number;
}

/** Those of some features that are too small at a scale, the smallest first. */
export function detailsOf(smalls: readonly Small[], scale: number, letters: readonly string[]): readonly Detail[] {
  return smalls
    .filter((s) => s.wide > 0 && s.wide * scale < LEAST)
    .toSorted((a, b) => a.wide - b.wide)
    .slice(0, Math.min(MOST, letters.length))
    .flatMap(({ feature, at, wide, round }, i): Detail[] => {
      const larger = SCALES.find(([s]) => s > scale && s * wide >= READABLE);
      if (!larger) return [];
      const radius = ROUND / larger[0];
      return [{ letter: letters[i]!, feature, at, radius, scale: larger[0], words: larger[1], round }];
    });
}

/** The circle round it in its view. */
export function detailRing({ at, radius }: Detail, { x, y, scale }: Place): Mark {
  return ring(x + at.u * scale, y - at.v * scale, Math.max(2, radius * scale), NARROW);
}

/** `wide`: edges drawn wide, `narrow`: the others; both in the picture's millimetres. */
export function detailFigure(detail: Detail, wide: readonly Edge[], narrow: readonly Edge[], of: Drafted): Figure {
  const { at, radius, scale, letter, words, feature, round } = detail;
  const r = radius * scale;
  const place: Place = { x: r - at.u * scale, y: -r + at.v * scale, scale };
  const clipped = (edges: readonly Edge[]) =>
    edgesOnPage(
      edges.flatMap((e) => within(e, at, radius)),
      place,
    );
  const thin = clipped(narrow);
  const to = { u: r, v: -r };
  const lane = laneOf(
    [{ figure: calloutFigure(feature, of), to, radius: round * scale, end: round > 0 ? 'arrow' : 'dot' }],
    2 * r,
  );
  const title = textFigure(bold(of.said.detail(letter, words), NUMBER));
  const top = title.h + 1 + Math.max(2 * r, lane.up);
  const marks = [
    stroke(clipped(wide), WIDE),
    ...(thin.length > 0 ? [stroke(thin, NARROW)] : []),
    ring(r, -r, r, NARROW),
    ...lane.marks,
  ];
  return {
    marks: [...title.marks, ...moved(marks, 1, top)],
    w: Math.max(lane.right, title.w) + 2,
    h: top + Math.max(1, lane.down),
  };
}

const STEPS = 48;

/** The stretches of a line or arc inside a circle. */
function within(e: Edge, c: Point2, radius: number): Edge[] {
  const out = (t: number) => {
    const p = pointAt(e, t);
    return Math.hypot(p.u - c.u, p.v - c.v) - radius;
  };
  const cuts = [0];
  for (let k = 0; k < STEPS; k++) {
    let [a, b] = [k / STEPS, (k + 1) / STEPS];
    if (out(a) > 0 === out(b) > 0) continue;
    const entering = out(a) > 0;
    for (let n = 0; n < 40; n++) {
      const m = (a + b) / 2;
      if (out(m) > 0 === entering) a = m;
      else b = m;
    }
    cuts.push((a + b) / 2);
  }
  cuts.push(1);
  return cuts.slice(1).flatMap((b, i): Edge[] => {
    const a = cuts[i]!;
    if (b - a < ROUNDING || out((a + b) / 2) > 0) return [];
    if (a === 0 && b === 1) return [e];
    const [p, q] = [pointAt(e, a), pointAt(e, b)];
    return [e.type === 'line' ? line(p, q) : arc(p, q, e.centre, e.ccw)];
  });
}
