/** A hole's tolerance says what it is for: finer than H12 a seat, H12 to H14 (ISO 273) room for a screw. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { isSeat, screwThrough } from '../../../server/src/process/tolerances/intent';
import { checkPart } from '../../../server/src/rules/check';
import { findingsOf } from '../../rules/tester';

const text = (hole: string) => `part: bearing-shoe
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 20 }
features:
  bearing: { kind: hole, face: top, at: { x: center, y: center }, ${hole}, depth: through }
datums: { A: bottom, B: front, C: left }
tolerances:
  - { position: 3, of: bearing, datums: [A, B, C] }
`;

function hole(written: string) {
  const found = checkPart(text(written), builtinShop()).part.featureByName.get('bearing');
  assert.ok(found?.kind === 'hole', written);
  return found;
}

describe('intent of a hole', () => {
  it('is read alike from a field and from limits', () => {
    // ISO 286-1: IT11 of 22 is 0.13, IT12 0.21.
    for (const seat of ['22 H7', '22 H11', '22 P9', '22 JS13', '22 ±0.06', '22 +0.13/0'])
      assert.ok(isSeat(hole(`diameter: ${seat}`)), seat);
    for (const room of ['22', '22 H12', '22 H13', '22 H14', '22 +0.21/0', '22 ±0.2'])
      assert.ok(!isSeat(hole(`diameter: ${room}`)), room);
  });

  it('guesses a screw of clearance holes only; one that is named goes through whatever it is', () => {
    assert.deepEqual(screwThrough(hole('diameter: 22 H13')), { screw: 'M20', named: false });
    assert.equal(screwThrough(hole('diameter: 22 H7')), undefined);
    assert.equal(screwThrough(hole('diameter: 22.3')), undefined);
    assert.equal(screwThrough(hole('thread: M6')), undefined);
    assert.deepEqual(screwThrough(hole('diameter: 5.5 H7, counterbore: M5')), { screw: 'M5', named: true });
  });

  it('is one and the same to every rule that guesses a screw', () => {
    const said = (diameter: string) => {
      const part = text(`diameter: ${diameter}, counterbore: { diameter: 24, depth: 2 }`);
      return ['hole/screw-head', 'tol/fastener'].map((rule) => findingsOf(rule, part).length);
    };
    assert.deepEqual(said('22 H7'), [0, 0]);
    assert.deepEqual(said('22 +0.02/0'), [0, 0]);
    assert.deepEqual(said('22 H13'), [1, 1]);
    assert.deepEqual(said('22'), [1, 1]);
  });
});
