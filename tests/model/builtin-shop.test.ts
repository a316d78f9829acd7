import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import { builtinShop } from '../../server/src/model/builtin-shop';
import type { Tool } from '../../server/src/model/shop-model';
import { clearanceHole } from '../../server/src/tables/clearance';
import { isStandardDrill } from '../../server/src/tables/drills';
import { counterboreFor } from '../../server/src/tables/heads';
import { findMaterial } from '../../server/src/tables/materials';
import { findThread } from '../../server/src/tables/thread-names';
import { shopOf } from './shop-said';

type OfKind<K extends Tool['kind']> = Extract<Tool, { kind: K }> | (Tool & { kind: K });

function all<K extends Tool['kind']>(kind: K): OfKind<K>[] {
  return builtinShop().tools.filter((t) => t.kind === kind) as OfKind<K>[];
}

describe('spec: the shop that comes along', () => {
  it('has no problems of its own, and leaves nothing to be assumed but how its mills are ground', () => {
    const { shop, said, tree } = shopOf(BUILTIN_SHOP_TEXT);
    assert.deepEqual(tree.problems, []);
    assert.deepEqual(said, []);
    assert.deepEqual(
      shop.assumed.filter((a) => a.field !== 'helix' && a.field !== 'centre-cutting'),
      [],
    );
  });

  it('is the same shop kept and read', () => {
    const { shop } = shopOf(BUILTIN_SHOP_TEXT);
    const { limits, builtIn, ...kept } = builtinShop();
    const { limits: none, builtIn: _, uri: __, ...read } = JSON.parse(JSON.stringify(shop));
    assert.deepEqual({ kept, limits: [...limits] }, { kept: read, limits: Object.keys(none) });
    assert.equal(builtIn, true);
    assert.equal(builtinShop(), builtinShop());
  });

  it('its places are places in its text', () => {
    const { tree } = shopOf(BUILTIN_SHOP_TEXT);
    for (const name of builtinShop().names) {
      const { start, end } = tree.locate(name.span);
      assert.equal(BUILTIN_SHOP_TEXT.slice(start, end), name.name);
    }
  });

  it('end mills of every usual size; more reach at least once from 2 to 16', () => {
    const mills = all('end-mill').filter((m) => 'cornerRadiusMm' in m && m.cornerRadiusMm === 0);
    const sizes = [...new Set(mills.map((m) => m.diameterMm))];
    assert.deepEqual(sizes, [2, 3, 4, 5, 6, 8, 10, 12, 16, 20]);
    for (const size of sizes.filter((s) => s < 20)) {
      assert.equal(mills.filter((m) => m.diameterMm === size).length, 2, `${size} short and long`);
    }
  });

  it('every cutter stands far enough out of its holder for its reach', () => {
    for (const tool of builtinShop().tools) {
      if (tool.stickoutMm === undefined || !('reachMm' in tool)) continue;
      assert.ok(tool.stickoutMm >= tool.reachMm, tool.name);
      assert.ok(tool.reachMm <= 10 * tool.diameterMm, `${tool.name} is not a needle`);
    }
  });

  it('a tap, its tap drill and its clearance drill for M2 to M12', () => {
    const drills = all('drill').map((d) => d.diameterMm);
    const taps = all('tap') as Extract<Tool, { kind: 'tap' }>[];
    for (const size of ['M2', 'M2.5', 'M3', 'M4', 'M5', 'M6', 'M8', 'M10', 'M12']) {
      assert.ok(
        taps.some((t) => t.thread === size && t.chamfer === 'plug'),
        `${size} tap`,
      );
      assert.ok(drills.includes(findThread(size)!.tapDrillMm), `${size} tap drill`);
      assert.ok(drills.includes(clearanceHole(size)!.diameterMm), `${size} clearance drill`);
    }
    assert.ok(taps.filter((t) => t.chamfer === 'bottoming').length >= 3);
  });

  it('its drills are of the standard series', () => {
    for (const drill of all('drill')) assert.ok(isStandardDrill(drill.diameterMm), drill.name);
  });

  it('reamers H7 with a drill a little under each', () => {
    const drills = all('drill').map((d) => d.diameterMm);
    const reamers = all('reamer') as Extract<Tool, { kind: 'reamer' }>[];
    assert.deepEqual(
      reamers.map((r) => r.diameterMm),
      [3, 4, 5, 6, 8, 10, 12],
    );
    for (const r of reamers) {
      assert.equal(r.fit, 'H7');
      assert.ok(
        drills.some((d) => d < r.diameterMm && d >= r.diameterMm - 0.3),
        `drill under ${r.name}`,
      );
    }
  });

  it('counterbore cutters fit their screws', () => {
    for (const size of ['M3', 'M4', 'M5', 'M6', 'M8', 'M10']) {
      const cutter = builtinShop().tools.find((t) => t.name === `cb-${size.toLowerCase()}`);
      assert.ok(cutter?.kind === 'counterbore-cutter' && 'pilotMm' in cutter);
      assert.equal(cutter.diameterMm, counterboreFor(size)!.diameterMm, size);
      assert.equal(cutter.pilotMm, clearanceHole(size)!.diameterMm, size);
    }
  });

  it('parallels go below the jaw tops', () => {
    const { parallelsMm, vises } = builtinShop();
    for (const vise of vises) for (const p of parallelsMm) assert.ok(p < vise.jawHeightMm, `${p} in ${vise.name}`);
  });

  it('bars of known materials with plausible prices', () => {
    const { rack } = builtinShop();
    assert.ok(rack.length > 50);
    for (const bar of rack) {
      const material = findMaterial(bar.material)!;
      const area = bar.diameterMm === undefined ? bar.widthMm! * bar.thicknessMm! : (Math.PI * bar.diameterMm ** 2) / 4;
      const perKg = bar.perMetre! / ((area * material.densityGPerCm3) / 1000);
      assert.ok(perKg > 2 && perKg < 20, `${bar.form} ${bar.material}: ${perKg.toFixed(1)} a kg`);
    }
  });
});
