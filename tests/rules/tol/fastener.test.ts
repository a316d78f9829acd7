/** What a screw allows of its holes’ places. The formulae themselves: tests/oracle/position. */
import assert from 'node:assert/strict';
import { near } from '../../oracle/near';
import { findingsOf, mended, onlyFinding } from '../tester';

const RULE = 'tol/fastener';
const part = (hole: string, position: string, tolerance = '') => `part: cover
units: mm
material: aluminium-6061-t6
${tolerance && `tolerance: ${tolerance}\n`}body: { x: 60, y: 40, z: 12 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 40, count: 2 } }, ${hole}, depth: through }
datums: { A: bottom, B: front, C: left }
tolerances:
  - { position: ${position}, of: mount, datums: [A, B, C] } # bolted on
`;

describe('tol/fastener', () => {
  // ISO 273 medium: M6 goes through 6.6, so H − F = 0.6 and half of it 0.3.
  it('allows H − F, and tells what is left where the other part is tapped', () => {
    assert.deepEqual(findingsOf(RULE, part('clearance: M6', '0.6')), []);
    const finding = onlyFinding(RULE, part('clearance: M6', '0.7'));
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.floating_mm, 0.6);
    assert.equal(finding.facts.fixed_mm, 0.3);
    assert.equal(finding.facts.hole_mm, 6.6);
  });

  it('takes the hole at its smallest: its own tolerance, or the general one', () => {
    assert.equal(onlyFinding(RULE, part('diameter: 6.6 ±0.1, counterbore: M6', '0.55')).facts.floating_mm, 0.5);
    // ISO 2768-1 m: ±0.2 over 6 mm.
    assert.equal(onlyFinding(RULE, part('diameter: 6.6, counterbore: M6', '0.5', 'ISO 2768-m')).facts.floating_mm, 0.4);
    assert.deepEqual(findingsOf(RULE, part('diameter: 6.6, counterbore: M6', '0.6')), []);
  });

  it('is a hint where only the diameter says which screw, and nothing for fits and other sizes', () => {
    const finding = onlyFinding(RULE, part('diameter: 5.5', '0.6'));
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.screw, 'M5');
    assert.deepEqual(findingsOf(RULE, part('diameter: 6 H7', '0.6')), []);
    assert.deepEqual(findingsOf(RULE, part('diameter: 5.2', '0.6')), []);
  });

  it('of a tapped hole tells where even a loose hole in the other part leaves nothing', () => {
    // ISO 273: M5 coarse is 5.8, so 0.8 for both.
    assert.deepEqual(findingsOf(RULE, part('thread: M5', '0.4')), []);
    const finding = onlyFinding(RULE, part('thread: M5', '0.8'));
    assert.equal(finding.facts.both_mm, 0.8);
    assert.match(mended(RULE, part('thread: M5', '0.8')), /position: 0\.4, of: mount.*# bolted on/);
  });

  it('mends the zone or the hole, and keeps comments', () => {
    const text = part('diameter: 5.5', '0.7');
    assert.match(mended(RULE, text), /position: 0\.5, of: mount.*# bolted on/);
    assert.match(mended(RULE, text, /tapped hole in the other/), /position: 0\.25,/);
    assert.match(mended(RULE, text, /Make the holes 5\.8 mm/), /diameter: 5\.8,/);
  });

  it('works in inches: a normal hole for 1/4 is drilled 9/32, so 1/32 in to a thou’s tenth', () => {
    const text = part('clearance: 1/4', '0.04')
      .replace('units: mm', 'units: in')
      .replace('x: 60, y: 40, z: 12', 'x: 3, y: 2, z: 1');
    const inches = text.replace('x: 40, count', 'x: 2, count');
    near(Number(onlyFinding(RULE, inches).facts.floating_mm), 25.4 / 32, 0.0026);
    assert.match(mended(RULE, inches), /position: 0\.031\d?, of/);
  });
});
