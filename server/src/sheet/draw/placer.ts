/** Finds room for words beside what is drawn already: the first of some places that nothing stands in. */
import type { Edge } from '../../geometry/types';
import { boxOfSaying, enters, grown, overlap } from './boxes';
import type { Box, Mark } from './marks';
import { type Inline, type Line, lineMarks, linesOf } from './text';

const CLEAR = 0.5;

export class Placer {
  readonly #lines: Edge[] = [];
  readonly #taken: Box[] = [];

  /** `bounds`: nothing is put beyond them. */
  constructor(
    marks: readonly Mark[] = [],
    private readonly bounds?: Box,
  ) {
    this.add(marks);
  }

  add(marks: readonly Mark[]): void {
    for (const m of marks) {
      const box = boxOfSaying(m);
      if (box) this.#taken.push(box);
      else if (m.type === 'stroke') this.#lines.push(...m.edges);
      else if (m.type === 'fill') this.#lines.push(...m.loops.flat());
    }
  }

  block(box: Box): void {
    this.#taken.push(box);
  }

  isFree(box: Box): boolean {
    const { bounds } = this;
    if (bounds && (box.x0 < bounds.x0 || box.y0 < bounds.y0 || box.x1 > bounds.x1 || box.y1 > bounds.y1)) return false;
    const wide = grown(box, CLEAR);
    return !this.#taken.some((b) => overlap(b, wide)) && !this.#lines.some((e) => enters(e, wide));
  }

  /** Whether a line runs through words. */
  isSaid(edges: readonly Edge[]): boolean {
    return edges.some((e) => this.#taken.some((b) => enters(e, grown(b, CLEAR / 2))));
  }

  /** One line at the first place, left end of its baseline, where it meets nothing; none where it fits nowhere. */
  put(
    text: Inline | readonly Inline[],
    cap: number,
    places: (line: Line) => Iterable<readonly [x: number, y: number]>,
  ): Mark[] {
    const line = linesOf(text, cap)[0];
    if (!line) return [];
    for (const [x, y] of places(line)) {
      const marks = lineMarks(line, x, y);
      if (!this.isFree(boxAround(marks))) continue;
      this.add(marks);
      return marks;
    }
    return [];
  }
}

function boxAround(marks: readonly Mark[]): Box {
  const boxes = marks.flatMap((m) => boxOfSaying(m) ?? []);
  return {
    x0: Math.min(...boxes.map((b) => b.x0)),
    y0: Math.min(...boxes.map((b) => b.y0)),
    x1: Math.max(...boxes.map((b) => b.x1)),
    y1: Math.max(...boxes.map((b) => b.y1)),
  };
}
