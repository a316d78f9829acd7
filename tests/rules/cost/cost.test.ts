/** cost/flat-part: what a flat cutting process could do. */
import assert from 'node:assert/strict';
import { block, hole, pocket } from '../parts';
import { findingsOf, onlyFinding } from '../tester';

const opening = pocket('window', { at: 'x: center, y: center', size: [30, 20], depth: 'through', radius: 5 });

describe('cost/flat-part', () => {
  it('counts what must be finished afterwards', () => {
    const text = block(
      [100, 60, 6],
      `${opening}${hole('dowel', 'x: 10, y: 10', '6 H7', 'through')}${hole('mount', 'x: 90, y: 10', 5.5, 'through')}`,
    );
    const finding = onlyFinding('cost/flat-part', text);
    assert.equal(finding.severity, 'hint');
    assert.deepEqual(finding.facts, { features: 3, thickness_mm: 6, limit_mm: 12, finish: 1 });
    assert.match(finding.message, /`dowel` would be finished afterwards/);
  });

  const not: Readonly<Record<string, string>> = {
    'only holes': block([100, 60, 6], hole('mount', 'x: 90, y: 10', 5.5, 'through')),
    'a thick block': block([100, 60, 20], opening),
    'a blind pocket': block([100, 60, 6], opening + pocket('well', { at: 'x: 12, y: 12', size: [12, 12], depth: 3 })),
    'a side hole': block([100, 60, 6], opening + hole('side', 'x: 10, z: 3', 2.5, 8, 'face: front')),
    'a feature that is not understood': block(
      [100, 60, 6],
      opening + opening.replace('window', 'other').replace('depth', 'dept'),
    ),
  };
  for (const [what, text] of Object.entries(not)) {
    it(`is quiet about ${what}`, () => assert.deepEqual(findingsOf('cost/flat-part', text), []));
  }
});
