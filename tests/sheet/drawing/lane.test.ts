/** Notes beside a picture, drawn at random: no line crosses another or runs through an opening, no words overlap. `FUZZ_RUNS=100`. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Mark } from '../../../server/src/sheet/draw/marks';
import { ring } from '../../../server/src/sheet/draw/shapes';
import { textFigure } from '../../../server/src/sheet/draw/text';
import { laneOf, type Note } from '../../../server/src/sheet/drawing/lane';
import { draws } from '../../fuzz/runs';

const W = 80;
const H = 60;

interface Drawn {
  readonly kind: 'hole' | 'area' | 'top' | 'bottom' | 'right' | 'corner';
  readonly u: number;
  readonly v: number;
  readonly words: number;
}

const OUT = { top: { u: 0, v: -1 }, bottom: { u: 0, v: 1 }, right: { u: 1, v: 0 } } as const;

function noteOf({ kind, u, v, words }: Drawn, i: number, all: readonly Drawn[]): Note {
  const figure = textFigure(Array.from({ length: words }, () => 'word').join(' '), { width: 30 });
  if (kind === 'hole' || kind === 'area') {
    const others = all.filter((o, k) => k !== i && o.kind === 'hole' && Math.hypot(o.u - u, o.v - v) > 6);
    const avoids = others.map((o) => ({ feature: '', edges: ring(o.u, -o.v, 3, 0.5).edges }));
    const tag = { letter: String(i), at: { u, v: -v }, radius: 3 };
    return {
      figure,
      to: { u, v: -v },
      radius: kind === 'hole' ? 3 : 0,
      end: kind === 'hole' ? 'arrow' : 'dot',
      tag,
      avoids,
    };
  }
  if (kind === 'corner') return { figure, to: { u: W, v: v > H / 2 ? -H : 0 }, radius: 0, end: 'arrow' };
  // the middle of a side, as faces have it
  const to = kind === 'right' ? { u: W, v: -H / 2 } : { u, v: kind === 'top' ? -H : 0 };
  return { figure, to, radius: 0, end: 'arrow', out: OUT[kind] };
}

const drawn = fc.record({
  kind: fc.constantFrom('hole', 'hole', 'hole', 'area', 'top', 'bottom', 'right', 'corner'),
  u: fc.integer({ min: 3, max: W - 3 }),
  v: fc.integer({ min: 3, max: H - 3 }),
  words: fc.integer({ min: 1, max: 12 }),
}) as fc.Arbitrary<Drawn>;

type Point = readonly [number, number];

/** Each line as its places; read from the marks. */
function linesIn(marks: readonly Mark[]): readonly (readonly Point[])[] {
  return marks.flatMap((m: Mark) => {
    if (m.type !== 'stroke') return [];
    const { edges } = m;
    return [[[edges[0]!.a.u, edges[0]!.a.v], ...edges.map((e): Point => [e.b.u, e.b.v])] as Point[]];
  });
}

function cross(p: Point, q: Point, r: Point, s: Point): boolean {
  const side = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  return side(p, q, r) * side(p, q, s) < -1e-6 && side(r, s, p) * side(r, s, q) < -1e-6;
}

function meets(a: readonly Point[], b: readonly Point[]): boolean {
  return a.slice(1).some((q, i) => b.slice(1).some((s, k) => cross(a[i]!, q, b[k]!, s)));
}

describe('notes beside a picture', () => {
  it('lines cross neither each other nor an opening; what has none has its letter at its place', () => {
    fc.assert(
      fc.property(fc.array(drawn, { minLength: 1, maxLength: 14 }), (some) => {
        // each side of a view is one face, and has one note
        const isFirst = (d: Drawn, i: number) =>
          !(d.kind in OUT || d.kind === 'corner') || some.findIndex((o) => o.kind === d.kind) === i;
        const all = some.filter(isFirst);
        const notes = all.map(noteOf);
        const lane = laneOf(notes, W);
        const lines = linesIn(lane.marks);
        assert.equal(lines.length + lane.tags.length, notes.length);
        for (const [i, a] of lines.entries())
          for (const b of lines.slice(i + 1)) assert.ok(!meets(a, b), JSON.stringify([a, b]));
        const holes = all.filter((d) => d.kind === 'hole');
        for (const line of lines) {
          const [x, y] = line.at(-1)!;
          if (y < -H + 0.5 || y > -0.5 || x > W - 0.5) continue;
          for (const { u, v } of holes) {
            // a line begins on the rim of its own; of a hole that overlaps another nothing is asked
            if (Math.hypot(u - x, -v - y) < 9.1) continue;
            const [fx, fy] = line.at(-2)!;
            const t = Math.max(
              0,
              Math.min(1, ((u - x) * (fx - x) + (-v - y) * (fy - y)) / ((fx - x) ** 2 + (fy - y) ** 2)),
            );
            assert.ok(Math.hypot(x + (fx - x) * t - u, y + (fy - y) * t + v) > 2.9, `${u} ${v} on ${line}`);
          }
        }
      }),
      draws(2129, 40),
    );
  });
});
