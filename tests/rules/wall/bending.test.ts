/** wall/slender and wall/floor: ratios by hand, and what would do. */
import assert from 'node:assert/strict';
import type { Region } from '../../../server/src/geometry/types';
import { findMaterial } from '../../../server/src/reference/materials';
import { checkPart, checkShop } from '../../../server/src/rules/check';
import { inscribedDiameter } from '../../../server/src/rules/wall/inscribed';
import { builtinShop } from '../../../server/src/spec/builtin-shop';
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

  it('is a cantilever under the finishing force: a stiffer material moves less, with its modulus', () => {
    const plastic = onlyFinding(RULE, fin(2.2, 'pom-c'));
    assert.equal(plastic.severity, 'warning');
    assert.ok(Number(plastic.facts.deflection_mm) > Number(plastic.facts.allowed_mm));
    // F h³ / 3 E I, on a width of twice the height or the wall's straight length of 20 between its corners.
    const { force_n, thickness_mm, deflection_mm } = plastic.facts as Record<string, number>;
    const on = (widthMm: number) =>
      (force_n! * 12 ** 3) / (3 * findMaterial('pom-c')!.youngMPa * ((widthMm * thickness_mm! ** 3) / 12));
    assert.ok(
      deflection_mm! > 0.98 * on(24) && deflection_mm! < 1.02 * on(20),
      `${deflection_mm}, ${on(24)}, ${on(20)}`,
    );
    assert.deepEqual(findingsOf(RULE, fin(2.2, 'steel-c45')), []);
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
