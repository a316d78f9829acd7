/** `scribeline export` to triangles, as a person or a script meets it: the built program. */
import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { assertWatertight, read3mf, volumeOf } from '../export/mesh-reader';
import { asks } from './warm';

const PLATE = `part: plate
title: Plate & seat
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 16 H7, depth: 7, bottom: flat }
`;

describe('scribeline export to triangles', function () {
  this.timeout(60_000);
  let folder: string;
  const run = (...words: string[]) => asks(folder, words);
  before(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-triangles-'));
    writeFileSync(join(folder, 'plate.part.yaml'), PLATE);
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  it('3MF: closed, in millimetres, by name and material', () => {
    const { status, out, err } = run('export', 'plate.part.yaml', '--to', 'plate.3mf');
    assert.deepEqual([status, out], [0, 'plate.3mf\n']);
    assert.match(err, /chords within 0\.01 mm; for true cylinders write a \.step file/);
    const read = read3mf(readFileSync(join(folder, 'plate.3mf')));
    assertWatertight(read);
    assert.deepEqual(
      [read.unit, read.name, read.material, read.metadata.get('Title')],
      ['millimeter', 'plate', 'aluminium-6061-t6', 'Plate & seat'],
    );
    // chords inscribed in the bore leave at most their sagitta on its wall, π d h
    const over = volumeOf(read) - (60 * 40 * 16 - Math.PI * 64 * 7);
    assert.ok(over >= 0 && over < 0.01 * Math.PI * 16 * 7, `${over} mm³ over`);
  });

  it('STL: binary, as many triangles as it says, and a word that it has no unit', () => {
    const { status, out, err } = run('export', 'plate.part.yaml', '--to', 'stl');
    assert.deepEqual([status, out], [0, 'plate.stl\n']);
    assert.match(err, /carries no unit: lengths are mm/);
    const bytes = readFileSync(join(folder, 'plate.stl'));
    assert.match(bytes.toString('latin1', 0, 80), /^plate, mm, Scribeline /);
    assert.equal(bytes.length, 84 + 50 * bytes.readUInt32LE(80));
  });
});
