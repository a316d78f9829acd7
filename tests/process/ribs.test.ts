/**
 * Ribs that stay standing in a pocket. Volumes are worked out beside the checks, and the exact kernel (Open CASCADE) cuts
 * the same. How slender a rib may be is `wall/slender`'s: rule of thumb, no source.
 */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import { assertClosed, assertOnSurfaces, meshOf } from '../geometry/mesh/proof';
import { exactKernel, exactPart } from '../oracle/exact';

const SHOP = builtinShop();
const tray = (islands: string, corner = 4) => `part: tray
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 50, z: 16 }
features:
  well:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 68, y: 38 }
    corner-radius: ${corner}
    depth: 10
    islands:
${islands.replace(/^(?=.)/gm, '      ')}
`;
const WEB = 'web: { ends: [{ x: 40, y: 6 }, { x: 40, y: 44 }], thickness: 3, root: 4 }';

function read(text: string) {
  const checked = checkPart(text, SHOP);
  return { ...checked, said: checked.findings.map((f) => `${f.rule}: ${f.message}`) };
}
const cutMm3 = (text: string) => 80 * 50 * 16 - read(text).solid.measures.volumeMm3;
/** What a round cutter leaves in a square corner. */
const left = (r: number) => (1 - Math.PI / 4) * r * r;

describe('a rib', () => {
  it('stays standing from wall to wall, with the radius of the cutter where it meets them', () => {
    const area = 68 * 38 - 4 * left(4) - 3 * 38 - 4 * left(4);
    assert.ok(Math.abs(cutMm3(tray(WEB)) - 10 * area) < 1e-6 * 10 * area);
    assert.deepEqual(read(tray(WEB)).said, []);
  });

  it('may be lower than the pocket is deep, and free at one end', () => {
    const low = 'low: { ends: [{ x: 6, y: 25 }, { x: 50, y: 25 }], thickness: 4, root: 4, height: 6 }';
    const floor = 68 * 38 - 4 * left(4);
    const area = 4 * floor + 6 * (floor - 4 * 44 - 2 * left(4));
    assert.ok(Math.abs(cutMm3(tray(low)) - area) < 1e-6 * area);
    assert.deepEqual(read(tray(low)).said, []);
  });

  it('lies as its ends do: aslant, crossing another', async function () {
    this.timeout(120_000);
    const text = tray(
      `${WEB}\nslant: { ends: [{ x: 12, y: 10 }, { x: 66, y: 38 }], thickness: 3, root: 3, height: 5 }`,
    );
    const { part, solid } = read(text);
    assert.deepEqual(read(text).said, []);
    await exactKernel();
    const exact = await exactPart(solidOf(part));
    try {
      assert.equal(exact.valid, true);
      assert.ok(Math.abs(solid.measures.volumeMm3 - exact.volumeMm3) < 1e-6 * exact.volumeMm3);
    } finally {
      exact.release();
    }
    const { shown } = await meshOf(part, 0.02);
    assertClosed(shown);
    assertOnSurfaces(shown, 0.02);
  });

  it('leaves square corners that no cutter makes, where it has no root', () => {
    assert.match(read(tray(WEB.replace(', root: 4', ''))).said.join('\n'), /corner/);
  });

  it('is too thin for its height, or too near to the next for a cutter', () => {
    assert.match(read(tray(WEB.replace('thickness: 3', 'thickness: 0.5'))).said.join('\n'), /wall\/(slender|thin)/);
    const near = tray(`${WEB}\nnext: { ends: [{ x: 44, y: 6 }, { x: 44, y: 44 }], thickness: 3 }`);
    assert.match(read(near).said.join('\n'), /access\/|corner\//);
  });

  it('is told what it lacks', () => {
    const wrong = (island: string, said: RegExp) => assert.match(read(tray(island)).said.join('\n'), said, island);
    wrong('web: { ends: [{ x: 40, y: 6 }, { x: 40, y: 44 }] }', /`thickness`/);
    wrong('web: { ends: [{ x: 40, y: 6 }], thickness: 3 }', /two ends|at least 2/);
    wrong('web: { diameter: 8, at: { x: 40, y: 20 }, root: 3 }', /`root` does not belong/);
    wrong(WEB.replace('root: 4', 'at: { x: 4, y: 4 }'), /`at` does not belong/);
    assert.match(read(tray(WEB).replace('islands:', 'ribs:')).said.join('\n'), /islands/);
  });
});
