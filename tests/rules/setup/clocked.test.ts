/** What places round stock, and what lies under clamps, in rotation when it is put in again. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { planOf } from '../../../server/src/planning/plan';
import { checkPart } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { findingsOf, onlyFinding, tryFixesOn } from '../tester';

const HEAD = `${ALUMINIUM}body: { diameter: 20, length: 160, axis: x }
stock: { form: round-bar, diameter: 20, axis: x }
`;
const V = 'v-block: v-block-45, clamps: [{ x: 90, y: center }, { x: 140, y: center }]';
const two = (features: string, second: string, first = `{ up: top, hold: { ${V} }, cuts: [a] }`) =>
  `${HEAD}features:\n${features}setups:\n  one: ${first}\n  two: ${second}\n`;
const FLAT =
  '  a: { kind: pocket, face: top, at: { x: 30, y: center }, size: { x: 30, y: 30 }, corner-radius: 5, depth: 4 }\n';
const CROSS = '  b: { kind: hole, face: front, at: { x: 60, z: center }, diameter: 5, depth: 8 }\n';
const SIDE = V.replaceAll('y: center', 'z: center');

describe('setup/clocked', () => {
  const bare = two(FLAT + CROSS, `{ up: front, hold: { ${SIDE} }, cuts: [b] }`);
  it('round stock with a flat, put in again for a hole across: nothing turns it to the flat', () => {
    const f = onlyFinding('setup/clocked', bare);
    assert.deepEqual([f.severity, f.facts.earlier, f.facts.here, f.facts.about], ['warning', 'a', 'b', 'x']);
    assert.ok(tryFixesOn({ name: 'setup/clocked' }, bare) > 0);
  });
  it('an indicator, a pin or a square does; one on what is not there yet does not', () => {
    for (const clock of ['indicator: a', 'square: a'])
      assert.deepEqual(findingsOf('setup/clocked', bare.replace('cuts: [b]', `clock: { ${clock} }, cuts: [b]`)), []);
    const own = bare.replace('cuts: [b]', 'clock: { pin: b }, cuts: [b]');
    assert.equal(onlyFinding('setup/clocked', own).facts.why, 'not-yet');
  });
  it('the flat against the fixed jaw does', () => {
    const long = FLAT.replace('at: { x: 30', 'at: { x: 80').replace('x: 30, y: 30', 'x: 180, y: 30');
    const jaws = (fixed: string, flat = long) =>
      two(flat + CROSS, `{ up: front, hold: { vise: mill-vise-100, jaws: [${fixed}], grip: 14 }, cuts: [b] }`);
    assert.deepEqual(findingsOf('setup/clocked', jaws('top, bottom')), []);
    assert.equal(findingsOf('setup/clocked', jaws('bottom, top')).length, 1);
    // One shorter than the jaws are wide is not touched: they lie on the round beside it.
    assert.equal(findingsOf('setup/clocked', jaws('top, bottom', FLAT)).length, 1);
  });
  it('a bore about its axis may be turned to anything', () => {
    const bore = '  a: { kind: hole, face: left, at: { y: center, z: center }, diameter: 6, depth: 20 }\n';
    const first =
      '{ up: left, hold: { vise: mill-vise-100, jaws: [back, front], grip: 32, v-block: v-block-45 }, cuts: [a] }';
    assert.deepEqual(
      findingsOf('setup/clocked', two(bore + CROSS, `{ up: front, hold: { ${SIDE} }, cuts: [b] }`, first)),
      [],
    );
  });
  it('a block under clamps lies as it was laid: a hint, unless a stop or an indicator tells', () => {
    const block = (more: string, hold = '') => `${ALUMINIUM}body: { x: 100, y: 60, z: 20 }
features:
  a: { kind: pocket, face: bottom, at: { x: 30, y: 30 }, size: { x: 20, y: 20 }, corner-radius: 5, depth: 4 }
  b: { kind: hole, face: top, at: { x: 60, y: 30 }, diameter: 5, depth: 8 }
setups:
  one: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [a] }
  two: { up: top, hold: { clamps: [{ x: 8, y: 30 }, { x: 92, y: 30 }]${hold} }, cuts: [b]${more} }
`;
    assert.equal(onlyFinding('setup/clocked', block('')).severity, 'hint');
    assert.deepEqual(findingsOf('setup/clocked', block(', clock: { indicator: back }')), []);
    assert.deepEqual(findingsOf('setup/clocked', block('', ', stop: left')), []);
  });

  it('a plan writes what does it', () => {
    const checked = checkPart(`${HEAD}features:\n${FLAT}${CROSS}`, builtinShop());
    const plan = planOf(checked);
    assert.equal(plan?.setups.length, 2);
    const [first, second] = plan!.setups.map((s) => s.setup);
    assert.equal(first!.clock, undefined);
    assert.equal(second!.clock !== undefined, true);
    // Round stock lies in a V; nothing is milled into jaws for it.
    assert.deepEqual([first!.hold?.type, second!.hold?.type], ['v-block', 'v-block']);
  });
});
