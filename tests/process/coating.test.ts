/** What is asked of the whole part: a coat and the sizes to cut to, treatment, edges and notes on paper. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { coatedSizes, coatedThreads } from '../../server/src/rules/kit/coating';
import { wordsOf } from '../../server/src/sheet/language';
import { askedLines } from '../../server/src/sheet/part/asked';

const read = (head: string, material = 'aluminium-6061-t6') =>
  checkPart(
    `part: seat\nmaterial: ${material}\n${head}body: { x: 40 ±0.1, y: 40, z: 20 }\nfeatures:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }
  tapped: { kind: hole, face: top, at: { x: 5, y: 5 }, thread: M4, depth: through }\n`,
    builtinShop(),
  );
const um = (mm: number) => Math.round(mm * 1e4) / 10;
const sizesOf = (head: string) =>
  coatedSizes(read(head).part).map((s) => [s.size.feature?.name ?? s.size.what, um(s.lowerMm), um(s.upperMm)]);
const coat = (kind: string, more: string) => `coating: { kind: ${kind}, ${more} }\n`;

describe('a coat', () => {
  it('of anodising grows by half its thickness: bores are cut larger by all of it, widths smaller', () => {
    // 22 H7 is 0 to +21 µm (ISO 286-2, public tables). 20 µm of coat: 10 µm on each side.
    assert.deepEqual(sizesOf(coat('anodised', 'thickness: 0.02')), [
      ['x', -120, 80],
      ['seat', 20, 41],
    ]);
  });

  it('of nickel grows by all of it; what it varies by is taken off what may be cut', () => {
    assert.deepEqual(sizesOf(coat('electroless-nickel', 'thickness: 0.01 ±0.002')), [
      ['x', -116, 76],
      ['seat', 24, 37],
    ]);
  });

  it('counts four times on a thread, and not at all where it is masked or adds nothing', () => {
    const closes = (head: string) => [...coatedThreads(read(head).part)].map((t) => um(t.closesMm));
    assert.deepEqual(closes(coat('anodised', 'thickness: 0.02')), [40]);
    assert.deepEqual(closes(coat('anodised', 'thickness: 0.02, masked: [tapped]')), []);
    assert.deepEqual(sizesOf(coat('black-oxide', 'masked: [top]')), []);
    assert.deepEqual(sizesOf(coat('anodised', 'thickness: 0.02, masked: [seat]')), [['x', -120, 80]]);
  });

  it('is warned of on threads, on the wrong metal, and where it varies more than a size may', () => {
    const said = (head: string, material?: string) =>
      read(head, material)
        .findings.filter((f) => f.rule === 'tol/coating')
        .map((f) => f.message);
    assert.deepEqual(said(coat('anodised', 'thickness: 0.012')), []);
    assert.match(said(coat('anodised', 'thickness: 0.02')).join(), /thread M4 of hole tapped by up to 0\.04 mm/);
    assert.match(
      said(coat('anodised', 'thickness: 0.01'), 'steel-c45').join(),
      /Only aluminium and titanium are anodised/,
    );
    assert.match(
      said(coat('paint', 'thickness: 0.06 ±0.02, masked: [tapped]')).join(),
      /The coat varies by 0\.059 mm more than the diameter of hole seat may/,
    );
  });

  it('needs its thickness where it grows', () => {
    const told = read(coat('zinc', 'masked: [tapped]')).findings.map((f) => f.message);
    assert.ok(
      told.includes('A coat that grows needs its `thickness`. Write it like `thickness: 0.015 ±0.005`.'),
      told.join(),
    );
  });
});

describe('what is asked of the whole part', () => {
  const HEAD = `treatment: stress relieved\n${coat('anodised', 'thickness: 0.02 ±0.002, masked: [tapped]')}deburr: { outside: 0.3, inside: 0.2 }\nnotes: [mark with the number, "007"]\n`;

  it('is said on paper, in the words of the sheet', () => {
    const { part } = read(HEAD);
    assert.deepEqual(
      askedLines(part, wordsOf('en').part, (n) => n),
      [
        'stress relieved',
        'anodised 0.02 ±0.002, not: tapped',
        'sizes are after it; cut to x 39.882 … 40.078, seat 22.022 … 22.039',
        'mark with the number',
        '007',
      ],
    );
    assert.match(askedLines(part, wordsOf('de').part, (n) => n).join(), /eloxiert 0\.02 ±0\.002, nicht: tapped/);
    assert.deepEqual([part.deburr?.outside?.mm, part.deburr?.inside?.mm], [0.3, 0.2]);
  });

  it('refuses what it does not know', () => {
    const { findings } = read('deburr: { outer: 0.3 }\nnotes: sharp\n');
    assert.ok(findings.filter((f) => f.rule === 'form/schema').length >= 2);
  });
});
