/** `scribeline export` as a person or a script meets it: the built program. */
import assert from 'node:assert/strict';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { boundaryOf, Step } from '../export/step-reader';
import { asks } from './warm';

const PLATE = `part: plate
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 16 H7
    depth: 7
    bottom: flat
`;
const VOLUME = 38400 - Math.PI * 64 * 7;

let folder: string;

const run = (...words: string[]) => asks(folder, words);
const read = (name: string) => readFileSync(join(folder, name), 'utf8');

describe('scribeline export', function () {
  this.timeout(60_000);
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-export-'));
    writeFileSync(join(folder, 'plate.part.yaml'), PLATE);
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('writes the part, says the file on standard output and nothing else, and 0', () => {
    const { status, out, err } = run('export', 'plate.part.yaml', '--to', 'plate.step');
    assert.deepEqual([status, out, err], [0, 'plate.step\n', '']);
    const boundary = boundaryOf(new Step(read('plate.step')));
    assert.deepEqual(boundary.faults, []);
    assert.ok(Math.abs(boundary.volume / VOLUME - 1) < 1e-6);
    assert.deepEqual(readdirSync(folder).sort(), ['plate.part.yaml', 'plate.step'], 'nothing half written is left');
  });

  it('replaces a file that was named, keeps one that was not', () => {
    writeFileSync(join(folder, 'plate.step'), 'mine');
    const kept = run('export', 'plate.part.yaml', '--to', 'step');
    assert.equal(kept.status, 2);
    assert.match(kept.err, /^scribeline: plate\.part\.yaml: plate\.step is already there; .*--to plate\.step\n$/);
    assert.equal(read('plate.step'), 'mine');
    assert.equal(run('export', 'plate.part.yaml', '--to', 'plate.step').status, 0);
    assert.match(read('plate.step'), /^ISO-10303-21;/);
  });

  it('writes each row of a table of variants, or the one that is named', () => {
    const sizes = `${PLATE.replace('x: 60', 'x: length')}parameters: { length: 60 }\nvariants:\n  short: { length: 40 }\n  long: { length: 80 }\n`;
    writeFileSync(join(folder, 'sizes.part.yaml'), sizes);
    const all = run('export', 'sizes.part.yaml', '--to', 'step');
    assert.deepEqual([all.status, all.out, all.err], [0, 'sizes-short.step\nsizes-long.step\n', '']);
    const volumes = ['short', 'long'].map((name) => boundaryOf(new Step(read(`sizes-${name}.step`))).volume);
    for (const [i, length] of [40, 80].entries())
      assert.ok(Math.abs(volumes[i]! / (length * 640 - Math.PI * 64 * 7) - 1) < 1e-6);
    assert.deepEqual(run('export', 'sizes.part.yaml', '--to', 'a.step', '--variant', 'long').out, 'a.step\n');
    assert.match(run('export', 'sizes.part.yaml', '--to', 'a.step').err, /it has 2 variants, .* --variant short\n$/);
    const none = run('check', 'sizes.part.yaml', '--variant', 'wide');
    assert.equal(none.status, 2);
    assert.match(none.err, /sizes\.part\.yaml has no variant `wide`\. Write one of short, long\.\n/);
  });

  it('writes several parts beside themselves', () => {
    mkdirSync(join(folder, 'parts'));
    for (const name of ['a', 'b']) writeFileSync(join(folder, `parts/${name}.part.yaml`), PLATE.replace('plate', name));
    const { status, out } = run('export', 'parts', '--to', '.step');
    assert.deepEqual([status, out], [0, `${join('parts', 'a.step')}\n${join('parts', 'b.step')}\n`]);
    const one = run('export', 'parts', '--to', 'all.step');
    assert.equal(one.status, 2);
    assert.match(one.err, /2 parts do not go into one file.*--to step/);
    assert.ok(!existsSync(join(folder, 'all.step')));
  });

  it('refuses what it cannot do with one clear line, and 2', () => {
    writeFileSync(join(folder, 'broken.part.yaml'), PLATE.replace('depth: 7', 'depth: deep'));
    const cases: readonly (readonly [string[], RegExp])[] = [
      [['plate.part.yaml', '--to', 'plate.iges'], /`plate\.iges` is no format that can be written.*\.step/],
      [['plate.part.yaml'], /export needs a part and what to make of it/],
      [['--to', 'plate.step'], /export needs a part/],
      [['plate.part.yaml', '--to', 'plate.step', '--face', 'upper'], /--face is one of left, right/],
      [['none.part.yaml', '--to', 'plate.step'], /none\.part\.yaml is not there/],
      [
        ['broken.part.yaml', '--to', 'broken.step'],
        /cannot be written: its text has an entry that could not be understood/,
      ],
      [['plate.part.yaml', '--to', 'nowhere/plate.step'], /the folder of .*plate\.step is not there/],
    ];
    for (const [words, message] of cases) {
      const { status, out, err } = run('export', ...words);
      assert.deepEqual([status, out], [2, ''], words.join(' '));
      assert.match(err, message);
      assert.ok(!err.includes('    at '), 'no stack trace');
    }
    assert.deepEqual(readdirSync(folder).sort(), ['broken.part.yaml', 'plate.part.yaml']);
  });

  it('is told of in the help', () => {
    assert.match(run('help').out, /^ {2}export PATH… --to FILE/m);
  });

  it('draws a part as PDF, as SVG and DXF where a drawing is asked for, and as outlines where it is not', () => {
    assert.deepEqual(run('export', 'plate.part.yaml', '--to', 'plate.pdf'), { status: 0, out: 'plate.pdf\n', err: '' });
    assert.match(read('plate.pdf'), /^%PDF-/);
    assert.equal(run('export', 'plate.part.yaml', '--to', 'plate.svg', '--drawing', '--language', 'de').status, 0);
    assert.match(read('plate.svg'), /Werkstoff/);
    assert.equal(run('export', 'plate.part.yaml', '--to', 'plate.dxf', '--drawing', '--paper', 'tabloid').status, 0);
    assert.match(read('plate.dxf'), /sheet-1-1/);
    assert.equal(run('export', 'plate.part.yaml', '--to', 'plate.dxf').status, 0);
    assert.doesNotMatch(read('plate.dxf'), /sheet-1-1/);
    for (const [words, said] of [
      [['--to', 'x.step', '--drawing'], /a drawing is written in\. The name ends in one of \.pdf, \.svg, \.dxf/],
      [['--to', 'x.pdf', '--face', 'top'], /--face is for an outline/],
      [['--to', 'x.pdf', '--paper', 'b5'], /--paper is one of a4, a3, letter, tabloid, not `b5`/],
    ] as const) {
      const { status, err } = run('export', 'plate.part.yaml', ...words);
      assert.equal(status, 2);
      assert.match(err, said);
    }
  });

  it('draws all parts of a job, each once, in one file; what cannot be read is said, with 2', () => {
    writeFileSync(join(folder, 'other.part.yaml'), PLATE.replace('part: plate', 'part: other'));
    writeFileSync(
      join(folder, 'all.job.yaml'),
      'job: all\nparts:\n  plate: { spec: plate.part.yaml, quantity: 7 }\n  other: { spec: other.part.yaml }\n',
    );
    assert.deepEqual(run('export', 'all.job.yaml', '--to', 'all.svg', '--drawing'), {
      status: 0,
      out: 'all.svg\n',
      err: '',
    });
    assert.equal(read('all.svg').match(/<svg /g)!.length, 3);
    assert.match(read('all.svg'), />7</);
    assert.deepEqual(run('export', '.', '--to', 'again.pdf').status, 0);
    rmSync(join(folder, 'other.part.yaml'));
    const lacking = run('export', 'all.job.yaml', '--to', 'all.svg', '--drawing');
    assert.equal(lacking.status, 2);
    assert.match(lacking.err, /other\.part\.yaml/);
  });
});
