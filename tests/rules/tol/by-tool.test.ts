/** Tolerances judged by the tool that makes the size: chosen by the feature’s cuts, or named by a set-up. Grades: ISO 286-1. */
import assert from 'node:assert/strict';
import { checkPart } from '../../../server/src/rules/check';
import { drill, endMill, shopWith } from '../shops';
import { findingsOf, onlyFinding } from '../tester';

const part = (diameter: string, more = '', z = 16) => `part: p
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: ${z} }
features:
  h: { kind: hole, face: top, at: { x: center, y: center }, diameter: ${diameter}, depth: through }
${more}`;
const setup = (tool: string) => `setups:
  only:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 6, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [h]
    tools: { h: ${tool} }
`;
const DRILLS = drill(7, 80) + drill(21, 80);
const BORE = 'bh: { kind: boring-head, diameter: 12, largest: 60, reach: 40, material: carbide }\n';
const tols = (text: string, shop = shopWith(DRILLS)) =>
  checkPart(text, shop)
    .findings.filter((f) => /^tol\/(process|no-reamer)$/.test(f.rule))
    .map((f) => `${f.severity} ${f.rule}`);

describe('tolerances by the tool that makes the size', () => {
  // ±0.05 on 7 is 0.1, IT11 (0.09). A drill holds IT12 (0.15), and with care IT10: no reamer is missing.
  it('±0.05 on a 7 mm hole: a warning where only a drill is on hand, none where a mill goes round in it', () => {
    assert.deepEqual(tols(part('7 ±0.05')), ['warning tol/process']);
    assert.match(
      onlyFinding('tol/process', part('7 ±0.05'), shopWith(DRILLS)).message,
      /Here dr-7 normally holds 0\.15 mm \(IT12\)/,
    );
    assert.deepEqual(tols(part('7 ±0.05'), shopWith(DRILLS + endMill('em-6', 6, 20))), []);
    assert.deepEqual(tols(part('7 ±0.05')), tols(part('7 ±0.03')), 'IT10: 0.058');
    assert.deepEqual(tols(part('7 H9')), ['error tol/no-reamer']);
  });

  it('drilled and then bored it is the boring head’s 7', () => {
    assert.deepEqual(tols(part('22 H7'), shopWith(DRILLS + BORE)), []);
    const finding = onlyFinding('tol/process', part('22 H6'), shopWith(DRILLS + BORE));
    assert.equal(finding.facts.process_grade, 7);
    assert.equal(finding.facts.tool, 'bh');
  });

  it('a tool that a set-up names is taken at its word, and the one that would do is told', () => {
    const shop = shopWith(DRILLS + endMill('em-6', 6, 20));
    assert.deepEqual(tols(part('7 ±0.03', setup('em-6')), shop), []);
    const finding = onlyFinding('tol/process', part('7 ±0.03', setup('dr-7')), shop);
    assert.equal(finding.facts.tool, 'dr-7');
    assert.match(finding.message, /Use em-6 instead of the tool in the set-up/);
  });

  it('goes by the shop’s own grades, for choosing as for judging', () => {
    const good = shopWith(DRILLS, '  tol/process: { drilling: 10 }');
    assert.deepEqual(tols(part('7 ±0.05'), good), []);
  });

  it('names the mill that finishes a slot, and says nothing where none cuts it', () => {
    const slot = `part: p\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\nfeatures:\n  s: { kind: slot, face: top, ends: [{ x: 15, y: 20 }, { x: 45, y: 20 }], width: 10 ±0.005, depth: 6 }\n`;
    assert.equal(onlyFinding('tol/process', slot, shopWith(endMill('em-8', 8, 20))).facts.tool, 'em-8');
    assert.deepEqual(findingsOf('tol/process', slot, shopWith(DRILLS)), []);
  });
});
