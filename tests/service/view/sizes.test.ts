/** Sizes that are told in the picture: as long as they say, where they are written, and typed over without losing unit or fit. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { readPart } from '../../../server/src/rules/check';
import { sizesAnswer, typedAnswer } from '../../../server/src/service/view/typed';
import { mmPer } from '../../../server/src/text/format';
import { typedOver } from '../../../server/src/text/typed-over';
import { pictureOfText } from './support';

const EXAMPLES = resolve(__dirname, '../../../examples/gimbal');
const SHOP = readFileSync(join(EXAMPLES, 'campus.shop.yaml'), 'utf8');
const PARTS = readdirSync(join(EXAMPLES, 'parts')).map((f) => readFileSync(join(EXAMPLES, 'parts', f), 'utf8'));

const KINDS = `part: k
units: mm
material: aluminium-6061-t6
body: { x: 100, y: 60, z: 30 }
features:
  well: { kind: pocket, face: top, at: { x: 25, y: 20 }, size: { x: 24, y: 20 ±0.1 }, corner-radius: 5, depth: 8 }
  round: { kind: pocket, face: top, at: { right: 12, back: 12 }, diameter: 14, depth: 4 }
  way: { kind: slot, face: top, ends: [{ x: 50, y: 15 }, { x: 80, y: 27 }], width: 10 H9, depth: 6 }
  shoulder: { kind: step, face: top, along: left, width: 3, depth: 5 }
  screws: { kind: hole, face: top, at: { x: 50, y: 45 }, pattern: { line: { x: 16, count: 3 } }, thread: M5, depth: 14, thread-depth: 9 }
  seat: { kind: hole, face: bottom, at: { x: 60, y: center }, diameter: 0.25 in, depth: 12, counterbore: { diameter: 12, depth: 5 } }
  lean: { kind: hole, face: front, at: { x: 90, z: 15 }, diameter: 4, depth: 10, tilt: { about: x, angle: 10 } }
  ring: { kind: groove, face: bottom, at: { x: 25, y: 30 }, diameter: 20, width: 3, depth: 2 }
  mark: { kind: engraving, face: front, at: { x: 30, z: 15 }, text: A1, height: 8, depth: 0.3, stroke: 0.5 }
  edge: { kind: chamfer, edges: [[top, front]], size: 1 }
  soft: { kind: edge-round, edges: [[top, back]], radius: 2 }
  ramp: { kind: slope, face: bottom, along: right, width: 4, angle: 20 }
`;

const answersOf = async (text: string) => {
  const { snapshot } = (await pictureOfText(text, undefined, SHOP))!;
  const all = snapshot.checked.part.features.map((f) => sizesAnswer(snapshot, f.name, 1)!);
  return { snapshot, all };
};

describe('sizes in the picture', () => {
  it('are as long as they say, and say what stands in the text', async () => {
    let seen = 0;
    for (const text of [KINDS, ...PARTS]) {
      const { snapshot, all } = await answersOf(text);
      const by = mmPer(snapshot.checked.part.units);
      for (const { feature, sizes } of all) {
        assert.ok(sizes.length > 0 || snapshot.checked.part.featureByName.get(feature)?.kind === 'contour', feature);
        for (const { what, text: told, at, typed, range } of sizes) {
          const where = `${feature} ${what} ${told}`;
          assert.ok(at.flat().every(Number.isFinite), where);
          assert.equal(typed === undefined, range === undefined, where);
          const long = Math.hypot(...at[0].map((c, i) => c - at[1][i]!));
          const said = /^⌀?(-?[\d.]+)/.exec(told)?.[1];
          if (said === undefined || long < 1e-9) continue;
          seen++;
          assert.ok(Math.abs(long - Number(said) * by) < 1e-3, `${where} is ${long}`);
        }
      }
    }
    assert.ok(seen > 60, `${seen} lengths`);
  });

  it('of every kind are those that a drawing has', async () => {
    const { all } = await answersOf(KINDS);
    const told = Object.fromEntries(
      all.map(({ feature, sizes }) => [feature, sizes.map((s) => `${s.what}: ${s.text}`)]),
    );
    const has = (feature: string, ...sizes: string[]) => {
      for (const s of sizes) assert.ok(told[feature]!.includes(s), `${feature}: ${told[feature]!.join('; ')}`);
    };
    has('well', 'x: 24', 'y: 20 ±0.1', 'depth: 8 deep', 'corner radius: R5', 'x: 25', 'y: 20');
    has('round', 'diameter: ⌀14', 'from right: 12', 'from back: 12');
    has('way', 'width: 10 H9', 'depth: 6 deep');
    has('shoulder', 'width: 3', 'depth: 5');
    has('screws', 'thread: M5', 'depth: 14 deep', 'thread depth: 9 of thread', 'pitch along x: 16');
    has('seat', 'diameter: ⌀6.35', 'counterbore: ⌀12', 'counterbore depth: 5', 'x: 60', 'y: 30');
    has('ring', 'diameter: ⌀20', 'width: 3', 'depth: 2 deep');
    has('mark', 'height: 8', 'depth: 0.3 deep');
    has('edge', 'size: 1');
    has('soft', 'radius: R2');
    has('ramp', 'width: 4', 'angle: 20°');
  });

  it('of a leaning hole lean with it', async () => {
    const { all } = await answersOf(KINDS);
    const depth = all.find((a) => a.feature === 'lean')!.sizes.find((s) => s.what === 'depth')!;
    const [from, to] = depth.at;
    // 10° about x: of 10 mm deep along y so much along z.
    assert.ok(Math.abs(Math.abs(to[2] - from[2]) - 10 * Math.sin(Math.PI / 18)) < 1e-9);
    assert.ok(Math.abs(to[1] - from[1] - 10 * Math.cos(Math.PI / 18)) < 1e-9);
  });

  it('typed over keep unit and tolerance, unless others are typed', () => {
    for (const [written, typed, becomes] of [
      ['22 H7', '24', '24 H7'],
      ['22 H7', '24 H8', '24 H8'],
      ['20 ±0.1', '21,5', '21.5 ±0.1'],
      ['10 +0.1/-0', '12', '12 +0.1/-0'],
      ['0.25 in', '0.375', '0.375 in'],
      ['0.25 in', '8 mm', '8 mm'],
      ['6mm H7', '7', '7mm H7'],
      ['center', '12', '12'],
      ['pitch / 2', '12', '12'],
      ['22', 'pitch / 2', 'pitch / 2'],
      ['through', '14', '14'],
      ['M5', 'M6', 'M6'],
    ] as const)
      assert.equal(typedOver(written, typed), becomes, `${typed} over ${written}`);
  });

  it('typed over are that size in the part, and nothing else changes; what cannot be read is refused with a sentence', async () => {
    const { snapshot, all } = await answersOf(KINDS);
    for (const { feature, sizes } of all)
      for (const [size, { what, typed }] of sizes.entries()) {
        const asked = { uri: '', version: 1, feature, size };
        const wrong = typedAnswer(snapshot, { ...asked, text: '§ #' }, 1)!;
        assert.ok('why' in wrong && wrong.why.length > 10, `${feature} ${what}`);
        if (typed === undefined || !/^[\d.]/.test(typed)) continue;
        const written = Number.parseFloat(typed);
        const answer = typedAnswer(snapshot, { ...asked, text: String(Number((written + 0.1).toFixed(3))) }, 1)!;
        assert.ok('newText' in answer, `${feature} ${what}: ${'why' in answer ? answer.why : ''}`);
        assert.equal(answer.newText, typed.replace(/^[\d.]+/, String(Number((written + 0.1).toFixed(3)))));
        const [from, to] = [answer.range.start, answer.range.end].map((p) => snapshot.lines.offset(p));
        const text = snapshot.text.slice(0, from) + answer.newText + snapshot.text.slice(to);
        const after = readPart(text, snapshot.checked.shop);
        const again = after.part.featureByName.get(feature);
        assert.ok(again, `${feature} is gone`);
        assert.equal(text.split('\n').filter((line, i) => line !== snapshot.text.split('\n')[i]).length, 1);
      }
    assert.deepEqual(
      Object.keys(typedAnswer(snapshot, { uri: '', version: 7, feature: 'well', size: 0, text: '3' }, 8)!),
      ['why'],
    );
    assert.equal(typedAnswer(snapshot, { uri: '', version: 1, feature: 'well', size: 99, text: '3' }, 1), null);
  });
});
