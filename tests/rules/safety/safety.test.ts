/** The usual cautions: said for what hurts, with deference to the shop; silent for everyday stock. */
import assert from 'node:assert/strict';
import { shopWith } from '../shops';
import { findingsOf, onlyFinding } from '../tester';

const bar = (x: number, y: number, z: number, material = 'aluminium-6061-t6', more = '') =>
  `part: p\nunits: mm\nmaterial: ${material}\nbody: { x: ${x}, y: ${y}, z: ${z} }\nfeatures:\n  h: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: through }\n${more}`;
const VISE = shopWith('');

describe('safety/material', () => {
  it('speaks of what burns or harms lungs, and defers to the shop', () => {
    for (const name of ['magnesium-az31b', 'titanium-6al-4v']) {
      const finding = onlyFinding('safety/material', bar(60, 40, 8, name));
      assert.equal(finding.severity, 'hint');
      assert.match(finding.message, /trained staff/);
      assert.ok(String(finding.facts.source).length > 3);
    }
    for (const name of ['aluminium-6061-t6', 'pom-c'])
      assert.deepEqual(findingsOf('safety/material', bar(60, 40, 8, name)), []);
  });
});

describe('safety/whip', () => {
  it('takes half of what is longer than the jaws, against the thinnest side', () => {
    const finding = onlyFinding('safety/whip', bar(300, 20, 10), VISE);
    assert.equal(finding.facts.out_mm, 100); // (300 − 100) / 2
    assert.equal(finding.facts.ratio, 10);
    assert.match(finding.message, /trained staff/);
    assert.deepEqual(findingsOf('safety/whip', bar(180, 20, 10), VISE), []); // 40 / 10 = 4
  });

  it('where set-ups are written, as each holds it: upright it stands nowhere out of the jaws', () => {
    const one = (up: string, jaws: string) =>
      `setups:\n  one: { up: ${up}, hold: { vise: vise, jaws: [${jaws}], grip: 8 }, cuts: [h] }\n`;
    const at = (setups: string) => findingsOf('safety/whip', bar(300, 20, 10, 'aluminium-6061-t6', setups), VISE);
    assert.equal(at(one('top', 'back, front'))[0]?.facts.out_mm, 100);
    assert.deepEqual(at(one('right', 'back, front')), []);
  });

  it('is silent where it is clamped along its length', () => {
    const clamped =
      'setups:\n  one: { up: top, hold: { clamps: [{ x: 20, y: 10 }, { x: 280, y: 10 }], on: plate }, cuts: [h] }\n';
    assert.deepEqual(findingsOf('safety/whip', bar(300, 20, 10, 'aluminium-6061-t6', clamped), VISE), []);
  });
});
