/** A part to start from: whatever piece it is cut from, it is clean by our own rules in the shop that judges it, and planned. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { type AtHand, likelyPiece, meantBy, stockAtHand } from '../../server/src/service/starter/at-hand';
import { startedPart } from '../../server/src/service/starter/part';
import { TEMPLATES, type Template } from '../../server/src/service/starter/protocol';
import { starterShop } from '../../server/src/service/starter/shop';

const ROOT = resolve(__dirname, '../..');
const read = (path: string) => readFileSync(resolve(ROOT, path), 'utf8');
const campus = checkShop(read('examples/gimbal/campus.shop.yaml')).shop;
const inInches = checkShop(
  read('examples/gimbal/campus.shop.yaml')
    .replace(/^rack:[\s\S]*$/m, '')
    .replace('units: mm', 'units: mm')
    .concat(
      'rack:\n  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 1.5 in, thickness: 0.5 in }, offcuts: [8 in] }\n',
    ),
).shop;
const TEMPLATE_NAMES = Object.keys(TEMPLATES) as Template[];
/** `STARTERS=all` takes every piece of the built-in rack; the suite one of each form, and every template. */
const ALL = process.env.STARTERS === 'all';

function sound(shop: Shop, template: Template, piece?: AtHand): string {
  const { newText, isPlanned } = startedPart({ name: 'first', template, ...(piece && { piece }) }, shop);
  const { findings, part } = checkPart(newText, shop);
  const where = `${shop.name}, ${template}, ${piece?.label ?? 'no piece'} ${piece?.detail ?? ''}\n${newText}`;
  assert.deepEqual(
    findings.map((f) => `${f.rule} ${f.message}`),
    [],
    where,
  );
  assert.ok(isPlanned && part.setups && part.setups.length > 0, where);
  assert.ok(part.features.length > 0, where);
  return newText;
}

/** One piece of each of these forms. */
function share(all: readonly AtHand[], ...forms: readonly string[]): readonly AtHand[] {
  if (ALL) return all;
  const kinds = new Map<string, AtHand>();
  for (const piece of all) if (forms.includes(piece.form) && !kinds.has(piece.form)) kinds.set(piece.form, piece);
  return [...kinds.values()];
}

describe('a part to start from', function () {
  this.timeout(600_000);
  it('is clean and planned: every template, every piece of the example shop', () => {
    assert.equal(stockAtHand(campus).length, campus.rack.length);
    for (const [i, piece] of share(stockAtHand(campus), 'flat-bar', 'round-bar').entries())
      for (const template of ALL ? TEMPLATE_NAMES : [TEMPLATE_NAMES[i % 3]!]) sound(campus, template, piece);
  });
  it('is so in the built-in shop', () => {
    for (const [i, piece] of share(stockAtHand(builtinShop()), 'square-bar', 'plate').entries())
      for (const template of ALL ? TEMPLATE_NAMES : [TEMPLATE_NAMES[(i + 1) % 3]!])
        sound(builtinShop(), template, piece);
  });
  it('is so where nothing is at hand, and where a shop lacks most tools', () => {
    sound(builtinShop(), 'bearing-block');
    const everyday = read('schemas/everyday.shop.yaml');
    const few = checkShop(
      starterShop(everyday, 'few').replace(/^ {2}(?:tap|bh|rm|cm|cr)-[\s\S]*?(?=^ {2}\S|^\S)/gm, ''),
    ).shop;
    const { newText, left } = startedPart({ name: 'a', template: 'bearing-block', piece: stockAtHand(few)[3]! }, few);
    assert.deepEqual(checkPart(newText, few).findings, []);
    assert.ok(!newText.includes('thread:'), left.join());
  });
  it('is cut from an offcut no longer than that is', () => {
    const [offcut] = stockAtHand(inInches);
    assert.equal(offcut?.isOffcut, true);
    const text = sound(inInches, 'plate', { ...offcut!, longestMm: 40 });
    assert.match(text, /body: \{ x: 37, y: 38\.1, z: 12\.7 \}/);
  });
  it('words find a piece; nobody’s choice is a bar of middling size', () => {
    const all = stockAtHand(builtinShop());
    assert.deepEqual(
      meantBy('40x16, 6061', all).map((p) => `${p.label} ${p.material}`),
      ['flat-bar 40 x 16 aluminium-6061-t6'],
    );
    assert.equal(meantBy('round-bar 25', all)[0]?.label, 'round-bar 25');
    assert.deepEqual(meantBy('flat-bar 41 x 16', all), []);
    assert.equal(likelyPiece(all)?.label, 'flat-bar 40 x 16');
    assert.equal(likelyPiece([]), undefined);
  });
});
