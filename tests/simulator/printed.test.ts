/**
 * Sheets carried out as printed, read-out values included: the part comes out, and every zero is touched where it is. Six
 * drawn parts; more with SCRIBELINE_PRINTED=NUMBER.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { planOf } from '../../server/src/planning/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { markdownSheet } from '../../server/src/sheet/markdown';
import { someOf } from '../fuzz/runs';
import { SHOP } from './defects';
import { partText } from './generate';
import { marginFor } from './margin';
import { campus, gimbal } from './parts';
import { carryOut } from './printed';

const FOLDER = resolve(__dirname, '../../examples/gimbal/parts');
const WANTED = Number(process.env.SCRIBELINE_PRINTED ?? 6);
/** Of so many drawn parts one may have a cut that its sheet tells without places. */
const ONE_IN = 20;
const COARSE = { fineMm: 0.8, marginMm: 1 };

async function printed(text: string, shop: Shop) {
  const checked = checkPart(text, shop);
  const request = { checked, file: 'p.part.yaml', mark: '0', creator: 'test', when: new Date(0) };
  const { bytes } = await markdownSheet('en').write(request);
  const setups = checked.part.setups ?? planOf(checked)!.setups.map((s) => s.setup);
  return { markdown: new TextDecoder().decode(bytes), part: { ...checked.part, setups } };
}

describe('the gimbal’s sheets, carried out as printed', function () {
  this.timeout(240_000);
  for (const file of someOf(readdirSync(FOLDER), 3))
    it(file, async () => {
      const { markdown, part } = await printed(gimbal('parts', file), campus);
      const { excess, gouged, left, touches, rubbed, met } = carryOut(markdown, part, campus, {
        fineMm: 0.8,
        marginMm: 1,
      });
      const lettering = left.filter((l) => !l.includes('engrave'));
      assert.deepEqual({ touches, lettering, rubbed, met }, { touches: [], lettering: [], rubbed: [], met: [] });
      assert.deepEqual([excess.volumeMm3, gouged.volumeMm3], [0, 0], JSON.stringify({ excess, gouged }));
    });

  it('a place that is printed wrong is seen', async () => {
    const { markdown, part } = await printed(gimbal('parts', 'bearing-block.part.yaml'), campus);
    const wrong = markdown.replace('X 68.00 Y 49.00 → X 68.00', 'X 66.00 Y 49.00 → X 66.00');
    assert.notEqual(wrong, markdown);
    assert.ok(carryOut(wrong, part, campus, COARSE).gouged.volumeMm3 > 0);
    const zero = markdown.replaceAll('Y 45.00', 'Y 44.00');
    assert.ok(carryOut(zero, part, campus, COARSE).touches.length > 0);
    // Put into the vise otherwise than the passes take it to lie: drawn in, or deeper in the jaws.
    const drawnIn = markdown.replace('LEFT end 3 out', 'LEFT end 0.3 out');
    assert.notEqual(drawnIn, markdown);
    assert.match(carryOut(drawnIn, part, campus, COARSE).met.join(), /set-up 2, .* left: (near the )?jaw/);
    const deeper = markdown.replaceAll('6 in the jaws', '15.5 in the jaws');
    assert.match(carryOut(deeper, part, campus, COARSE).met.join(), /jaw/);
    // The right end is sawn: X has its zero only once it is cut, and the sheet says so till then.
    const unsaid = markdown.replace(/X not set yet: [^|]*?; once set: /, '');
    assert.notEqual(unsaid, markdown);
    assert.match(carryOut(unsaid, part, campus, COARSE).touches.join(), /X is not set, and is used/);
  });
});

describe('work under straps', () => {
  /** Open to the left, between two straps 25 mm wide that leave it 19 mm there. */
  const shelf = (wide: number) => `part: shelf
material: aluminium-6061-t6
body: { x: 120, y: 60, z: 12 }
features:
  p: { kind: pocket, face: top, path: [{ x: -10, y: ${30 - wide / 2} }, { x: 40, y: ${30 - wide / 2}, round: 5 }, { x: 40, y: ${30 + wide / 2}, round: 5 }, { x: -10, y: ${30 + wide / 2} }], depth: 4 }
setups:
  first: { up: top, hold: { clamps: [{ x: 8, y: 8 }, { x: 8, y: 52 }, { x: 112, y: center }] }, zero: { x: left, y: back, z: bottom }, cuts: [p] }
`;
  it('what runs out between them keeps its margin', async () => {
    const { markdown, part } = await printed(shelf(16), builtinShop());
    const { right, met, left } = carryOut(markdown, part, builtinShop(), COARSE);
    assert.deepEqual({ right, met, left }, { right: true, met: [], left: [] });
    // Pressed down elsewhere than the sheet's paths take them to, they are met.
    const moved = markdown.replace('X 8.00 Y 8.00', 'X 8.00 Y 16.00');
    assert.notEqual(moved, markdown);
    assert.match(carryOut(moved, part, builtinShop(), COARSE).met.join(), /rough p: clamp/);
  });
});

describe('a part in its stock by tabs', () => {
  it('comes free of its frame at the tabs alone; a printed fault is seen', async () => {
    const text = `part: plate
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 5 }
stock: { form: plate, extra: { left: 14, right: 14, front: 14, back: 14 } }
features:
  c: { kind: contour, face: top, size: { x: 40, y: 30 }, at: { x: center, y: center }, corner-radius: 6, depth: through }
setups:
  one: { up: top, hold: { tabs: { count: 4, width: 5, height: 1 }, on: plate }, zero: { x: left, y: back, z: bottom }, cuts: [c], tools: { c: em-6 } }
`;
    const { markdown, part } = await printed(text, builtinShop());
    const seen = (sheet: string) => carryOut(sheet, part, builtinShop(), COARSE);
    const { right, met, touches, left } = seen(markdown);
    assert.deepEqual({ right, met, touches, left }, { right: true, met: [], touches: [], left: [] });
    const planted = (from: string | RegExp, to: string) => {
      const wrong = markdown.replace(from, to);
      assert.notEqual(wrong, markdown);
      return seen(wrong).met.join();
    };
    assert.match(planted(/; up to Z 1\.00 over each tab[^|]*/, ' '), /rough c: through the tabs/);
    assert.match(planted('up to Z 1.00 over', 'up to Z 0.20 over'), /through the tabs/);
    assert.match(
      planted('tabs on the outline at X 20.00 Y 0.00', 'tabs on the outline at X 20.00 Y 4.00'),
      /no outline at/,
    );
    assert.match(planted('4 tabs stay', '5 tabs stay'), /4 places for 5 tabs/);
    // Cleared all over, as roughing of an outline is elsewhere, nothing is left that they lead to.
    assert.match(
      planted(
        /(rough c \|[^|]*\|[^|]*\| )[^|]*/,
        '$1all over within X -20.00 Y -20.00 → X 60.00 Y -20.00 → X 60.00 Y 50.00 → X -20.00 Y 50.00 → X -20.00 Y -20.00; and X -3.20 Y -3.20 → X 43.20 Y -3.20 → X 43.20 Y 33.20 → X -3.20 Y 33.20 → X -3.20 Y -3.20, strokes 3 apart ',
      ),
      /no frame beyond/,
    );
  });
});

describe('what is cut out under an edge by a cutter thinner than it', () => {
  const bench = checkShop(SHOP).shop;
  const piece = (features: string, cuts: string) => `part: piece
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 24 }
features:
${features}setups:
  first: { up: top, hold: { vise: vise, jaws: [back, front], grip: 8, stop: left, parallels: 22 }, zero: { x: left, y: back, z: parallels }, cuts: [${cuts}] }
`;
  const inBore =
    '  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 20, depth: 14 }\n  ring: { kind: groove, in: bore, below: 3, diameter: 24, width: 7 }\n';
  for (const [what, text] of [
    [
      'a T-slot',
      piece(
        '  s: { kind: slot, face: top, ends: [{ x: -10, y: 20 }, { x: 70, y: 20 }], width: 8, depth: 13, tee: { width: 14, height: 7 } }\n',
        's',
      ),
    ],
    ['a ring in a bore', piece(inBore, 'bore, ring')],
  ] as const)
    it(`${what} is cut in layers, all of it`, async () => {
      const { markdown, part } = await printed(text, bench);
      const { right, met, left } = carryOut(markdown, part, bench, COARSE);
      assert.deepEqual({ right, met, left }, { right: true, met: [], left: [] }, markdown);
      // Along the floor alone, as one cut would be printed, 3 mm stay under the edge.
      const once = markdown.replace(/(undercut \w+ .*\| )Z [\d.]+, (Z [\d.]+)/, '$1to $2');
      assert.notEqual(once, markdown);
      assert.ok(carryOut(once, part, bench, COARSE).excess.volumeMm3 > 0);
    });
});

describe('a part on the end of a bar', () => {
  it('is sawn off as long as the sheet says, and faced', async () => {
    const text = readFileSync(resolve(__dirname, '../cases/parts/sawn-then-faced.part.yaml'), 'utf8');
    const { markdown, part } = await printed(text, builtinShop());
    const { right, met, touches } = carryOut(markdown, part, builtinShop(), COARSE);
    assert.deepEqual({ right, met, touches }, { right: true, met: [], touches: [] });
    const short = markdown.replace('41 long', '39 long');
    assert.ok(carryOut(short, part, builtinShop(), COARSE).gouged.volumeMm3 > 0);
  });
});

describe('sheets of drawn parts, carried out as printed', () => {
  it(`${WANTED} parts without an error come out right`, async function () {
    this.timeout(WANTED * 8000);
    const { shop } = checkShop(SHOP);
    let made = 0;
    let untold = 0;
    const wrong: string[] = [];
    for (const text of fc.sample(partText, { numRuns: WANTED * 6, seed: 4 })) {
      const { findings } = checkPart(text, shop);
      if (findings.some((f) => f.severity === 'error' || f.rule === 'setup/unassigned')) continue;
      const { markdown, part } = await printed(text, shop);
      const { excess, gouged, left, touches, rubbed, met } = carryOut(markdown, part, shop, {
        fineMm: 0.5,
        marginMm: marginFor(findings),
      });
      if (left.length > 0) untold += 1;
      else {
        const told = JSON.stringify({ excess, gouged, touches, rubbed, met });
        const some = touches.length + rubbed.length + met.length;
        if (excess.volumeMm3 + gouged.volumeMm3 + some > 0) wrong.push(`${told}\n${text}`);
      }
      if (++made === WANTED) break;
    }
    assert.equal(wrong.length, 0, wrong.join('\n\n'));
    assert.equal(made, WANTED);
    assert.ok(untold <= 1 + WANTED / ONE_IN, `${untold} of ${made} have a cut without places`);
  });
});
