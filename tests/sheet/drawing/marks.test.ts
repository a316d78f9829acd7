/** What a drawing marks by lines: toleranced distances, single edges, threads, letters, what lies behind a section. */
import assert from 'node:assert/strict';
import { pointAt } from '../../../server/src/geometry/2d/edge';
import type { Edge } from '../../../server/src/geometry/types';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import type { Mark } from '../../../server/src/sheet/draw/marks';
import { drawingOf } from '../../../server/src/sheet/drawing/drawing';
import type { Sheet } from '../../../server/src/sheet/page';
import { clashesOn } from '../clashes';
import { type Line, linesOn } from './reader';

const HEAD = 'part: block\nmaterial: aluminium-6061-t6\nbody: { x: 90, y: 60, z: 20 }\n';

function sheetOf(features: string, rest = ''): Sheet {
  const sheet = drawingOf(checkPart(`${HEAD}features:\n${features}${rest}`, builtinShop()), { size: 'large' });
  assert.deepEqual(
    sheet.pages.flatMap((p) => clashesOn(p)),
    [],
  );
  return sheet;
}

const marksOf = ({ pages }: Sheet): readonly Mark[] => pages.flatMap((p) => p.marks);
const strokes = (sheet: Sheet, width: number): readonly Edge[] =>
  marksOf(sheet).flatMap((m) => (m.type === 'stroke' && m.width === width ? m.edges : []));
const said = (sheet: Sheet): readonly Line[] => sheet.pages.flatMap(linesOn);
const texts = (sheet: Sheet) => said(sheet).map((l) => l.text);
const where = (sheet: Sheet, text: string) => said(sheet).find((l) => l.text === text)!.box;

const DISTANCES = `
tolerances:
  - { distance: 42 ±0.02, of: [bore, pin], axis: x }
  - { distance: 6 ±0.05, of: [bore, near], axis: x }
  - { distance: 44 ±0.05, of: [front, pin], axis: y }
  - { distance: 90 ±0.1, of: [left, right] }
  - { distance: 1 ±0.1, of: [row, bore], axis: x }
`;

describe('marks of a drawing', () => {
  // ISO 129-1: an extension line at each end, the dimension line with a head at each, the value above or before it
  it('toleranced distances are dimension lines, true to the scale; what has no one place is said in words', () => {
    const sheet = sheetOf(
      `  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 12, depth: through }
  pin: { kind: hole, face: top, at: { x: 62, y: 44 }, diameter: 6, depth: 10 }
  near: { kind: hole, face: top, at: { x: 26, y: 50 }, diameter: 5, depth: 10 }
  row: { kind: hole, face: top, at: { x: 60, y: 10 }, pattern: { line: { x: 10, count: 2 } }, diameter: 4, depth: 5 }
`,
      DISTANCES,
    );
    const k = scaleOf(sheet);
    const level = strokes(sheet, 0.25).filter((e) => e.type === 'line' && e.a.v === e.b.v);
    const upright = strokes(sheet, 0.25).filter((e) => e.type === 'line' && e.a.u === e.b.u);
    const long = (e: Edge) => Math.hypot(e.b.u - e.a.u, e.b.v - e.a.v);
    for (const [text, mm] of [
      ['42 ±0.02', 42],
      ['90 ±0.1', 90],
    ] as const) {
      const box = where(sheet, text);
      const line = level.find((e) => Math.abs(long(e) - mm * k) < 1e-6 && e.a.v > box.y1 && e.a.v < box.y1 + 2);
      assert.ok(line, text);
      for (const x of [line.a.u, line.b.u])
        assert.ok(
          upright.some(
            (e) => Math.abs(e.a.u - x) < 1e-6 && Math.min(e.a.v, e.b.v) < line.a.v && Math.max(e.a.v, e.b.v) > line.a.v,
          ),
          `${text}: a line at ${x}`,
        );
    }
    const tall = where(sheet, '44 ±0.05');
    assert.ok(upright.some((e) => Math.abs(long(e) - 44 * k) < 1e-6 && e.a.u > tall.x1 && e.a.u < tall.x1 + 2));
    // too short for its number: that stands before it
    const short = where(sheet, '6 ±0.05');
    assert.ok(level.some((e) => long(e) > 6 + (short.x1 - short.x0) && e.a.v > short.y1 && e.a.v < short.y1 + 2));
    assert.equal(texts(sheet).filter((t) => /^R.*, B.* x: 1 ±0\.1/.test(t)).length, 1, texts(sheet).join('|'));
  });

  // ISO 13715: a mark at single edges besides the one for all others, which stands in the title block
  it('edges with a size of their own are marked where they are seen, rims with their feature', () => {
    const sheet = sheetOf(`  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 12, depth: through }
  rim: { kind: chamfer, edges: { rim: bore }, size: 1 }
  long: { kind: chamfer, edges: [top, right], size: 2 }
  round: { kind: edge-round, edges: bottom, radius: 0.5 }
  away: { kind: chamfer, edges: [left, back], size: 0.4 }
`);
    const marked = texts(sheet);
    for (const text of ['2 × 45°: edge TOP/RIGHT', 'R0.5: outer edges', 'B ⌀12 through, ⌞ 1 × 45°'])
      assert.equal(marked.filter((t) => t.endsWith(text)).length, 1, marked.join('|'));
    const signs = marksOf(sheet).filter((m) => m.type === 'sign' && m.name === '⌞');
    assert.equal(signs.length, 4);
    // seen as a corner in no view on the side of the notes: in words
    assert.ok(
      texts(sheet).some((t) => t.startsWith('0.4 × 45°')),
      texts(sheet).join('|'),
    );
    const corner = said(sheet).find((l) => l.text.endsWith('edge TOP/RIGHT'))!.box;
    // its arrow ends at the middle of the chamfer, which is drawn: 2 mm at 45°, seen in the front view
    const chamfer = strokes(sheet, 0.5).find(
      (e) =>
        e.type === 'line' &&
        Math.abs(Math.hypot(e.b.u - e.a.u, e.b.v - e.a.v) - Math.hypot(2, 2) * scaleOf(sheet)) < 1e-6,
    )!;
    const middle = pointAt(chamfer, 0.5);
    const tips = marksOf(sheet).flatMap((m) => (m.type === 'fill' ? m.loops.flat().map((e) => e.a) : []));
    assert.ok(tips.some((p) => Math.hypot(p.u - middle.u, p.v - middle.v) < 1e-6));
    assert.ok(corner.x0 > middle.u);
  });

  // ISO 6410-1: three quarters of a circle, narrow, at the diameter of the thread
  it('a thread looked into is three quarters of a narrow circle about the wide one of its drill', () => {
    const sheet = sheetOf(
      '  screw: { kind: hole, face: top, at: { x: 20, y: 20 }, thread: M6, depth: 15, thread-depth: 10 }\n',
    );
    const [thread, ...more] = strokes(sheet, 0.25).filter(
      (e) => e.type === 'arc' && Math.abs(e.radius - 3 * scaleOf(sheet)) < 1e-9,
    );
    assert.ok(thread?.type === 'arc' && more.length === 0);
    const mid = pointAt(thread, 0.5);
    // open above to the right: the middle of what is drawn lies below to the left, on paper
    assert.ok(mid.u < thread.centre.u && mid.v > thread.centre.v);
    const chord = Math.hypot(thread.a.u - thread.b.u, thread.a.v - thread.b.v);
    const share = chord / scaleOf(sheet);
    assert.ok(share > 3 && share < 3 * Math.SQRT2, `${share}`);
    // ISO 261: M6 is drilled 5
    assert.ok(
      strokes(sheet, 0.5).some(
        (e) =>
          e.type === 'arc' &&
          Math.abs(e.radius - 2.5 * scaleOf(sheet)) < 1e-9 &&
          Math.abs(e.centre.u - thread.centre.u) < 1e-9,
      ),
    );
  });

  it('a thread cut along its axis has a narrow line on each side, as long as it is full', () => {
    const sheet = sheetOf(
      '  screw: { kind: hole, face: top, at: { x: 20, y: 20 }, thread: M6, depth: 15, thread-depth: 10 }\n',
    );
    const k = scaleOf(sheet);
    const lines = strokes(sheet, 0.25).filter(
      (e) => e.type === 'line' && Math.abs(e.a.u - e.b.u) < 1e-9 && Math.abs(Math.abs(e.a.v - e.b.v) - 10 * k) < 1e-6,
    );
    const apart = lines.map((e) => e.a.u).sort((a, b) => a - b);
    assert.ok(lines.length === 2 && Math.abs(apart[1]! - apart[0]! - 6 * k) < 1e-6, JSON.stringify(lines));
  });

  it('letters are drawn where they are cut, and not on other faces', () => {
    for (const [face, place] of [
      ['top', '{ x: 45, y: 30 }'],
      ['back', '{ x: 45, z: 10 }'],
    ] as const) {
      const sheet = sheetOf(
        `  mark: { kind: engraving, face: ${face}, at: ${place}, text: E, height: 8, depth: 0.3, stroke: 1 }\n`,
      );
      const k = scaleOf(sheet);
      // round ends of strokes as wide as the tip, all within the letter's height
      const round = strokes(sheet, 0.25).filter((e) => e.type === 'arc' && Math.abs(e.radius - 0.5 * k) < 1e-9);
      assert.ok(round.length >= 3, face);
      const v = round.flatMap((e) => [e.a.v, e.b.v]);
      const high = (Math.max(...v) - Math.min(...v)) / k;
      assert.ok(high <= 9 + 1e-6 && high >= 7, `${face} ${high}`);
    }
  });

  it('behind the section of a round body its far edges are seen, and the edges of a groove in its bore', () => {
    const text = `part: ring
material: aluminium-6061-t6
body: { diameter: 50, length: 14 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H8, depth: through }
  snap: { kind: groove, in: bore, diameter: 25, width: 2, below: 4 }
`;
    const sheet = drawingOf(checkPart(text, builtinShop()), { size: 'large' });
    assert.deepEqual(
      sheet.pages.flatMap((p) => clashesOn(p)),
      [],
    );
    const wide = strokes(sheet, 0.5).filter((e) => e.type === 'line' && Math.abs(e.a.v - e.b.v) < 1e-9);
    const long = (mm: number) =>
      wide.filter((e) => Math.abs(Math.abs(e.b.u - e.a.u) - mm * scaleOf(sheet)) < 1e-6).length;
    assert.ok(long(22) >= 2, 'the edges of the groove are as wide as the bore');
  });
});

function scaleOf(sheet: Sheet): number {
  const found = texts(sheet)
    .map((t) => /^(\d+):(\d+), lengths/.exec(t))
    .find((m) => m)!;
  return Number(found[1]) / Number(found[2]);
}
