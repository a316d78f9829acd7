/** `scribeline record` as it is run: what was out, what is held and taken here from ten values on, what is not known. */
import assert from 'node:assert/strict';
import { spreadOf, toleranceUnitMm } from '../../server/src/report/record/spread';
import { itGrade } from '../../server/src/tables/fits';
import { ownFolder } from './folder';

const PART = `part: block
material: aluminium-6061-t6
body: { x: 60, y: 40 ±0.1, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 H7, depth: 7 ±0.2, bottom: flat }
`;

describe('scribeline record', function () {
  this.timeout(120_000);
  const { run, write, read } = ownFolder('record');
  const record = (lines: readonly string[], more = '') =>
    write(
      'block.record.yaml',
      `record: block.part.yaml\nmeasured:\n${lines.map((l) => `  - { ${l} }\n`).join('')}${more}`,
    );
  beforeEach(() => write('block.part.yaml', PART));

  it('says which sizes were out, by how much; a body’s own sizes too; nothing is written', () => {
    record([
      'piece: 1, of: seat, size: diameter, value: 22.012',
      'piece: 2, of: seat, size: diameter, value: 22.03',
      'piece: 2, size: y, value: 39.85',
    ]);
    const { status, out, err } = run('record', 'block.record.yaml');
    assert.deepEqual([status, err], [1, '']);
    assert.match(out, /^block\.record\.yaml: 3 sizes measured, 2 out of limits$/m);
    // ISO 286-2: 22 H7 is 22.000 to 22.021.
    assert.match(out, /piece 2: seat diameter 22\.03 mm, 0\.009 mm over 22 mm … 22\.021 mm/);
    assert.match(out, /piece 2: body y 39\.85 mm, 0\.05 mm under 39\.9 mm … 40\.1 mm/);
    assert.equal(read('block.part.yaml'), PART);
    // the check of a folder looks at its records too
    const checked = JSON.parse(run('check', '.', '--format', 'json').out);
    const found = checked.files.flatMap((f: { findings: { rule: string }[] }) => f.findings.map((x) => x.rule));
    assert.equal(found.filter((r: string) => r === 'tol/measured').length, 2);
  });

  it('offers nothing from nine values, and the shop’s own figures from ten', () => {
    const values = [22.008, 22.009, 22.01, 22.011, 22.012, 22.01, 22.009, 22.011, 22.012, 22.01];
    const entry = (v: number) => `of: seat, size: diameter, value: ${v}, tool: bh-10-50`;
    const times = (n: number) =>
      `times:\n${Array.from({ length: n }, (_, i) => `  - { what: load, took: ${2 + i / 10} min }\n`).join('')}`;
    record(values.slice(1).map(entry), times(9));
    const nine = run('record', 'block.record.yaml');
    assert.equal(nine.status, 0);
    assert.match(nine.out, /boring: 9 measured.*1 more before a grade can be given/);
    assert.doesNotMatch(nine.out, /own figures/);
    record(values.map(entry), times(10));
    const ten = run('record', 'block.record.yaml').out;
    assert.match(ten, /limits: \{ tol\/process: \{ boring: \d+ \} \}/);
    assert.match(ten, /times: \{ load: \[2\.1, 2\.8\] \}/);
    const told = JSON.parse(run('record', 'block.record.yaml', '--format', 'json').out);
    assert.deepEqual([told.processes[0].process, told.processes[0].count], ['boring', 10]);
    // The grade is as wide at 22 mm as what was measured takes, and the next finer one is not.
    const { mean_i: mean, deviation_i: s, grade } = told.processes[0];
    const width = 2 * (Math.abs(mean) + 3.379 * s) * toleranceUnitMm(22);
    assert.ok(itGrade(22, grade)! >= width * 0.9 && itGrade(22, grade - 1)! < width * 1.1, `${width} and IT${grade}`);
  });

  it('what the part or the shop does not have is told where it stands', () => {
    record([
      'of: saet, size: diameter, value: 22',
      'of: seat, size: width, value: 5',
      'of: seat, size: diameter, value: 22.01, tool: none',
    ]);
    const { status, err } = run('record', 'block.record.yaml');
    assert.equal(status, 2);
    assert.match(err, /^.*block\.record\.yaml:3:5: there is no feature saet\.$/m);
    assert.match(err, /seat width is no size with limits: with a tolerance it has diameter, depth/);
    assert.match(err, /the shop has no tool none/);
    write('block.record.yaml', 'record: none.part.yaml\n');
    assert.match(run('record', 'block.record.yaml').err, /none\.part\.yaml is not there/);
    assert.equal(run('record', 'block.part.yaml').status, 2);
  });

  it('a value made by an older text is not judged by today’s limits', () => {
    record(['of: seat, size: diameter, value: 22.5, mark: 00000000']);
    const { status, out } = run('record', 'block.record.yaml');
    assert.equal(status, 0);
    assert.match(out, /1 made by an older text/);
  });
});

describe('what a process holds', () => {
  it('by hand: ten values about the middle, s of 1 i', () => {
    const spread = spreadOf([-1, 1, -1, 1, -1, 1, -1, 1, -1, 1]);
    // s = √(10 / 9); 2 · 3.379 · 1.0541 = 7.12 i: more than IT5 (7 i), less than IT6 (10 i).
    assert.ok(Math.abs(spread.deviation - Math.sqrt(10 / 9)) < 1e-12);
    assert.deepEqual([spread.mean, spread.grade], [0, 6]);
  });

  it('the tolerance unit gives the widths of ISO 286-1 within its own rounding', () => {
    // Geometric means of the ranges 18 to 30 and 30 to 50 mm; IT7 = 16 i is 21 and 25 µm in the standard.
    assert.equal(Math.round(16 * toleranceUnitMm(Math.sqrt(18 * 30)) * 1000), 21);
    assert.equal(Math.round(16 * toleranceUnitMm(Math.sqrt(30 * 50)) * 1000), 25);
  });
});
