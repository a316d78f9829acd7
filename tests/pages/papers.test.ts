/**
 * The papers of every example in a real browser: the sheet and the drawing as a picture, opened, printed and their pages
 * counted; and as PDF, opened by pdf.js, every page drawn. Pictures go to tests/artefacts/pages/papers. In the suite those
 * of the smallest part and of the one with most set-ups; of all in a longer run (`FUZZ_RUNS`).
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { pdfKit } from '../../server/src/node/print';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { drawingOf } from '../../server/src/sheet/drawing/drawing';
import type { Sheet } from '../../server/src/sheet/page';
import { sheetOf } from '../../server/src/sheet/sheet';
import { htmlOf } from '../../server/src/sheet/write/html';
import { pdfOf } from '../../server/src/sheet/write/pdf';
import { getBrowser } from '../editor/host';
import { runs } from '../fuzz/runs';
import { readPdf } from '../sheet/reading';
import { launch } from './page';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const SHOTS = join(__dirname, '../artefacts/pages/papers');
const PDFJS = dirname(require.resolve('pdfjs-dist/build/pdf.mjs'));
const AT = 'http://page.test';
const WHEN = new Date(2026, 10, 30);

const shop = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;

function papersOf(file: string): Readonly<Record<'sheet' | 'drawing', Sheet>> {
  const checked = checkPart(readFileSync(join(GIMBAL, 'parts', file), 'utf8'), shop);
  return {
    sheet: sheetOf({ checked, file, mark: '1a2b3c4d', creator: 'test', when: WHEN }),
    drawing: drawingOf(checked),
  };
}

const said = ({ pages }: Sheet) =>
  pages.map((p) => p.marks.flatMap((m) => (m.type === 'words' && m.words.trim() !== '' ? [m.words] : [])));

/** A printer parts words as it likes. */
const packed = (text: string) => text.replaceAll(/\s/g, '');

/** As it stands on the screen: a picture a page, its words where they were put. */
async function shown(page: Page, sheet: Sheet, name: string): Promise<void> {
  const svgs = page.locator('svg');
  assert.equal(await svgs.count(), sheet.pages.length);
  for (const [i, words] of said(sheet).entries()) {
    const svg = svgs.nth(i);
    await svg.screenshot({ path: join(SHOTS, `${name}-${i + 1}.png`) });
    assert.deepEqual(await svg.locator('text').allTextContents(), words, `${name}, page ${i + 1}`);
    const outside = await svg.evaluate((s) => {
      const frame = s.getBoundingClientRect();
      return [...s.querySelectorAll('text')].filter((t) => {
        const b = t.getBoundingClientRect();
        return b.left < frame.left || b.right > frame.right || b.top < frame.top || b.bottom > frame.bottom;
      }).length;
    });
    assert.equal(outside, 0);
  }
}

/** Share of dark dots of each page, as pdf.js draws it; the first page as a picture. */
async function drawnByPdfJs(page: Page, bytes: Uint8Array, path: string): Promise<readonly number[]> {
  await page.addScriptTag({ url: `${AT}/pdf.mjs`, type: 'module' });
  const { shares, picture } = (await page.evaluate(`(async () => {
    const pdfjs = globalThis.pdfjsLib;
    pdfjs.GlobalWorkerOptions.workerSrc = '${AT}/pdf.worker.mjs';
    const data = Uint8Array.from(atob('${Buffer.from(bytes).toString('base64')}'), (c) => c.charCodeAt(0));
    const document_ = await pdfjs.getDocument({ data }).promise;
    const shares = [];
    let picture = '';
    for (let i = 1; i <= document_.numPages; i++) {
      const sheet = await document_.getPage(i);
      const viewport = sheet.getViewport({ scale: 1.5 });
      const canvas = document.createElement('canvas');
      [canvas.width, canvas.height] = [viewport.width, viewport.height];
      const canvasContext = canvas.getContext('2d');
      await sheet.render({ canvasContext, viewport }).promise;
      const dots = canvasContext.getImageData(0, 0, canvas.width, canvas.height).data;
      let dark = 0;
      for (let k = 0; k < dots.length; k += 4) if (dots[k] < 128) dark++;
      shares.push(dark / (dots.length / 4));
      if (i === 1) picture = canvas.toDataURL('image/png');
    }
    return { shares, picture };
  })()`)) as { readonly shares: readonly number[]; readonly picture: string };
  await writeFile(path, Buffer.from(picture.slice(picture.indexOf(',') + 1), 'base64'));
  return shares;
}

describe('papers in a browser', function () {
  this.timeout(300_000);
  let browser: Browser;
  before(async () => {
    await mkdir(SHOTS, { recursive: true });
    browser = await launch(await getBrowser((line) => console.error(line)));
  });
  after(() => browser.close());

  const most = runs(1) > 1 ? readdirSync(join(GIMBAL, 'parts')) : ['cable-clamp.part.yaml', 'yoke.part.yaml'];
  for (const file of most)
    it(`${file}: sheet and drawing are shown, printed and opened as PDF, page by page`, async () => {
      for (const [what, sheet] of Object.entries(papersOf(file))) {
        const name = `${file.replace('.part.yaml', '')}-${what}`;
        const page = await browser.newPage({ viewport: { width: 1300, height: 900 } });
        page.on('pageerror', (error) => {
          throw error;
        });
        await page.route(`${AT}/**`, (route) => {
          const asked = new URL(route.request().url()).pathname.slice(1);
          if (asked !== '') return route.fulfill({ path: join(PDFJS, asked), contentType: 'text/javascript' });
          return route.fulfill({ contentType: 'text/html', body: htmlOf(sheet, 'a4') });
        });
        await page.goto(`${AT}/`);
        await shown(page, sheet, name);
        // a page of HTML is for a sheet's paper; a large drawing is printed from its PDF
        if (!sheet.pages.some((p) => p.large)) {
          const printed = await readPdf(await page.pdf({ preferCSSPageSize: true, printBackground: true }));
          assert.equal(printed.length, sheet.pages.length, `${name}, printed`);
          for (const [i, words] of said(sheet).entries())
            for (const word of words)
              assert.ok(packed(printed[i]!.words).includes(packed(word)), `${name}, ${i + 1}: ${word}`);
        }
        const bytes = await pdfOf(sheet, 'a4', await pdfKit(), WHEN);
        const shares = await drawnByPdfJs(page, bytes, join(SHOTS, `${name}-pdf.png`));
        assert.equal(shares.length, sheet.pages.length);
        for (const share of shares) assert.ok(share > 0.005 && share < 0.5, `${name}: ${shares}`);
        await page.close();
      }
    });
});
