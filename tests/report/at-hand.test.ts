/** The figures above a part: each against the closed form, each with how it was found, and none where there is none. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { figuresAtHand, leastWall } from '../../server/src/report/at-hand';
import { checkPart } from '../../server/src/rules/check';

const check = (text: string) => checkPart(text, builtinShop());
const figures = (text: string) => {
  const found = figuresAtHand(check(text));
  return Object.fromEntries(found.map((f) => [f.name, f]));
};
const BLOCK = 'part: a\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 20 }\n';
const pocket = (name: string, x: number, depth = 8) =>
  `  ${name}: { kind: pocket, face: top, at: { x: ${x}, y: 20 }, size: { x: 16, y: 20 }, corner-radius: 3, depth: ${depth} }\n`;

describe('figures at hand', () => {
  it('mass, balance, stock and chips as worked by hand', () => {
    // Two pockets of 16 × 20 less (4 − π) · 3² in the corners, 8 deep, at 2.70 g/cm³ (ASM Handbook 2, aluminium 6061).
    const pocketMm3 = (16 * 20 - (4 - Math.PI) * 9) * 8;
    const volume = 60 * 40 * 20 - 2 * pocketMm3;
    const f = figures(`${BLOCK}features:\n${pocket('a', 20)}${pocket('b', 37)}`);
    assert.equal(f.mass?.value, `${((volume * 2.7) / 1000).toFixed(1)} g`);
    assert.match(f.mass!.how, /2\.7 g\/cm³/);
    assert.match(f.mass!.how, /exact/);
    assert.equal(f.stock?.value, '60 × 40 × 20 mm');
    assert.match(f.stock!.how, /taken as the body/);
    assert.equal(f['cut away']?.value, `${Math.round((1 - volume / 48000) * 100)} %`);
    // Moments of the block less those of the pockets, whose middles lie at x 20 and 37, z 16.
    const x = (48000 * 30 - pocketMm3 * (20 + 37)) / volume;
    const z = (48000 * 10 - 2 * pocketMm3 * 16) / volume;
    assert.equal(f.balance?.value, `${Number(x.toFixed(2))}, 20, ${Number(z.toFixed(2))} mm`);
  });

  it('the thinnest wall is the gap between two pockets: 37 − 20 − 16', () => {
    const f = figures(`${BLOCK}features:\n${pocket('a', 20)}${pocket('b', 37)}`);
    assert.equal(f['thinnest wall']?.value, '1 mm');
    assert.match(f['thinnest wall']!.how, /Here it is a wall/);
  });

  it('or the floor under the deeper one', () => {
    const checked = check(`${BLOCK}features:\n${pocket('a', 20, 19.2)}${pocket('b', 40)}`);
    const wall = leastWall(checked);
    assert.equal(wall?.type, 'floor');
    assert.ok(Math.abs(wall.thicknessMm - 0.8) < 1e-9);
  });

  it('thicker ones are found up to 6 mm and then said to be over it', () => {
    assert.equal(figures(`${BLOCK}features:\n${pocket('a', 30, 14.5)}`)['thinnest wall']?.value, '5.5 mm');
    assert.equal(figures(`${BLOCK}features:\n${pocket('a', 30, 13)}`)['thinnest wall']?.value, 'over 6 mm');
    assert.equal(figures(BLOCK)['thinnest wall']?.value, 'over 6 mm');
  });

  it('a broken edge leaves no wall', () => {
    const edge = '  e: { kind: chamfer, face: top, edges: [top], width: 0.5 }\n';
    assert.equal(figures(`${BLOCK}features:\n${edge}`)['thinnest wall']?.value, 'over 6 mm');
  });

  it('speaks the document’s units', () => {
    const f = figures(
      'part: a\nunits: in\nmaterial: aluminium-6061-t6\nbody: { x: 2, y: 2, z: 1 }\nfeatures:\n  a: { kind: pocket, face: top, at: { x: 1, y: 1 }, size: { x: 1, y: 1 }, corner-radius: 0.2, depth: 0.9 }\n',
    );
    assert.equal(f['thinnest wall']?.value, '0.1 in');
    assert.equal(f.stock?.value, '2 × 2 × 1 in');
  });

  it('tells volume where the material is not known, and nothing without a body', () => {
    assert.equal(figures('part: a\nbody: { x: 10, y: 10, z: 10 }\n').volume?.value, '1.00 cm³');
    assert.deepEqual(figuresAtHand(check('part: a\n')), []);
  });

  it('says so where a number is not exact', () => {
    const checked = check(BLOCK);
    const rough = { value: { ...checked.solid.measures, exact: false } };
    const [mass] = figuresAtHand({ ...checked, solid: Object.create(checked.solid, { measures: rough }) });
    assert.equal(mass?.value, 'about 129.6 g'); // 48 cm³ × 2.7
    assert.match(mass.how, /not exact/);
  });
});
