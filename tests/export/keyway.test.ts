/** A keyway in every kind of file: volumes and outlines against the closed form. */
import assert from 'node:assert/strict';
import DxfParser from 'dxf-parser';
import { dxfWriter } from '../../server/src/export/dxf';
import { exactMeasures } from '../../server/src/export/exact/measures';
import { exactSolid } from '../../server/src/export/exact/solid';
import { stepText } from '../../server/src/export/exact/step';
import { stlWriter } from '../../server/src/export/stl';
import { threemfWriter } from '../../server/src/export/threemf';
import { FILE_CHORD_MM, type TriangleMaker } from '../../server/src/export/triangles';
import { closedMesh } from '../../server/src/geometry/mesh/closed';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { kernel } from '../geometry/mesh/proof';
import { exactKernel } from '../oracle/exact';
import { assertWatertight, read3mf, volumeOf } from './mesh-reader';
import { boundaryOf, Step } from './step-reader';

const BLOCK = 60 * 30 * 20;
/** 8 wide, 4 deep and 25 long over its round ends. */
const PLAN = (25 - 8) * 8 + Math.PI * 16;
const REMOVED = 4 * PLAN;
/** In walls: two straight sides and one circle, 4 deep: what chords can take from it. */
const BENT = 4 * 8 * Math.PI;
const checked = () =>
  checkPart(
    `part: bar
units: mm
material: steel-c45
body: { x: 60, y: 30, z: 20 }
features:
  key: { kind: keyway, face: top, at: { x: center, y: center }, along: x, length: 25, width: 8 P9, depth: 4 }
`,
    builtinShop(),
  );
const asked = () => ({ checked: checked(), creator: 'test', when: new Date('2030-01-02T03:04:05Z') });
const here: TriangleMaker = {
  closed: async (body, voids, chordMm) => closedMesh(await kernel(), body, voids, chordMm),
};
const near = (actual: number, expected: number, within: number) =>
  assert.ok(Math.abs(actual - expected) <= within, `${actual}, expected ${expected}`);

describe('a keyway in files', function () {
  this.timeout(60_000);

  it('STEP: the exact solid and the file of it, walked by a reader of its own', async () => {
    const oc = await exactKernel();
    const shape = exactSolid(oc, checked().solid);
    try {
      const { valid, volumeMm3, faces } = exactMeasures(oc, shape);
      assert.ok(valid && faces.other === 0);
      near(volumeMm3, BLOCK - REMOVED, 1e-6);
      assert.equal(faces.cylinder, 2);
      const read = boundaryOf(new Step(stepText(oc, shape)));
      assert.deepEqual(read.faults, []);
      near(read.volume, BLOCK - REMOVED, 1e-2);
    } finally {
      shape.delete();
    }
  });

  it('STL and 3MF: closed, and as large but for what chords leave', async () => {
    const { bytes } = await stlWriter(here).write(asked());
    const { STLLoader } = await import('three/examples/jsm/loaders/STLLoader.js');
    const at = new STLLoader().parse(bytes.slice().buffer).getAttribute('position');
    let volume = 0;
    for (let i = 0; i < at.count; i += 3) {
      const [a, b, c] = [i, i + 1, i + 2].map((k) => [at.getX(k), at.getY(k), at.getZ(k)] as const) as [
        readonly [number, number, number],
        readonly [number, number, number],
        readonly [number, number, number],
      ];
      volume +=
        (a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])) /
        6;
    }
    near(volume, BLOCK - REMOVED, FILE_CHORD_MM * BENT + 0.05);
    const read = read3mf((await threemfWriter(here).write(asked())).bytes);
    assertWatertight(read);
    near(volumeOf(read), BLOCK - REMOVED, FILE_CHORD_MM * BENT + 0.05);
  });

  it('DXF: its outline on the layer of what does not go through, with true arcs', async () => {
    const { bytes, notes } = await dxfWriter.write({ ...asked(), face: 'top' });
    const dxf = new DxfParser().parseSync(new TextDecoder().decode(bytes));
    const entities = (dxf?.entities ?? []) as unknown as {
      readonly layer: string;
      readonly vertices?: readonly { readonly x: number; readonly y: number; readonly bulge?: number }[];
    }[];
    const [key, ...more] = entities.filter((e) => e.layer === 'partial-depth');
    assert.deepEqual(more, []);
    const corners = key!.vertices!;
    let area = 0;
    corners.forEach((a, i) => {
      const b = corners[(i + 1) % corners.length]!;
      area += (a.x * b.y - b.x * a.y) / 2;
      if (!a.bulge) return;
      const angle = 4 * Math.atan(a.bulge);
      const r = Math.hypot(b.x - a.x, b.y - a.y) / 2 / Math.sin(angle / 2);
      area += (r * r * (angle - Math.sin(angle))) / 2;
    });
    near(Math.abs(area), PLAN, 1e-4);
    assert.match(notes.join(' '), /`key` \(not all the way\)/);
  });
});
