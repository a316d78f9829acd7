/**
 * STL and 3MF written from the examples and read back by readers that know nothing of the writers: the loader of three.js
 * for STL, one of our own for 3MF, and the mesh library's own check that what it is given is a closed solid.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { stlOf, stlWriter } from '../../server/src/export/stl';
import { decimal, threemfWriter } from '../../server/src/export/threemf';
import { FILE_CHORD_MM, type TriangleMaker } from '../../server/src/export/triangles';
import { ExportError, type ExportRequest } from '../../server/src/export/writer';
import { closedMesh } from '../../server/src/geometry/mesh/closed';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { kernel } from '../geometry/mesh/proof';
import { assertWatertight, type Point, type ReadMesh, read3mf, volumeOf } from './mesh-reader';

const FOLDER = resolve(__dirname, '../../examples/gimbal/parts');
const here: TriangleMaker = {
  closed: async (body, voids, chordMm) => closedMesh(await kernel(), body, voids, chordMm),
};
const WHEN = new Date('2030-01-02T03:04:05Z');

const asked = (text: string): ExportRequest => ({
  checked: checkPart(text, builtinShop()),
  creator: 'Scribeline <test>',
  when: WHEN,
});

/** Area of the whole skin: what a chord can take from it at most bounds the volume. */
function areaOf({ points, triangles }: ReadMesh): number {
  return triangles.reduce((sum, [i, j, k]) => {
    const [a, b, c] = [points[i]!, points[j]!, points[k]!];
    const [p, q] = [b.map((x, n) => x - a[n]!), c.map((x, n) => x - a[n]!)];
    const n = [p[1]! * q[2]! - p[2]! * q[1]!, p[2]! * q[0]! - p[0]! * q[2]!, p[0]! * q[1]! - p[1]! * q[0]!];
    return sum + Math.hypot(...n) / 2;
  }, 0);
}

async function assertSame(mesh: ReadMesh, request: ExportRequest): Promise<void> {
  assertWatertight(mesh);
  const { volumeMm3, exact } = request.checked.solid.measures;
  assert.ok(exact);
  const apart = Math.abs(volumeOf(mesh) - volumeMm3);
  assert.ok(apart <= FILE_CHORD_MM * areaOf(mesh), `${apart} mm³ apart`);
  assert.ok(apart <= 1e-3 * volumeMm3, `${apart} mm³ apart`);
  const k = await kernel();
  const again = new k.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(mesh.points.flat()),
    triVerts: Uint32Array.from(mesh.triangles.flat()),
  });
  again.merge();
  const solid = new k.Manifold(again);
  assert.equal(solid.status(), 'NoError');
  const pieces = solid.decompose();
  assert.equal(pieces.length, 1);
  for (const x of [...pieces, solid]) x.delete();
}

describe('mesh files', () => {
  for (const file of readdirSync(FOLDER)) {
    const request = asked(readFileSync(join(FOLDER, file), 'utf8'));

    it(`${file} as STL, read by three.js`, async () => {
      const { bytes } = await stlWriter(here).write(request);
      const { STLLoader } = await import('three/examples/jsm/loaders/STLLoader.js');
      const geometry = new STLLoader().parse(bytes.slice().buffer);
      const [at, out] = [geometry.getAttribute('position'), geometry.getAttribute('normal')];
      const points = Array.from({ length: at.count }, (_, i): Point => [at.getX(i), at.getY(i), at.getZ(i)]);
      const triangles = Array.from({ length: at.count / 3 }, (_, t): Point => [3 * t, 3 * t + 1, 3 * t + 2]);
      await assertSame({ points, triangles }, request);
      for (let i = 0; i < at.count; i += 3)
        assert.ok(Math.abs(Math.hypot(out.getX(i), out.getY(i), out.getZ(i)) - 1) < 1e-5);
    });

    it(`${file} as 3MF`, async () => {
      const { bytes } = await threemfWriter(here).write(request);
      const read = read3mf(bytes);
      assert.equal(read.unit, 'millimeter');
      assert.equal(read.name, request.checked.part.name);
      assert.equal(read.material, request.checked.part.material?.name);
      assert.equal(read.metadata.get('Title'), request.checked.part.title ?? request.checked.part.name);
      assert.equal(read.metadata.get('Application'), 'Scribeline <test>');
      await assertSame(read, request);
      for (const t of read.triangles) assert.ok(t.every((i) => i >= 0 && i < read.points.length));
    });
  }

  it('lengths are mm whatever the text is written in', async () => {
    const { bytes } = await threemfWriter(here).write(asked('part: a\nunits: in\nbody: { x: 2, y: 1, z: 0.5 }\n'));
    const { points } = read3mf(bytes);
    assert.ok(Math.abs(Math.max(...points.map((p) => p[0])) - 50.8) < 2e-5);
  });

  it('the same part is the same file', async () => {
    const request = asked('part: a\nbody: { x: 20, y: 10, z: 5 }\n');
    const [a, b] = [await threemfWriter(here).write(request), await threemfWriter(here).write(request)];
    assert.deepEqual(a.bytes, b.bytes);
  });

  it('a part that is all cut away is refused, with a word', async () => {
    const gone = asked(
      'part: a\nbody: { x: 20, y: 10, z: 5 }\nfeatures:\n  all: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, depth: through }\n',
    );
    await assert.rejects(
      stlWriter(here).write(gone),
      (e: Error) => e instanceof ExportError && /nothing of it is left/.test(e.message),
    );
  });

  it('a heading never begins as the text form does', () => {
    const bytes = stlOf({ points: new Float32Array(), triangles: new Uint32Array() }, 'solid ü block');
    assert.equal(Buffer.from(bytes.subarray(0, 15)).toString('latin1'), 'a solid ? block');
    assert.equal(bytes.length, 84);
  });

  it('decimals are as short as single precision allows', () => {
    for (const x of [0, 1, -2.5, 0.1, 45.792908, 1e-5, 123456.7])
      assert.equal(Math.fround(Number(decimal(Math.fround(x)))), Math.fround(x));
    assert.equal(decimal(Math.fround(0.1)), '0.1');
  });

  // APPNOTE 4.4.6: two-second steps, months from 1, years from 1980, in the local header from byte 10 on
  it('3MF: the same bytes at any hour of the clock; its times are those that it is told, as near as a zip holds them', async () => {
    const part = 'part: block\nmaterial: aluminium-6061-t6\nbody: { x: 20, y: 10, z: 5 }\n';
    const write = async (when: Date) => (await threemfWriter(here).write({ ...asked(part), when })).bytes;
    const now = Date.now;
    const first = await write(WHEN);
    try {
      Date.now = () => now() + 400 * 24 * 3600 * 1000;
      assert.deepEqual(await write(WHEN), first);
    } finally {
      Date.now = now;
    }
    const timesIn = (bytes: Uint8Array) => {
      const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
      const found: string[] = [];
      for (let i = 0; i + 14 < bytes.length; i++) {
        if (view.getUint32(i, true) !== 0x04034b50) continue;
        const [time, date] = [view.getUint16(i + 10, true), view.getUint16(i + 12, true)];
        const day = [1980 + (date >> 9), (date >> 5) & 15, date & 31];
        found.push([...day, time >> 11, (time >> 5) & 63, 2 * (time & 31)].join(' '));
      }
      return found;
    };
    const local = (d: Date) =>
      [
        d.getFullYear(),
        d.getMonth() + 1,
        d.getDate(),
        d.getHours(),
        d.getMinutes(),
        2 * Math.floor(d.getSeconds() / 2),
      ].join(' ');
    assert.deepEqual(timesIn(first), Array(3).fill(local(WHEN)));
    assert.deepEqual(timesIn(await write(new Date(1970, 5, 1))), Array(3).fill('1980 1 1 0 0 0'));
    assert.deepEqual(timesIn(await write(new Date(2300, 5, 1))), Array(3).fill('2099 12 31 0 0 0'));
  });
});
