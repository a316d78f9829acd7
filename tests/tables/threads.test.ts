import assert from 'node:assert/strict';
import fc from 'fast-check';
import { minorLimits } from '../../server/src/tables/thread-limits';
import { findThread, nearbyThreads, otherFamily, usualBeside } from '../../server/src/tables/thread-names';
import { THREADS, threadPercent } from '../../server/src/tables/threads';

describe('reference: threads by what a drawing says', () => {
  const same: Readonly<Record<string, readonly string[]>> = {
    M5: ['M5', 'm5', ' M5 ', 'M 5', 'M5x0.8', 'M5×0.8', 'M5 x 0,8', 'M5-6H', 'M5x0.8 - 6H', 'M5 6H'],
    M8: ['M8', 'M8x1.25'],
    M8x1: ['M8x1', 'm8×1', 'M8*1', 'M8x1.0', 'M8x1-6H'],
    'M2.5': ['M2.5', 'M2,5'],
    '10-24 UNC': ['10-24', '#10-24', '10-24 UNC', '#10-24 UNC', '10-24UNC', 'No. 10-24', 'no.10-24 UNC-2B', '10 – 24'],
    '10-32 UNF': ['10-32', '#10-32 unf'],
    '1/4-20 UNC': ['1/4-20', '1/4-20 UNC', '1/4"-20', '1/4 in-20', '1/4-20 UNC-2B'],
    '1 1/8-7 UNC': ['1 1/8-7', '1-1/8-7 UNC', '1 1/8"-7UNC'],
    '1-8 UNC': ['1-8', '1"-8 UNC'],
    '1-64 UNC': ['1-64', '#1-64 UNC'],
    '1 1/2-8 UN': ['1 1/2-8', '1 1/2-8 UN'],
    M64: ['M64', 'M64x6'],
    'M10-LH': ['M10-LH', 'M10 LH', 'M10x1.5-LH', 'M10-6H-LH', 'm10lh'],
    '1/4-20 UNC-LH': ['1/4-20 UNC-LH', '1/4-20-LH', '1/4-20 UNC-2B-LH'],
    'G1/4': ['G1/4', 'g 1/4', 'BSPP 1/4', 'G1/4"'],
    'G1 1/4': ['G1 1/4', 'G 1-1/4'],
    'Rp1/8': ['Rp1/8', 'RP 1/8'],
    'Rc1/2': ['Rc1/2', 'BSPT 1/2'],
    '1/8-27 NPT': ['1/8-27 NPT', '1/8 NPT', 'NPT 1/8', '1/8"-27NPT'],
    '1-11.5 NPT': ['1-11.5 NPT', '1-11 1/2 NPT', '1 NPT'],
    Tr20x4: ['Tr20x4', 'TR 20 × 4', 'Tr20x4-7H'],
    'Tr20x4-LH': ['Tr20x4-LH', 'Tr20x4LH', 'Tr 20x4 LH'],
    'EG M5': ['EG M5', 'EGM5', 'EG M5x0.8'],
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
      'G1/5',
      'M-5',
      'M5x',
      'Tr8x2',
      'Tr20',
      'R1/4',
      '1/8-18 NPT',
      'EG M7',
      'G1/4 A',
      '1/4-32 UN',
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
      M13: 'M12',
      M63: 'M64',
      'G1/3': 'G3/8',
      Tr20x3: 'Tr20x2',
      Tr21x4: 'Tr20x4',
      M11x2: 'M11',
      '1/8-28 NPT': '1/8-27 NPT',
      'M10x2-LH': 'M10-LH',
      '1 1/8-9 UNC': '1 1/8-8 UN',
      'M5x0.7': 'M5',
      'M8x1.1': 'M8x1',
      M5b: 'M5',
      MM6: 'M6',
      '10-25 UNC': '10-24 UNC',
      '10-24 UNF': '10-24 UNC',
      '1/4-22': '1/4-20 UNC',
    };
    for (const [text, designation] of Object.entries(wanted)) {
      assert.equal(nearbyThreads(text)[0]?.designation, designation, text);
    }
    assert.deepEqual(nearbyThreads('banana'), []);
    assert.deepEqual(nearbyThreads(''), []);
  });

  it('never throws, and what it suggests it also finds', () => {
    const writing = fc.oneof(fc.string(), fc.stringMatching(/^[Mm#]?\d{1,3}([x×-]\d{1,3}(\.\d)?)?( ?UN[CF])?$/));
    fc.assert(
      fc.property(writing, (text) => {
        findThread(text);
        return nearbyThreads(text).every((near) => findThread(near.designation) === near);
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
    for (const other of ['R1/2', 'BSP 1/4', 'NPSM 1/8', '1/8-27 NPTF', 'Tr40x14P7', 'BSW 1/4', 'W1/4']) {
      assert.deepEqual(nearbyThreads(other), [], other);
      assert.match(otherFamily(other) ?? '', /thread|`Rp`/, other);
    }
    for (const known of [
      'M5',
      'M8x1',
      '10-24',
      '#10-24 UNC',
      '1/4-20 UNC',
      'm18',
      'N5',
      '5M',
      '1/4-21',
      'G1/8',
      'Tr8x1.5',
    ])
      assert.equal(otherFamily(known), undefined, known);
    const near = (text: string) => nearbyThreads(text).map((t) => t.designation);
    assert.deepEqual(near('M18.5'), ['M18', 'M20']);
    assert.deepEqual(near('M13'), ['M12', 'M14']);
    assert.deepEqual(near('M5.5'), ['M5', 'M6']);
    assert.deepEqual(near('M13x1.5'), ['M12x1.5', 'M14x1.5']);
    assert.deepEqual(near('G1/7'), ['G1/8', 'G1/4']);
    assert.deepEqual(near('Rp5/8'), ['Rp1/2', 'Rp3/4']);
    assert.deepEqual(near('1/4-21 UNC'), ['1/4-20 UNC']);
    assert.deepEqual(near('EG M7'), ['EG M6', 'EG M8']);
  });

  it('a size of the third choice is a thread, and the usual ones beside it are known', () => {
    const m11 = findThread('M11')!;
    assert.equal(m11.rare, true);
    assert.deepEqual(
      usualBeside(m11).map((t) => t.designation),
      ['M10', 'M12'],
    );
  });

  it('a pitch too fine for class 6H has the limits of 5H', () => {
    // ISO 965-1: D1 of M2×0.25 from 2 − 1.082532 · 0.25 = 1.729, TD1 of grade 5 56 µm (from memory).
    const { minMm, maxMm, tolerance } = minorLimits(findThread('M2x0.25')!);
    assert.equal(tolerance, '5H');
    assert.deepEqual([minMm.toFixed(3), maxMm.toFixed(3)], ['1.729', '1.785']);
    assert.equal(minorLimits(findThread('M2.5x0.35')!).tolerance, '6H');
  });
});
