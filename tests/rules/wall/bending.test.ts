/** wall/slender and wall/floor: ratios by hand, and what would do. */
import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../../server/generate/builtin-shop';
import type { Region } from '../../../server/src/geometry/types';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart, checkShop } from '../../../server/src/rules/check';
import { inscribedDiameter } from '../../../server/src/rules/wall/inscribed';
import { findMaterial } from '../../../server/src/tables/materials';
import { block, hole, pocket } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const ribs = (thickness: number, depth: number) =>
  pocket('one', { at: `x: ${30 - thickness / 2 - 12}, y: center`, size: [24, 30], depth, radius: 6 }) +
  pocket('two', { at: `x: ${30 + thickness / 2 + 12}, y: center`, size: [24, 30], depth, radius: 6 });

describe('wall/slender', () => {
  it('is height over thickness', () => {
    const finding = onlyFinding('wall/slender', block([60, 40, 20], ribs(1.5, 15)));
    assert.equal(finding.facts.ratio, 10);
    assert.equal(finding.facts.height_mm, 15);
    assert.equal(finding.facts.needed_mm, 1.875); // 15 / 8
    assert.equal(finding.facts.lower_mm, 12); // 1.5 × 8
    assert.equal(finding.severity, 'warning');
  });

  it('is an error beyond the second limit, nothing up to the first', () => {
    assert.equal(onlyFinding('wall/slender', block([60, 40, 20], ribs(1, 16))).severity, 'error');
    assert.deepEqual(findingsOf('wall/slender', block([60, 40, 20], ribs(2, 16))), []);
  });

  it('counts a short wall by its length: its ends hold it', () => {
    const short = (length: number) =>
      pocket('one', { at: 'x: 20, y: center', size: [14, length], depth: 18, radius: 3 }) +
      pocket('two', { at: 'x: 36, y: center', size: [14, length], depth: 18, radius: 3 });
    // 2 mm thick, 18 high: 9 times; but along only 10 less both corners it is a short, stiff web.
    assert.equal(findingsOf('wall/slender', block([60, 60, 25], short(40))).length, 1);
    assert.deepEqual(findingsOf('wall/slender', block([60, 60, 25], short(10))), []);
  });

  it('is quiet about drilled rows and deep holes beside the outside', () => {
    const row =
      '  row:\n    kind: hole\n    face: top\n    at: { x: center, y: 8 }\n    pattern: { line: { x: 7, count: 5 } }\n    diameter: 5\n    depth: through\n';
    assert.deepEqual(findingsOf('wall/slender', block([60, 40, 30], row)), []);
    assert.deepEqual(findingsOf('wall/slender', block([60, 40, 40], hole('deep', 'x: 5, y: 20', 6, 'through'))), []);
  });

  it('mends by thickness and by height', () => {
    const text = block([60, 40, 20], ribs(1.5, 15));
    for (const title of [/wide, its other side/, /^Move/]) {
      assert.deepEqual(findingsOf('wall/slender', mended('wall/slender', text, title)), []);
    }
  });

  it('is set by the shop', () => {
    const { shop } = checkShop('shop: ours\nlimits: { wall/slender: { ratio: 11, ratio-error: 20 } }\n');
    assert.deepEqual(findingsOf('wall/slender', block([60, 40, 20], ribs(1.5, 15)), shop), []);
  });
});

describe('wall/floor', () => {
  const tray = (depth: number, more = '') =>
    block([90, 70, 8], pocket('inside', { at: 'x: center, y: center', size: [78, 58], depth, radius: 6, more }));

  it('is the largest circle on the floor over its thickness', () => {
    const finding = onlyFinding('wall/floor', tray(7));
    assert.equal(finding.facts.across_mm, 58);
    assert.equal(finding.facts.thickness_mm, 1);
    assert.equal(finding.facts.ratio, 58);
    assert.equal(finding.facts.needed_mm, 1.45); // 58 / 40
    assert.deepEqual(findingsOf('wall/floor', tray(6.5)), []);
  });

  it('mends by a shallower pocket', () => {
    assert.match(mended('wall/floor', tray(7), /deep$/), /depth: 6\.5\n/);
  });

  it('lets an island carry the floor', () => {
    const island = 'islands:\n      post: { diameter: 24, at: { x: center, y: center } }';
    const ratio = Number(onlyFinding('wall/floor', tray(7)).facts.ratio);
    const carried = findingsOf('wall/floor', tray(7, island))[0];
    assert.ok(!carried || Number(carried.facts.ratio) < ratio);
  });

  it('counts an open side: what hangs on fewer edges is as limp as a wider floor', () => {
    // 20 wide, 0.7 thick, 28 times: quiet with walls all round; along a whole edge of the block it hangs on three or fewer.
    const shelf = (y: string, size: readonly [number, number]) =>
      block([90, 70, 8], pocket('inside', { at: `x: center, y: ${y}`, size, depth: 7.3, radius: 6 }));
    assert.deepEqual(findingsOf('wall/floor', shelf('center', [40, 20])), []);
    const open = onlyFinding('wall/floor', shelf('5', [40, 30])); // from y = −10 to 20
    assert.equal(open.facts.held_edges, 3);
    assert.match(open.message, /held on three edges \(like .* mm\)/);
    assert.ok(Number(open.facts.as_mm) > Number(open.facts.across_mm));
    assert.equal(onlyFinding('wall/floor', shelf('center', [40, 90])).facts.held_edges, 2);
    assert.equal(onlyFinding('wall/floor', shelf('5', [120, 30])).facts.held_edges, 1);
  });

  it('is quiet about a through opening', () => {
    const through = tray(7).replace('depth: 7', 'depth: through');
    assert.deepEqual(
      checkPart(through, builtinShop()).findings.filter((f) => f.rule === 'wall/floor'),
      [],
    );
  });
});

describe('the largest circle in a region', () => {
  const polygon = (...points: [number, number][]): Region => ({
    outer: {
      edges: points.map(([u, v], i) => {
        const [nu, nv] = points[(i + 1) % points.length]!;
        return { type: 'line' as const, a: { u, v }, b: { u: nu, v: nv } };
      }),
    },
    holes: [],
  });
  const near = (actual: number, wanted: number) =>
    assert.ok(Math.abs(actual - wanted) <= wanted * 2e-3, `${actual} for ${wanted}`);

  it('of a rectangle is its shorter side', () =>
    near(inscribedDiameter(polygon([0, 0], [50, 0], [50, 20], [0, 20])), 20));
  it('of a 3-4-5 triangle has the radius (a + b − c) / 2 (closed form)', () =>
    near(inscribedDiameter(polygon([0, 0], [40, 0], [0, 30])), 20));
  it('of an equilateral triangle of side s has the radius s / (2 √3) (closed form)', () =>
    near(inscribedDiameter(polygon([0, 0], [30, 0], [15, 15 * Math.sqrt(3)])), 30 / Math.sqrt(3)));
  it('of an L is in its corner: 2 (2 − √2) w for arms of width w (closed form)', () => {
    // Touches both outer sides and the inner corner (w, w): r √2 = (w − r)… from (r, r) to (w, w) is r.
    const w = 10;
    near(inscribedDiameter(polygon([0, 0], [60, 0], [60, w], [w, w], [w, 60], [0, 60])), 2 * w * (2 - Math.SQRT2));
  });
});

describe('wall/deflects', () => {
  const RULE = 'wall/deflects';
  const fin = (thickness: number, material: string, depth = 12) =>
    `part: p\nunits: mm\nmaterial: ${material}\nbody: { x: 80, y: 40, z: 20 }\nfeatures:\n  a: { kind: pocket, face: top, at: { x: ${40 - thickness / 2 - 17}, y: center }, size: { x: 34, y: 30 }, corner-radius: 5, depth: ${depth} }\n  b: { kind: pocket, face: top, at: { x: ${40 + thickness / 2 + 17}, y: center }, size: { x: 34, y: 30 }, corner-radius: 5, depth: ${depth} }\n`;

  it('is a plate on its foot and both ends under the finishing force: a stiffer material moves less, with its modulus', () => {
    const plastic = onlyFinding(RULE, fin(2.2, 'pom-c'));
    assert.equal(plastic.severity, 'warning');
    assert.match(plastic.message, /held on three edges/);
    const { force_n, thickness_mm, deflection_mm, held_edges, along_mm, across_mm } = plastic.facts as Record<
      string,
      number
    >;
    // 20 mm straight, and into both corner radii of 5 until it is twice as thick; 12 high.
    assert.equal(held_edges, 3);
    assert.ok(along_mm! > 20 && along_mm! < 30, `${along_mm}`);
    assert.ok(Math.abs(across_mm! - 12) < 0.02, `${across_mm}`);
    const D = (findMaterial('pom-c')!.youngMPa * thickness_mm! ** 3) / (12 * (1 - 0.33 ** 2));
    // α between that of 1.5 to 1 and 2.5 to 1 (finite elements, as in plates.test.ts).
    const at = (alpha: number) => (alpha * force_n! * across_mm! ** 2) / D;
    assert.ok(deflection_mm! > at(0.058) && deflection_mm! < at(0.123), `${deflection_mm}, ${at(0.058)}, ${at(0.123)}`);
    assert.deepEqual(findingsOf(RULE, fin(2.2, 'steel-c45')), []);
  });

  it('a wall with a free end is a plate on two edges, one with two on its foot alone', () => {
    // The same wall between a slot that runs out at the front, or at both sides, and the outside.
    const rib = (from: number, to: number) =>
      `part: antenna-foot\nmaterial: aluminium-6061-t6\nbody: { x: 60, y: 60, z: 30 }\nfeatures:\n` +
      `  a: { kind: pocket, face: top, at: { x: 29, y: ${(from + to) / 2} }, size: { x: 14, y: ${to - from} }, corner-radius: 3, depth: 22 }\n` +
      `  b: { kind: pocket, face: top, at: { x: 45.6, y: ${(from + to) / 2} }, size: { x: 14, y: ${to - from} }, corner-radius: 3, depth: 22 }\n`;
    const limits = { 'wall/deflects': { allowed: 0.0001, look: 3 }, 'wall/slender': { ratio: 90, 'ratio-error': 99 } };
    const { shop: strict } = checkShop(`${BUILTIN_SHOP_TEXT.trimEnd()}\nlimits: ${JSON.stringify(limits)}\n`);
    const edges = (from: number, to: number) => {
      const [found] = findingsOf(RULE, rib(from, to), strict);
      return [found?.facts.held_edges, Number(found?.facts.deflection_mm) / Number(found?.facts.force_n)] as const;
    };
    const [held, oneFree, bothFree] = [edges(10, 50), edges(-10, 50), edges(-10, 70)];
    assert.deepEqual([held[0], oneFree[0], bothFree[0]], [3, 2, 1]);
    // A free corner gives way twice as far and more; a second one 50 mm off adds nothing to the first.
    assert.ok(oneFree[1] > 2 * held[1], `${held[1]} ${oneFree[1]}`);
    assert.ok(Math.abs(bothFree[1] / oneFree[1] - 1) < 0.1, `${oneFree[1]} ${bothFree[1]}`);
  });

  it('leaves a sound wall between two pockets alone', () => {
    // 2.8 thick, 18 high, held on three edges, about 70 N: some 0.02 mm.
    const text = `part: battery-tray\nmaterial: aluminium-6061-t6\nbody: { x: 90, y: 50, z: 25 }\nfeatures:
  a: { kind: pocket, face: top, at: { x: 22.7, y: center }, size: { x: 38, y: 40 }, corner-radius: 5.5, depth: 18 }
  b: { kind: pocket, face: top, at: { x: 64.5, y: center }, size: { x: 40, y: 40 }, corner-radius: 5.5, depth: 18 }\n`;
    assert.deepEqual(checkPart(text, builtinShop()).findings, []);
  });

  it('names the thickness that would stand it, by the cube root', () => {
    const { deflection_mm, allowed_mm, thickness_mm, needed_mm } = onlyFinding(RULE, fin(2.2, 'pom-c')).facts as Record<
      string,
      number
    >;
    assert.ok(Math.abs(needed_mm! - thickness_mm! * Math.cbrt(deflection_mm! / allowed_mm!)) < 0.02);
  });

  it('leaves what is thinner than any wall to wall/thin', () => {
    assert.deepEqual(findingsOf(RULE, fin(1.2, 'pom-c')), []);
  });
});
