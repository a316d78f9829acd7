/** A slit is cut after the bore it opens, and not while the jaws press its arms together. */
import assert from 'node:assert/strict';
import { findingsOf, mended, onlyFinding } from '../tester';

/** The clamp that holds the gimbal's tube: a bore, opened to the back. */
const clamp = ({
  jaws = 'left, right',
  cuts = 'slit, seat',
  width = 2,
  to = 55,
  depth = 'through',
  grip = 6,
}) => `part: tube-clamp
material: aluminium-6061-t6
body: { x: 44, y: 50, z: 14 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: 22 }, diameter: 18 H7, depth: through }
  slit: { kind: slot, face: top, ends: [{ x: center, y: 22 }, { x: center, y: ${to} }], width: ${width}, depth: ${depth} }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [${jaws}], grip: ${grip}, parallels: ${32 - grip} }
    zero: { x: left, y: front, z: parallels }
    cuts: [${cuts}]
`;

describe('a slit and its bore', () => {
  it('before the bore it is told, with what it waits for; the bore first mends it', () => {
    const finding = onlyFinding('setup/order', clamp({}));
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.waits_for, 'seat');
    assert.match(mended('setup/order', clamp({}), /before it/), /cuts: \[seat, slit\]/);
    assert.deepEqual(findingsOf('setup/order', clamp({ cuts: 'seat, slit' })), []);
  });

  it('is no slit where it is as wide as a slot, does not get out of the part, or is a scratch', () => {
    for (const other of [{ width: 12 }, { to: 40 }, { depth: '3' }])
      assert.deepEqual(findingsOf('setup/order', clamp(other)), [], JSON.stringify(other));
  });

  it('jaws that press across it bend the arms in which a bore to a fit is made after it; the other pair does not', () => {
    const arms = (text: string) => findingsOf('hold/squeeze', text).filter((f) => f.facts.as === 'fit in an arm');
    const finding = arms(clamp({}))[0]!;
    assert.equal(finding.severity, 'warning');
    assert.deepEqual([finding.of, finding.facts.gap, finding.facts.width_mm], [['seat'], 'slit', 0.018]);
    assert.deepEqual(arms(clamp({ jaws: 'front, back' })), []);
    // The bore is there already, or nobody asks anything of it.
    assert.deepEqual(arms(clamp({ cuts: 'seat, slit' })), []);
    assert.deepEqual(arms(clamp({}).replace('18 H7', '18')), []);
  });

  it('so is a reamed hole beside it, and not one in what joins the arms', () => {
    const at = (x: number, y: number, cuts = 'slit, pin') =>
      `part: hinge
material: aluminium-6061-t6
body: { x: 36, y: 48, z: 18 }
features:
  slit: { kind: slot, face: top, ends: [{ x: center, y: 14 }, { x: center, y: 60 }], width: 3, depth: through }
  pin: { kind: hole, face: top, at: { x: ${x}, y: ${y} }, diameter: 8 H7, depth: through }
setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [left, right], grip: 6, parallels: 26, stop: front }
    zero: { x: left, y: front, z: parallels }
    cuts: [${cuts}]
`;
    const f = onlyFinding('hold/squeeze', at(8, 34));
    assert.equal(f.facts.as, 'fit in an arm');
    assert.match(mended('hold/squeeze', at(8, 34), /before slit/), /cuts: \[pin, slit]/);
    assert.deepEqual(findingsOf('hold/squeeze', at(8, 6)), []);
    assert.deepEqual(findingsOf('hold/squeeze', at(8, 34, 'pin, slit')), []);
  });
});
