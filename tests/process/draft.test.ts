/**
 * Pockets whose walls lean. The volume is that of the layers' areas, worked out beside the check, and the exact kernel
 * (Open CASCADE) cuts the same. Angles of draft, common practice, no source: 1 to 10°.
 */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Pocket } from '../../server/src/model/model';
import { approachesOf } from '../../server/src/process/approach';
import { milledVoids } from '../../server/src/process/milling';
import { operationsOf } from '../../server/src/process/operations';
import { checkPart } from '../../server/src/rules/check';
import { assertClosed, assertOnSurfaces, meshOf } from '../geometry/mesh/proof';
import { exactKernel, exactPart } from '../oracle/exact';
import { endMill, shopWith } from '../rules/shops';

const tapered = (deg: number, more = '', flutes = 20) =>
  `tm-6: { kind: end-mill, diameter: 6, taper: ${deg}, flute-length: ${flutes}, reach: 22, shank: 10, material: carbide${more} }\n`;
const MILLS = `${endMill('em-6', 6, 20)}${endMill('em-10', 10, 30)}`;
const SHOP = shopWith(`${MILLS}${tapered(3)}`);

const mould = (fields: string, shape = 'size: { x: 40, y: 24 }, corner-radius: 5') => `part: mould
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  well: { kind: pocket, face: top, at: { x: center, y: center }, ${shape}, depth: 10${fields} }
`;
const CORE = ', draft: 3, islands: { core: { diameter: 6, at: { x: center, y: center } } }';

function read(text: string, shop = SHOP) {
  const checked = checkPart(text, shop);
  const well = checked.part.featureByName.get('well') as Pocket;
  return { ...checked, shop, well, said: checked.findings.map((f) => `${f.rule}: ${f.message}`) };
}

/** Layer by layer, drawn in by so much: a rectangle with round corners less a core that grows. */
function layersMm3(core: number): number {
  const areaAt = (x: number) =>
    (40 - 2 * x) * (24 - 2 * x) - (4 - Math.PI) * (5 - x) ** 2 - (core > 0 ? Math.PI * (core + x) ** 2 : 0);
  const t = Math.tan((3 * Math.PI) / 180);
  // A quadratic in depth: Simpson's rule is exact.
  return (10 / 6) * (areaAt(0) + 4 * areaAt(5 * t) + areaAt(10 * t));
}

describe('a pocket with draft', () => {
  it('is widest at its mouth; an island grows toward the floor', async function () {
    this.timeout(120_000);
    for (const [fields, core] of [
      [', draft: 3', 0],
      [CORE, 3],
    ] as const) {
      const { solid, part, said } = read(mould(fields));
      assert.deepEqual(said, [], fields);
      const cut = 60 * 40 * 16 - solid.measures.volumeMm3;
      assert.ok(Math.abs(cut - layersMm3(core)) < 1e-6 * cut, `${cut} against ${layersMm3(core)}`);
      await exactKernel();
      const exact = await exactPart(solidOf(part));
      try {
        assert.ok(Math.abs(solid.measures.volumeMm3 - exact.volumeMm3) < 1e-6 * exact.volumeMm3);
      } finally {
        exact.release();
      }
      const { shown } = await meshOf(part, 0.02);
      assertClosed(shown);
      assertOnSurfaces(shown, 0.02);
    }
  });

  it('is cleared by an upright mill and finished by a tapered one, from its own face', () => {
    const { part, solid, shop, well } = read(mould(CORE));
    assert.deepEqual(approachesOf(well, part, solid), ['top']);
    const made = operationsOf(well, { part, solid, shop });
    assert.deepEqual(
      made.map((o) => [o.does, 'tool' in o ? o.tool.name : '']),
      [
        ['rough', 'em-6'],
        ['finish', 'tm-6'],
      ],
    );
  });

  it('has the corners and passages of its floor', () => {
    const { part, solid, well } = read(mould(', draft: 3'));
    const [m] = milledVoids(well, part, solid);
    const x = 10 * Math.tan((3 * Math.PI) / 180);
    assert.ok(Math.abs(Math.min(...m!.corners.map((c) => c.radiusMm)) - (5 - x)) < 1e-6);
    assert.equal(m!.corners.length, 4);
  });

  it('says which tool is missing: another angle, too thick a tip, too short an edge', () => {
    const lacking = (more: string, text = mould(', draft: 3')) =>
      read(text, shopWith(`${MILLS}${more}`)).said.join('\n');
    const WANTED = /tapered end mill of 3° a side, its tip at most 8.95 mm, cutting 10 mm deep/;
    assert.match(lacking(''), WANTED);
    assert.match(lacking(tapered(5)), WANTED);
    assert.match(lacking(tapered(3, '', 8)), WANTED);
    // 3.4 at the mouth is 2.88 at the floor: no upright mill of 6 mm gets in there either.
    assert.match(
      lacking(tapered(3), mould(', draft: 3', 'size: { x: 40, y: 24 }, corner-radius: 3.4')),
      /radius of 2\.88 mm at the floor .* Make the radius 3\.9 mm/,
    );
    assert.deepEqual(read(mould(', draft: 3')).said, []);
  });

  it('never takes a tapered mill for upright walls', () => {
    const shop = shopWith(tapered(3));
    const { part, solid, well } = read(mould(''), shop);
    assert.ok(operationsOf(well, { part, solid, shop }).every((o) => o.does === 'missing'));
  });

  it('is refused in a sentence where it cannot be', () => {
    const wrong = (fields: string, said: RegExp, shape?: string) =>
      assert.match(read(mould(fields, shape)).said.join('\n'), said, fields);
    wrong(', draft: 3, floor-radius: 1', /`draft` has no `floor-radius`/);
    wrong(', draft: 3, relief: corner', /`draft` has no `relief`/);
    wrong(', draft: 3, tilt: { about: y, angle: 5 }', /`draft` has no `tilt`/);
    wrong(', draft: 3, islands: { low: { diameter: 6, at: { x: 30, y: 20 }, height: 4 } }', /as high as its walls/);
    wrong(', draft: 29', /nothing of the floor is left/, 'diameter: 10');
    assert.match(read(mould(', draft: 3').replace('depth: 10', 'depth: through')).said.join('\n'), /has a floor here/);
    assert.ok(read(mould(', draft: 3'), builtinShop()).said.join().includes('tapered end mill'));
  });
});
