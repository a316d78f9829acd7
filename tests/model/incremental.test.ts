/** What an edit does not touch is the same object afterwards. */
import assert from 'node:assert/strict';
import type { Part } from '../../server/src/model/model';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

const TEXT = `part: a
units: mm
parameters:
  pitch: 36
  deep: 4
body: { x: 60, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: 10 }, diameter: 22 H7, depth: deep }
  inner: { kind: hole, from: seat, at: { x: center, y: 10 }, diameter: 12, depth: through }
  mount: { kind: hole, face: front, at: { x: 30, z: 8 }, pattern: { line: { x: pitch, count: 2 } }, thread: M5, depth: 14 }
  plain: { kind: pocket, face: top, at: { x: 9, y: 30 }, size: { x: 8, y: 9 }, corner-radius: 2, depth: 3 }
  far: { kind: hole, face: top, at: { right: 9, y: 30 }, diameter: 3, depth: 3 }
  rim: { kind: chamfer, edges: { rim: seat }, size: 0.5 }
datums: { A: seat }
setups:
  one: { up: top, cuts: [seat, plain] }
tolerances:
  - { position: 0.1, of: seat, datums: [A] }
accept:
  - { rule: wall/thin, of: mount }
`;

/** Resolves the text, then the edited text after it; answers the names of the features that are new objects. */
function changed(from: string | RegExp, to: string, text = TEXT): { before: Part; after: Part; names: string[] } {
  const tree = readText(text);
  const before = resolvePart(tree);
  const edited = text.replace(from, to);
  assert.notEqual(edited, text);
  const after = resolvePart(readText(edited, tree), before);
  const names = after.features.filter((f) => before.featureByName.get(f.name) !== f).map((f) => f.name);
  // Whatever is lent, the answer is as if it were worked out anew.
  assert.deepEqual(after, resolvePart(readText(edited)));
  return { before, after, names };
}

describe('after an edit', () => {
  it('only the feature edited is new', () => {
    const { before, after, names } = changed('size: { x: 8', 'size: { x: 8.5');
    assert.deepEqual(names, ['plain']);
    assert.equal(after.setups![0], before.setups![0]);
    assert.equal(after.tolerances[0], before.tolerances[0]);
    assert.equal(after.accept[0], before.accept[0]);
    assert.equal(after.body, before.body);
    assert.equal(after.stock, before.stock);
  });

  it('and what stands on it', () => {
    assert.deepEqual(changed('22 H7', '21 H7').names, ['seat', 'inner', 'rim']);
  });

  it('of a parameter, only what uses it', () => {
    assert.deepEqual(changed('pitch: 36', 'pitch: 35').names, ['mount']);
    assert.deepEqual(changed('deep: 4', 'deep: 5').names, ['seat', 'inner', 'rim']);
    assert.deepEqual(changed('pitch: 36', 'pitch: 30 + 6').names, [], 'the same value in other words');
  });

  it('of the body, only what looks at that size', () => {
    assert.deepEqual(changed('x: 60', 'x: 61').names, ['seat', 'inner', 'far', 'rim']);
    assert.deepEqual(changed('z: 16', 'z: 17').names, ['inner']);
    assert.deepEqual(changed('y: 40', 'y: 41').names, []);
  });

  it('of a comment above, nothing', () => {
    const { before, after, names } = changed('units: mm', 'units: mm # millimetres');
    assert.deepEqual(names, []);
    assert.equal(after.stock, before.stock);
  });

  it('of a line put in between, nothing else', () => {
    const { names } = changed(
      '  plain:',
      '  more: { kind: hole, face: top, at: { x: 50, y: 30 }, diameter: 3, depth: 3 }\n  plain:',
    );
    assert.deepEqual(names, ['more']);
  });

  it('of the units, everything', () => {
    assert.equal(changed('units: mm', 'units: in').names.length, 6);
  });

  it('that breaks and mends again, all is as before', () => {
    const tree = readText(TEXT);
    const before = resolvePart(tree);
    const brokenTree = readText(TEXT.replace('22 H7', '22 H7 kg'), tree);
    const broken = resolvePart(brokenTree, before);
    assert.deepEqual([...broken.broken], ['seat', 'inner', 'rim']);
    assert.equal(broken.problems.length, 1);
    assert.deepEqual(resolvePart(readText(TEXT, brokenTree), broken), before);
  });

  it('that names what was unknown, the mention is known', () => {
    const text = TEXT.replace('{ rim: seat }', '{ rim: hub }');
    const { before, after } = changed('  plain:', '  hub:', text);
    assert.match(before.problems[0]!.message, /no feature `hub`/);
    assert.ok(after.featureByName.has('rim'));
    assert.deepEqual(
      after.problems.map((p) => p.message),
      ['There is no feature or face `plain`. Write `seat`, `inner`, `mount`, `hub`, `far` or another of 12.'],
    );
  });

  /** A name that nothing answers to, where each of the places has one, and the names beside it that then change. */
  const mistaken: Readonly<Record<string, readonly [from: string, to: string]>> = {
    'the floor it starts on': ['from: seat', 'from: holo'],
    'the hole of an edge': ['{ rim: seat }', '{ rim: holo }'],
    'what a datum is': ['A: seat', 'A: holo'],
    'what a set-up cuts': ['[seat, plain]', '[holo, plain]'],
    'where zero is': ['up: top,', 'up: top, zero: { x: holo },'],
    'which tool cuts it': ['up: top,', 'up: top, tools: { holo: mill-6 },'],
    'what holds it down': ['up: top,', 'up: top, hold: { screws: [holo], to: plate },'],
    'the stop': ['up: top,', 'up: top, hold: { vise: big, jaws: [front, back], grip: 5, stop: holo },'],
    'what a tolerance is of': ['of: seat, d', 'of: holo, d'],
    'what is accepted': ['of: mount }', 'of: holo }'],
    'a parameter of a length': ['depth: deep', 'depth: holo'],
    'a parameter of the body': ['z: 16', 'z: holo'],
    'a parameter of a parameter': ['pitch: 36', 'pitch: holo * 2'],
    'a parameter beside `center`': ['y: center }, size', 'y: center + holo }, size'],
  };
  for (const [where, [from, to]] of Object.entries(mistaken))
    it(`of a name, a message about ${where} says what is known now`, () => {
      const text = TEXT.replace('y: 30 }, size', 'y: center }, size').replace(from, to);
      const parameter = where.startsWith('a parameter');
      const [old, near] = parameter ? ['  deep: 4', '  hole: 4'] : ['  far:', '  hole:'];
      const { before, after } = changed(old, near, text);
      const told = (part: Part) => part.problems.filter((p) => /`holo`/.test(p.message));
      assert.ok(!told(before).some((p) => p.message.includes('`hole`')), told(before)[0]?.message);
      assert.equal(told(after).length, 1);
      assert.match(told(after)[0]!.message, /Did you mean `hole`/);
      assert.equal(told(after)[0]!.fixes?.[0]?.edits[0]?.newText, 'hole');
    });

  it('in a circle, the messages stay where they are', () => {
    const text = TEXT.replace('deep: 4', 'deep: pitch').replace('pitch: 36', 'pitch: deep');
    const { after } = changed('y: 30 }, size', 'y: 29 }, size', text);
    assert.equal(after.problems.length, 1);
  });
});
