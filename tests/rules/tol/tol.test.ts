/** What the processes hold, and classes and datums that say too little; limits after ISO 286-1, as in the tables of `tables/fits`. */
import assert from 'node:assert/strict';
import { drill, endMill, shopWith } from '../shops';
import { findingsOf, mended, onlyFinding } from '../tester';

const part = (features: string, more = '') =>
  `part: p\nunits: mm\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 40, z: 16 }\n${more}features:\n${features}`;
const hole = (diameter: string, more = 'depth: through') =>
  part(
    `  h:\n    kind: hole\n    face: top\n    at: { x: center, y: center }\n    diameter: ${diameter}\n    ${more}\n`,
  );
const slot = (width: string) =>
  part(
    `  s:\n    kind: slot\n    face: top\n    ends: [{ x: 15, y: center }, { x: 45, y: center }]\n    width: ${width}\n    depth: 6\n`,
  );
const MILLS = shopWith(endMill('em-8', 8, 20) + endMill('em-10', 10, 30));

describe('tol/process', () => {
  const RULE = 'tol/process';

  it('compares grades: ISO 286-1 has IT9 = 0.036 and IT7 = 0.015 at 10 mm', () => {
    assert.deepEqual(findingsOf(RULE, slot('10 ±0.018'), MILLS), []);
    const finding = onlyFinding(RULE, slot('10 ±0.0075'), MILLS);
    assert.equal(finding.facts.grade, 7);
    assert.equal(finding.facts.process_grade, 9);
    assert.equal(finding.facts.process_width_mm, 0.036);
    assert.equal(finding.severity, 'warning'); // two grades: care may reach it
    assert.equal(onlyFinding(RULE, slot('10 ±0.004'), MILLS).severity, 'error'); // 0.008: IT5 is 0.006, IT6 0.009
  });

  it('goes by the shop’s own setting', () => {
    const fine = shopWith(endMill('em-8', 8, 20), '  tol/process: { milling: 7 }');
    assert.deepEqual(findingsOf(RULE, slot('10 ±0.0075'), fine), []);
  });

  it('lets a boring head have what a drill cannot hold, as deep as it reaches', () => {
    const head = (reach: number) =>
      shopWith(
        `${drill(21, 80)}bh: { kind: boring-head, diameter: 12, largest: 60, reach: ${reach}, material: carbide }\n`,
      );
    assert.deepEqual(findingsOf(RULE, hole('22 H7'), head(20)), []);
    const short = shopWith(
      `${endMill('em-10', 10, 30)}bh: { kind: boring-head, diameter: 12, largest: 60, reach: 10, material: carbide }\n`,
    );
    const finding = onlyFinding(RULE, hole('22 H7'), short);
    assert.match(finding.message, /bh holds it, but reaches 10 mm of 16 mm/);
    assert.equal(finding.facts.needed_mm, 16);
  });

  it('widens a class to the grade that is held and keeps its letter, and ± as ±', () => {
    assert.match(mended(RULE, slot('10 H6 # slides'), undefined, MILLS), /width: 10 H9 # slides/);
    assert.match(mended(RULE, slot('10 ±0.004'), undefined, MILLS), /width: 10 ±0\.018\n/);
    assert.match(mended(RULE, slot('10 +0.01/-0'), undefined, MILLS), /width: 10 \+0\.036\/-0\n/);
  });

  it('leaves tapped holes and chamfers alone', () => {
    assert.deepEqual(findingsOf(RULE, hole('4.2 ±0.005', 'thread: M5\n    depth: through')), []);
  });
});

describe('tol/no-reamer', () => {
  const RULE = 'tol/no-reamer';
  const shop = (more = '') => shopWith(drill(7, 80) + drill(6, 80) + more);

  it('names a seat that is drilled: 7 H7 is 0.015 wide, IT12 0.15', () => {
    const finding = onlyFinding(RULE, hole('7 H7'), shop());
    assert.equal(finding.severity, 'error');
    assert.equal(finding.facts.grade, 7);
    assert.equal(finding.facts.process_width_mm, 0.15);
  });

  it('is content with a reamer of its class, not with one of another', () => {
    const reamer = (fit: string) => `r7: { kind: reamer, diameter: 7, fit: ${fit}, reach: 60 }\n`;
    assert.deepEqual(findingsOf(RULE, hole('7 H7'), shop(reamer('H7'))), []);
    assert.match(onlyFinding(RULE, hole('7 H7'), shop(reamer('F7'))).message, /r7 makes 7 mm F7/);
  });

  it('offers the size whose reamer is on hand', () => {
    const six = shop('r6: { kind: reamer, diameter: 6, fit: H7, reach: 60 }\n  d58: { kind: drill, diameter: 5.8 }\n');
    assert.match(mended(RULE, hole('7 H7 # pin'), /Make it 6 mm/, six), /diameter: 6 H7 # pin/);
  });
});

describe('tol/fit-unknown and tol/shaft-or-hole', () => {
  it('says so where the tables end, and offers a class that they have', () => {
    assert.match(onlyFinding('tol/fit-unknown', hole('22 T7')).message, /22 mm T7 are not known/);
    assert.deepEqual(findingsOf('tol/fit-unknown', hole('22 H7')), []);
    assert.deepEqual(findingsOf('tol/fit-unknown', mended('tol/fit-unknown', hole('22 T7'))), []);
  });

  it('inch classes of ANSI B4.1: of the hole in capitals, of the shaft in small letters', () => {
    assert.deepEqual(findingsOf('tol/fit-unknown', hole('1 in RC4')), []);
    assert.deepEqual(findingsOf('tol/shaft-or-hole', hole('1 in RC4')), []);
    assert.equal(onlyFinding('tol/shaft-or-hole', hole('1 in rc4', 'depth: 7\n    bottom: flat')).facts.turned, 'RC4');
    assert.match(onlyFinding('tol/fit-unknown', hole('1 in RC11')).message, /ANSI B4\.1 does not have RC11/);
    assert.match(mended('tol/fit-unknown', hole('1 in RC11')), /1 in RC9/);
  });

  it('a hole takes a capital letter, a boss a small one', () => {
    assert.equal(onlyFinding('tol/shaft-or-hole', hole('22 h7', 'depth: 7\n    bottom: flat')).facts.turned, 'H7');
    assert.match(mended('tol/shaft-or-hole', hole('22 h7 # bearing')), /diameter: 22 H7 # bearing/);
    const boss = (fit: string) =>
      part(
        `  b: { kind: contour, face: top, at: { x: center, y: center }, paths: [{ diameter: 20 ${fit} }], depth: 4 }\n`,
      );
    assert.equal(findingsOf('tol/shaft-or-hole', boss('g6')).length, 0);
  });
});

describe('tol/datum-missing', () => {
  const RULE = 'tol/datum-missing';
  const toleranced = (entry: string) =>
    `${hole('22 H7', 'depth: 7\n    bottom: flat')}datums: { A: bottom, B: h }\ntolerances:\n  - ${entry}\n`;

  it('asks for one where ISO 1101 needs one', () => {
    assert.equal(findingsOf(RULE, toleranced('{ perpendicularity: 0.05, of: h }')).length, 1);
    assert.equal(findingsOf(RULE, toleranced('{ position: 0.1, of: h }')).length, 1);
    assert.deepEqual(findingsOf(RULE, toleranced('{ flatness: 0.05, of: bottom }')), []);
    assert.deepEqual(findingsOf(RULE, toleranced('{ perpendicularity: 0.05, of: h, datums: [A] }')), []);
  });

  it('offers another face, never the feature itself', () => {
    const text = mended(RULE, toleranced('{ perpendicularity: 0.05, of: h } # seat'));
    assert.match(text, /of: h, datums: \[A\] \} # seat/);
  });
});

describe('tol/general', () => {
  const RULE = 'tol/general';
  const general = (cls: string, diameter = '5.5') =>
    hole(diameter).replace('body:', `tolerance: ISO 2768-${cls}\nbody:`);

  it('compares ISO 2768-1 with what a drill holds: f is ±0.05 at 5.5, a drill 0.12', () => {
    const finding = onlyFinding(RULE, general('f'));
    assert.equal(finding.facts.width_mm, 0.1);
    assert.equal(finding.facts.process_width_mm, 0.12);
    assert.deepEqual(findingsOf(RULE, general('m')), []); // ±0.1
  });

  it('keeps the geometric class when it mends', () => {
    assert.match(mended(RULE, general('fH')), /tolerance: ISO 2768-mH/);
  });
});

describe('tol/chain', () => {
  const RULE = 'tol/chain';
  const rail = (b: string, distance: string) =>
    `part: p\nunits: mm\nmaterial: aluminium-6061-t6\ntolerance: ISO 2768-m\nbody: { x: 120, y: 30, z: 12 }\nfeatures:\n  a: { kind: hole, face: top, at: { left: 20, y: center }, diameter: 6, depth: through }\n  b: { kind: hole, face: top, at: { ${b}, y: center }, diameter: 6, depth: through }\ntolerances:\n  - { distance: ${distance}, of: [a, b], axis: x }\n`;

  // ISO 2768-1 m: ±0.2 from 6 to 30 mm, ±0.3 from 30 to 120.
  it('adds the links: 0.2 from the left, 0.2 from the right, 0.3 of the body', () => {
    const finding = onlyFinding(RULE, rail('right: 20', '80 ±0.5'));
    assert.equal(finding.facts.worst_mm, 0.7);
    assert.equal(finding.facts.likely_mm, 0.412); // √(0.04 + 0.04 + 0.09)
    assert.equal(finding.facts.links, 3);
    assert.equal(finding.severity, 'hint'); // likely within, at worst not
    assert.equal(onlyFinding(RULE, rail('right: 20', '80 ±0.4')).severity, 'warning');
    assert.deepEqual(findingsOf(RULE, rail('right: 20', '80 ±0.7')), []);
  });

  it('takes tolerances that are written before the general one', () => {
    assert.deepEqual(findingsOf(RULE, rail('left: 100 ±0.02', '80 ±0.25')), []);
  });

  it('dimensions the second from the same face, at the same place', () => {
    assert.match(
      mended(RULE, rail('right: 20', '80 ±0.5')),
      /b: \{ kind: hole, face: top, at: \{ left: 100, y: center \}/,
    );
  });
});

describe('tol/finish, tol/datum-order and tol/needless', () => {
  it('a reamed hole may be finer than a drilled one', () => {
    const text = hole('10 H7', 'depth: through\n    finish: 0.8');
    const drilled = shopWith(drill(10, 80));
    assert.equal(onlyFinding('tol/finish', text, drilled).facts.finest_um, 1.6);
    assert.deepEqual(
      findingsOf('tol/finish', text, shopWith('r10: { kind: reamer, diameter: 10, fit: H7, reach: 60 }\n')),
      [],
    );
  });

  it('puts a face before a short hole, and says nothing of a long one', () => {
    const text = (depth: string) =>
      `${hole('22 H7', `depth: ${depth}\n    bottom: flat`)}  m: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 5, depth: 6 }\ndatums: { A: h, B: bottom }\ntolerances:\n  - { position: 0.2, of: m, datums: [A, B] }\n`;
    assert.match(mended('tol/datum-order', text('7')), /datums: \[B, A\]/);
    assert.deepEqual(findingsOf('tol/datum-order', text('7').replace('22 H7', '6 H7')), []);
  });

  it('goes by the name, and not where something refers to it', () => {
    const pocket = (name: string, more = '') =>
      part(
        `  ${name}: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30 ±0.03, y: 20 }, corner-radius: 5, depth: 8 }\n`,
      ) + more;
    assert.equal(findingsOf('tol/needless', pocket('lightening')).length, 1);
    assert.deepEqual(findingsOf('tol/needless', pocket('seat')), []);
    assert.deepEqual(findingsOf('tol/needless', pocket('light-left', 'datums: { A: light-left }\n')), []);
    assert.match(mended('tol/needless', pocket('lightening')), /size: \{ x: 30, y: 20 \}/);
  });
});
