/**
 * What the text says of each feature can be read back from the drawing, and nothing stands there twice: sizes, depths,
 * tolerances and threads in its note, places among the numbers at its view, corners in a table. What is expected is worked
 * out here from the part alone; what is there is read from the marks of the pages. `FUZZ_RUNS=20` reads two hundred.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import {
  type Axis,
  FACE_PLANE,
  type Face,
  type Feature,
  type Length,
  type Part,
} from '../../../server/src/model/model';
import { checkPart } from '../../../server/src/rules/check';
import { drawingOf } from '../../../server/src/sheet/drawing/drawing';
import { fieldOf, type Sheet } from '../../../server/src/sheet/page';
import { lettersOf } from '../../../server/src/sheet/part/letters';
import { draws, patience } from '../../fuzz/runs';
import { partText } from '../../simulator/generate';
import { type Line, linesOn, noteAt } from './reader';

const num = (mm: number) => String(Number(mm.toFixed(3))).replace('-', '−');
const packed = (text: string) => text.replaceAll(/\s/g, '');

function said(length: Length): string {
  const { tolerance } = length;
  if (!tolerance) return num(length.mm);
  const [low, high] = [length.mm + tolerance.lowerMm!, length.mm + tolerance.upperMm!];
  const decimals = Math.max(...[low, high].map((x) => (num(x).split('.')[1] ?? '').length));
  return `${num(length.mm)}${tolerance.text}(${low.toFixed(decimals)}…${high.toFixed(decimals)})`;
}

const deep = (f: { depth: { through: boolean; mm: number } }) => (f.depth.through ? 'through' : `↧${num(f.depth.mm)}`);

/** What must stand in a feature's note, each once. */
function sizesOf(f: Feature): readonly string[] {
  switch (f.kind) {
    case 'hole': {
      const seat = f.counterbore ? [`⌴⌀${num(f.counterbore.diameter.mm)}↧${num(f.counterbore.depth.mm)}`] : [];
      const flat = f.bottom === 'flat' ? ['flat'] : [];
      if (!f.thread) return [`⌀${said(f.diameter)}${deep(f)}`, ...seat, ...flat];
      const { designation } = f.thread;
      if (f.depth.through) return [`${designation}through`, `drill⌀${num(f.diameter.mm)}`];
      return [`${designation}↧${num(f.threadDepth!.mm)},drill⌀${num(f.diameter.mm)}↧${num(f.depth.mm)}`];
    }
    case 'pocket': {
      const { shape } = f;
      const islands = f.islands.flatMap((i) =>
        i.shape.type === 'circle' ? [`⌀${num(i.shape.diameter.mm)}`, `${num(i.height.mm)}high`] : [],
      );
      if (shape.type === 'circle') return [`⌀${num(shape.diameter.mm)}`, deep(f), ...islands];
      if (shape.type === 'path') return [deep(f)];
      const turned = shape.rotateDeg === 0 ? [] : [`${shape.rotateDeg}°`];
      return [
        `${num(shape.u.mm)}×${num(shape.v.mm)}`,
        `R${num(shape.cornerRadius.mm)}`,
        deep(f),
        ...turned,
        ...islands,
      ];
    }
    case 'slot':
      return [`${num(f.width.mm)}wide`, deep(f)];
    case 'keyway':
      return [`${num(f.width.mm)}wide`, 'long', deep(f)];
    case 'step':
      return [`${num(f.widths[0]!.mm)}wide`, deep(f), `along${f.along[0]!.name.toUpperCase()}`];
    case 'contour':
      return [deep(f)];
    default:
      return [];
  }
}

/** Places along one axis that are told by a number; those of corners stand in a table. */
function placesOf(f: Feature, axis: Axis): readonly number[] {
  const which = FACE_PLANE[f.face][0] === axis ? 'u' : 'v';
  if (f.kind === 'slot') {
    const [a, b] = [f.line[0]!, f.line.at(-1)!];
    const middle = Math.hypot(a.u + b.u, a.v + b.v) < 1e-6;
    return middle ? f.places.map((p) => p[which]) : f.places.flatMap((p) => f.line.map((c) => p[which] + c[which]));
  }
  return f.kind === 'hole' || f.kind === 'pocket' || f.kind === 'keyway' ? f.places.map((p) => p[which]) : [];
}

const ORDER: readonly Face[] = ['front', 'top', 'right', 'left', 'bottom', 'back'];

/** All numbers that stand along views: an origin a side, each size of the body once, each place once a view. */
function numbersOf(part: Part): readonly string[] {
  const own = part.features.filter((f) => f.kind !== 'chamfer');
  const shown: Face[] = ORDER.filter((face) => face === 'front' || own.some((f) => f.face === face));
  if (shown.length === 1) shown.push('top');
  const told = new Set<Axis>();
  const all: string[] = [];
  for (const face of shown) {
    for (const axis of FACE_PLANE[face]) {
      const size = part.size['xyz'.indexOf(axis)]!;
      const here = new Set(['0', ...(told.has(axis) ? [] : [num(size)])]);
      for (const f of own.filter((g) => g.face === face))
        for (const mm of placesOf(f, axis)) if (mm > -1e-6 && mm < size + 1e-6) here.add(num(mm));
      all.push(...here);
    }
    for (const axis of FACE_PLANE[face]) told.add(axis);
  }
  return all.toSorted();
}

/** Outside the title block. */
function linesOf(sheet: Sheet): readonly Line[] {
  return sheet.pages.flatMap((page) => {
    const field = fieldOf(page);
    return linesOn(page).filter(({ box }) => box.x0 < field.w - 180 || box.y0 < field.h - 45);
  });
}

function count(text: string, token: string): number {
  let found = 0;
  for (let i = text.indexOf(token); i >= 0; i = text.indexOf(token, i + 1)) {
    const before = !/\d/.test(token[0]!) || !/[\d.]/.test(text[i - 1] ?? ' ');
    const after = !/[\d.]/.test(token.at(-1)!) || !/[\d.]/.test(text[i + token.length] ?? ' ');
    if (before && after) found++;
  }
  return found;
}

describe('a drawing read back', function () {
  this.timeout(patience(120_000));

  it('each size of each feature in its note, once; each place at its view, once', () => {
    fc.assert(
      fc.property(partText, (text) => {
        const whole = text.replace(/diameter: 10(?=[,\s])/, 'diameter: 10 H7').replace(/setups:[\s\S]*$/, '');
        const checked = checkPart(whole, builtinShop());
        const { part } = checked;
        const lines = linesOf(drawingOf(checked));
        for (const [feature, letter] of lettersOf(part)) {
          const note = packed(noteAt(lines, letter) ?? '');
          assert.notEqual(note, '', `no note for ${letter}\n${whole}`);
          for (const size of sizesOf(feature)) assert.equal(count(note, size), 1, `${size} in ${note}\n${whole}`);
        }
        for (const f of part.features)
          if (f.kind === 'chamfer')
            assert.ok(
              lines.some((l) =>
                packed(l.text)
                  .replace('⌞', '')
                  .startsWith(`${num(f.size.mm)}×45°:`),
              ),
              whole,
            );
        const numbers = lines.filter((l) => l.cap > 3 && !l.bold && /^−?[\d.]+$/.test(l.text)).map((l) => l.text);
        assert.deepEqual(numbers.toSorted(), numbersOf(part), whole);
        for (const f of part.features)
          if (f.kind === 'contour')
            for (const shape of f.shapes)
              for (const [i, c] of (shape.type === 'path' ? shape.corners : []).entries()) {
                const row: readonly Line[] = lines.filter(
                  (l) => l.bold && l.text === `${lettersOf(part).get(f)}${i + 1}`,
                );
                // once in the view, once in the table
                assert.equal(row.length, 2, whole);
                const cells = lines
                  .filter((l) => row.some((r) => Math.abs(r.box.y1 - l.box.y1) < 0.5))
                  .map((l) => l.text);
                assert.ok(cells.includes(num(c.u)) && cells.includes(num(c.v)), `${cells}\n${whole}`);
              }
      }),
      draws(4711, 10),
    );
  });
});
