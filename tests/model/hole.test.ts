/** Holes: diameters with their tolerances, threads, counterbores and countersinks; numbers from the tables named beside them. */
import assert from 'node:assert/strict';
import { boreSize } from '../../server/src/process/bore-size';
import { block, feature, marked, partOf } from './read';

const AT = 'face: top, at: { x: 30, y: 20 }';

describe('a hole', () => {
  it('has the diameter and fit it is given', () => {
    const f = feature('hole', `${AT}, diameter: 22 H7, depth: 7, bottom: flat`);
    assert.equal(f.diameter.mm, 22);
    assert.equal(f.diameter.text, '22 H7');
    assert.equal(f.bottom, 'flat');
    assert.equal(f.diameterGiven, true);
    // ISO 286-1: IT7 over 18 to 30 mm is 21 µm; H begins at 0.
    const { fit, upperMm, lowerMm, text } = f.diameter.tolerance!;
    assert.deepEqual(
      { fit, upperMm, lowerMm, text },
      { fit: { letter: 'H', grade: 7 }, upperMm: 0.021, lowerMm: 0, text: 'H7' },
    );
  });

  it('keeps limits as they are written', () => {
    const limits = (text: string) => {
      const { tolerance } = feature('hole', `${AT}, diameter: ${text}, depth: 7`).diameter;
      return [tolerance?.lowerMm, tolerance?.upperMm];
    };
    assert.deepEqual(limits('8 ±0.05'), [-0.05, 0.05]);
    assert.deepEqual(limits('8 +0.1/-0'), [0, 0.1]);
    assert.deepEqual(limits('8 +0.1/+0.05'), [0.05, 0.1]);
    assert.deepEqual(limits('8'), [undefined, undefined]);
    // A class that has no limits at this size: ISO 286-2 begins t over 24 mm.
    assert.deepEqual(limits('8 T7'), [undefined, undefined]);
  });

  it('ends in the cone of a 118° drill unless told', () => {
    const plain = feature('hole', `${AT}, diameter: 5, depth: 7`);
    assert.equal(plain.bottom, 'cone');
    assert.equal(plain.point.deg, 118);
    assert.ok(plain.point.from);
    const told = feature('hole', `${AT}, diameter: 5, depth: 7, point: 135 deg`);
    assert.equal(told.point.deg, 135);
    assert.equal(told.point.from, undefined);
  });
});

describe('a thread', () => {
  it('brings its tap drill', () => {
    // ISO 2306 / common drill tables: M5 4.2, M8 6.8, M8×1 7.0; 10-24 UNC No. 25 (0.1495 in), 1/4-20 UNC No. 7 (0.201 in).
    for (const [thread, mm] of [
      ['M5', 4.2],
      ['M8', 6.8],
      ['M8x1', 7],
      ['10-24 UNC', 3.7973],
      ['1/4-20 UNC', 5.1054],
    ] as const) {
      const f = feature('hole', `${AT}, thread: ${thread}, depth: 14, thread-depth: 10`);
      assert.equal(f.diameter.mm, mm, thread);
      assert.equal(f.diameterGiven, false);
      assert.match(f.diameter.from!, /^tap drill of /);
      assert.equal(f.thread?.designation, thread);
      assert.equal(f.threadDepth?.mm, 10);
    }
  });

  it('keeps a diameter of its own', () => {
    const f = feature('hole', `${AT}, thread: M5, diameter: 4.3, depth: 14`);
    assert.equal(f.diameter.mm, 4.3);
    assert.equal(f.diameterGiven, true);
  });

  it('goes all through, or as deep as a plug tap can, where nothing is said', () => {
    const through = feature('hole', `${AT}, thread: M5, depth: through`);
    assert.equal(through.threadDepth?.mm, 16);
    // M5 × 0.8, 14 deep: four pitches short of the bottom is 14 − 3.2 = 10.8.
    const blind = feature('hole', `${AT}, thread: M5, depth: 14`);
    assert.equal(blind.threadDepth?.mm, 10.8);
    assert.match(blind.threadDepth!.from!, /plug tap/);
    // 3 deep leaves nothing: then the depth itself, for the rules to judge.
    assert.equal(feature('hole', `${AT}, thread: M5, depth: 3`).threadDepth?.mm, 3);
    assert.equal(feature('hole', `${AT}, diameter: 5, depth: 3`).threadDepth, undefined);
  });

  it('that no table knows is told, with the nearest', () => {
    const problems = marked(
      block(`
        a: { kind: hole, ${AT}, thread: «M5.3», depth: 12 }
        b: { kind: hole, ${AT}, thread: «bolt», depth: 12 }
        c: { kind: hole, ${AT}, thread: «M7.5», diameter: 6, depth: 12 }
        d: { kind: hole, ${AT}, diameter: 6, depth: 12, thread-depth: «3» }
      `),
    );
    assert.deepEqual(
      problems.map((p) => p.rule),
      ['thread/unknown', 'thread/unknown', 'thread/unknown', 'form/schema'],
    );
    assert.equal(problems[0]!.fixes?.[0]?.edits[0]?.newText, 'M5');
    assert.equal(problems[1]!.fixes, undefined);
  });

  it('that no table knows leaves a hole with its own diameter', () => {
    const part = partOf(block(`c: { kind: hole, ${AT}, thread: M7.5, diameter: 6, depth: 12 }`));
    assert.equal(part.features.length, 1);
    assert.equal(part.broken.size, 0);
  });
});

describe('a counterbore', () => {
  it('by its own sizes', () => {
    const f = feature('hole', `${AT}, diameter: 5.5, depth: through, counterbore: { diameter: 10, depth: 5.5 }`);
    assert.equal(f.counterbore?.diameter.mm, 10);
    assert.equal(f.counterbore?.depth.mm, 5.5);
    assert.equal(f.counterbore?.screw, undefined);
  });

  it('by its screw', () => {
    // DIN 974-1, series 1: M5 10 mm wide; the head of ISO 4762 is 5 high, and 0.4 more.
    const f = feature('hole', `${AT}, diameter: 5.5, depth: through, counterbore: M5`);
    assert.equal(f.counterbore?.diameter.mm, 10);
    assert.equal(f.counterbore?.depth.mm, 5.4);
    assert.equal(f.counterbore?.screw, 'M5');
    assert.match(f.counterbore!.diameter.from!, /M5 cap screw/);
  });

  it('must be wider than its hole, and of a screw there is', () => {
    const problems = marked(
      block(`
        a: { kind: hole, ${AT}, diameter: 10, depth: 12, counterbore: { diameter: «9», depth: 3 } }
        b: { kind: hole, ${AT}, diameter: 12, depth: 12, counterbore: «M5» }
        c: { kind: hole, ${AT}, diameter: 5, depth: 12, counterbore: «M99» }
        d: { kind: hole, ${AT}, diameter: 5, depth: 12, counterbore: «10» }
        e: { kind: hole, ${AT}, diameter: 5, depth: 12, countersink: { «daimeter»: 10 } }
        f: { kind: hole, ${AT}, diameter: 5, depth: 12, countersink: { diameter: 10, angle: «180» } }
      `),
    );
    assert.match(problems[0]!.message, /counterbore \(9\) is not wider than the hole \(10\)/);
    assert.match(problems[1]!.message, /counterbore \(10\) is not wider than the hole \(12\)/);
    assert.match(problems[3]!.message, /which number is which.*`counterbore: M5`/);
    assert.equal(problems[4]!.fixes?.[0]?.edits[0]?.newText, 'diameter');
  });
});

describe('a clearance hole', () => {
  const cleared = (fields: string) => {
    const f = feature('hole', `${AT}, ${fields}, depth: through`);
    return [f.diameter.mm, f.clearance?.screw, f.clearance?.fit] as const;
  };

  // ISO 273: M5 5.3, 5.5, 5.8. ASME B18.2.8: 1/4 17/64, 9/32, 19/64; #10 loose drill B, 0.238 in.
  it('by its screw, with a fit where one is meant', () => {
    assert.deepEqual(cleared('clearance: M5'), [5.5, 'M5', 'medium']);
    for (const word of ['close', 'fine', 'CLOSE'])
      assert.deepEqual(cleared(`clearance: M5 ${word}`), [5.3, 'M5', 'fine']);
    for (const word of ['normal', 'medium']) assert.deepEqual(cleared(`clearance: M5 ${word}`), [5.5, 'M5', 'medium']);
    for (const word of ['loose', 'coarse']) assert.deepEqual(cleared(`clearance: M5 ${word}`), [5.8, 'M5', 'coarse']);
    assert.deepEqual(cleared('clearance: 1/4'), [7.1437, '1/4', 'medium']);
    assert.deepEqual(cleared('clearance: 1/4 close'), [6.7469, '1/4', 'fine']);
    assert.deepEqual(cleared('clearance: 10-24 UNC'), [5.6134, '#10', 'medium']);
    assert.deepEqual(cleared('clearance: "#10 loose"'), [6.0452, '#10', 'coarse']);
    assert.deepEqual(cleared('clearance: M8x1'), [9, 'M8', 'medium']);
  });

  it('by the screw whose head a recess takes', () => {
    assert.deepEqual(cleared('counterbore: M5'), [5.5, 'M5', 'medium']);
    assert.deepEqual(cleared('countersink: M6'), [6.6, 'M6', 'medium']);
    assert.deepEqual(cleared('counterbore: M5, clearance: M5 loose'), [5.8, 'M5', 'coarse']);
    const tapped = feature('hole', `${AT}, counterbore: M5, thread: M5, depth: through`);
    assert.deepEqual([tapped.diameter.mm, tapped.clearance], [4.2, undefined]);
    const given = feature('hole', `${AT}, counterbore: M5, diameter: 6, depth: through`);
    assert.deepEqual([given.diameter.mm, given.clearance], [6, undefined]);
    assert.match(feature('hole', `${AT}, counterbore: M5, depth: 9`).diameter.from!, /ISO 273 medium/);
  });

  it('says what it does not understand, and where', () => {
    const problems = marked(
      block(`
        a: { kind: hole, ${AT}, clearance: «M5 clos», depth: through }
        b: { kind: hole, ${AT}, clearance: «M55», depth: through }
        c: { kind: hole, ${AT}, clearance: «M5», thread: M5, depth: through }
        d: { kind: hole, ${AT}, clearance: «M5», diameter: 5, depth: through }
        e: { kind: hole, ${AT}, counterbore: «{ diameter: 9, depth: 3 }», depth: through }
        «f»: { kind: hole, ${AT}, depth: through }
        g: { kind: hole, ${AT}, clearance: «banana», depth: through }
      `),
    );
    const found = problems.map((p) => p.message);
    assert.match(found[0]!, /no fit `clos`\. Did you mean `close`/);
    assert.equal(problems[0]!.fixes?.[0]?.edits[0]?.newText, 'M5 close');
    assert.match(found[1]!, /`M55`.*`M5`/);
    assert.match(found[2]!, /tapped, or it lets the screw through/);
    assert.match(found[3]!, /both give the hole/);
    assert.match(found[4]!, /`counterbore: M5`/);
    assert.match(found[5]!, /needs `diameter`, `thread`, `clearance`/);
    assert.match(found[6]!, /Write it like `M5`/);
  });

  // ISO 273 gives the medium series H13: 5.5 +0.18 / 0.
  it('may be wider by its field of ISO 273, not narrower', () => {
    const hole = feature('hole', `${AT}, clearance: M5, depth: through`);
    const part = partOf(block(''));
    assert.deepEqual(boreSize(hole, part, 0.1), { nominalMm: 5.5, fromMm: 5.5, toMm: 5.68 });
    const inch = feature('hole', `${AT}, clearance: 1/4, depth: through`);
    assert.ok(boreSize(inch, part, 0.1).fromMm < 7.1);
  });
});

describe('a countersink', () => {
  it('by its own sizes, 90° unless told', () => {
    const f = feature('hole', `${AT}, diameter: 5.5, depth: through, countersink: { diameter: 10 }`);
    assert.deepEqual([f.countersink?.diameter.mm, f.countersink?.angle.deg], [10, 90]);
    const g = feature('hole', `${AT}, diameter: 5.5, depth: through, countersink: { diameter: 10, angle: 82 }`);
    assert.equal(g.countersink?.angle.deg, 82);
  });

  it('by its screw', () => {
    // ISO 10642, theoretical sharp diameter: M5 11.2; inch flat heads are 82° (ASME B18.3).
    const f = feature('hole', `${AT}, diameter: 5.5, depth: through, countersink: M5`);
    assert.deepEqual([f.countersink?.diameter.mm, f.countersink?.angle.deg, f.countersink?.screw], [11.2, 90, 'M5']);
    const g = feature('hole', `${AT}, diameter: 6.6, depth: through, countersink: 1/4`);
    assert.equal(g.countersink?.angle.deg, 82);
  });
});

describe('what every feature may say', () => {
  it('finish, note, tilt', () => {
    const f = feature('hole', `${AT}, diameter: 5, depth: 7, finish: 1.6, note: deburr, tilt: { about: y, angle: 10 }`);
    assert.equal(f.finish?.raUm, 1.6);
    assert.equal(f.note, 'deburr');
    assert.deepEqual([f.tilt?.about, f.tilt?.angle.deg], ['y', 10]);
  });

  it('a lean about its own axis is none', () => {
    const [problem] = marked(block(`a: { kind: hole, ${AT}, diameter: 5, depth: 7, tilt: { about: «z», angle: 10 } }`));
    assert.match(problem!.message, /only spins it/);
  });

  it('knows where it stands', () => {
    const part = partOf(block(`a: { kind: hole, ${AT}, diameter: 5, depth: 7 }`));
    const f = part.features[0]!;
    assert.equal(f.block, 'features/a');
    assert.equal(f.nameSpan.to - f.nameSpan.from, 1);
  });
});
