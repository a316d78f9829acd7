/**
 * Keyways through the house. Sizes are those of public extracts of DIN 6885-1 and of ANSI B17.1-1967 (its table of S, from
 * the bottom of the keyseat to the opposite side of the shaft), read in 2026; volumes are worked out beside each check.
 */
import assert from 'node:assert/strict';
import type { Keyway } from '../../server/src/model/model';
import { approachesOf } from '../../server/src/process/approach';
import { operationsOf } from '../../server/src/process/operations';
import { checkPart } from '../../server/src/rules/check';
import { sizesOf } from '../../server/src/rules/kit/sizes';
import { keywayFor } from '../../server/src/tables/keyways';
import { assertClosed, assertOnSurfaces, meshOf } from '../geometry/mesh/proof';
import { endMill, shopWith } from '../rules/shops';
import { findingsOf } from '../rules/tester';

const SHOP = shopWith(
  `${endMill('em-6', 6, 20)}${endMill('em-8', 8, 20)}ks-50: { kind: tee-cutter, diameter: 50, neck: 16, thickness: 6, reach: 20, material: hss }\n`,
);
const SHAFT = 'part: shaft\nmaterial: steel-c45\nbody: { diameter: 25, length: 60, axis: x }\n';
const BLOCK = 'part: bar\nmaterial: steel-c45\nbody: { x: 60, y: 30, z: 20 }\n';
const key = (fields: string) => `features:\n  key: { kind: keyway, face: top, ${fields} }\n`;
const AT = 'at: { x: center, y: center }, length: 25';
const RUN_OUT = `${AT}, ends: run-out, cutter: 50`;
const OWN = 'along: x, width: 8, depth: 4';

function read(text: string) {
  const checked = checkPart(text, SHOP);
  const found = checked.part.featureByName.get('key') as Keyway;
  return { ...checked, key: found, said: checked.findings.map((f) => `${f.rule}: ${f.message}`) };
}

describe('keyways', () => {
  it('go by the shaft: rows of DIN 6885-1, ends included', () => {
    const rows: readonly (readonly [shaft: number, width: number, deep: number, upper: number])[] = [
      [8, 2, 1.2, 0.1],
      [9, 3, 1.8, 0.1],
      [12, 4, 2.5, 0.1],
      [13, 5, 3, 0.1],
      [22, 6, 3.5, 0.1],
      [24, 8, 4, 0.2],
      [30, 8, 4, 0.2],
      [32, 10, 5, 0.2],
      [44, 12, 5, 0.2],
      [75, 20, 7.5, 0.2],
    ];
    for (const [shaft, width, deep, upper] of rows) {
      const found = keywayFor(shaft, 'iso');
      assert.deepEqual([found?.widthMm, found?.depthMm, found?.depthUpperMm], [width, deep, upper], `${shaft}`);
    }
    assert.equal(keywayFor(6, 'iso'), undefined);
  });

  it('of ASME B17.1 leave S of its table between floor and far side', () => {
    for (const [shaft, s] of [
      [1, 0.859],
      [1.25, 1.112],
      [1.375, 1.201],
      [1.5, 1.289],
      [2, 1.718],
    ] as const) {
      const left = shaft - keywayFor(25.4 * shaft, 'asme')!.depthMm / 25.4;
      assert.ok(Math.abs(left - s) < 6e-4, `${shaft}: ${left}`);
    }
  });

  it('take width, depth and fits where the text says nothing, and their own where it does', () => {
    const { key: made, part } = read(SHAFT + key(AT));
    assert.deepEqual([made.width.mm, made.depth.mm], [8, 4]);
    assert.equal(made.width.tolerance?.text, 'N9');
    // ISO 286-2: 8 N9 is 0/−0.036.
    assert.deepEqual([made.width.tolerance?.upperMm, made.width.tolerance?.lowerMm], [0, -0.036]);
    assert.deepEqual(
      [...sizesOf(part)].map((s) => [s.what, s.tolerance.text, s.made]),
      [
        ['width', 'N9', 'mill'],
        ['depth', '+0.2/0', 'mill'],
      ],
    );
    const close = read(SHAFT + key(`${AT}, fit: close`)).key;
    assert.deepEqual([close.width.tolerance?.upperMm, close.width.tolerance?.lowerMm], [-0.015, -0.051]);
    assert.equal(read(SHAFT + key(`${AT}, shaft: 40`)).key.width.mm, 12);
    assert.equal(read(SHAFT + key(`${AT}, width: 5 P9, depth: 3`)).key.width.tolerance?.text, 'P9');
  });

  it('refuse what is not milled, and ask for what is missing, with the cure', () => {
    const said = (fields: string, body = SHAFT) => read(body + key(fields)).said.join('\n');
    assert.match(said(`${AT}, in: bore`), /a keyway in a hub is broached or slotted, not milled/);
    assert.match(said(`${AT}, ends: woodruff`), /half-round key is not read/);
    assert.match(said(AT, BLOCK), /needs the diameter of its `shaft`, or its own `width` and `depth`/);
    assert.match(said(`${AT}, width: 8, depth: 4`, BLOCK), /needs `along`. Write `x`, `y` or `z`/);
    assert.match(said(`${AT}, shaft: 5`), /no keyway for a shaft of 5/);
    assert.match(said(`${AT}, ends: run-out`), /needs `cutter`/);
    assert.match(said(`${AT}, depth: through`), /has a floor/);
    assert.match(said('at: { x: center, y: center }, length: 6'), /longer than it is wide/);
  });

  it('remove what they are drawn: in a block in closed form', () => {
    const volume = (fields: string) => {
      const { solid } = read(BLOCK + key(`${fields}, ${OWN}`));
      return 60 * 30 * 20 - solid.measures.volumeMm3;
    };
    const round = ((25 - 8) * 8 + Math.PI * 16) * 4;
    assert.ok(Math.abs(volume(AT) - round) < 1e-6);
    // A level floor of 25 and, at its ends, the two halves of a segment 4 high of a circle of 25.
    const segment = 625 * Math.acos(21 / 25) - 21 * Math.sqrt(2 * 25 * 4 - 16);
    assert.ok(Math.abs(volume(RUN_OUT) - 8 * (25 * 4 + segment)) < 1e-6);
  });

  it('remove what they are drawn: in a shaft, summed strip by strip', () => {
    const { solid } = read(SHAFT + key(AT));
    let removed = 0;
    const strips = 20_000;
    for (let i = 0; i < strips; i++) {
      const y = -4 + (8 * (i + 0.5)) / strips;
      const deep = Math.sqrt(12.5 ** 2 - y * y) - (12.5 - 4);
      removed += (8 / strips) * deep * (25 - 8 + 2 * Math.sqrt(16 - y * y));
    }
    assert.ok(Math.abs(Math.PI * 12.5 ** 2 * 60 - solid.measures.volumeMm3 - removed) < 1e-2);
  });

  for (const [what, text] of [
    ['round-ended, in a shaft', SHAFT + key(AT)],
    ['running out, in a shaft', SHAFT + key(RUN_OUT)],
    ['running out, in a block', BLOCK + key(`${RUN_OUT}, ${OWN}`)],
  ] as const)
    it(`are closed, on their exact surfaces and as large as they should be: ${what}`, async () => {
      const { part } = read(text);
      const { solid, shown, volumeMm3, bentMm2 } = await meshOf(part, 0.02);
      assertClosed(shown);
      assertOnSurfaces(shown, 0.02);
      const { volumeMm3: exact } = solid.measures;
      assert.ok(Math.abs(volumeMm3 - exact) <= 0.02 * bentMm2 + 2e-4 * exact, `${volumeMm3} against ${exact}`);
    });

  it('with round ends are cut from above by a mill that leaves stock on both walls', () => {
    const { part, solid, key: made } = read(SHAFT + key(AT));
    assert.deepEqual(approachesOf(made, part, solid), ['top']);
    const cuts = operationsOf(made, { part, solid, shop: SHOP });
    assert.deepEqual([...new Set(cuts.map((o) => ('tool' in o ? o.tool.name : 'none')))], ['em-6']);
  });

  it('that run out are cut from their side by the disc that they are drawn for, in as many passes as they need', () => {
    const { part, solid, key: made } = read(SHAFT + key(RUN_OUT));
    assert.deepEqual([...approachesOf(made, part, solid)].sort(), ['back', 'front']);
    const [cut] = operationsOf(made, { part, solid, shop: SHOP });
    assert.ok(cut?.does === 'slot' && cut.tool.name === 'ks-50');
    // 8 wide with a disc of 6: twice along 25 and both run-outs of √(2 · 25 · 4 − 16).
    assert.ok(Math.abs(cut.wayMm - 2 * (25 + 2 * Math.sqrt(184))) < 1e-6);
    const other = read(SHAFT + key(RUN_OUT.replace('50', '40')));
    const [missing] = operationsOf(other.key, { part: other.part, solid: other.solid, shop: SHOP });
    assert.ok(missing?.does === 'missing' && /keyseat cutter of 40 mm/.test(missing.wanted));
  });

  it('that run out are no cut of a set-up that looks from above', () => {
    const setups = 'setups:\n  one: { up: top, cuts: [key] }\n';
    assert.deepEqual(
      findingsOf('access/no-setup', `${SHAFT}${key(RUN_OUT)}${setups}`, SHOP).map((f) => f.of),
      [['key']],
    );
    assert.deepEqual(
      findingsOf('access/no-setup', `${SHAFT}${key(RUN_OUT)}${setups.replace('top', 'front')}`, SHOP),
      [],
    );
  });
});
