import assert from 'node:assert/strict';
import fc from 'fast-check';
import {
  findThread,
  minorLimits,
  nearestThread,
  otherFamily,
  THREADS,
  threadPercent,
} from '../../server/src/tables/threads';

describe('reference: threads by what a drawing says', () => {
  const same: Readonly<Record<string, readonly string[]>> = {
    M5: ['M5', 'm5', ' M5 ', 'M 5', 'M5x0.8', 'M5×0.8', 'M5 x 0,8', 'M5-6H', 'M5x0.8 - 6H', 'M5 6H'],
    M8: ['M8', 'M8x1.25'],
    M8x1: ['M8x1', 'm8×1', 'M8*1', 'M8x1.0', 'M8x1-6H'],
    'M2.5': ['M2.5', 'M2,5'],
    '10-24 UNC': ['10-24', '#10-24', '10-24 UNC', '#10-24 UNC', '10-24UNC', 'No. 10-24', 'no.10-24 UNC-2B', '10 – 24'],
    '10-32 UNF': ['10-32', '#10-32 unf'],
    '1/4-20 UNC': ['1/4-20', '1/4-20 UNC', '1/4"-20', '1/4 in-20', '1/4-20 UNC-2B'],
  };
  for (const [designation, spellings] of Object.entries(same)) {
    it(`${designation}: ${spellings.length} spellings`, () => {
      for (const text of spellings) assert.equal(findThread(text)?.designation, designation, text);
    });
  }

  it('says no where the tables have none', () => {
    for (const text of [
      '',
      'M',
      'M5.5',
      'M5x1',
      'M8x0.8',
      '10-24 UNF',
      '10-25',
      '5',
      '1/4',
      'G1/4',
      'M-5',
      'M5x',
      'Tr8x1.5',
    ]) {
      assert.equal(findThread(text), undefined, text);
    }
  });

  it('finds each of its own designations, and each is one that YAML reads whole', () => {
    const names = new Set<string>();
    for (const thread of THREADS) {
      assert.equal(findThread(thread.designation), thread, thread.designation);
      assert.equal(thread.designation.includes('#'), false, 'a # would begin a comment');
      assert.ok(thread.source.length > 10, `${thread.designation} has a source`);
      names.add(thread.designation);
    }
    assert.equal(names.size, THREADS.length);
  });

  it('suggests the nearest one', () => {
    const wanted = {
      M9: 'M8',
      'M5x0.7': 'M5',
      'M8x1.1': 'M8x1',
      M5b: 'M5',
      MM6: 'M6',
      '10-25 UNC': '10-24 UNC',
      '10-24 UNF': '10-24 UNC',
      '1/4-22': '1/4-20 UNC',
    };
    for (const [text, designation] of Object.entries(wanted)) {
      assert.equal(nearestThread(text)?.designation, designation, text);
    }
    assert.equal(nearestThread('banana'), undefined);
    assert.equal(nearestThread(''), undefined);
  });

  it('never throws, and what it suggests it also finds', () => {
    const writing = fc.oneof(fc.string(), fc.stringMatching(/^[Mm#]?\d{1,3}([x×-]\d{1,3}(\.\d)?)?( ?UN[CF])?$/));
    fc.assert(
      fc.property(writing, (text) => {
        findThread(text);
        const near = nearestThread(text);
        return near === undefined || findThread(near.designation) === near;
      }),
      { seed: 5, numRuns: 400 },
    );
  });

  it('percent of thread: none at the major diameter, falling as the drill grows', () => {
    for (const thread of THREADS) {
      assert.ok(Math.abs(threadPercent(thread, thread.diameterMm)) < 1e-9);
      assert.ok(threadPercent(thread, thread.tapDrillMm) > threadPercent(thread, thread.tapDrillMm + 0.1));
    }
  });

  it('minor diameter limits name their class', () => {
    assert.equal(minorLimits(findThread('M5')!).tolerance, '6H');
    assert.equal(minorLimits(findThread('1/4-20')!).tolerance, '2B');
  });

  it('a near miss is answered within its family, and what belongs to another is said', () => {
    for (const pipe of [
      'G1/8',
      'G 1/4',
      'Rp1/8',
      'R1/2',
      'Rc 3/8',
      '1/8-27 NPT',
      'NPT 1/8',
      'BSP 1/4',
      'Tr20x4',
      'BSW 1/4',
      'W1/4',
    ]) {
      assert.equal(nearestThread(pipe), undefined, pipe);
      assert.match(otherFamily(pipe) ?? '', /thread \(/, pipe);
    }
    for (const known of ['M5', 'M8x1', '10-24', '#10-24 UNC', '1/4-20 UNC', 'm18', 'N5', '5M', '1/4-21'])
      assert.equal(otherFamily(known), undefined, known);
    assert.equal(nearestThread('M18.5')?.designation, 'M18');
    assert.equal(nearestThread('1/4-21 UNC')?.designation, '1/4-20 UNC');
  });

  it('a pitch too fine for class 6H has the limits of 5H', () => {
    // ISO 965-1: D1 of M2×0.25 from 2 − 1.082532 · 0.25 = 1.729, TD1 of grade 5 56 µm (from memory).
    const { minMm, maxMm, tolerance } = minorLimits(findThread('M2x0.25')!);
    assert.equal(tolerance, '5H');
    assert.deepEqual([minMm.toFixed(3), maxMm.toFixed(3)], ['1.729', '1.785']);
    assert.equal(minorLimits(findThread('M2.5x0.35')!).tolerance, '6H');
  });
});
