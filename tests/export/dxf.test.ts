/**
 * DXF outlines, read back by `dxf-parser` (a general-purpose reader): closed loops whose area by our own integration of
 * chords and bulges is the closed form of the shape; arcs are arcs, circles circles; units; what is said to be left.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import DxfParser from 'dxf-parser';
import { dxfWriter } from '../../server/src/export/dxf';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Face } from '../../server/src/model/faces';
import { checkPart } from '../../server/src/rules/check';

interface Corner {
  readonly x: number;
  readonly y: number;
  readonly bulge?: number;
}
interface Entity {
  readonly type: string;
  readonly layer: string;
  readonly shape?: boolean;
  readonly vertices?: readonly Corner[];
  readonly center?: Corner;
  readonly radius?: number;
}

/** Area of a closed chain: its chords by the shoelace formula, and the circular segment that each bulge adds. */
function areaOf({ type, vertices, radius }: Entity): number {
  if (type === 'CIRCLE') return Math.PI * radius! ** 2;
  let area = 0;
  vertices!.forEach((a, i) => {
    const b = vertices![(i + 1) % vertices!.length]!;
    area += (a.x * b.y - b.x * a.y) / 2;
    if (!a.bulge) return;
    // bulge: tangent of a quarter of the angle
    const angle = 4 * Math.atan(a.bulge);
    const r = Math.hypot(b.x - a.x, b.y - a.y) / 2 / Math.sin(angle / 2);
    area += (r * r * (angle - Math.sin(angle))) / 2;
  });
  return Math.abs(area);
}

async function drawn(text: string, face?: Face) {
  const request = { checked: checkPart(text, builtinShop()), creator: 'test', when: new Date(0) };
  const { bytes, notes } = await dxfWriter.write(face ? { ...request, face } : request);
  const source = new TextDecoder().decode(bytes);
  const dxf = new DxfParser().parseSync(source);
  assert.ok(dxf);
  const entities = dxf.entities as unknown as Entity[];
  for (const e of entities) if (e.type === 'LWPOLYLINE') assert.equal(e.shape, true, 'a loop is closed');
  const on = (layer: string) => entities.filter((e) => e.layer === layer);
  const sum = (layer: string) => on(layer).reduce((s, e) => s + areaOf(e), 0);
  return { dxf, source, notes, entities, on, sum, cut: sum('outline') - sum('through') };
}
const near = (a: number, b: number, within = 1e-4) => assert.ok(Math.abs(a - b) < within, `${a}, expected ${b}`);

const plate = (features: string, body = '{ x: 100, y: 60, z: 4 }') => `part: plate
units: mm
material: aluminium-6061-t6
body: ${body}
features:
${features}`;

const FLAT = plate(`  outline:
    kind: contour
    face: top
    path: [{ x: 0, y: 0, round: 5 }, { x: 100, y: 0, round: 5 }, { x: 100, y: 60, round: 5 }, { x: 0, y: 60, bevel: 8 }]
    depth: through
  mount: { kind: hole, face: top, at: { x: 50, y: 12 }, pattern: { line: { x: 40, count: 2 } }, diameter: 5.5, depth: through }
  window: { kind: pocket, face: top, at: { x: 40, y: 35 }, size: { x: 20, y: 12 }, corner-radius: 3, depth: through }
  way: { kind: slot, face: top, ends: [{ x: 65, y: 30 }, { x: 85, y: 45 }], width: 6, depth: through }
`);
const WINDOW = 240 - (4 - Math.PI) * 9;
const WAY = 25 * 6 + Math.PI * 9;
const ROUNDED = 6000 - 3 * (1 - Math.PI / 4) * 25 - 32;

describe('exchange: DXF', () => {
  it('is the outline and what is cut through it, to the closed form', async () => {
    const { dxf, on, sum, cut, notes, entities } = await drawn(FLAT);
    near(sum('outline'), ROUNDED);
    near(cut, ROUNDED - 2 * Math.PI * 2.75 ** 2 - WINDOW - WAY);
    assert.equal(on('outline').length, 1);
    assert.deepEqual(
      on('through')
        .map((e) => e.type)
        .sort(),
      ['CIRCLE', 'CIRCLE', 'LWPOLYLINE', 'LWPOLYLINE'],
    );
    assert.equal(on('outline')[0]!.vertices!.filter((v) => v.bulge).length, 3, 'three rounded corners');
    assert.equal(on('outline')[0]!.vertices!.length, 8);
    assert.deepEqual([...new Set(entities.map((e) => e.layer))].sort(), ['outline', 'through']);
    // group code 70 of $INSUNITS: 4 is millimetres (DXF reference, header section)
    assert.equal(dxf.header.$INSUNITS, 4);
    assert.deepEqual(dxf.header.$EXTMAX, { x: 100, y: 60, z: 0 });
    assert.deepEqual(
      notes.map((n) => n.split(',')[0]),
      ['drawn from `top`'],
    );
  });

  it('leaves what does not go through on a layer of its own, and says so', async () => {
    const { on, cut, notes, sum } = await drawn(
      plate(`  seat: { kind: hole, face: top, at: { x: 30, y: 30 }, diameter: 6, depth: through, counterbore: { diameter: 11, depth: 2 } }
  dish: { kind: pocket, face: top, at: { x: 65, y: 30 }, size: { x: 30, y: 20 }, corner-radius: 4, depth: 2 }
  below: { kind: hole, face: bottom, at: { x: 90, y: 10 }, diameter: 4, depth: 2, bottom: flat }
  side: { kind: hole, face: left, at: { y: 30, z: 2 }, diameter: 2, depth: 10 }
  broken: { kind: chamfer, edges: [top, { rim: seat }], size: 0.5 }
`),
      'top',
    );
    near(cut, 6000 - Math.PI * 9);
    assert.equal(on('through').length, 1);
    near(sum('partial-depth'), Math.PI * 5.5 ** 2 + Math.PI * 9 + 600 - (4 - Math.PI) * 16);
    assert.equal(notes.length, 1);
    assert.equal(
      notes[0],
      'a cut straight through from `top` does not make `seat` (its counterbore), `dish` (not all the way), `below` (from bottom, not all the way), `side` (from left), `broken` (broken edge). Outlines of what does not go through are on the layer partial-depth.',
    );
  });

  it('counts two cuts that meet from both sides as one through', async () => {
    const { cut } = await drawn(
      plate(`  upper: { kind: pocket, face: top, at: { x: 40, y: 30 }, size: { x: 20, y: 20 }, depth: 2 }
  lower: { kind: pocket, face: bottom, at: { x: 50, y: 30 }, size: { x: 20, y: 20 }, depth: 2 }
`),
      'top',
    );
    near(cut, 6000 - 200);
  });

  it('is seen from outside: the far face mirrored, a side face by its own axes', async () => {
    const one = '  hole: { kind: hole, face: top, at: { x: 10, y: 15 }, diameter: 6, depth: through }\n';
    const centre = async (face: Face) => (await drawn(plate(one), face)).on('through')[0]!.center!;
    const top = await centre('top');
    const bottom = await centre('bottom');
    near(Math.hypot(top.x - 10, top.y - 15), 0);
    near(Math.hypot(bottom.x - 10, bottom.y - 45), 0);
    const cross = '  hole: { kind: hole, face: left, at: { y: 15, z: 1 }, diameter: 1, depth: through }\n';
    const left = (await drawn(plate(cross))).on('through')[0]!.center!;
    near(Math.hypot(left.x - 45, left.y - 1), 0);
  });

  it('follows a part that was cut in two, a ring, an arc of more than a half circle', async () => {
    const two = await drawn(
      plate('  cut: { kind: slot, face: top, ends: [{ x: 50, y: -5 }, { x: 50, y: 65 }], width: 4, depth: through }\n'),
    );
    assert.equal(two.on('outline').length, 2);
    near(two.cut, 6000 - 240);
    const ring = await drawn(
      plate(
        '  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 20, depth: through }\n',
        '{ diameter: 40, length: 8, axis: z }',
      ),
    );
    assert.deepEqual(
      ring.entities.map((e) => [e.type, e.radius]),
      [
        ['CIRCLE', 20],
        ['CIRCLE', 10],
      ],
    );
    // a bore that breaks out of the side: its arc is more than half of it
    const bay = await drawn(
      plate('  bay: { kind: hole, face: top, at: { x: 50, y: 4 }, diameter: 20, depth: through }\n'),
    );
    const h = 4;
    const removed = Math.PI * 100 - (100 * Math.acos(h / 10) - h * Math.sqrt(100 - h * h));
    near(bay.cut, 6000 - removed);
  });

  it('draws every part of the example whose bounds are the body, or what is left of it', async () => {
    const folder = resolve(__dirname, '../../examples/gimbal/parts');
    for (const file of readdirSync(folder).filter((f) => f.endsWith('.part.yaml'))) {
      const { dxf, sum, cut } = await drawn(readFileSync(join(folder, file), 'utf8'));
      assert.ok(cut > 0 && cut <= sum('outline'), file);
      assert.equal(dxf.header.$INSUNITS, 4);
    }
  });
});
