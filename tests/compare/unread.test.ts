/** A revision that cannot be read, wholly or in places: that is told, with its line, and what stands there is not called a change. */
import assert from 'node:assert/strict';
import { jobChange } from '../../server/src/compare/job';
import { jobLines } from '../../server/src/compare/job-lines';
import { compareJson } from '../../server/src/compare/json';
import { changeLines } from '../../server/src/compare/lines';
import { changeMarkdown } from '../../server/src/compare/markdown';
import { partChange } from '../../server/src/compare/part';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkJob, checkPart } from '../../server/src/rules/check';

const SHOP = builtinShop();
const WHOLE = `part: plate
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 10 }
features:
  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 6, depth: 5 }
  b: { kind: hole, face: top, at: { x: 30, y: 10 }, diameter: 8, depth: 5 }
`;
const compared = (before: string, after: string) => partChange(checkPart(before, SHOP), checkPart(after, SHOP));
const told = (before: string, after: string) => changeLines({ path: 'p', change: compared(before, after) });

describe('a part that cannot be read', () => {
  for (const [what, text, line] of [
    ['empty', '', 1],
    ['no part at all', 'part: [\n  - }{ broken\n', 1],
    ['a list', '- a\n- b\n', 1],
  ] as const) {
    it(`in the old text, ${what}: nothing is called new, and the line is told`, () => {
      const lines = told(text, WHOLE);
      assert.equal(lines[0], 'p: the old text cannot be read: nothing of it is compared');
      assert.match(lines[1]!, new RegExp(`^  not compared: line ${line} of the old text cannot be read: `));
      assert.ok(
        lines.slice(1).every((l) => l.startsWith('  not compared: ')),
        lines.join('\n'),
      );
    });
    it(`in the new text, ${what}: nothing is called gone`, () => {
      assert.equal(told(WHOLE, text)[0], 'p: the new text cannot be read: nothing of it is compared');
    });
  }

  it('in neither: said so; the same text twice is the same', () => {
    assert.equal(told('- a\n', '- b\n')[0], 'p: neither text can be read: nothing of it is compared');
    assert.equal(told('- a\n', '- a\n')[0], 'p: the same, letter by letter');
  });

  it('in one feature: that one is not compared, the others are', () => {
    const broken = WHOLE.replace('diameter: 6, depth: 5', 'diametr: 6').replace('diameter: 8', 'diameter: 9');
    for (const [before, after, side, line] of [
      [broken, WHOLE, 'old', /b: diameter 9 mm → 8 mm/],
      [WHOLE, broken, 'new', /b: diameter 8 mm → 9 mm/],
    ] as const) {
      const change = compared(before, after);
      assert.deepEqual(
        change.features.map((f) => [f.name, f.kinds]),
        [['b', ['resized']]],
      );
      const lines = changeLines({ path: 'p', change });
      assert.match(lines.join('\n'), new RegExp(`not compared: line 6 of the ${side} text cannot be read`));
      assert.match(lines.join('\n'), line);
    }
  });

  it('in one field of the part: it is not called new', () => {
    const change = compared(
      WHOLE.replace('z: 10', 'z: ten'),
      WHOLE.replace('material: aluminium-6061-t6', 'material: steel-1018'),
    );
    assert.deepEqual(
      change.part.map((d) => d.what),
      ['material'],
    );
    assert.equal(change.same, false);
  });

  it('is told in Markdown and in JSON too', () => {
    const one = { path: 'p', change: compared('', WHOLE) };
    assert.match(changeMarkdown(one).join('\n'), /### Not compared\n\n- line 1 of the old text cannot be read/);
    const { files } = JSON.parse(compareJson([one]));
    assert.deepEqual(
      [files[0].status, files[0].unread.old.whole, files[0].unread.old.faults[0].line],
      ['changed', true, 1],
    );
    assert.deepEqual(files[0].features, []);
  });
});

describe('a job that cannot be read', () => {
  const JOB = 'job: set\nparts:\n  a: { spec: a.part.yaml }\n  b: { spec: b.part.yaml }\nmass-limit: 200 g\n';
  const side = (text: string) => {
    const { job, tree, findings } = checkJob(text);
    return { text, tree, job, findings, pieces: [] };
  };
  const lines = (before: string, after: string) => jobLines('j', jobChange(side(before), side(after)));

  it('wholly: nothing is called new', () => {
    const said = lines('job: x\nparts: [a\n', JOB);
    assert.equal(said[0], 'j: the old text cannot be read: nothing of it is compared');
    assert.ok(
      said.length > 1 && said.slice(1).every((l) => /not compared|^ {4}line \d+ of the old/.test(l)),
      said.join('\n'),
    );
  });

  it('in one entry: that one is not compared', () => {
    const said = lines(JOB.replace('b: { spec: b.part.yaml }', 'b: { spek: b.part.yaml }').replace('200', '300'), JOB);
    assert.doesNotMatch(said.join('\n'), /new {2}part b/);
    assert.match(said.join('\n'), /line 4 of the old text cannot be read/);
    assert.match(said.join('\n'), /mass limit 300 g → 200 g/);
  });
});
