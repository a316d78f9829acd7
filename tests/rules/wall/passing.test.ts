/** Walls that stand only until a later cut takes them away, or lowers them: by hand, from the sizes in the text. */
import assert from 'node:assert/strict';
import { checkPart } from '../../../server/src/rules/check';
import { endMill, shopWith } from '../shops';
import { findingsOf, mended } from '../tester';

const SHOP = shopWith(endMill('em-6', 6, 22) + endMill('em-16', 16, 50));
const text = (features: string, cuts: string) => `part: tray
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 40 }
features:
${features}${cuts && `setups:\n  one: { up: top, cuts: [${cuts}] }\n`}`;
const pocket = (name: string, x: number, depth: number, y = 20) =>
  `  ${name}: { kind: pocket, face: top, at: { x: ${x}, y: 30 }, size: { x: 20, y: ${y} }, corner-radius: 8.5, depth: ${depth} }\n`;
const groove = (depth: number) =>
  `  groove: { kind: slot, face: top, ends: [{ x: 40, y: -20 }, { x: 40, y: 80 }], width: 18, depth: ${depth} }\n`;

/** 0.3 between them, and a groove of 18 over it. */
const NEAR = pocket('cell-a', 29.85, 10) + pocket('cell-b', 50.15, 10) + groove(12);

describe('a wall that a later cut takes away', () => {
  it('is a hint with that cut, however thin it is, and none where that cut comes first or between', () => {
    const [one, ...more] = findingsOf('wall/thin', text(NEAR, 'cell-a, cell-b, groove'), SHOP);
    assert.deepEqual(more, []);
    assert.equal(one!.severity, 'hint');
    assert.deepEqual([one!.facts.thickness_mm, one!.facts.until], [0.3, 'groove']);
    for (const cuts of ['groove, cell-a, cell-b', 'cell-a, groove, cell-b'])
      assert.deepEqual(findingsOf('wall/thin', text(NEAR, cuts), SHOP), [], cuts);
  });

  it('is mended by cutting that first', () => {
    const after = mended('wall/thin', text(NEAR, 'cell-a, cell-b, groove'), undefined, SHOP);
    assert.match(after, /cuts: \[cell-a, groove, cell-b\]/);
  });

  it('without set-ups, or in set-ups that cut one side later, there is none to tell of', () => {
    assert.deepEqual(findingsOf('wall/thin', text(NEAR, ''), SHOP), []);
    const apart = text(NEAR, 'cell-a, groove').replace(
      'groove] }\n',
      'groove] }\n  two: { up: top, cuts: [cell-b] }\n',
    );
    assert.deepEqual(findingsOf('wall/thin', apart, SHOP), []);
  });

  it('of one that stays below it, what stays is told, as ever', () => {
    const [one, ...more] = findingsOf(
      'wall/thin',
      text(NEAR.replace(groove(12), groove(6)), 'cell-a, cell-b, groove'),
      SHOP,
    );
    assert.deepEqual(more, []);
    assert.deepEqual([one!.severity, one!.facts.until], ['error', undefined]);
  });

  it('thick walls, and cuts that only pass near them, raise nothing', () => {
    const thick = pocket('cell-a', 29, 10) + pocket('cell-b', 51, 10);
    assert.deepEqual(findingsOf('wall/thin', text(thick + groove(12), 'cell-a, cell-b, groove'), SHOP), []);
    // Drills, edges and letters take no wall away.
    const edge = `${thick}  edge: { kind: chamfer, edges: [top], size: 0.5 }\n`;
    assert.deepEqual(findingsOf('wall/thin', text(edge, 'cell-a, cell-b, edge'), SHOP), []);
  });
});

describe('a wall that a later cut lowers', () => {
  // 2 thick between two pockets 20 deep and 50 long: 10 times its thickness, and 6 where 8 are milled off it.
  const RIB = pocket('cell-a', 29, 20, 50) + pocket('cell-b', 51, 20, 50) + groove(8);

  it('is judged as high as it is before', () => {
    const [one, ...more] = findingsOf('wall/slender', text(RIB, 'cell-a, cell-b, groove'), SHOP);
    assert.deepEqual(more, []);
    assert.deepEqual(
      [one!.severity, one!.facts.height_mm, one!.facts.thickness_mm, one!.facts.ratio, one!.facts.until],
      ['warning', 20, 2, 10, 'groove'],
    );
    assert.deepEqual(findingsOf('wall/slender', text(RIB, 'groove, cell-a, cell-b'), SHOP), []);
    assert.deepEqual(findingsOf('wall/slender', text(RIB, ''), SHOP), []);
  });

  it('what is slender in the end is told of as it is in the end', () => {
    const high = RIB.replace(groove(8), groove(2)); // 18 of 2: 9 times
    const told = findingsOf('wall/slender', text(high, 'cell-a, cell-b, groove'), SHOP);
    assert.deepEqual(
      told.map((f) => [f.facts.ratio, f.facts.until]),
      [[9, undefined]],
    );
  });

  it('is told once: what bends there is the same wall', () => {
    const { findings } = checkPart(text(RIB, 'cell-a, cell-b, groove'), SHOP);
    assert.deepEqual(
      findings.filter((f) => f.rule.startsWith('wall/')).map((f) => f.rule),
      ['wall/slender'],
    );
  });
});
