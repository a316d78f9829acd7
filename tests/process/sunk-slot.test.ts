/**
 * Slots for the heads of screws through the house. Countersinks are those of holes: their rows are
 * held against ISO 10642 and ISO 15065 in `tests/oracle/screws.test.ts`. Volumes are worked out beside each check.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Slot } from '../../server/src/model/model';
import { approachesOf } from '../../server/src/process/approach';
import { operationsOf } from '../../server/src/process/operations';
import { checkPart } from '../../server/src/rules/check';
import { countersinkFor } from '../../server/src/tables/heads';
import { assertClosed, assertOnSurfaces, meshOf } from '../geometry/mesh/proof';

const SHOP = builtinShop();
const hinge = (fields: string, more = '') => `part: hinge
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 30, z: 8 }
stock: { form: flat-bar, sawn: [left, right], extra: { left: 2, right: 2 } }
features:
  adjust: { kind: slot, face: top, ends: [{ x: 20, y: 15 }, { x: 40, y: 15 }], width: 5.5, depth: through${fields} }
${more}`;

function read(text: string) {
  const checked = checkPart(text, SHOP);
  const slot = checked.part.featureByName.get('adjust') as Slot;
  return { ...checked, slot, said: checked.findings.map((f) => `${f.rule}: ${f.message}`) };
}

/** Through 8 mm: straight over 20 mm and two round ends. */
const PLAIN_MM3 = 8 * (20 * 5.5 + Math.PI * 2.75 ** 2);
const cutMm3 = ({ solid }: ReturnType<typeof read>) => 60 * 30 * 8 - solid.measures.volumeMm3;

describe('a countersunk slot', () => {
  it('is as wide as the head of its screw', () => {
    const { slot, said } = read(hinge(', countersink: M5'));
    assert.deepEqual([slot.countersink?.width.mm, slot.countersink?.angle.deg], [countersinkFor('M5')?.diameterMm, 90]);
    assert.deepEqual(said, []);
  });

  it('takes a cone off both ends and a wedge off both sides', () => {
    const sunk = read(hinge(', countersink: { width: 11, angle: 90 }'));
    // h = (11 − 5.5) / 2; wedges 2 · h² / 2 · 20; the ring of a cone: π h² (r + h / 3).
    const h = 2.75;
    const more = h * h * 20 + Math.PI * h * h * (2.75 + h / 3);
    assert.ok(Math.abs(cutMm3(sunk) - PLAIN_MM3 - more) < 1e-4 * more, `${cutMm3(sunk) - PLAIN_MM3} ${more}`);
    assert.equal(sunk.solid.measures.exact, true);
  });

  it('is milled, and its mouth cut with a chamfer mill of its angle, from its own face', () => {
    const { part, solid, slot } = read(hinge(', countersink: M5'));
    assert.deepEqual(approachesOf(slot, part, solid), ['top']);
    const made = operationsOf(slot, { part, solid, shop: SHOP });
    assert.deepEqual(
      made.map((o) => o.does),
      ['rough', 'finish', 'chamfer'],
    );
    const [, , cone] = made;
    assert.ok(cone?.does === 'chamfer' && 'angleDeg' in cone.tool && cone.tool.angleDeg === 90);
    // Round the rim: two sides, and a full circle of the slot.
    assert.ok(Math.abs(cone.wayMm - (40 + Math.PI * 5.5)) < 1e-6);
  });

  it('lacks a chamfer mill of another angle, and says which', () => {
    const { said } = read(hinge(', countersink: { width: 11, angle: 82 }'));
    assert.match(said.join('\n'), /chamfer mill of 82°/);
  });

  it('is drawn closed, on its own surfaces', async () => {
    const { solid, shown, volumeMm3, bentMm2 } = await meshOf(read(hinge(', countersink: M5')).part, 0.02);
    assertClosed(shown);
    assertOnSurfaces(shown, 0.02);
    const { volumeMm3: exact } = solid.measures;
    assert.ok(Math.abs(volumeMm3 - exact) <= 0.02 * bentMm2 + 2e-4 * exact, `${volumeMm3} against ${exact}`);
  });
});

describe('a counterbored slot', () => {
  it('takes a wider slot off first', () => {
    const bored = read(hinge(', counterbore: { width: 10, depth: 3 }'));
    const wide = 3 * (20 * 10 + Math.PI * 25);
    const narrow = 5 * (20 * 5.5 + Math.PI * 2.75 ** 2);
    assert.ok(Math.abs(cutMm3(bored) - wide - narrow) < 1e-6 * wide);
    assert.deepEqual(bored.said, []);
    const made = operationsOf(bored.slot, { part: bored.part, solid: bored.solid, shop: SHOP });
    assert.deepEqual(
      made.map((o) => o.does),
      ['rough', 'finish', 'rough', 'finish'],
    );
  });

  it('is as deep and wide as the head of a cap screw', () => {
    const { slot } = read(hinge(', counterbore: M4').replace('width: 5.5', 'width: 4.5'));
    assert.equal(slot.counterbore?.screw, 'M4');
    assert.ok(slot.counterbore.width.mm > 7 && slot.counterbore.depth.mm > 4);
  });
});

describe('what a slot’s mouth cannot be', () => {
  const wrong = (fields: string, said: RegExp) => assert.match(read(hinge(fields)).said.join('\n'), said, fields);
  it('is told in a sentence', () => {
    wrong(', countersink: M5, counterbore: M5', /a counterbore or a countersink, not both/);
    wrong(', countersink: M5, dovetail: { angle: 60 }', /a slot with a dovetail has no/);
    wrong(', countersink: M5, tilt: { about: y, angle: 10 }', /a tilted slot has no/i);
    wrong(', countersink: { width: 30 }', /as deep as the slot/);
    wrong(', counterbore: { width: 10, depth: 8 }', /as deep as the slot/);
    wrong(', countersink: { width: 4 }', /not wider than the slot/);
    wrong(', countersink: M55', /no countersink for/);
    wrong(', countersink: { diameter: 10 }', /diameter/);
  });
});
