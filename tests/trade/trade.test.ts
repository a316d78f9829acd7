/**
 * Two dozen parts of the trade, as the gimbal's team would write them: each says its material, tolerances, edges, surfaces
 * and notes, has its set-ups in the text, and nothing at all is found of it in a workshop that has what they take. Common
 * practice, no source. Each is judged once.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { resolveShop } from '../../server/src/model/shop';
import { itemsOf } from '../../server/src/planning/items';
import { checkPart } from '../../server/src/rules/check';
import { readText } from '../../server/src/text/read';
import { describeFindings } from '../rules/tester';

const FOLDER = join(__dirname, 'parts');
const text = (name: string) => readFileSync(join(FOLDER, name), 'utf8');
const SHOP = resolveShop(readText(text('workshop.shop.yaml')), 'workshop.shop.yaml');
const NAMES = readdirSync(FOLDER).filter((n) => n.endsWith('.part.yaml'));

describe('parts of the trade', () => {
  it('are two dozen, and between them say all that a drawing asks', () => {
    assert.ok(NAMES.length >= 24, `${NAMES.length}`);
    const all = NAMES.map(text).join('\n');
    for (const said of ['treatment:', 'coating:', 'thread:', 'finish:', 'datums:', 'masked:', 'quantity:', 'note:'])
      assert.ok(all.includes(said), said);
  });

  for (const name of NAMES)
    it(`${name}: nothing found`, () => {
      const checked = checkPart(text(name), SHOP);
      const { part, findings } = checked;
      assert.equal(findings.length, 0, `\n${describeFindings(findings)}`);
      for (const said of [part.title, part.revision, part.material, part.tolerance, part.deburr, part.notes[0]])
        assert.ok(said, `${name} leaves something out`);
      assert.ok(part.features.some((f) => f.note || f.finish));
      // All of it is cut in the set-ups that stand in the text.
      const cut = new Set(part.setups?.flatMap((s) => s.cuts.map((c) => c.name)));
      for (const { feature } of itemsOf(checked)) if (feature) assert.ok(cut.has(feature.name), feature.name);
    });
});

const shape = (body: string, features: string) =>
  checkPart(`part: test-piece\nmaterial: aluminium-6061-t6\nbody: ${body}\nfeatures:\n${features}`, SHOP);

/** Sizes from memory of the standards' figures; volumes in closed form beside them. */
describe('published test pieces', () => {
  it('ISO 14649-11, example 1: a block with a reamed hole and a closed pocket', () => {
    const { part, solid } = shape(
      '{ x: 100, y: 120, z: 50 }',
      `  hole: { kind: hole, face: top, at: { x: 20, y: 60 }, diameter: 22 H7, depth: 30, bottom: flat }
  pocket: { kind: pocket, face: top, at: { x: 70, y: 70 }, size: { x: 50, y: 80 }, corner-radius: 10, depth: 30 }
`,
    );
    assert.deepEqual(part.problems, []);
    const pocket = (50 * 80 - (4 - Math.PI) * 10 ** 2) * 30;
    const expected = 100 * 120 * 50 - Math.PI * 11 ** 2 * 30 - pocket;
    assert.ok(Math.abs(solid.measures.volumeMm3 - expected) < 1e-6 * expected, `${solid.measures.volumeMm3}`);
  });

  it('ISO 10791-7, contouring: square, diamond and circle one on the other, and five bores', () => {
    const { part, solid } = shape(
      '{ x: 160, y: 160, z: 50 }',
      `  circle: { kind: contour, face: top, at: { x: center, y: center }, diameter: 108, depth: 6 }
  diamond: { kind: contour, face: top, at: { x: center, y: center }, size: { x: 110, y: 110 }, rotate: 30, depth: 12 }
  centre: { kind: hole, face: top, at: { x: center, y: center }, diameter: 30 H7, depth: through }
  corners: { kind: hole, face: top, at: { x: center, y: center }, pattern: { grid: { x: { pitch: 140, count: 2 }, y: { pitch: 140, count: 2 } } }, diameter: 12, depth: through }
`,
    );
    assert.deepEqual(part.problems, []);
    const { PI } = Math;
    const expected = 160 * 160 * 38 + 110 ** 2 * 6 + PI * 54 ** 2 * 6 - PI * 15 ** 2 * 50 - 4 * PI * 6 ** 2 * 38;
    assert.ok(Math.abs(solid.measures.volumeMm3 - expected) < 1e-6 * expected, `${solid.measures.volumeMm3}`);
  });
});
