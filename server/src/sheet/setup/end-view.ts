/** The work in the jaws seen from their end: which face is up, how much is held, what stands under it. */

import { rectOf } from '../../geometry/2d/inside';
import type { Region } from '../../geometry/types';
import { SAME } from '../../tolerance';
import type { Box, Figure, Mark } from '../draw/marks';
import { WIDE } from '../draw/marks';
import { Placer } from '../draw/placer';
import { block, boxEdges, frame, hatching, polyline, stroke } from '../draw/shapes';
import { bold, lineMarks, linesOf, SMALL } from '../draw/text';
import type { SheetWords } from '../language/en';
import { edgesOnPage, outlinesOf, type Place, type Scale, scaleFor } from '../view/projected';
import { boxInPicture, type Lying } from './lying';

/** So much of a jaw is drawn behind its face, mm of the paper: with its name in it, or without. */
const JAW = 13;
const SLIM = 7;

interface EndView extends Figure {
  readonly scale: Scale;
  /** The jaws' tops, the work's top and foot, the bed, on the figure; and the work's sides. */
  readonly at: { readonly jaws: number; readonly top: number; readonly foot: number; readonly bed: number };
  readonly work: Box;
}

/** Without its face's name: who draws heights beside it finds a place for that. */
export function endView(
  lying: Lying,
  words: SheetWords,
  room: { readonly w: number; readonly h: number },
): EndView | undefined {
  let made: Omit<EndView, 'scale'> | undefined;
  const scale = scaleFor((s) => {
    made = drawn(lying, words, { scale: s, w: room.w, jaw: SLIM });
    return made !== undefined && made.w <= room.w && made.h <= room.h;
  });
  return made && { ...made, scale };
}

/** As large as there is room, to no scale. */
export function endSketch(
  lying: Lying,
  words: SheetWords,
  room: { readonly w: number; readonly h: number },
): Figure | undefined {
  const one = drawn(lying, words, { scale: 1, w: room.w, jaw: JAW });
  if (!one) return undefined;
  const wide = one.work.x1 - one.work.x0;
  const least = Math.min(room.h / one.h, (room.w - (one.w - wide)) / wide);
  return drawn(lying, words, { scale: Math.min(2, least * 0.999), w: room.w, jaw: JAW });
}

interface Drawing {
  readonly scale: number;
  readonly w: number;
  readonly jaw: number;
}

function drawn(
  { seating, end }: Lying,
  words: SheetWords,
  { scale, w, jaw }: Drawing,
): Omit<EndView, 'scale'> | undefined {
  if (!end) return undefined;
  const { view, before, gone } = end;
  const [u0, v0, u1, v1] = reach(before.shadow);
  const { held } = seating;
  const under = held ? held.parallelsMm : 0;
  const jawTop = held ? v0 + held.gripMm : v0;
  const over = jaw === SLIM ? 1.5 : 4;
  const wide = (u1 - u0) * scale + 2 * jaw;
  const middle = Math.max(w, wide) / 2;
  const place: Place = { x: middle - ((u0 + u1) / 2) * scale, y: Math.max(v1, jawTop) * scale, scale };
  const at = (v: number) => place.y - v * scale;
  const bed = at(v0 - under);
  const x = (u: number) => place.x + u * scale;
  const marks: Mark[] = [];
  if (held) {
    for (const box of [
      { x0: x(u0) - jaw, x1: x(u0), y0: at(jawTop), y1: bed },
      { x0: x(u1), x1: x(u1) + jaw, y0: at(jawTop), y1: bed },
    ])
      marks.push(...jawMarks(box, jaw === SLIM ? '' : box.x1 <= x(u0) + SAME ? words.moving : words.fixed));
    for (const o of seating.obstacles.filter((o) => o.what === 'parallel')) {
      const [a, , b] = boxInPicture(view, o.box);
      marks.push(block({ x0: x(a), x1: x(b), y0: at(v0), y1: bed }));
    }
  }
  marks.push(
    polyline(
      [
        [x(u0) - jaw - over, bed],
        [x(u1) + jaw + over, bed],
      ],
      WIDE,
    ),
  );
  marks.push(...goneMarks(gone, place), stroke(edgesOnPage(outlinesOf(before.shadow).flat(), place), WIDE));
  const top = at(Math.max(v1, jawTop));
  const room = Math.max(w, wide + 2 * over);
  const placer = new Placer(marks, { x0: middle - room / 2, x1: middle + room / 2, y0: top - 0.1, y1: bed });
  const label = placer.put(jaw === SLIM ? [] : bold(words.faces[seating.up]), SMALL, (l) => [
    [middle - l.width / 2, at(v1) + Math.min(5, ((v1 - v0) * scale + SMALL) / 2)],
    [x(u1) + 2, at(jawTop) - 1.2],
    [x(u1) + 2, at(v1) + SMALL + 0.1],
    [x(u0) - 2 - l.width, at(jawTop) - 1.2],
    [middle - l.width / 2, at(jawTop) - 1.2],
    [middle - l.width / 2, at(v0) - 1.2],
  ]);
  return {
    marks: [...marks, ...label],
    w: wide + 2 * over,
    h: bed - top + 0.5,
    at: { jaws: at(jawTop), top: at(v1), foot: at(v0), bed },
    work: { x0: x(u0), x1: x(u1), y0: at(v1), y1: at(v0) },
  };
}

/** With its name, where that fits into it. */
function jawMarks(box: Box, name: string): Mark[] {
  const line = linesOf(name, SMALL)[0];
  const fits = line && line.width < box.x1 - box.x0 - 1 && box.y1 - box.y0 > SMALL + 3;
  if (!fits) return [hatching(boxEdges(box), 1.6), frame(box, WIDE)];
  const [x, y] = [(box.x0 + box.x1 - line.width) / 2, (box.y0 + box.y1 + SMALL) / 2];
  const spared = { x0: x - 0.5, x1: x + line.width + 0.5, y0: y - SMALL - 1, y1: y + 1.3 };
  return [hatching(boxEdges(box), 1.6, [spared]), frame(box, WIDE), ...lineMarks(line, x, y)];
}

function goneMarks(gone: readonly Region[], place: Place): Mark[] {
  if (gone.length === 0) return [];
  return [{ type: 'fill', loops: outlinesOf(gone).map((l) => edgesOnPage(l, place)) }];
}

/** The upright rectangle round them: u0, v0, u1, v1. */
export function reach(regions: readonly Region[]): readonly [number, number, number, number] {
  const { u0, v0, u1, v1 } = rectOf(regions.flatMap((r) => r.outer.edges));
  return [u0, v0, u1, v1];
}
