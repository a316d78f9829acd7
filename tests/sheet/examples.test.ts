/** Sheets of every example: what stands on them, that nothing overlaps, that the PDF reads back. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { resolveShop } from '../../server/src/model/shop';
import { pdfKit } from '../../server/src/node/print';
import { checkPart } from '../../server/src/rules/check';
import type { Sheet } from '../../server/src/sheet/page';
import { sheetOf } from '../../server/src/sheet/sheet';
import { pdfOf } from '../../server/src/sheet/write/pdf';
import { readText } from '../../server/src/text/read';
import { someOf } from '../fuzz/runs';
import { clashesOn } from './clashes';
import { readPdf } from './reading';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const shop = resolveShop(readText(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')), 'campus.shop.yaml');
const WHEN = new Date(2026, 10, 29);

function sheetFor(path: string): Sheet {
  const checked = checkPart(readFileSync(join(GIMBAL, path), 'utf8'), shop);
  return sheetOf({ checked, file: path.slice(path.indexOf('/') + 1), mark: '1a2b3c4d', creator: 'test', when: WHEN });
}

const paths = ['faulty', 'parts'].flatMap((folder) => readdirSync(join(GIMBAL, folder)).map((f) => `${folder}/${f}`));

describe('sheets of the examples', function () {
  this.timeout(120_000);

  for (const path of someOf(paths, 7))
    it(`${path}: nothing overlaps; the PDF of a good part has as many pages, each with its caution`, async () => {
      const sheet = sheetFor(path);
      const clashes = sheet.pages.flatMap((p) => clashesOn(p).map((c) => `${p.number}: ${c}`));
      assert.deepEqual(clashes, []);
      if (!path.startsWith('parts/')) return;
      const pages = await readPdf(await pdfOf(sheet, 'letter', await pdfKit(), WHEN));
      assert.equal(pages.length, sheet.pages.length);
      for (const [i, { words, width, height }] of pages.entries()) {
        assert.match(
          words,
          /Eyes protected, hair and sleeves tied, no key left in\..*Shop rules and trained staff go before/,
        );
        assert.match(words, /If the spec changed, this paper is void\./);
        assert.ok(words.includes(`${sheet.pages[i]!.number} / `), words);
        // ANSI/ASME Y14.1: Letter is 8.5 × 11 in
        assert.ok(Math.abs(width - 612) < 0.01 && Math.abs(height - 792) < 0.01);
      }
    });

  it('reads back: limits, places, speeds, cautions on every page; the same bytes twice', async () => {
    const sheet = sheetFor('parts/bearing-block.part.yaml');
    const kit = await pdfKit();
    const bytes = await pdfOf(sheet, 'a4', kit, WHEN);
    assert.deepEqual(await pdfOf(sheet, 'a4', kit, WHEN), bytes);
    const pages = await readPdf(bytes);
    assert.equal(pages.length, sheet.pages.length);
    for (const page of pages) {
      assert.match(page.words, /If the spec changed, this paper is void\./);
      assert.match(page.words, /1a2b3c4d/);
      // ISO 216: 210 × 297 mm, in points
      assert.ok(Math.abs(page.width - (210 * 72) / 25.4) < 0.01 && Math.abs(page.height - (297 * 72) / 25.4) < 0.01);
    }
    const [first, second] = [pages[0]!.words, pages.find((p) => p.words.includes('SET-UP 1'))!.words];
    // ISO 286-2: 22 H7 is +0.021 / 0
    for (const word of [
      '22.000 … 22.021',
      '2 × 63 mm',
      'ISO 2768-m',
      'Elevation bearing block',
      'edge finder',
      'bore gauge',
    ])
      assert.ok(first.includes(word), word);
    // half of an edge finder of 10 mm beside the face at 60
    for (const word of ['X 65.00', 'Y 45.00', 'TOP up', '30.00', '20.00']) assert.ok(second.includes(word), word);
  });
});
