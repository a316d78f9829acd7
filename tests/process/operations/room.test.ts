/** A cutter is chosen as it is used: stock on both walls, a way in, and no pass wider than the metal that is there. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import type { Mill, Shop } from '../../../server/src/model/shop-model';
import { operationsOf } from '../../../server/src/process/operations';
import { passedOverOf } from '../../../server/src/process/operations/passed-over';
import { priceOf } from '../../../server/src/process/operations/priced';
import type { Operation } from '../../../server/src/process/operations/types';
import { cutLine } from '../../../server/src/report/cuts';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { drill, endMill, shopWith } from '../../rules/shops';

function of(feature: string, { shop = builtinShop(), material = 'aluminium-6061-t6', head = '', tail = '' } = {}) {
  const text = `part: yoke\nunits: mm\nmaterial: ${material}\n${head}body: { x: 90, y: 60, z: 24 }\nfeatures:\n  it: ${feature}\n${tail}`;
  const { part, solid, findings } = checkPart(text, shop);
  const it = part.featureByName.get('it')!;
  const cuts = operationsOf(it, { part, solid, shop });
  const priced = cuts.map((o) => priceOf(o, findMaterial(material)!, shop.machines[0]!));
  return { part, solid, it, cuts, priced, findings };
}
const mills = (cuts: readonly Operation[]): readonly Mill[] =>
  cuts.flatMap((o) => (o.does === 'rough' || o.does === 'rest' || o.does === 'finish' ? [o.tool] : []));
const names = (cuts: readonly Operation[]) => mills(cuts).map((t) => t.name);
const slot = (width: string, depth = 5) =>
  `{ kind: slot, face: top, ends: [{ x: 20, y: 30 }, { x: 55, y: 30 }], width: ${width}, depth: ${depth} }`;
const pocket = (u: number, v: number, r: number, depth = 8) =>
  `{ kind: pocket, face: top, at: { x: 45, y: 30 }, size: { x: ${u}, y: ${v} }, corner-radius: ${r}, depth: ${depth} }`;

describe('an opening keeps stock on both walls', () => {
  it('a keyway 8 P9 in steel is cut by the next smaller cutter, which comes in gently', () => {
    const { cuts, it, part, solid } = of(slot('8 P9', 4), { material: 'steel-c45' });
    assert.deepEqual(names(cuts), ['em-6', 'em-6']);
    const [rough, finish] = cuts;
    assert.ok(rough?.does === 'rough' && rough.enters === 'helix');
    assert.ok(finish?.does === 'finish' && finish.wideMm === 0.2);
    const passed = passedOverOf(it, { part, solid, shop: builtinShop() }).find((p) => p.tool.name === 'em-8');
    assert.equal(passed?.why, 'fills 8 mm: no stock is left to finish its walls');
  });

  it('a slot with a tolerance of its own never by one as wide, a plain one as shops do; class f of a narrow one bears it not', () => {
    for (const width of ['8 H8', '7.9 ±0.02', '10 +0.1/-0']) {
      const { cuts } = of(slot(width));
      assert.ok(
        mills(cuts).length > 0 && mills(cuts).every((t) => t.diameterMm <= Number.parseFloat(width) - 0.2),
        width,
      );
    }
    assert.deepEqual(names(of(slot('8')).cuts), ['em-8', 'em-8']);
    assert.deepEqual(names(of(slot('6'), { head: 'tolerance: ISO 2768-m\n' }).cuts), ['em-6', 'em-6']);
    // ± 0.05 by ISO 2768-1 f up to 6 mm, ± 0.1 above.
    assert.deepEqual(names(of(slot('6'), { head: 'tolerance: ISO 2768-f\n' }).cuts), ['em-5', 'em-5']);
    assert.deepEqual(names(of(slot('8'), { head: 'tolerance: ISO 2768-f\n' }).cuts), ['em-8', 'em-8']);
  });

  it('a slot that its cutter fills has nothing to finish but what the cutter bent away by', () => {
    const bent = (x: number) =>
      `{ kind: slot, face: top, path: [{ x: ${30.17 + x}, y: 20.3 }, { x: ${41.33 + x}, y: 28.71, round: 6 }, { x: ${58.9 + x}, y: 21.77 }], width: 8, depth: 5 }`;
    // Its width is worked out from its walls, and comes out a last digit wider or narrower by where they lie.
    const shifts = Array.from({ length: 40 }, (_, i) => i * 0.137);
    for (const text of [slot('8'), ...shifts.map(bent)])
      assert.equal(of(text).priced.at(-1)?.milling?.aeMm, 0.05, text);
  });

  it('a pocket is never roughed by a cutter as wide as it is', () => {
    const { cuts } = of(pocket(20, 16, 2), { material: 'stainless-304' });
    assert.ok(mills(cuts).length > 0 && mills(cuts).every((t) => t.diameterMm < 15.8));
    assert.ok(cuts.every((o) => o.does !== 'missing'));
  });

  it('a milled hole has room to go round; one that only an equal cutter would make is said to lack its tool', () => {
    const hole = '{ kind: hole, face: top, at: { x: 45, y: 30 }, diameter: 20, depth: through }';
    assert.ok(mills(of(hole).cuts).every((t) => t.diameterMm <= 18));
    const { cuts } = of(hole, { shop: shopWith(endMill('em-20', 20, 40)) });
    assert.deepEqual(
      cuts.map((o) => o.does),
      ['missing'],
    );
  });

  it('where no smaller cutter is on hand it is said, with what would do', () => {
    const { cuts, findings } = of(slot('8 H8'), { shop: shopWith(endMill('em-8', 8, 20)) });
    assert.deepEqual(
      cuts.map((o) => o.does),
      ['missing'],
    );
    assert.match(findings.map((f) => f.message).join(), /up to 7\.8 mm \(leaves stock on both walls of 8 mm\)/);
  });
});

describe('a cutter gets in', () => {
  const hollow = (more: string) => shopWith(endMill('em-8', 8, 20).replace('}', `, centre-cutting: no }`) + more);
  const tight = pocket(10, 9, 4.4, 6);

  it('by a helix or a ramp where there is room', () => {
    const helix = of(pocket(30, 20, 4), { shop: hollow('') }).cuts[0];
    assert.ok(helix?.does === 'rough' && helix.enters === 'helix');
    const ramp = of(slot('8'), { shop: hollow('') }).cuts[0];
    assert.ok(ramp?.does === 'rough' && ramp.enters === 'ramp');
  });

  it('straight down only where it cuts over its centre, else by a hole that is drilled for it, else not at all', () => {
    const plunge = of(tight, { shop: shopWith(endMill('em-8', 8, 20)) });
    assert.ok(plunge.cuts[0]?.does === 'rough' && plunge.cuts[0].enters === 'plunge');
    assert.match(cutLine(plunge.priced[0]!, 'mm'), /straight down/);
    const drilled = of(tight, { shop: hollow(drill(6, 50)) }).cuts;
    assert.deepEqual(
      drilled.map((o) => o.does),
      ['drill', 'rough', 'finish'],
    );
    assert.ok(drilled[1]?.does === 'rough' && drilled[1].enters === 'drilled');
    const [lacking] = of(tight, { shop: hollow('') }).cuts;
    assert.ok(lacking?.does === 'missing' && /cuts over its centre, or a drill of 4.8 to 8.8 mm/.test(lacking.wanted));
  });
});

describe('no pass is wider than the metal', () => {
  const widest = (made: ReturnType<typeof of>) => Math.max(...made.priced.map((p) => p.milling?.aeMm ?? 0));
  const step = (width: number) => `{ kind: step, face: top, along: front, width: ${width}, depth: 10 }`;

  it('a step a millimetre wide is roughed 0.8 wide and finished 0.2; one of 0.2 is finished only', () => {
    const made = of(step(1));
    assert.deepEqual(
      made.priced.map((p) => [p.operation.does, Number(p.milling!.aeMm.toFixed(6))]),
      [
        ['rough', 0.8],
        ['finish', 0.2],
      ],
    );
    const thin = of(step(0.2));
    assert.deepEqual(
      thin.cuts.map((o) => o.does),
      ['finish'],
    );
    assert.ok(Math.abs(widest(thin) - 0.2) < 1e-3);
    // Power is of what is removed: P = kc · ae · ap · vf; a tenth of the width, no more than that share of a full pass.
    assert.ok(made.priced[0]!.powerW! < of(step(12)).priced[0]!.powerW!);
  });

  it('stock beside it counts, and what the set-ups cut before it does not', () => {
    const stocked = of(step(1), { head: 'stock: { form: block, extra: { front: 2 } }\n' });
    assert.ok(Math.abs(widest(stocked) - 2.8) < 1e-2, `${widest(stocked)}`);
    const tail = (cuts: string) =>
      `  first: { kind: step, face: top, along: front, width: 5, depth: 12 }\nsetups:\n  one: { up: top, hold: { vise: vise, jaws: [left, right], grip: 8 }, cuts: [${cuts}] }\n`;
    assert.ok(Math.abs(widest(of(step(6), { tail: tail('first, it') })) - 0.8) < 1e-2);
    assert.ok(widest(of(step(6), { tail: tail('it, first') })) > 1);
  });

  it('a slot that runs along an edge is as wide as what of it lies in the part', () => {
    const edge = '{ kind: slot, face: top, ends: [{ x: -10, y: 0 }, { x: 100, y: 0 }], width: 12, depth: 6 }';
    assert.ok(widest(of(edge)) <= 6 + 1e-2);
  });
});

describe('of any opening and any shop', () => {
  const MILLS = [2, 3, 4, 5, 6, 8, 10, 12, 16, 20];
  const shops = fc.subarray(MILLS, { minLength: 1 }).map((sizes) => ({
    sizes,
    shop: shopWith(sizes.map((d) => endMill(`em-${d}`, d, 25)).join('')) as Shop,
  }));
  const tenths = (min: number, max: number) => fc.integer({ min: 10 * min, max: 10 * max }).map((n) => n / 10);
  const openings = fc.oneof(
    fc.record({ kind: fc.constant('slot' as const), wide: tenths(2.2, 20), how: fc.constantFrom(' H9', ' ±0.05', '') }),
    fc.record({ kind: fc.constant('pocket' as const), wide: tenths(6, 30), how: fc.constant('') }),
    fc.record({ kind: fc.constant('step' as const), wide: tenths(0.1, 30), how: fc.constant('') }),
  );

  it('no cutter fills what is to be finished, one is found where one is on hand, and no pass is wider than the metal', () => {
    let found = 0;
    fc.assert(
      fc.property(openings, shops, fc.integer({ min: 1, max: 12 }), ({ kind, wide, how }, { sizes, shop }, depth) => {
        const r = 2.1;
        const text =
          kind === 'slot'
            ? slot(`${wide}${how}`, depth)
            : kind === 'pocket'
              ? pocket(wide + 12, wide, r, depth)
              : `{ kind: step, face: top, along: front, width: ${wide}, depth: ${depth} }`;
        const { cuts, priced } = of(text, { shop });
        const least = kind === 'step' ? 0 : kind === 'slot' && how === '' ? 0 : 0.2;
        const fits = (d: number) => kind === 'step' || d <= wide - least + 0.01;
        for (const t of mills(cuts)) assert.ok(fits(t.diameterMm), `${text}: ${t.name}`);
        for (const p of priced) assert.ok((p.milling?.aeMm ?? 0) <= wide + 1e-3, `${text}: ${p.milling?.aeMm}`);
        // Passes of one cut are equal: so many fill the width, but where the first is in the full.
        for (const { operation: o, milling } of priced) {
          if (o.does !== 'rough' || !milling || o.neckMm < 2 * o.tool.diameterMm || o.wideMm > 10 * o.tool.diameterMm)
            continue;
          const passes = o.wideMm / milling.aeMm;
          assert.ok(Math.abs(passes - Math.round(passes)) < 1e-6, `${text}: ${passes} passes`);
        }
        const does = sizes.some((d) => fits(d) && (kind !== 'pocket' || d <= 2 * r));
        const lacks = cuts.some((o) => o.does === 'missing' && o.lacks === 'mill');
        assert.equal(lacks, !does, `${text} with ${sizes.join()}`);
        if (does) found += 1;
      }),
      { seed: 20261129, numRuns: 60 },
    );
    assert.ok(found > 20);
  });
});
