/** Rules that judge the text alone: names, units, parameters, what is left over. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { ALUMINIUM, block, hole, pocket } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const WINDOW = pocket('window', { at: 'x: center, y: center', size: [30, 16], depth: 3 });

describe('form/unused-parameter', () => {
  const text = (parameters: string) =>
    `part: p\nunits: mm\nbody: { x: 60, y: 40, z: 8 }\n${parameters}features:\n${WINDOW}`;

  it('points at each parameter that nothing uses', () => {
    checkMarked(
      `part: p
units: mm
body: { x: 60, y: 40, z: 8 }
parameters:
  pitch: 36
  half: pitch / 2
  spare: 3 # ! form/unused-parameter
features:
  mount:
    kind: hole
    face: top
    at: { x: half, y: center }
    diameter: 5.5
    depth: through
`,
      { topics: ['form'] },
    );
  });

  it('takes the line out, and leaves a comment on it standing', () => {
    const after = mended('form/unused-parameter', text('parameters:\n  spare: 3 # from the old drawing\n  other: 4\n'));
    assert.match(after, /parameters:\n {2}# from the old drawing\n {2}other: 4\n/);
  });

  it('takes `parameters` out with the last one', () => {
    const after = mended('form/unused-parameter', text('parameters:\n  spare: 3\n'));
    assert.equal(after, text(''));
  });

  it('takes one out of braces with its comma', () => {
    const first = mended('form/unused-parameter', text('parameters: { spare: 3, other: 4 }\n'));
    assert.match(first, /parameters: \{ other: 4 \}/);
    const last = mended('form/unused-parameter', first);
    assert.equal(last, text(''));
  });
});

describe('form/unknown-name', () => {
  it('names of the shop’s things in set-ups are looked up; of an unknown vise nothing is judged, and that is an error', () => {
    const setup = (vise: string, more = '') =>
      `${ALUMINIUM}body: { x: 60, y: 40, z: 20 }\nfeatures:\n  tie: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 6, depth: 12 }\nsetups:\n  one: { up: top, hold: { vise: ${vise}, jaws: [back, front], grip: 10 },${more} cuts: [tie] }\n`;
    const rule = 'form/unknown-name';
    assert.deepEqual(findingsOf(rule, setup('mill-vise-100', ' machine: knee-mill,')), []);
    const mild = onlyFinding(rule, setup('mill-vize-100'));
    assert.deepEqual([mild.severity, mild.facts.nearest], ['warning', 'mill-vise-100']);
    assert.equal(onlyFinding(rule, setup('mill-vize-100'), { ...builtinShop(), builtIn: false }).severity, 'error');
    assert.match(mended(rule, setup('mill-vize-100')), /vise: mill-vise-100,/);
    assert.equal(onlyFinding(rule, setup('mill-vise-100', ' machine: lathe,')).severity, 'warning');
    assert.equal(onlyFinding(rule, setup('mill-vise-100', ' tools: { tie: dr-66 },')).severity, 'warning');
    assert.deepEqual(findingsOf(rule, setup('mill-vize-100'), { ...builtinShop(), unread: 'is not there' }), []);
  });

  it('knows the rules that may be accepted', () => {
    const text = `${block([60, 40, 8], WINDOW)}accept:\n  - { rule: wall/thn, of: window, because: x }\n`;
    const finding = onlyFinding('form/unknown-name', text);
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.facts.nearest, 'wall/thin');
    assert.match(mended('form/unknown-name', text), /rule: wall\/thin, of: window/);
  });

  it('offers no name where none is near', () => {
    const text = `${block([60, 40, 8], WINDOW)}accept:\n  - { rule: beauty/contest, because: x }\n`;
    const finding = onlyFinding('form/unknown-name', text);
    assert.equal(finding.facts.nearest, undefined);
    assert.match(finding.message, /topic\/what/);
  });

  it('does not speak of a feature that is there but not understood', () => {
    const text = block(
      [60, 40, 8],
      `${WINDOW.replace('depth', 'dept')}${hole('deep', 'x: center, y: center', 5, 'through', 'from: window')}`,
    );
    assert.equal(findingsOf('form/unknown-name', text).length, 0);
    assert.equal(findingsOf('form/schema', text).length, 1);
  });
});

describe('form/hash-comment', () => {
  const text = block(
    [60, 40, 12],
    '  mount:\n    kind: hole\n    face: top\n    at: { x: 10, y: 10 }\n    thread: #10-24 UNC\n    depth: through\n',
  );

  it('is told once, not also as a missing value', () => {
    const found = checkPart(text, builtinShop()).findings.filter((f) => f.severity === 'error');
    assert.deepEqual(
      found.map((f) => f.rule),
      ['form/hash-comment'],
    );
  });

  it('is mended by quotes', () => {
    assert.match(mended('form/hash-comment', text), /thread: "#10-24 UNC"\n/);
  });

  it('leaves true comments alone', () => {
    const fine = block([60, 40, 8], WINDOW.replace('depth: 3', 'depth: 3 # and not more')).replace(
      'features:',
      'features: # all of them',
    );
    assert.deepEqual(findingsOf('form/hash-comment', fine), []);
  });
});

describe('form/unneeded-accept', () => {
  const accepting = (entries: string) =>
    `${block([60, 40, 8], pocket('window', { at: 'x: center, y: center', size: [30, 16], depth: 7.5 }))}accept:\n${entries}`;

  it('is quiet while the finding is there, with and without `of`', () => {
    for (const entry of ['{ rule: wall/thin, of: window, because: x }', '{ rule: wall/thin, because: x }']) {
      assert.deepEqual(findingsOf('form/unneeded-accept', accepting(`  - ${entry}\n`)), []);
      assert.deepEqual(findingsOf('wall/thin', accepting(`  - ${entry}\n`)), []);
    }
  });

  it('takes one entry of several out', () => {
    const text = accepting(
      '  - { rule: wall/thin, of: window, because: only a cover }\n  - { rule: hole/depth-ratio, because: gone }\n',
    );
    const after = mended('form/unneeded-accept', text);
    assert.equal(after, accepting('  - { rule: wall/thin, of: window, because: only a cover }\n'));
  });

  it('does not accept what makes the text a part', () => {
    const text = `${block([60, 40, 8], WINDOW.replace('depth', 'dept'))}accept:\n  - { rule: form/schema, of: window, because: x }\n`;
    assert.equal(findingsOf('form/schema', text).length, 1, 'form/schema stands in spite of accept');
  });
});

describe('form/too-small-to-see', () => {
  it('reads every size of a feature, not its tolerances and not 0', () => {
    checkMarked(
      `part: p
units: mm
body: { x: 60, y: 40, z: 8 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 ±0.02 }
    corner-radius: 4
    floor-radius: 0
    depth: 0.02 # ! form/too-small-to-see
  edge-break:
    kind: chamfer
    edges: [top, bottom]
    size: 0.04 # ! form/too-small-to-see
`,
      { topics: ['form'] },
    );
  });

  it('compares in millimetres whatever the units', () => {
    const inches = (depth: string) =>
      `part: p\nunits: in\nbody: { x: 3, y: 2, z: 0.5 }\nfeatures:\n  w:\n    kind: pocket\n    face: top\n    at: { x: center, y: center }\n    size: { x: 1, y: 1 }\n    corner-radius: 0.25\n    depth: ${depth}\n`;
    assert.equal(findingsOf('form/too-small-to-see', inches('0.002')).length, 0); // 0.0508 mm
    const finding = onlyFinding('form/too-small-to-see', inches('0.0019')); // 0.04826 mm
    assert.equal(finding.facts.size_mm, 0.048);
    assert.match(finding.message, /0\.002 in|0\.0019 in/);
  });
});
