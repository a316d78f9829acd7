/** Holes: how deep, what size, what floor, what head. */
import assert from 'node:assert/strict';
import { block, hole } from '../parts';
import { drill, endMill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const DRILLS = shopWith([3, 4, 5, 6, 8].map((d) => drill(d, 14 * d)).join(''));
const one = (size: readonly [number, number, number], diameter: string | number, depth: string | number, more = '') =>
  block(size, hole('h', 'x: center, y: center', diameter, depth, more));

describe('hole/depth-ratio', () => {
  const RULE = 'hole/depth-ratio';

  // Bands: 5 D for a common drill, 10 D with pecking: common practice, no source.
  it('is silent to 5 D, hints to 10 D, warns beyond', () => {
    assert.deepEqual(findingsOf(RULE, one([30, 30, 60], 4, 20), DRILLS), []);
    assert.equal(onlyFinding(RULE, one([30, 30, 60], 4, 20.1), DRILLS).severity, 'hint');
    assert.equal(onlyFinding(RULE, one([30, 30, 60], 4, 40), DRILLS).severity, 'hint');
    assert.equal(onlyFinding(RULE, one([30, 30, 60], 4, 40.1), DRILLS).severity, 'warning');
  });

  it('gives ratio, depth and diameter', () => {
    const { facts, message } = onlyFinding(RULE, one([30, 30, 60], 4, 30), DRILLS);
    assert.equal(facts.ratio, 7.5);
    assert.equal(facts.depth_mm, 30);
    assert.equal(facts.diameter_mm, 4);
    assert.match(message, /rule of thumb/);
  });

  it('counts only the material that is drilled: what a pocket took first is not', () => {
    const text = (from: string) =>
      block(
        [50, 50, 50],
        '  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 30 }, corner-radius: 5, depth: 30 }\n' +
          hole('h', 'x: center, y: center', 4, 'through', from),
      );
    // 20 mm are left under the pocket, whether or not the hole says that it starts there.
    assert.deepEqual(findingsOf(RULE, text('from: well\n    face: top'), DRILLS), []);
    assert.deepEqual(findingsOf(RULE, text('face: top'), DRILLS), []);
  });

  it('counts both cheeks of a fork, not the gap', () => {
    const fork = (gap: number) =>
      block(
        [60, 30, 30],
        `  gap: { kind: slot, face: top, ends: [{ x: center, y: -10 }, { x: center, y: 40 }], width: ${gap}, depth: 24 }\n` +
          '  pin: { kind: hole, face: left, at: { y: center, z: 20 }, diameter: 6, depth: through }\n',
      );
    assert.deepEqual(findingsOf(RULE, fork(32), DRILLS), []); // 28 drilled, 4.7 D
    assert.equal(onlyFinding(RULE, fork(24), DRILLS).facts.depth_mm, 36);
  });

  it('halves a through hole that set-ups drill from both sides', () => {
    const through = one([30, 30, 40], 5, 'through');
    assert.equal(onlyFinding(RULE, through, DRILLS).facts.ratio, 8);
    const both = `${through}setups:\n  a: { up: top, cuts: [h] }\n  b: { up: bottom, cuts: [h] }\n`;
    assert.deepEqual(findingsOf(RULE, both, DRILLS), []); // 20 from each: 4 D
  });

  it('a counterbore shortens what is drilled', () => {
    const text = one([30, 30, 40], 5, 'through', 'counterbore: { diameter: 10, depth: 16 }');
    assert.deepEqual(findingsOf(RULE, text, DRILLS), []); // 24 left: 4.8 D
  });

  it('mends by a larger drill only where nothing must fit', () => {
    assert.match(mended(RULE, one([30, 30, 60], 4, 28), /in diameter/, DRILLS), /diameter: 5\.6|diameter: 6/);
    assert.throws(() => mended(RULE, one([30, 30, 60], '4 H7', 28), /in diameter/, DRILLS), /no such fix/);
  });

  it('mends by less depth, and by a counterbore', () => {
    assert.match(mended(RULE, one([30, 30, 60], 4, 28), /deep/, DRILLS), /depth: 20\n/);
    assert.match(
      mended(
        RULE,
        one([30, 30, 60], 4, 28),
        /Counterbore it/,
        shopWith([3, 4, 5, 6, 8].map((d) => drill(d, 14 * d)).join('') + endMill('em-6', 6, 20)),
      ),
      /counterbore: \{ diameter: 6\.4, depth: 8 }/,
    );
  });

  it('says nothing of bores that are milled or bored out', () => {
    const milled = shopWith(drill(4, 43) + endMill('em-16-long', 16, 170));
    assert.deepEqual(findingsOf(RULE, one([60, 60, 160], 25, 'through'), milled), []);
  });

  it('takes its limits from the shop', () => {
    const strict = shopWith(drill(4, 60), '  hole/depth-ratio: { jobber: 3 }');
    assert.equal(onlyFinding(RULE, one([30, 30, 60], 4, 16), strict).facts.jobber_ratio, 3);
  });
});

describe('hole/odd-diameter', () => {
  const RULE = 'hole/odd-diameter';
  const plain = (diameter: string) => one([30, 30, 20], diameter, 8);

  it('knows drills on hand, within the tolerance', () => {
    assert.deepEqual(findingsOf(RULE, plain('4'), DRILLS), []);
    assert.deepEqual(findingsOf(RULE, plain('4.08'), DRILLS), []); // ± 0.1 where nothing is said
    assert.deepEqual(findingsOf(RULE, plain('4.08 ±0.1'), DRILLS), []);
    assert.equal(findingsOf(RULE, plain('4.08 ±0.05'), DRILLS).length, 1);
  });

  it('hints where a standard drill would do that is only not on hand', () => {
    const finding = onlyFinding(RULE, plain('4.5 ±0.05'), DRILLS);
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.standard_mm, 4.5);
  });

  it('is an error where no drill there is would do', () => {
    const finding = onlyFinding(RULE, plain('4.44 ±0.02'), DRILLS);
    assert.equal(finding.severity, 'error');
    assert.equal(finding.facts.nearest_mm, 4);
    assert.equal(finding.facts.off_mm, 0.44);
    assert.equal(finding.facts.within_mm, 0.02);
  });

  it('takes the general tolerance of the part: ISO 2768-m allows ± 0.1 at 4 mm, -f ± 0.05', () => {
    const text = (cls: string) => plain('4.08').replace('body:', `tolerance: ISO 2768-${cls}\nbody:`);
    assert.deepEqual(findingsOf(RULE, text('m'), DRILLS), []);
    assert.equal(findingsOf(RULE, text('f'), DRILLS).length, 1);
  });

  it('reamers, boring heads and end mills make their sizes', () => {
    const reamer = shopWith('rm-6: { kind: reamer, diameter: 6, fit: H7, reach: 40, material: hss }\n');
    assert.deepEqual(findingsOf(RULE, plain('6 H7'), reamer), []);
    assert.equal(findingsOf(RULE, plain('6.5 H7'), reamer).length, 1);
    const head = shopWith('bh: { kind: boring-head, diameter: 10, largest: 60, reach: 60, material: carbide }\n');
    assert.deepEqual(findingsOf(RULE, plain('22 H7'), head), []);
    assert.equal(findingsOf(RULE, plain('9 H7'), head).length, 1);
    const mill = shopWith(endMill('em-6', 6, 20));
    assert.deepEqual(findingsOf(RULE, plain('22.37'), mill), []);
    assert.equal(findingsOf(RULE, plain('6.3 ±0.05'), mill).length, 1); // too near to be circled
  });

  it('asks for a tap drill within what a thread bears', () => {
    const tapped = one([30, 30, 20], 4, 12).replace('diameter: 4', 'thread: M5');
    assert.deepEqual(findingsOf(RULE, tapped, shopWith(drill(4.3, 47))), []); // 67 %
    const none = onlyFinding(RULE, tapped, shopWith(drill(5, 47)));
    assert.match(none.message, /tap hole of M5\) has a diameter of 4\.2 mm/);
  });

  it('mends to a drill on hand, keeping what is beside it', () => {
    assert.match(
      mended(RULE, plain('4.44 ±0.03 # loose pin'), /Make it 4 mm/, DRILLS),
      /diameter: 4 ±0\.03 # loose pin/,
    );
  });

  it('reads inch parts in inch drills', () => {
    const inch =
      'part: p\nunits: in\nbody: { x: 1, y: 1, z: 0.5 }\nfeatures:\n  h: { kind: hole, face: top, at: { x: center, y: center }, diameter: 0.2031 ±0.001, depth: through }\n';
    // 13/64 in is a standard drill: 0.203125 in.
    const finding = onlyFinding(RULE, inch, DRILLS);
    assert.equal(finding.severity, 'hint');
    assert.match(finding.message, /0\.203\d? in/);
  });
});

describe('hole/too-small', () => {
  it('warns under the limit, and says how fast the spindle would have to turn', () => {
    const finding = onlyFinding('hole/too-small', one([20, 20, 4], 0.9, 2));
    assert.equal(finding.facts.limit_mm, 1);
    // 1000 · 30 / (π · 0.9) = 10 610 rpm
    assert.equal(finding.facts.rpm, 10600);
    assert.match(finding.message, /10600 rpm; the fastest spindle has 5000/);
    assert.deepEqual(findingsOf('hole/too-small', one([20, 20, 4], 1, 2)), []);
  });

  it('mends to the smallest drill that is large enough', () => {
    assert.match(mended('hole/too-small', one([20, 20, 8], 0.9, 2), undefined, DRILLS), /diameter: 3\n/);
  });
});

describe('hole/flat-bottom', () => {
  const RULE = 'hole/flat-bottom';
  const MILLS = shopWith(drill(8, 75) + drill(4, 43) + endMill('em-4', 4, 12) + endMill('em-6', 6, 20));

  it('wants its tool as long as any of its floor stays, the middle or not', () => {
    const half = (y: number) => `part: half
material: aluminium-6061-t6
body: { x: 46, y: 40, z: 27 }
features:
  pocket: { kind: pocket, face: front, at: { x: 23, z: 13 }, size: { x: 14, z: 20 }, corner-radius: 3.5, depth: 10 }
  hole: { kind: hole, face: bottom, at: { x: 23, y: ${y} }, diameter: 4, depth: 13, bottom: flat }
`;
    const found = (y: number) => findingsOf(RULE, half(y), MILLS).length;
    assert.equal(found(20), 1);
    // The wall of the pocket goes through its middle; then all of it is in the pocket.
    assert.equal(found(10), 1);
    assert.equal(found(6), 0);
  });

  it('wants an end mill that fits and reaches', () => {
    assert.deepEqual(findingsOf(RULE, one([30, 30, 40], 8, 20, 'bottom: flat'), MILLS), []);
    const finding = onlyFinding(RULE, one([30, 30, 40], 8, 20.5, 'bottom: flat'), MILLS);
    assert.equal(finding.severity, 'error');
    assert.equal(finding.facts.reach_mm, 20);
    assert.equal(findingsOf(RULE, one([30, 30, 40], 4, 13, 'bottom: flat'), MILLS).length, 1);
  });

  it('a flat drill does too', () => {
    const flat = shopWith('fd-8: { kind: flat-drill, diameter: 8, flute-length: 40, material: carbide }\n');
    assert.deepEqual(findingsOf(RULE, one([30, 30, 60], 8, 35, 'bottom: flat'), flat), []);
  });

  it('says nothing of through holes and of cones', () => {
    assert.deepEqual(findingsOf(RULE, one([30, 30, 40], 8, 'through', 'bottom: flat'), MILLS), []);
    assert.deepEqual(findingsOf(RULE, one([30, 30, 60], 8, 40), MILLS), []);
  });

  it('hints at a flat floor under a thread, unless a cone would break through', () => {
    const tapped = (z: number) => one([30, 30, z], 8, 12, 'bottom: flat').replace('diameter: 8', 'thread: M8');
    assert.equal(onlyFinding(RULE, tapped(20), MILLS).severity, 'hint');
    assert.deepEqual(findingsOf(RULE, tapped(14), MILLS), []);
    assert.doesNotMatch(mended(RULE, tapped(20), undefined, MILLS), /bottom/);
  });
});

describe('hole/screw-head', () => {
  const RULE = 'hole/screw-head';
  const stack = (diameter: number, more: string) => one([40, 30, 20], diameter, 'through', more);

  // ISO 4762: an M5 head is 8.5 wide and 5 high; ISO 10642: an M5 flat head 11.2 to its sharp edge, 90°.
  it('wants the head to go in', () => {
    assert.equal(onlyFinding(RULE, stack(5.5, 'counterbore: { diameter: 8.4, depth: 5.4 }')).severity, 'warning');
    assert.deepEqual(findingsOf(RULE, stack(5.5, 'counterbore: { diameter: 8.6, depth: 5.4 }')), []);
  });

  it('hints at a head that stands proud', () => {
    const finding = onlyFinding(RULE, stack(5.5, 'counterbore: { diameter: 10, depth: 4 }'));
    assert.equal(finding.severity, 'hint');
    assert.equal(finding.facts.head_mm, 5);
    assert.match(mended(RULE, stack(5.5, 'counterbore: { diameter: 10, depth: 4 }')), /counterbore: M5/);
  });

  it('knows flat heads', () => {
    assert.deepEqual(findingsOf(RULE, stack(5.5, 'countersink: { diameter: 11.2, angle: 90 }')), []);
    assert.equal(onlyFinding(RULE, stack(5.5, 'countersink: { diameter: 8, angle: 90 }')).facts.proud_mm, 1.6);
    assert.match(onlyFinding(RULE, stack(5.5, 'countersink: { diameter: 11.2, angle: 82 }')).message, /82°/);
  });

  // ASME B18.3: a 1/4 cap head is 0.375 in wide; ASME B18.2.8: its normal hole is 9/32.
  it('knows inch heads by their clearance holes', () => {
    assert.equal(onlyFinding(RULE, stack(7.14375, 'counterbore: { diameter: 9.4, depth: 7 }')).facts.screw, '1/4');
    assert.deepEqual(findingsOf(RULE, stack(7.14375, 'counterbore: { diameter: 11.2, depth: 7 }')), []);
    // 0.221 in, drill #2: a numbered size is written in quotes.
    assert.match(mended(RULE, stack(5.6134, 'counterbore: { diameter: 7.8, depth: 6 }')), /counterbore: "#10"/);
  });

  it('wants the screw that a recess names to go through', () => {
    const finding = onlyFinding(RULE, stack(4.5, 'counterbore: M5'));
    assert.deepEqual([finding.facts.screw_mm, finding.facts.usual_mm], [5, 5.5]);
    const cured = mended(RULE, stack(4.5, 'counterbore: M5'));
    assert.doesNotMatch(cured, /^ +diameter: 4.5/m);
    assert.deepEqual(findingsOf(RULE, stack(5, 'counterbore: M5')), []);
    assert.equal(onlyFinding(RULE, stack(4.7, 'countersink: "#10"')).facts.screw_mm, 4.826);
  });

  it('does not judge holes for no screw in particular', () => {
    assert.deepEqual(findingsOf(RULE, stack(5.7, 'counterbore: { diameter: 7, depth: 2 }')), []);
    assert.deepEqual(findingsOf(RULE, stack(5.5, 'counterbore: M5')), []);
  });
});
