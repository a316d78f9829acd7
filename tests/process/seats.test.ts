/** Holes by the pin or bearing that sits in them, grooves by their O-ring: sizes, classes, cuts, and what is refused. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Groove, Hole } from '../../server/src/model/model';
import { planFor } from '../../server/src/planning/plan-cache';
import { approachesOf } from '../../server/src/process/approach';
import { operationsOf } from '../../server/src/process/operations';
import { checkPart } from '../../server/src/rules/check';
import { fillOf, HOUSINGS, housingFor, readRing, squeezeOf } from '../../server/src/tables/seals';
import { shopWith } from '../rules/shops';

const SHOP = shopWith(
  'dr-4.8: { kind: drill, diameter: 4.8, flute-length: 52, material: hss }\nre-5: { kind: reamer, diameter: 5, fit: H7, reach: 30 }\nem-2: { kind: end-mill, diameter: 2, flute-length: 7 }\n',
);
const part = (fields: string, head = '') =>
  checkPart(
    `part: plate\n${head}material: aluminium-6061-t6\nbody: { x: 60, y: 60, z: 20 }\nfeatures:\n  f: { ${fields} }\n`,
    SHOP,
  );
const AT = 'face: top, at: { x: center, y: center }';
const hole = (fields: string) => part(`kind: hole, ${AT}, depth: 12, ${fields}`);
const groove = (fields: string) => part(`kind: groove, ${AT}, ${fields}`);
const featureOf = <T>(checked: ReturnType<typeof part>) => checked.part.featureByName.get('f') as T;
const saidOf = (checked: ReturnType<typeof part>) =>
  checked.findings.filter((f) => f.rule.startsWith('form/')).map((f) => f.message);

describe('holes by what sits in them', () => {
  it('a pin is pressed into H7, and reamed', () => {
    const checked = hole('pin: ISO 8734 5x20');
    const { diameter, seat } = featureOf<Hole>(checked);
    // ISO 286-2: 5 H7 is 0 to +12 µm, 5 m6 is +4 to +12 µm (public tables).
    assert.deepEqual([diameter.mm, diameter.tolerance?.text, diameter.tolerance?.upperMm], [5, 'H7', 0.012]);
    assert.deepEqual(
      seat?.playMm.map((mm) => Math.round(mm * 1000)),
      [-12, 8],
    );
    assert.equal(seat?.name, 'ISO 8734 5 m6 × 20');
    const does = operationsOf(checked.part.features[0]!, checked).map((o) => o.does);
    assert.ok(does.includes('ream'), does.join());
  });

  it('one that slips in has F7, and a bearing H7 or N7', () => {
    // ISO 286-2: 5 F7 is +10 to +22 µm; 22 H7 0 to +21; 22 N7 −28 to −7 (public tables).
    const slips = featureOf<Hole>(hole('pin: 5 slip')).diameter.tolerance;
    assert.deepEqual([slips?.text, slips?.lowerMm, slips?.upperMm], ['F7', 0.01, 0.022]);
    const seat = (text: string) => featureOf<Hole>(hole(`bearing: ${text}, bottom: flat`)).diameter;
    assert.deepEqual(
      [seat('608').mm, seat('608-2RS').tolerance?.text, seat('608').tolerance?.upperMm],
      [22, 'H7', 0.021],
    );
    assert.deepEqual([seat('608 press').tolerance?.lowerMm, seat('608 press').tolerance?.upperMm], [-0.028, -0.007]);
  });

  it('refuse what the tables do not have, or what is said twice', () => {
    assert.match(saidOf(hole('pin: 5.5')).join(), /`5\.5` is no diameter of ISO 8734: 1, 1\.5, 2/);
    assert.match(saidOf(hole('bearing: "9999"')).join(), /the tables have no bearing `9999`/);
    assert.match(
      saidOf(hole('pin: 5, diameter: 6')).join(),
      /`pin` beside `diameter` counts for nothing: both give the hole’s diameter/,
    );
  });
});

describe('grooves by their O-ring', () => {
  it('have width and depth of the housing, at the wall that the pressure pushes to', () => {
    const inside = featureOf<Groove>(groove('ring: 24x2.62'));
    assert.deepEqual([inside.width.mm, inside.depth?.mm], [3.8, 2]);
    // Outer wall at the ring's own outside diameter, 24 + 2 · 2.62.
    assert.ok(Math.abs(inside.diameter.mm + 2 * inside.width.mm - 29.24) < 1e-9);
    assert.equal(featureOf<Groove>(groove('ring: 24x2.62, pressure: outside')).diameter.mm, 24);
    const { volumeMm3 } = part(`kind: groove, ${AT}, ring: 24x2.62, pressure: outside`).solid.measures;
    assert.ok(Math.abs(volumeMm3 - (72000 - Math.PI * 2 * (15.8 ** 2 - 12 ** 2))) < 0.1);
  });

  it('of every row squeezes 15 to 32 % and leaves room', () => {
    for (const { sectionMm, depthMm, widthMm } of HOUSINGS) {
      const squeeze = [squeezeOf(sectionMm, depthMm + 0.1), squeezeOf(sectionMm, depthMm)];
      const fill = fillOf(sectionMm, depthMm, widthMm);
      // Static face seals: 15 to 30 %, filled 85 % at most (common practice); thin rings are squeezed more by tolerance.
      assert.ok(squeeze[0]! > 0.15 && squeeze[1]! <= 0.32 && fill < 0.86, `${sectionMm}: ${squeeze} ${fill}`);
    }
  });

  it('lie within the depths of a second public table, of inch sections (read in 2026-11)', () => {
    // Thickness: depth and width for liquids, inches.
    for (const [section, depths, widths] of [
      [1.78, [0.05, 0.054], [0.101, 0.107]],
      [2.62, [0.074, 0.08], [0.136, 0.142]],
      [3.53, [0.101, 0.107], [0.177, 0.187]],
      [5.33, [0.152, 0.162], [0.27, 0.29]],
      [6.99, [0.201, 0.211], [0.342, 0.362]],
    ] as const) {
      const row = housingFor(section)!;
      const [depth, width] = [row.depthMm / 25.4, row.widthMm / 25.4];
      // The ranges of thin rings meet; metric tables squeeze thick ones less, to 9 % deeper.
      assert.ok(
        depth <= depths[1] * (section < 5 ? 1 : 1.09) && depth + 0.1 / 25.4 >= depths[0],
        `${section} ${depth} deep`,
      );
      assert.ok(width <= widths[1] * 1.07 && width + 0.2 / 25.4 >= widths[0], `${section} ${width} wide`);
    }
  });

  it('take sizes of their own where they are written, and refuse what cannot seal', () => {
    const own = featureOf<Groove>(groove('ring: 24x2.2, width: 3.2, depth: 1.7'));
    assert.deepEqual([own.width.mm, own.depth?.mm, Math.round(own.ring!.squeeze[1] * 100)], [3.2, 1.7, 23]);
    assert.match(saidOf(groove('ring: 24x2.2')).join(), /no groove for a ring 2\.2 mm thick: 1\.78, 1\.8, 2\.62/);
    assert.match(saidOf(groove('ring: 24x2.2, width: 3, depth: 2.3')).join(), /nothing is squeezed/);
    assert.match(saidOf(groove('ring: 24x2.2, width: 2.3, depth: 1.7')).join(), /fills 97 % of the groove/);
    assert.match(saidOf(groove('ring: big')).join(), /`big` is no O-ring/);
    assert.match(saidOf(groove('diameter: 24, depth: 1')).join(), /needs `width`/);
    assert.deepEqual(readRing('ISO 3601 24.99 x 3.53'), { insideMm: 24.99, sectionMm: 3.53 });
  });

  it('are as large in a part in inches', () => {
    const checked = checkPart(
      `part: p\nunits: in\nbody: { x: 3, y: 3, z: 1 }\nfeatures:\n  f: { kind: groove, face: top, at: { x: center, y: center }, ring: 24x2.62 }\n`,
      SHOP,
    );
    assert.deepEqual([featureOf<Groove>(checked).width.mm, featureOf<Groove>(checked).depth?.mm], [3.8, 2]);
  });
});

describe('edges where a feature comes out', () => {
  const holed = (depth: string, edge: string) =>
    checkPart(
      `part: plate\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 60, z: 10 }\nfeatures:\n  hole: { kind: hole, face: top, at: { x: 20, y: 30 }, diameter: 6, depth: ${depth} }\n  f: ${edge}\n`,
      SHOP,
    );
  const BACK = '{ kind: chamfer, edges: { rim: hole, side: far }, size: 1 }';

  it('are cut from the opposite face, and take what a countersink takes', () => {
    const { part: read, solid } = holed('through', BACK);
    const back = read.featureByName.get('f')!;
    assert.equal(back.face, 'bottom');
    assert.deepEqual(approachesOf(back, read, solid), ['bottom']);
    const cone = (Math.PI / 3) * (16 + 12 + 9) - Math.PI * 9;
    assert.ok(Math.abs(solid.measures.volumeMm3 - (36000 - Math.PI * 90 - cone)) < 0.01);
    assert.equal(solid.isMaterial([20 + 3.9, 30, 0.05]), false);
    assert.equal(solid.isMaterial([20 + 3.9, 30, 9.95]), true);
  });

  it('are none of a blind feature', () => {
    assert.match(
      saidOf(holed('5', BACK)).join(),
      /`hole` does not go through: it has no far edge\. Delete `side: far`\./,
    );
  });

  it('are planned with their own face up', () => {
    const checked = holed('through', BACK);
    const ups = planFor(checkPart(checked.tree.text, builtinShop()))?.setups.map(({ setup }) => [
      setup.up?.name,
      setup.cuts.map((c) => c.name),
    ]);
    assert.deepEqual(ups, [['bottom', ['hole', 'f']]]);
  });
});
