/** Rules that ask what the features remove: nothing, air, the same twice, or the last connection. */
import assert from 'node:assert/strict';
import { checkMarked } from '../marked';
import { ALUMINIUM, block, hole, pocket } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

describe('form/outside-body', () => {
  it('names the members of a pattern that miss the body', () => {
    const text = block(
      [60, 40, 8],
      '  mount:\n    kind: hole\n    face: top\n    at: { x: 50, y: center }\n    pattern: { line: { x: 30, count: 3 } }\n    diameter: 5\n    depth: through\n',
    );
    const finding = onlyFinding('form/outside-body', text);
    assert.deepEqual(finding.of, ['mount[3]']);
    assert.equal(finding.severity, 'error');
  });

  it('warns of a step that leaves no shoulder', () => {
    const step = (width: number, along = 'front') =>
      block([60, 30, 15], `  lip: { kind: step, face: bottom, along: ${along}, width: ${width}, depth: 5 }\n`);
    const finding = onlyFinding('form/outside-body', step(54));
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.body_mm, 30);
    assert.equal(onlyFinding('form/outside-body', step(30)).facts.width_mm, 30);
    assert.deepEqual(findingsOf('form/outside-body', step(29)), []);
    assert.deepEqual(findingsOf('form/outside-body', step(54, 'left')), []);
    // A flat along the whole of a round bar.
    const shaft = `${ALUMINIUM}body: { diameter: 20, length: 40, axis: x }\nfeatures:\n  flat: { kind: step, face: top, along: right, width: 40, depth: 2 }\n`;
    assert.deepEqual(findingsOf('form/outside-body', shaft), []);
  });

  it('knows a round body’s corners are air', () => {
    const text = `${ALUMINIUM}body: { diameter: 40, length: 20, axis: z }\nfeatures:\n${hole('corner', 'x: 2.5, y: 2.5', 4, 5)}`;
    assert.equal(onlyFinding('form/outside-body', text).facts.inside_mm3, 0);
  });

  it('says by how much a depth is too much, and counts from the floor it starts on', () => {
    const text = block(
      [60, 40, 12],
      pocket('window', { at: 'x: center, y: center', size: [30, 20], depth: 5 }) +
        hole('deep', 'x: center, y: center', 6, 9, 'from: window'),
    );
    const finding = onlyFinding('form/outside-body', text);
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.excess_mm, 2); // 5 + 9 − 12
    assert.match(mended('form/outside-body', text), /depth: through\n {4}from: window/);
  });

  it('is content with a depth of just the body’s thickness', () => {
    const text = block([60, 40, 8], pocket('window', { at: 'x: center, y: center', size: [30, 20], depth: 'body.z' }));
    assert.deepEqual(findingsOf('form/outside-body', text), []);
  });

  it('is content with a feature that is partly in the body', () => {
    const text = block([60, 40, 8], pocket('open', { at: 'x: 0, y: center', size: [30, 20], depth: 3 }));
    assert.deepEqual(findingsOf('form/outside-body', text), []);
  });
});

describe('form/removes-nothing', () => {
  const outer = pocket('window', { at: 'x: center, y: center', size: [30, 20], depth: 6 });

  it('tells the later of two alike', () => {
    const text = block(
      [60, 40, 12],
      hole('one', 'x: 20, y: 20', 6, 'through') + hole('two', 'x: 20, y: 20', 6, 'through'),
    );
    const finding = onlyFinding('form/removes-nothing', text);
    assert.deepEqual(finding.of, ['two']);
    assert.match(finding.message, /one has already cut all of it/);
  });

  it('offers to take the feature out, not where a setup cuts it', () => {
    const inner = hole('sensor', 'x: center, y: center', 8, 5, 'bottom: flat\n    face: top');
    const text = block([60, 40, 12], outer + inner);
    assert.equal(mended('form/removes-nothing', text), block([60, 40, 12], outer));
    const used = `${text}tolerances:\n  - { position: 0.1, of: sensor }\n`;
    assert.equal(findingsOf('form/removes-nothing', used).length, 1);
    assert.throws(() => mended('form/removes-nothing', used), /no such fix/);
  });

  it('is quiet about one that starts on a floor, or reaches a hair deeper', () => {
    for (const inner of [
      hole('sensor', 'x: center, y: center', 8, 2, 'from: window'),
      hole('sensor', 'x: center, y: center', 8, 6.01, 'bottom: flat\n    face: top'),
    ]) {
      assert.deepEqual(findingsOf('form/removes-nothing', block([60, 40, 12], outer + inner)), []);
    }
  });

  it('judges a broken edge as a whole: a step may have taken one of its four', () => {
    const step = '  ledge:\n    kind: step\n    face: top\n    along: left\n    width: 8\n    depth: 4\n';
    const edges = '  edge-break:\n    kind: chamfer\n    edges: top\n    size: 0.5\n';
    assert.deepEqual(findingsOf('form/removes-nothing', block([60, 40, 12], step + edges)), []);
  });
});

describe('form/overlap', () => {
  const outer = pocket('window', { at: 'x: center, y: center', size: [30, 20], depth: 6, radius: 5 });

  it('hints at `from` for what goes on from a floor, with the depth below it', () => {
    const text = block([60, 40, 20], outer + hole('deep', 'x: center, y: center', 8, 11));
    const finding = onlyFinding('form/overlap', text);
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.floor_mm, 6);
    const after = mended('form/overlap', text);
    assert.match(after, /depth: 5\n {4}from: window/);
    assert.deepEqual(findingsOf('form/overlap', after), []);
  });

  it('finds two blind recesses that meet, and says by how much', () => {
    const text = block(
      [60, 40, 20],
      outer.replace('depth: 6', 'depth: 12') +
        pocket('cable', { at: 'x: 20, y: center', size: [16, 12], depth: 10, face: 'bottom', radius: 5 }),
    );
    const finding = onlyFinding('form/overlap', text);
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.meet_mm, 2); // 12 + 10 − 20
    assert.equal(findingsOf('form/overlap', mended('form/overlap', text)).length, 0);
  });

  /** What people draw every day and mean. */
  const everyday: Readonly<Record<string, string>> = {
    'a hole started on the floor': outer + hole('deep', 'x: center, y: center', 8, 'through', 'from: window'),
    'a seat from above and its clearance from below':
      hole('seat', 'x: center, y: center', 20, 7, 'bottom: flat\n    face: top') +
      hole('clearance', 'x: center, y: center', 12, 'through', 'face: bottom'),
    'a step over the end of a pocket':
      pocket('window', { at: 'x: 8, y: center', size: [16, 20], depth: 6, radius: 5 }) +
      '  ledge:\n    kind: step\n    face: top\n    along: left\n    width: 4\n    depth: 4\n',
    'two steps that meet in a corner':
      '  one:\n    kind: step\n    face: top\n    along: left\n    width: 8\n    depth: 4\n' +
      '  two:\n    kind: step\n    face: top\n    along: front\n    width: 8\n    depth: 6\n',
    'a side hole into a pocket': `${outer}${hole('cable', 'x: center, z: 17', 3, 15, 'face: front')}`,
    'a broken rim': `${outer}  rim:\n    kind: chamfer\n    edges: { rim: window }\n    size: 0.5\n`,
    'a name on the floor':
      '  ledge:\n    kind: step\n    face: top\n    along: left\n    width: 30\n    depth: 2\n' +
      '  mark:\n    kind: engraving\n    face: top\n    at: { x: 20, y: 20 }\n    text: A\n    height: 4\n    depth: 0.3\n    stroke: 0.5\n',
    'a through opening beside another': `${pocket('one', { at: 'x: 15, y: center', size: [16, 16], depth: 'through', radius: 5 })}${pocket('two', { at: 'x: 40, y: center', size: [16, 16], depth: 'through', radius: 5 })}`,
  };
  for (const [what, features] of Object.entries(everyday)) {
    it(`is quiet about ${what}`, () => assert.deepEqual(findingsOf('form/overlap', block([60, 40, 20], features)), []));
  }

  it('is a hint for two recesses that make one', () => {
    const text = block(
      [60, 40, 20],
      pocket('long', { at: 'x: 30, y: 20', size: [40, 12], depth: 5, radius: 5 }) +
        pocket('tall', { at: 'x: 30, y: 20', size: [12, 30], depth: 5, radius: 5 }),
    );
    const finding = onlyFinding('form/overlap', text);
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.shared_mm3, 720); // 12 × 12 × 5
  });
});

describe('form/in-pieces', () => {
  const slot = (to: number) =>
    `  split:\n    kind: slot\n    face: top\n    ends: [{ x: 40, y: -10 }, { x: 40, y: ${to} }]\n    width: 8\n    depth: through\n`;

  it('counts the pieces and names the cut that severs', () => {
    const text = block([80, 30, 8], slot(45) + hole('mount', 'x: 10, y: 10', 5, 'through'));
    const finding = onlyFinding('form/in-pieces', text);
    assert.equal(finding.facts.pieces, 2);
    assert.deepEqual(finding.of, ['split']);
  });

  it('names both of two that sever only together', () => {
    const half = (name: string, face: string) =>
      `  ${name}:\n    kind: slot\n    face: ${face}\n    ends: [{ x: 40, y: -10 }, { x: 40, y: 45 }]\n    width: 8\n    depth: 5\n`;
    const finding = onlyFinding('form/in-pieces', block([80, 30, 8], half('above', 'top') + half('below', 'bottom')));
    assert.deepEqual(finding.of, ['above', 'below']);
  });

  it('is content with a bridge', () => {
    checkMarked(block([80, 30, 8], slot(18)), { topics: ['form'] });
  });

  it('says when nothing is left', () => {
    const text = block(
      [40, 30, 8],
      '  all:\n    kind: step\n    face: top\n    along: left\n    width: 40\n    depth: through\n',
    );
    const finding = onlyFinding('form/in-pieces', text);
    assert.equal(finding.facts.pieces, 0);
    assert.match(finding.message, /Nothing is left/);
  });
});

describe('form/self-crossing', () => {
  const path = (corners: string) =>
    block([60, 40, 8], `  window:\n    kind: pocket\n    face: top\n    path:\n${corners}    depth: through\n`);

  it('says where, by hand: the diagonals of a rectangle cross in its middle', () => {
    const text = path(
      '      - { x: 10, y: 10 }\n      - { x: 50, y: 30 }\n      - { x: 50, y: 10 }\n      - { x: 10, y: 30 }\n',
    );
    const finding = onlyFinding('form/self-crossing', text);
    assert.equal(finding.facts.x_mm, 30);
    assert.equal(finding.facts.y_mm, 20);
  });

  it('knows arcs: a bulge that runs over the opposite side', () => {
    const text = path(
      '      - { x: 10, y: 10, arc: { x: 30, y: 32 } }\n      - { x: 50, y: 10 }\n      - { x: 50, y: 30 }\n      - { x: 10, y: 30 }\n',
    );
    assert.equal(findingsOf('form/self-crossing', text).length, 1);
    assert.deepEqual(findingsOf('form/self-crossing', text.replace('y: 32', 'y: 20')), []);
  });

  it('is content with a slot that bends', () => {
    const text = block(
      [60, 40, 8],
      '  track:\n    kind: slot\n    face: top\n    path:\n      - { x: 10, y: 10 }\n      - { x: 40, y: 10, round: 8 }\n      - { x: 40, y: 30 }\n    width: 6\n    depth: 3\n',
    );
    assert.deepEqual(findingsOf('form/self-crossing', text), []);
  });
});
