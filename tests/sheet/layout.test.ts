/** What pages are laid out with: widths as the printing library has them, labels moved as little as can be, boxes and lines. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { arc, circleEdge, line, pointAt } from '../../server/src/geometry/2d/edge';
import { pdfKit } from '../../server/src/node/print';
import { enters } from '../../server/src/sheet/draw/boxes';
import { CAPITAL, extentOf, isPrintable } from '../../server/src/sheet/draw/metrics';
import { linesOf, printable } from '../../server/src/sheet/draw/text';
import { spread } from '../../server/src/sheet/view/spread';
import { draws, random, runs } from '../fuzz/runs';

interface Measuring {
  font(name: string): { widthOfString(words: string, options: object): number; fontSize(points: number): void };
}

describe('widths of words', () => {
  const LINES = [
    'Elevation bearing block, 22.000 … 22.021',
    'AVATAR To. Wa fi fl ffi',
    'Ελληνικά: Ρουλεμάν άξονα',
    'Zażółć gęślą jaźń, Łódź',
    'Árvíztűrő tükörfúrógép',
    'ÄÖÜß – „Maß“ ± × ≤ ° µ −5',
    'Привод камеры',
  ];

  // the library reads the font file by itself (fontkit), without our table
  it('are those that the printing library measures, without kerning and ligatures', async () => {
    const kit = await pdfKit();
    const doc = kit.document({ font: null, autoFirstPage: false }) as unknown as Measuring & {
      registerFont(name: string, bytes: Uint8Array): void;
      fontSize(points: number): void;
    };
    doc.registerFont('plain', kit.plain);
    doc.registerFont('bold', kit.bold);
    for (const bold of [false, true])
      for (const words of LINES) {
        doc.font(bold ? 'bold' : 'plain');
        doc.fontSize(2.5 / CAPITAL);
        const theirs = (doc as unknown as ReturnType<Measuring['font']>).widthOfString(words, {
          features: { kern: false, liga: false, clig: false },
        });
        assert.ok(Math.abs(extentOf(words, 2.5, bold).width - theirs) < 1e-6, `${words}: ${theirs}`);
      }
  });

  it('of letters that the font lacks or that hide are those of their codes', () => {
    assert.equal(printable('a\u202eb'), 'a‹U+202E›b');
    assert.equal(printable('台'), '‹U+53F0›');
    for (const letter of printable('ab 台 \u0007 x')) assert.ok(isPrintable(letter), letter);
  });

  it('break lines between words, and a word that is too wide between its letters', () => {
    const lines = linesOf('one two-three-four-five-six seven', 2.5, 18);
    assert.ok(lines.length >= 3);
    for (const l of lines) assert.ok(l.width <= 18 + 1e-9);
    const back = lines.map((l) => l.pieces.map((p) => p.text).join('')).join('');
    assert.equal(back.replaceAll(' ', ''), 'onetwo-three-four-five-sixseven');
  });
});

describe('labels along a side', () => {
  const sum = (a: readonly number[], b: readonly number[]) => a.reduce((s, x, i) => s + (x - b[i]!) ** 2, 0);

  it('keep their order, their distance and the ends; none that fits is left out', () => {
    const side = fc.tuple(
      fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { maxLength: 24 }),
      fc.constantFrom(3, 5.76, 9),
    );
    fc.assert(
      fc.property(side, ([places, spacing]) => {
        const wanted = places.toSorted((a, b) => a - b);
        const given = spread(wanted, spacing, -4, 104);
        assert.equal(given === undefined, (wanted.length - 1) * spacing > 108 + 1e-9);
        for (const [i, y] of (given ?? []).entries()) {
          assert.ok(y >= -4 - 1e-9 && y <= 104 + 1e-9);
          if (i > 0) assert.ok(y - given![i - 1]! >= spacing - 1e-9);
        }
      }),
      draws(77, 400),
    );
  });

  // against a search: no place on a fine grid is better
  it('are moved as little as can be', () => {
    const draw = random(5);
    for (let n = 0; n < runs(60); n++) {
      const wanted = Array.from({ length: 3 }, () => draw.next() * 20).sort((a, b) => a - b);
      const given = spread(wanted, 5, 0, 20)!;
      let best = Number.POSITIVE_INFINITY;
      for (let a = 0; a <= 10; a += 0.25)
        for (let b = a + 5; b <= 15; b += 0.25)
          for (let c = b + 5; c <= 20; c += 0.25) best = Math.min(best, sum([a, b, c], wanted));
      assert.ok(sum(given, wanted) <= best + 1e-9, `${wanted} → ${given}`);
    }
  });
});

describe('a line or arc and a box', () => {
  it('meet where a walk along it comes into the box', () => {
    const draw = random(9);
    const at = () => ({ u: draw.next() * 10, v: draw.next() * 10 });
    for (let n = 0; n < runs(1500); n++) {
      const [x, y] = [draw.next() * 8, draw.next() * 8];
      const box = { x0: x, y0: y, x1: x + 0.3 + draw.next() * 3, y1: y + 0.3 + draw.next() * 3 };
      const centre = at();
      const radius = 0.5 + draw.next() * 4;
      const on = () => {
        const t = draw.next() * 2 * Math.PI;
        return { u: centre.u + radius * Math.cos(t), v: centre.v + radius * Math.sin(t) };
      };
      const edge = draw.pick([
        line(at(), at()),
        circleEdge(centre, radius),
        arc(on(), on(), centre, draw.next() < 0.5),
      ]);
      let deepest = Number.NEGATIVE_INFINITY;
      for (let k = 0; k <= 2000; k++) {
        const p = pointAt(edge, k / 2000);
        deepest = Math.max(deepest, Math.min(p.u - box.x0, box.x1 - p.u, p.v - box.y0, box.y1 - p.v));
      }
      // at the very edge both answers are right
      if (Math.abs(deepest) > 0.02) assert.equal(enters(edge, box), deepest > 0, JSON.stringify({ edge, box }));
    }
  });
});
