/** wall/thin against distances worked out by hand, and its fixes. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart, checkShop, fixesFor } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { ACETAL, block, hole, pocket } from '../parts';
import { findingsOf, fixed, mended, onlyFinding } from '../tester';

const pair = (gap: number, depth = 5) =>
  pocket('one', { at: 'x: 18, y: center', size: [20, 20], depth }) +
  pocket('two', { at: `x: ${38 + gap}, y: center`, size: [20, 20], depth });

describe('wall/thin', () => {
  it('measures what is left between two pockets, exactly', () => {
    const finding = onlyFinding('wall/thin', block([70, 40, 12], pair(0.7)));
    assert.equal(finding.facts.thickness_mm, 0.7);
    assert.equal(finding.facts.missing_mm, 0.1);
    assert.equal(finding.severity, 'warning');
    assert.equal(finding.at?.length, 2);
  });

  it('is an error at half the limit, and nothing at the limit', () => {
    assert.equal(onlyFinding('wall/thin', block([70, 40, 12], pair(0.4))).severity, 'error');
    assert.deepEqual(findingsOf('wall/thin', block([70, 40, 12], pair(0.8))), []);
  });

  it('leaves a wall to wall/slender that asks for more thickness still, unless that is accepted', () => {
    const wall = (gap: number, depth: number, tail = '') => block([70, 40, 16], pair(gap, depth), undefined, tail);
    const rules = (text: string) =>
      checkPart(text, builtinShop())
        .findings.filter((f) => f.rule.startsWith('wall/'))
        .map((f) => `${f.severity} ${f.rule}`);
    // 0.7 × 10: 14.3 times its thickness, 1.25 wanted.
    assert.deepEqual(rules(wall(0.7, 10)), ['warning wall/slender']);
    // 0.4 × 10: 25 times; both are errors, and one is said.
    assert.deepEqual(rules(wall(0.4, 10)), ['error wall/slender']);
    // 0.4 × 5: 12.5 times is a warning only, and 0.625 would cure it: the thinness is the graver thing.
    assert.deepEqual(rules(wall(0.4, 5)).sort(), ['error wall/thin', 'warning wall/slender']);
    const accept = 'accept:\n  - { rule: wall/slender, because: shimmed while it is cut }\n';
    assert.deepEqual(rules(wall(0.7, 10, accept)), ['warning wall/thin']);
  });

  it('between round holes is the distance of their centres less both radii', () => {
    // 3-4-5: centres 10 apart; 10 − 4.7 − 4.7 = 0.6
    const text = block(
      [60, 40, 8],
      hole('a', 'x: 20, y: 15', 9.4, 'through') + hole('b', 'x: 26, y: 23', 9.4, 'through'),
    );
    assert.equal(onlyFinding('wall/thin', text).facts.thickness_mm, 0.6);
  });

  it('sees a drill’s cone: a point 0.3 D deep below the stated depth', () => {
    // 118°: cone = D / (2 tan 59°) = 6 / 3.3286 = 1.8026 mm (geometry); 20 − 17.5 − 1.803 = 0.697 is left.
    const text = block([40, 40, 20], hole('blind', 'x: center, y: center', 6, 17.5));
    const finding = onlyFinding('wall/thin', text);
    assert.ok(Math.abs(Number(finding.facts.thickness_mm) - (20 - 17.5 - 3 / Math.tan((59 * Math.PI) / 180))) < 1e-3);
    assert.match(finding.message, /between hole blind and the bottom face/);
    const flat = text.replace('depth: 17.5', 'depth: 17.5\n    bottom: flat');
    assert.deepEqual(findingsOf('wall/thin', flat), []);
  });

  it('only warns at the tip of a drill’s cone, however little is left there', () => {
    // Two points that meet in the middle: 30 − 2 × (14 + 3.3 / (2 tan 59°)) = 0.017 mm.
    const post =
      'part: post\nmaterial: aluminium-6061-t6\nbody: { diameter: 10, length: 30, axis: z }\nfeatures:\n' +
      '  up: { kind: hole, face: top, at: { x: center, y: center }, diameter: 3.3, depth: 14 }\n' +
      '  down: { kind: hole, face: bottom, at: { x: center, y: center }, diameter: 3.3, depth: 14 }\n';
    const finding = onlyFinding('wall/thin', post);
    assert.equal(finding.facts.thickness_mm, 0.017);
    assert.equal(finding.severity, 'warning');
  });

  it('draws a pattern in from the faces, and does not push it from one to the other', () => {
    // Rim of the counterbore to the face: 4 − 6.5 / 2 = 0.75 on both sides.
    const lid = block(
      [90, 60, 6],
      '  screws: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 82, count: 2 } }, diameter: 3.4, depth: through, counterbore: { diameter: 6.5, depth: 3.4 } }\n',
    );
    const checked = checkPart(lid, builtinShop());
    const found = checked.findings.filter((f) => f.rule === 'wall/thin');
    assert.deepEqual(
      found.map((f) => f.facts.thickness_mm),
      [0.75, 0.75],
    );
    const titles = fixesFor(checked, found[0]!).map((f) => f.title);
    assert.ok(titles.includes('Make screws’s pitch along x 81.9 mm'), titles.join(' | '));
    assert.ok(!titles.some((t) => /^Move/.test(t)), titles.join(' | '));
    assert.deepEqual(findingsOf('wall/thin', lid.replace('x: 82', 'x: 81.9')), []);
  });

  describe('in the round side of a bar', () => {
    const bar = (diameter: number, at: string, features: string) =>
      `part: bar\nmaterial: aluminium-6061-t6\nbody: { diameter: ${diameter}, length: 60, axis: x }\nfeatures:\n  f: { face: top, at: { x: 30, y: ${at} }, ${features} }\n`;

    it('a blunt lip beside a cut is no wall', () => {
      // 10 wide in a bar of 30: at its rim the round is 15 − √(15² − 5²) = 0.858 down; 1 deep leaves a lip of 0.142.
      const seat = bar(
        30,
        'center',
        'kind: hole, diameter: 5.5, depth: through, counterbore: { diameter: 10, depth: 1 }',
      );
      assert.deepEqual(findingsOf('wall/thin', seat), []);
      // 24 wide: the lip is acos(12 / 15) = 36.9° sharp and 1 mm high, whatever the cut is deep.
      const flat = bar(30, 'center', 'kind: pocket, size: { x: 30, y: 24 }, corner-radius: 4, depth: 7');
      assert.deepEqual(findingsOf('wall/thin', flat), []);
      assert.deepEqual(findingsOf('wall/slender', flat), []);
    });

    it('a sharp one is, and as high as it stands, not as the bar is thick', () => {
      // 28 wide and 11 deep: from the floor's edge (14, 4) to the round 15 − √(14² + 4²) = 0.44; √(15² − 14²) − 4 = 1.385 high.
      const deep = bar(30, 'center', 'kind: pocket, size: { x: 30, y: 28 }, corner-radius: 4, depth: 11');
      assert.equal(onlyFinding('wall/thin', deep).facts.thickness_mm, 0.44);
      assert.deepEqual(findingsOf('wall/slender', deep), []);
    });

    it('a floor under a deep cut still is one', () => {
      // 29.5 deep in 30, 4 wide: 0.5 at the middle, less towards its sides: √(15² − 2²) − 14.5 = 0.366.
      const through = bar(30, 'center', 'kind: pocket, size: { x: 20, y: 4 }, corner-radius: 1.5, depth: 29.5');
      const finding = onlyFinding('wall/thin', through);
      assert.ok(Math.abs(Number(finding.facts.thickness_mm) - (15 - Math.hypot(2, 14.5))) < 2e-3);
    });
  });

  it('takes the wall of plastics from the plastics’ limit, and both from the shop', () => {
    const finding = onlyFinding('wall/thin', block([70, 40, 12], pair(1.2), ACETAL));
    assert.equal(finding.facts.limit_mm, 1.5);
    assert.deepEqual(findingsOf('wall/thin', block([70, 40, 12], pair(1.2))), []);
    const { shop } = checkShop('shop: ours\nlimits:\n  wall/thin: { metal: 1.3, plastic: 1 }\n');
    assert.equal(onlyFinding('wall/thin', block([70, 40, 12], pair(1.2)), shop).facts.limit_mm, 1.3);
    assert.deepEqual(findingsOf('wall/thin', block([70, 40, 12], pair(1.2), ACETAL), shop), []);
  });

  it('points at the narrowest text that would cure it, and at the other side', () => {
    checkMarked(
      `part: p
units: mm
material: aluminium-6061-t6
body: { x: 70, y: 40, z: 10 }
features:
  one:
    kind: pocket
    face: top
    at: { x: 18, y: center }
    size: { x: 20, y: 20 } # ! wall/thin
    corner-radius: 4
    depth: 5
  shaft:
    kind: hole
    face: top
    at: { x: 34.5, y: center }
    diameter: 12 H7
    depth: through
  cover:
    kind: pocket
    face: top
    at: { x: 55, y: center }
    size: { x: 20, y: 20 }
    corner-radius: 4
    depth: 9.5 # ! wall/thin
`,
      { topics: ['wall'] },
    );
  });

  it('tells a pattern once, and how often it happens', () => {
    const text = block(
      [100, 40, 8],
      '  row:\n    kind: pocket\n    face: top\n    at: { x: center, y: center }\n    pattern: { line: { x: 14.5, count: 5 } }\n    diameter: 14\n    depth: 4\n',
    );
    const finding = onlyFinding('wall/thin', text);
    assert.equal(finding.facts.thickness_mm, 0.5);
    assert.equal(finding.facts.more, 3);
    assert.match(mended('wall/thin', text, /pitch/), /line: \{ x: 14\.8, count: 5 \}/);
  });

  it('mends in the author’s words: a distance from `right` stays one', () => {
    const text = block(
      [70, 40, 12],
      pocket('one', { at: 'x: 18, y: center', size: [20, 20], depth: 5 }) +
        pocket('two', { at: 'right: 31.6, y: center', size: [20, 20], depth: 5 }),
    );
    assert.match(mended('wall/thin', text, /^Move two/), /at: \{ right: 31\.2, y: center \}/);
    assert.match(mended('wall/thin', text, /^Move one/), /at: \{ x: 17\.6, y: center \}/);
  });

  it('keeps the far side of a pocket where it is', () => {
    const after = mended('wall/thin', block([70, 40, 12], pair(0.4)), /two 19\.6 mm wide, its other side/);
    assert.match(after, /two:[\s\S]*at: \{ x: 38\.6, y: center \}\n {4}size: \{ x: 19\.6, y: 20 \}/);
  });

  it('keeps a tolerance and a unit', () => {
    const text = block(
      [70, 40, 10],
      pocket('well', { at: 'x: center, y: center', size: [20, 20], depth: '9.5 mm +0.1/-0' }),
    );
    assert.match(mended('wall/thin', text, /deep$/), /depth: 9\.2 mm \+0\.1\/-0\n/);
  });

  it('offers no fix that breaks something else', () => {
    // No room on either side: moving away from one wall makes the other.
    const three = [15, 35.4, 55.8]
      .map((x, i) => pocket(`p${i}`, { at: `x: ${x}, y: center`, size: [20, 20], depth: 5 }))
      .join('');
    const checked = checkPart(block([70.8, 40, 12], three), builtinShop());
    const errors = checked.findings.filter((f) => f.severity === 'error').length;
    for (const finding of checked.findings.filter((f) => f.rule === 'wall/thin')) {
      for (const fix of fixesFor(checked, finding)) {
        const after = checkPart(fixed(checked, fix), builtinShop());
        assert.ok(after.findings.filter((f) => f.severity === 'error').length < errors, fix.title);
      }
    }
  });

  it('is quiet about what is no wall', () => {
    const cases = [
      // A chamfered rim beside its own pocket, letters beside each other, a counterbore on its bore.
      `${pocket('w', { at: 'x: 30, y: 20', size: [20, 20], depth: 4 })}  rim:\n    kind: chamfer\n    edges: { rim: w }\n    size: 0.5\n`,
      '  mark:\n    kind: engraving\n    face: top\n    at: { x: 20, y: 20 }\n    text: B28\n    height: 5\n    depth: 0.3\n    stroke: 0.5\n',
      hole('screw', 'x: 20, y: 20', 5.5, 'through', 'counterbore: { diameter: 10, depth: 5.4 }\n    face: top'),
    ];
    for (const features of cases)
      assert.deepEqual(findingsOf('wall/thin', block([60, 40, 10], features)), [], features);
  });
});

describe('walls under a slope', () => {
  const bar = (edge: string, diameter: number, more = '') =>
    block(
      [30, 40, 20],
      `  edge: { ${edge}, edges: [[top, front]] }
  duct: { kind: hole, face: left, at: { y: 6, z: 14 }, diameter: ${diameter}, depth: through }
${more}`,
    );
  const between = (text: string) =>
    findingsOf('wall/thin', text).filter((f) => f.of.includes('edge') && f.of.includes('duct'));

  it('stand between a hole and a chamfer: (6 + 6 − 4) / √2 − 5 = 0.657 mm', () => {
    const [found] = between(bar('kind: chamfer, size: 4', 10));
    assert.equal(found?.facts.thickness_mm, 0.657);
    assert.equal(found?.severity, 'warning');
    assert.deepEqual(between(bar('kind: chamfer, size: 3.5', 10)), []);
  });

  it('or none, where the hole runs out through the chamfer and through neither face', () => {
    // (6 + 6 − 4) / √2 = 5.657 < 5.7.
    const [found] = between(bar('kind: chamfer, size: 4', 11.4));
    assert.equal(found?.severity, 'error');
    assert.match(found!.message, /runs out through the slope/);
    // What is cut from a face beside the edge only crosses it.
    const slot = '  slot: { kind: slot, face: top, ends: [{ x: 15, y: -5 }, { x: 15, y: 30 }], width: 6, depth: 3 }\n';
    assert.deepEqual(
      findingsOf('wall/thin', bar('kind: chamfer, size: 4', 4, slot)).filter(
        (f) => f.of.includes('slot') && f.of.includes('edge'),
      ),
      [],
    );
  });

  it('and a round: R − r less what their middles are apart', () => {
    // A round of 6 about (6, 6), a hole of 5 about (5.6, 5.6): 1 − 0.4 √2.
    const [found] = between(bar('kind: edge-round, radius: 6', 10).replace('y: 6, z: 14', 'y: 5.6, z: 14.4'));
    assert.ok(
      Math.abs(Number(found?.facts.thickness_mm) - (1 - 0.4 * Math.SQRT2)) < 1e-3,
      `${found?.facts.thickness_mm}`,
    );
  });

  it('are none beside a rim: a pocket behind a chamfered edge has the wall that it has', () => {
    const text = (chamfer: string) =>
      block(
        [40, 40, 20],
        `${chamfer}  well: { kind: pocket, face: top, at: { x: center, y: 18.2 }, size: { x: 24, y: 30 }, corner-radius: 5, depth: 10 }\n`,
      );
    const walls = (t: string) => findingsOf('wall/thin', t).map((f) => f.of.join());
    assert.deepEqual(walls(text('  edge: { kind: chamfer, edges: [[top, front]], size: 2.5 }\n')), walls(text('')));
    // And broken edges count nowhere.
    assert.deepEqual(between(bar('kind: chamfer, size: 1', 11.2)), []);
  });
});
