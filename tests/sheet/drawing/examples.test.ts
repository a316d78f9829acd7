/**
 * Drawings of the example, of a crowded part and of one in inches: nothing overlaps, PDF, SVG and DXF say the same. The DXF
 * is read back by `dxf-parser`, the PDF by pdf.js: general readers, neither of them ours.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import DxfParser from 'dxf-parser';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { pdfKit } from '../../../server/src/node/print';
import { checkPart, checkShop } from '../../../server/src/rules/check';
import { drawingOf } from '../../../server/src/sheet/drawing/drawing';
import { drawingWriters } from '../../../server/src/sheet/drawing/printed';
import type { Sheet } from '../../../server/src/sheet/page';
import { someOf } from '../../fuzz/runs';
import { clashesOn } from '../clashes';
import { readPdf } from '../reading';
import { linesOn, noteAt } from './reader';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');
const campus = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;
const WHEN = new Date(2026, 10, 29);

const example = (path: string) => checkPart(readFileSync(join(GIMBAL, path), 'utf8'), campus);
const clashes = ({ pages }: Sheet) => pages.flatMap((p) => clashesOn(p).map((c) => `${p.number}: ${c}`));
const words = ({ pages }: Sheet) => pages.flatMap((p) => linesOn(p).map((l) => l.text));

/** Where a view's name stands: left of it and above. */
function placeOf({ pages }: Sheet, name: string) {
  const line = pages.flatMap(linesOn).find((l) => l.bold && l.text === name);
  assert.ok(line, name);
  return line.box;
}

const BLOCK = `part: block
material: aluminium-6061-t6
body: { x: 60 ±0.1, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 12 H7, depth: through, finish: 1.6 }
  screw: { kind: hole, face: top, at: { x: 45, y: 20 }, clearance: M5, depth: through, counterbore: M5 }
  side: { kind: hole, face: right, at: { y: 10, z: 8 }, thread: M4, depth: 12, thread-depth: 8 }
datums: { A: bottom, B: left, C: seat }
tolerances:
  - { position: 0.1, of: screw, datums: [A, B, C], at: maximum-material }
  - { perpendicularity: 0.02, of: seat, datums: [A] }
`;

describe('drawings', function () {
  this.timeout(120_000);

  const all = ['faulty', 'parts'].flatMap((f) => readdirSync(join(GIMBAL, f)).map((n) => `${f}/${n}`));
  for (const path of someOf(all, 7))
    it(`${path}: nothing overlaps`, () => {
      for (const size of ['small', 'large'] as const) assert.deepEqual(clashes(drawingOf(example(path), { size })), []);
    });

  // ISO 5456-2: in first angle what is seen from above stands below, from the right on the left; in third angle the reverse
  it('views stand in first or third angle, as the shop says', () => {
    const shopIn = (angle: string): Shop => checkShop(`shop: a\nprojection: ${angle}\n`).shop;
    const [first, third] = ['first', 'third'].map((angle) => drawingOf(checkPart(BLOCK, shopIn(angle)))) as [
      Sheet,
      Sheet,
    ];
    assert.ok(
      placeOf(first, 'TOP').y0 > placeOf(first, 'FRONT').y0 && placeOf(first, 'RIGHT').x0 < placeOf(first, 'FRONT').x0,
    );
    assert.ok(
      placeOf(third, 'TOP').y0 < placeOf(third, 'FRONT').y0 && placeOf(third, 'RIGHT').x0 > placeOf(third, 'FRONT').x0,
    );
    assert.ok(words(first).includes('first angle') && words(third).includes('third angle'));
    assert.equal(checkShop('shop: a\nunits: in\n').shop.projection, 'third');
    assert.match(checkShop('shop: a\nprojection: second\n').shop.problems[0]!.message, /projection/);
  });

  it('says fits with limits, threads, seats, frames, datums, surfaces, mass', () => {
    const sheet = drawingOf(checkPart(BLOCK, builtinShop()));
    assert.deepEqual(clashes(sheet), []);
    const lines = sheet.pages.flatMap(linesOn);
    const note = (letter: string) => (noteAt(lines, letter) ?? '').replaceAll(/[ \u00a0]/g, '');
    // ISO 286-2: 12 H7 is +0.018 / 0; ISO 273: M5 clears 5.5; M4 is drilled 3.3 (ISO 261, D - P)
    assert.equal(note('S'), 'S⌀12H7(12.000…12.018)through,⎷Ra1.6');
    assert.match(note('R'), /^R⌀5\.5through,forM5,⌴⌀10↧5\.\d$/);
    assert.equal(note('D'), 'DM4↧8,drill⌀3.3↧12');
    assert.equal(words(sheet).filter((w) => w === '60 ±0.1 (59.9 … 60.1)').length, 1);
    const signs = sheet.pages.flatMap((p) => p.marks.flatMap((m) => (m.type === 'sign' ? [m.name] : [])));
    for (const sign of ['⌖', 'Ⓜ', '⟂', '⌲', '⌞']) assert.equal(signs.filter((s) => s === sign).length, 1, sign);
    // 60 × 40 × 16 less the holes, at 2.70 g/cm³ (EN AW-6061: 2.70)
    assert.ok(
      words(sheet).some((w) => /^9\d(\.\d)? g$/.test(w)),
      words(sheet).join('|'),
    );
    for (const letter of ['A', 'B', 'C']) assert.ok(words(sheet).filter((w) => w === letter).length >= 2, letter);
  });

  it('holes of a crowded face stand in a table, each point once', () => {
    const holes = Array.from(
      { length: 14 },
      (_, i) =>
        `  h${i}: { kind: hole, face: top, at: { x: ${6 + 9 * i}.5, y: ${5 + 4 * i} }, diameter: ${3 + i / 10}, depth: 5 }`,
    );
    const text = `part: many\nmaterial: aluminium-6061-t6\nbody: { x: 140, y: 70, z: 12 }\nfeatures:\n${holes.join('\n')}\n`;
    const sheet = drawingOf(checkPart(text, builtinShop()));
    assert.deepEqual(clashes(sheet), []);
    const all = words(sheet);
    for (let i = 0; i < 14; i++) {
      assert.equal(all.filter((w) => w === `${6 + 9 * i}.5`).length, 1);
      assert.equal(all.filter((w) => w.replaceAll(' ', '').endsWith(`⌀${3 + i / 10}↧5`)).length, 1, all.join('|'));
    }
  });

  it('what is too small to be read is drawn once more, larger', () => {
    const text = `part: lens
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 30 H7, depth: through }
  snap: { kind: groove, face: top, in: bore, diameter: 31.4, width: 1.3, below: 3 }
`;
    const sheet = drawingOf(checkPart(text, builtinShop()));
    assert.deepEqual(clashes(sheet), []);
    assert.ok(
      words(sheet).some((w) => /^[A-Z] ?\(\d+:1\)$/.test(w)),
      words(sheet).join('|'),
    );
  });

  it('in inches: numbers, limits and paper', async () => {
    const text = `part: plate\nunits: in\nmaterial: aluminium-6061-t6\nbody: { x: 3, y: 2 ±0.005, z: 1/2 }\nfeatures:\n  bore: { kind: hole, face: top, at: { x: 1.5, y: center }, diameter: 0.75 +0.001/-0, depth: 0.3, bottom: flat }\n`;
    const checked = checkPart(text, checkShop('shop: a\nunits: in\n').shop);
    const all = words(drawingOf(checked)).join('\n').replaceAll(' ', '');
    for (const w of ['2±0.005(1.995…2.005)', '⌀0.75+0.001/−0(0.750…', '↧0.3', 'lengthsininches'])
      assert.ok(all.includes(w), `${w} in ${all}`);
    const [pdf] = drawingWriters(pdfKit);
    const pages = await readPdf((await pdf!.write({ checked, creator: 'test', when: WHEN })).bytes);
    // ANSI A is 8.5 × 11 in, ANSI B 17 × 11 in
    assert.ok([612, 1224].some((w) => Math.abs(pages[0]!.width - w) < 0.5) && Math.abs(pages[0]!.height - 792) < 0.5);
  });

  it('parts of a job in one file: a page each; PDF, SVG and DXF say the same words', async () => {
    const requests = ['bearing-block', 'yoke', 'cable-clamp'].map((n) => ({
      checked: example(`parts/${n}.part.yaml`),
      creator: 'test',
      when: WHEN,
    }));
    const [pdf, svg, dxf] = drawingWriters(pdfKit, { size: 'large' });
    const pages = await readPdf((await pdf!.together(requests)).bytes);
    assert.equal(pages.length, 3);
    // ISO 216: A3 is 420 × 297 mm
    for (const p of pages)
      assert.ok(Math.abs(p.width - (420 * 72) / 25.4) < 0.01 && Math.abs(p.height - (297 * 72) / 25.4) < 0.01);
    const picture = new TextDecoder().decode((await svg!.together(requests)).bytes);
    assert.equal(picture.match(/<svg /g)!.length, 4);
    const file = new DxfParser().parseSync(new TextDecoder().decode((await dxf!.together(requests)).bytes))!;
    assert.deepEqual(
      Object.keys(file.blocks).filter((n) => n.startsWith('sheet-')),
      ['sheet-1-1', 'sheet-2-1', 'sheet-3-1'],
    );
    assert.equal(file.entities.filter((e) => e.type === 'INSERT').length, 3);
    const sheets = requests.map(({ checked }) => drawingOf(checked, { size: 'large' }));
    for (const [i, sheet] of sheets.entries()) {
      const said = sheet.pages[0]!.marks.flatMap((m) => (m.type === 'words' ? [m.words] : []));
      const { entities } = file.blocks[`sheet-${i + 1}-1`]!;
      const texts = entities.flatMap((e) => (e.type === 'TEXT' ? [(e as unknown as { text: string }).text] : []));
      const decoded = texts.map((t) =>
        t.replace(/\\U\+([0-9A-F]{4})/g, (_, code) => String.fromCharCode(Number.parseInt(code, 16))),
      );
      assert.deepEqual(decoded, said);
      for (const w of said) assert.ok(pages[i]!.words.includes(w.trim().replace(/\s+/g, ' ')), w);
      const strokes = sheet.pages[0]!.marks.flatMap((m) =>
        m.type === 'stroke' ? [m] : m.type === 'sign' ? m.strokes : [],
      );
      const edges = strokes.flatMap((s) => (s.type === 'stroke' ? s.edges : []));
      assert.equal(entities.filter((e) => ['LINE', 'ARC', 'CIRCLE'].includes(e.type)).length, edges.length);
    }
  });
});
