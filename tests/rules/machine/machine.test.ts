/** What the machine can do: travel set-up by set-up with the tools it takes, weight with the vise, drilling against the spindle. */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { readText } from '../../../server/src/text/read';
import { findingsOf, onlyFinding } from '../tester';

function shopOf(machine: string, more = '', vise = ''): Shop {
  const text = `shop: s
units: mm
machines: { mill: { ${machine} } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN${vise} } }
parallels: [10, 20]
holders: { chuck: { diameter: 40, length: 90 }, short: { diameter: 30, length: 30 } }
tools:
  em: { kind: end-mill, diameter: 8, flute-length: 19, reach: 25, shank: 8, holder: short, stickout: 30 }
  dr: { kind: drill, diameter: 6, flute-length: 100, holder: chuck, stickout: 110 }
${more}`;
  const shop = resolveShop(readText(text), 's.shop.yaml');
  assert.deepEqual(shop.problems, []);
  return shop;
}
const MILL = 'travel: { x: 400, y: 220, z: 120 }, spindle: { rpm: [150, 5000], power: 1.1 kW }, coolant: flood';

const part = (features: string, cuts: string, body = '{ x: 60, y: 40, z: 30 }') => `part: p
material: aluminium-6061-t6
body: ${body}
features:
${features}setups:
  first: { up: top, hold: { vise: vise, jaws: [front, back], grip: 8, parallels: 20 }, zero: { x: left, y: back, z: top }, cuts: ${cuts} }
`;
const WELL =
  '  well: { kind: pocket, face: top, at: { x: 20, y: 20 }, size: { x: 20, y: 20 }, corner-radius: 5, depth: 10 }\n';
const HOLE = '  hole: { kind: hole, face: top, at: { x: 48, y: 20 }, diameter: 6, depth: 20 }\n';

describe('machine/travel', () => {
  it('along the spindle: the longest tool clear of the work, the shortest at its deepest', () => {
    // Drill 110 + chuck 90, 2 over the work: 232 above its foot; the mill 30 + 30 at 20 above the foot: 80. 152 of way.
    const text = part(WELL + HOLE, '[well, hole]');
    const [finding] = findingsOf('machine/travel', text, shopOf(MILL));
    assert.equal(finding?.facts.needed_mm, 152);
    assert.equal(finding?.facts.tool, 'dr');
    assert.deepEqual(findingsOf('machine/travel', text, shopOf(MILL.replace('z: 120', 'z: 152'))), []);
    // Drilled alone it goes no farther than its own depth, 20 and a point of 1.8, and 2 clear.
    assert.deepEqual(findingsOf('machine/travel', part(HOLE, '[hole]'), shopOf(MILL)), []);
  });

  it('under the spindle: bed, parallels, work and the longest tool', () => {
    const shop = (daylight: number, bed = '') =>
      shopOf(`${MILL.replace('z: 120', 'z: 300')}, daylight: ${daylight}`, '', bed);
    const text = part(HOLE, '[hole]');
    // 0.65 × 100 of bed, 20 of parallels, 30 of work, 200 of tool.
    assert.equal(findingsOf('machine/travel', text, shop(300))[0]?.facts.stands_mm, 65 + 20 + 30 + 200);
    assert.deepEqual(findingsOf('machine/travel', text, shop(315)), []);
    assert.equal(findingsOf('machine/travel', text, shop(315, ', bed: 80'))[0]?.facts.stands_mm, 80 + 20 + 30 + 200);
  });

  it('a mill stands off what it cuts by its radius: outside beyond the ends, inside short of them', () => {
    const shop = shopOf(MILL.replace('z: 120', 'z: 300').replace('x: 400, y: 220', 'x: 400, y: 300'));
    const bar = (x: number) => `part: spar
material: aluminium-6061-t6
body: { x: ${x}, y: 20, z: 20 }
stock: { form: square-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }
setups:
  first: { up: top, hold: { clamps: [{ x: 100, y: center }, { x: 250, y: center }], on: table }, cuts: [left, right] }
`;
    const [found] = findingsOf('machine/travel', bar(393), shop);
    const radius = Number(found?.facts.radius_mm);
    assert.equal(radius, 4);
    assert.equal(found?.facts.size_mm, 393 + 2 * radius);
    assert.equal(found?.severity, 'warning');
    assert.deepEqual(findingsOf('machine/travel', bar(392), shop), []);
    // What is cut lies itself too far apart: no cutter does it.
    assert.equal(findingsOf('machine/travel', bar(404), shop)[0]?.severity, 'error');
    const well = (x: number) =>
      part(
        `  well: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: ${x}, y: 20 }, corner-radius: 5, depth: 6 }\n`,
        '[well]',
        '{ x: 600, y: 40, z: 10 }',
      );
    assert.deepEqual(findingsOf('machine/travel', well(404), shop), []);
  });

  it('across the table: between the outermost holes, not the ends of the bar', () => {
    const long = (between: number) =>
      part(
        `  hole: { kind: hole, face: top, at: { x: center, y: 20 }, pattern: { line: { x: ${between}, count: 2 } }, diameter: 6, depth: through }\n`,
        '[hole]',
        '{ x: 600, y: 40, z: 10 }',
      );
    const shop = shopOf(MILL.replace('z: 120', 'z: 300'));
    assert.deepEqual(findingsOf('machine/travel', long(390), shop), []);
    const found = onlyFinding('machine/travel', long(420), shop);
    assert.equal(found.facts.size_mm, 420);
    assert.equal(found.facts.travel_mm, 400);
  });
});

describe('machine/weight', () => {
  it('counts the vise that the set-up names by what it weighs', () => {
    // 300 × 200 × 100 of C45: 47.1 kg.
    const text = part(HOLE, '[hole]', '{ x: 300, y: 100, z: 200 }').replace('aluminium-6061-t6', 'steel-c45');
    const shop = (mass: string) => shopOf(`${MILL}, table-load: 70 kg`, '', mass);
    assert.equal(onlyFinding('machine/weight', text, shop('')).facts.with_vise_kg, 77.1);
    assert.deepEqual(findingsOf('machine/weight', text, shop(', mass: 18 kg')), []);
    assert.equal(onlyFinding('machine/weight', text, shop(', mass: 25 kg')).facts.vise_kg, 25);
  });

  it('counts an angle plate by its two sides: 200 × 200 × 20 of cast iron twice are 11.52 kg', () => {
    const text = part(HOLE, '[hole]', '{ x: 300, y: 100, z: 200 }')
      .replace('aluminium-6061-t6', 'steel-c45')
      .replace(
        /hold: \{[^}]*\}/,
        'hold: { angle-plate: plate, against: back, clamps: [{ x: 20, z: 20 }], stop: left }',
      );
    const shop = (thick: number) =>
      shopOf(
        `${MILL}, table-load: 58 kg`,
        '',
        ` } }\nangle-plates: { plate: { width: 200, height: 200, thickness: ${thick}`,
      );
    assert.equal(onlyFinding('machine/weight', text, shop(20)).facts.vise_kg, 11.52);
    assert.deepEqual(findingsOf('machine/weight', text, shop(10)), []);
  });
});

describe('machine/torque and machine/power', () => {
  const bore = (d: number) =>
    part(`  hole: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: ${d}, depth: 20 }\n`, '[hole]').replace(
      'aluminium-6061-t6',
      'steel-c45',
    );
  it('judge the drill that the hole is drilled with', () => {
    const weak = shopOf(
      MILL.replace('power: 1.1 kW', 'power: 0.2 kW, torque: 4 N·m'),
      '  big: { kind: drill, diameter: 20, flute-length: 120 }\n',
    );
    const found = onlyFinding('machine/torque', bore(20), weak);
    assert.equal(found.facts.tool, 'big');
    assert.ok(Number(found.facts.torque_nm) > 4);
    assert.deepEqual(findingsOf('machine/torque', bore(6), weak), []);
  });
});
