/** Words of the trade that the format has no field for: each is answered with what to write. */
import assert from 'node:assert/strict';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';

const HEAD = 'part: p\nbody: { x: 60, y: 40, z: 16 }\n';
const said = (rest: string) => resolvePart(readText(HEAD + rest)).problems.map((p) => p.message);
const hole = (more: string) =>
  `features:\n  h: { kind: hole, face: top, at: { x: 9, y: 9 }, diameter: 5, depth: 5, ${more} }\n`;

describe('what the format has no word for', () => {
  const ANSWERS: readonly (readonly [text: string, says: RegExp])[] = [
    [hole('edge-round: 0.5'), /edges: \[\{ rim: NAME \}\]/],
    [hole('draft: 3'), /Walls are upright/],
    [
      'features:\n  w: { kind: pocket, face: top, at: { x: 30, y: 20 }, diameter: 20, depth: 5, taper: 3 }\n',
      /here it is `draft: 3`/,
    ],
    ['surface: Ra 1.6\n', /Write `finish` at a feature/],
    ['heat-treatment: T6\n', /Write `treatment` here/],
    ['stock: { form: tube }\n', /A tube needs its `wall`/],
    ['stock: { form: angle }\n', /An angle needs its `wall`/],
    ['stock: { form: i-beam }\n', /`form: flat-bar` with its outer sizes/],
    ['stock: { form: forging }\n', /`form: casting` with `allowance`/],
    [`${hole('note: x')}tolerances:\n  - { roundness: 0.05, of: h }\n`, /Did you mean `circularity`/],
  ];
  for (const [text, says] of ANSWERS)
    it(says.source, () => {
      const problems = said(text);
      assert.equal(problems.length, 1, problems.join(' | '));
      assert.match(problems[0]!, says);
    });

  it('reads every characteristic of ISO 1101 that is in daily use', () => {
    const words = ['straightness', 'circularity', 'cylindricity', 'flatness', 'total-runout', 'runout'];
    const list = words.map((word) => `  - { ${word}: 0.05, of: h, datums: [A] }\n`).join('');
    assert.deepEqual(said(`${hole('note: x')}datums: { A: bottom }\ntolerances:\n${list}`), []);
  });

  it('knows a datum whose targets it refuses', () => {
    const datums = 'datums:\n  A: { face: bottom, targets: [{ x: 5, y: 5 }] }\n';
    const problems = said(`${hole('note: x')}${datums}tolerances:\n  - { position: 0.1, of: h, datums: [A] }\n`);
    assert.equal(problems.length, 1, problems.join(' | '));
    assert.match(problems[0]!, /targets in `notes`/);
  });
});
