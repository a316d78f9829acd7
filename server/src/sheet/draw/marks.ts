/**
 * All that a page is made of: lines and arcs, filled outlines, words of known width. Millimetres from the upper left
 * corner of the page's field; x runs right, y down. Both writers draw this one list, so their pages are the same.
 */
import type { Edge, Point2 } from '../../geometry/types';

/** Lines and arcs; an arc marked `ccw` turns from +x towards +y. Its points' u is x, their v is y. */
export interface Stroke {
  readonly type: 'stroke';
  readonly edges: readonly Edge[];
  readonly width: number;
  /** Lengths of dash and gap in turn. */
  readonly dash?: readonly number[];
  readonly white?: true;
}

/** Closed outlines, one after the other; holes run the other way. */
export interface Fill {
  readonly type: 'fill';
  readonly loops: readonly (readonly Edge[])[];
  readonly white?: true;
}

/** Words on one line, from the left end of their baseline; `turned` ones read upwards. */
export interface Words {
  readonly type: 'words';
  readonly x: number;
  readonly y: number;
  readonly words: string;
  /** Height of a capital, mm (ISO 3098). */
  readonly cap: number;
  /** By the printed font's own metrics. */
  readonly width: number;
  readonly bold?: true;
  readonly white?: true;
  readonly turned?: true;
}

/** A sign of a drawing, drawn as strokes: one thing, whatever it is made of. */
export interface Sign {
  readonly type: 'sign';
  readonly name: string;
  readonly box: Box;
  readonly strokes: readonly (Stroke | Fill)[];
}

export type Mark = Stroke | Fill | Words | Sign;

export interface Box {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Marks about an origin of their own, upper left, and the room they take. */
export interface Figure {
  readonly marks: readonly Mark[];
  readonly w: number;
  readonly h: number;
}

/** Widths of lines, mm: edges that are seen and frames; tables, hidden edges, dimensions (ISO 128-2: 2 : 1). */
export const WIDE = 0.5;
export const NARROW = 0.25;
export const FRAME = 0.35;
export const HEAVY = 0.7;

export const DASHED: readonly number[] = [2.4, 0.8];
export const CHAIN: readonly number[] = [5, 0.8, 0.4, 0.8];

export function moved(marks: readonly Mark[], dx: number, dy: number): Mark[] {
  return marks.map((m) => movedMark(m, dx, dy));
}

function movedMark(m: Mark, dx: number, dy: number): Mark {
  switch (m.type) {
    case 'stroke':
      return { ...m, edges: m.edges.map((e) => movedEdge(e, dx, dy)) };
    case 'fill':
      return { ...m, loops: m.loops.map((l) => l.map((e) => movedEdge(e, dx, dy))) };
    case 'words':
      return { ...m, x: m.x + dx, y: m.y + dy };
    case 'sign': {
      const { x0, y0, x1, y1 } = m.box;
      const box = { x0: x0 + dx, y0: y0 + dy, x1: x1 + dx, y1: y1 + dy };
      return { ...m, box, strokes: m.strokes.map((s) => movedMark(s, dx, dy) as Stroke | Fill) };
    }
    default:
      return m satisfies never;
  }
}

function movedEdge(e: Edge, dx: number, dy: number): Edge {
  const by = (p: Point2): Point2 => ({ u: p.u + dx, v: p.v + dy });
  return e.type === 'line' ? { ...e, a: by(e.a), b: by(e.b) } : { ...e, a: by(e.a), b: by(e.b), centre: by(e.centre) };
}
