/** A job's cover as it is printed: nothing overlaps, every bar, tool and step is on it, long lists go on over pages. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { pdfKit } from '../../server/src/node/print';
import { type JobPiece, jobBars } from '../../server/src/planning/job';
import { checkJob, checkPart, checkShop } from '../../server/src/rules/check';
import { jobPaper } from '../../server/src/sheet/job/data';
import { jobSheet } from '../../server/src/sheet/job/printed';
import { pdfOf } from '../../server/src/sheet/write/pdf';
import { clashesOn } from './clashes';
import { readPdf } from './reading';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
const WHEN = new Date(2026, 10, 29);
const campus = readFileSync(`${GIMBAL}/campus.shop.yaml`, 'utf8');

/** A strut and how many of it, of ten lengths: a cut list over several pages. */
function struts(kinds: number) {
  const bar = '  - { form: square-bar, material: aluminium-7075-t6, section: { width: 20 }, lengths: [1000] }\n';
  const { shop } = checkShop(campus.replace(/^rack:.*\n/m, (line) => line + bar));
  const parts = Array.from({ length: kinds }, (_, i) => {
    const name = `strut-with-a-long-name-number-${i}`;
    const text = `part: ${name}\nmaterial: aluminium-7075-t6\nbody: { x: ${80 + 37 * i}, y: 20, z: 20 }\nstock: { form: square-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\nfeatures:\n  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5.5, depth: through }\n`;
    return { name, text };
  });
  const { job } = checkJob(
    `job: struts\nevening: 2 h\nmass-limit: 1 g\nparts:\n${parts.map((p) => `  ${p.name}: { spec: ${p.name}.part.yaml, quantity: 7 }`).join('\n')}\n`,
  );
  const pieces = job.parts.map(
    (entry, i): JobPiece => ({ entry, checked: checkPart(parts[i]!.text, shop), quantity: 7 }),
  );
  return { job, pieces };
}

describe('a job’s cover', function () {
  this.timeout(120_000);
  const made = struts(10);
  const paper = jobPaper(made.job, made.pieces, { bars: jobBars(made.job, made.pieces) });
  const request = { paper, file: 'struts.job.yaml', mark: '1a2b3c4d', creator: 'test', when: WHEN };
  const one = made.pieces[0]!;
  const parts = new Map([[one.entry.name, { checked: one.checked, file: 'strut.part.yaml', mark: '5e6f7a8b' }]]);
  const sheet = jobSheet({ ...request, parts }, 'en');
  const covers = sheet.pages.filter((p) => p.number.startsWith('A'));

  it('nothing overlaps, on any of its pages', () => {
    assert.ok(covers.length >= 3);
    assert.deepEqual(
      covers.flatMap((p) => clashesOn(p).map((c) => `${p.number}: ${c}`)),
      [],
    );
  });

  it('reads back: every bar, every step, the sums, the caution; the part’s own sheet behind it', async () => {
    const pages = await readPdf(await pdfOf(sheet, 'a4', await pdfKit(), WHEN));
    assert.equal(pages.length, sheet.pages.length);
    const words = pages.map((p) => p.words).join(' ');
    for (const page of pages.slice(0, covers.length)) assert.match(page.words, /trained staff go before this sheet/);
    for (const bar of paper.bars[0]!.list.bars) assert.ok(words.includes(`${bar.times} × 1000 mm: `));
    // A long name is broken over two lines.
    const letters = words.replaceAll(' ', '');
    for (const { setup } of paper.day.steps) assert.ok(letters.includes(setup.part), setup.part);
    assert.match(words, /g TOO MUCH/);
    assert.match(words, /EVENING 1 .*EVENING 2/);
    assert.ok(pages.at(-1)!.words.includes('5e6f7a8b'));
  });
});
