/** Where an angle plate and its clamps stand, and where two vises in line do. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { timelineOf } from '../../../server/src/process/stock';
import { inJaws } from '../../../server/src/process/workholding/in-jaws';
import { seatingOf } from '../../../server/src/process/workholding/seating';
import { readText } from '../../../server/src/text/read';
import { make } from '../parts';

const shop = resolveShop(
  readText(`shop: s
units: mm
vises:
  m: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN, count: 2 }
angle-plates:
  p: { width: 80, height: 100, thickness: 12 }
parallels: [22]
`),
);
const HOLE = '  a: { kind: hole, face: top, at: { x: 10, y: 10 }, diameter: 4, depth: 5 }\n';

function seated(body: string, hold: string) {
  const { part, solid } = make(body, HOLE, `setups:\n  one: { up: top, hold: ${hold}, cuts: [a] }\n`);
  const s = timelineOf(part, solid).setups[0]!;
  return { seating: seatingOf(s, part, shop)!, jaws: inJaws(s, part, shop) };
}

describe('work against an angle plate', () => {
  const hold = (more = '') => `{ angle-plate: p, against: back, clamps: [{ x: 20, z: 30 }, { x: 20, z: 80 }]${more} }`;
  it('stands on the table beside it, or so far out above it', () => {
    const on = seated('{ x: 60, y: 30, z: 150 }', hold()).seating.obstacles.find((o) => o.what === 'angle plate')!;
    assert.deepEqual(
      [on.box.min, on.box.max],
      [
        [-10, 30, 0],
        [70, 42, 100],
      ],
    );
    const out = seated('{ x: 60, y: 30, z: 150 }', hold(', out: 20')).seating.obstacles;
    const plate = out.find((o) => o.what === 'angle plate')!;
    assert.deepEqual([plate.box.min[2], plate.box.max[2]], [30, 130]);
  });
  it('its straps lie across the side opposite, from the nearer end, the nut past that', () => {
    const { obstacles } = seated('{ x: 60, y: 30, z: 150 }', hold()).seating;
    const straps = obstacles.filter((o) => o.what === 'clamp').map((o) => o.box);
    assert.equal(straps.length, 2);
    assert.deepEqual(
      [straps[0]!.min, straps[0]!.max],
      [
        [-40, -25, 17.5],
        [30, 0, 42.5],
      ],
    );
    const nut = obstacles.find((o) => o.what === 'nut')!.box;
    // The stud 14 beyond the end that is 20 away.
    assert.ok(Math.abs((nut.min[0] + nut.max[0]) / 2 + 14) < 1e-9);
    assert.ok(Math.abs(nut.min[1] + 25 + 16.8) < 1e-9);
  });
});

describe('two vises in line', () => {
  it('are one long vise with nothing between, and press twice as hard', () => {
    const hold = '{ vise: m, jaws: [back, front], grip: 10, parallels: 22, apart: 180 }';
    const { seating, jaws } = seated('{ x: 300, y: 40, z: 20 }', hold);
    const h = seating.held!;
    assert.deepEqual([h.jawFromMm, h.jawToMm, h.gapMm, h.vise.forceN], [10, 290, [110, 190], 30000]);
    const fixed = seating.obstacles.filter((o) => o.what === 'fixed jaw').map((o) => [o.box.min[0], o.box.max[0]]);
    assert.deepEqual(fixed, [
      [10, 110],
      [190, 290],
    ]);
    // Twice 100 long, 10 high; nothing of what lies between.
    assert.ok(Math.abs(jaws!.contact.opposed.areaMm2 - 2000) < 1e-6);
    assert.ok(Math.abs(jaws!.contact.possibleMm2 - 2000) < 1e-6);
  });
});
