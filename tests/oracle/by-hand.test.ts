/**
 * Parts of the gimbal's workshop that were judged by hand, as a toolroom would: what each must come out as, and by what
 * arithmetic. Practice where no source is named, from memory.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { planFor } from '../../server/src/planning/plan-cache';
import { operationsOf } from '../../server/src/process/operations';
import { priceOf } from '../../server/src/process/operations/priced';
import type { Operation, Priced } from '../../server/src/process/operations/types';
import { checkPart } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { findMaterial } from '../../server/src/tables/materials';
import { pocket } from '../rules/parts';

interface Written {
  readonly size: readonly [number, number, number];
  readonly material?: string;
  readonly features: string;
  readonly more?: string;
}

function judged({ size: [x, y, z], material = 'aluminium-6061-t6', features, more = '' }: Written) {
  const text = `part: gimbal-piece\nunits: mm\nmaterial: ${material}\nbody: { x: ${x}, y: ${y}, z: ${z} }\nfeatures:\n${features}${more}`;
  const shop = builtinShop();
  const checked = checkPart(text, shop);
  const cutsOf = (name: string): readonly Priced[] =>
    operationsOf(checked.part.featureByName.get(name)!, { part: checked.part, solid: checked.solid, shop }).map((o) =>
      priceOf(o, findMaterial(material)!, shop.machines[0]!),
    );
  const { findings } = checked;
  return { ...checked, findings, cutsOf, told: (rule: string) => findings.filter((f) => f.rule === rule) };
}
const graver = (findings: readonly Finding[]) => findings.filter((f) => f.severity !== 'hint').map((f) => f.rule);
const toolOf = (o: Operation) => (o.does === 'missing' ? undefined : o.tool);
const through = (width: string, face = 'top') =>
  `{ kind: slot, face: ${face}, ends: [{ x: -10, y: center }, { x: 80, y: center }], width: ${width}, depth: 6 }`;

describe('pieces judged by hand', () => {
  it('rough-width: a step 1 mm wide is roughed no wider than the 0.8 that finishing leaves of it', () => {
    const { cutsOf } = judged({
      size: [100, 60, 20],
      features: '  rim: { kind: step, face: top, along: front, width: 1, depth: 10 }\n',
    });
    const [rough, finish] = cutsOf('rim');
    assert.ok(Math.abs(rough!.milling!.aeMm - 0.8) < 1e-9 && Math.abs(finish!.milling!.aeMm - 0.2) < 1e-9);
    // Force, power and time are those of that width: the chips are 800 mm³ at 0.8 × depth × feed.
    const { aeMm, apMm, feedMmPerMin, load } = rough!.milling!;
    assert.ok(Math.abs(load.removalMm3PerMin - aeMm * apMm * feedMmPerMin) < 1e-6 * load.removalMm3PerMin);
    assert.ok(
      Math.abs(
        rough!.minutes[0] -
          ((10 / apMm) * (100 + Math.sqrt(aeMm * (toolOf(rough!.operation)!.diameterMm - aeMm)))) / feedMmPerMin,
      ) <
        0.02 * rough!.minutes[0],
    );
  });

  it('key-p9, slot-equal-cutter: a slot with a fit is cut by a smaller cutter, on both sides', () => {
    const key = `  key: { kind: slot, face: top, ends: [{ x: 15, y: center }, { x: 45, y: center }], width: 8 P9, depth: 4 }\n`;
    const cases: readonly [string, string, string][] = [
      ['steel-c45', key, 'key'],
      ['aluminium-6061-t6', `  seat: ${through('8 H8')}\n`, 'seat'],
      ['aluminium-6061-t6', `  seat: ${through('7.9 ±0.02')}\n`, 'seat'],
    ];
    for (const [material, features, name] of cases) {
      const cuts = judged({ size: [60, 40, 16], material, features }).cutsOf(name);
      assert.deepEqual(
        cuts.map((c) => c.operation.does),
        ['rough', 'finish'],
        features,
      );
      // 0.1 a side at least: no cutter over 7.7 mm.
      for (const c of cuts) assert.ok(toolOf(c.operation)!.diameterMm <= 7.7, features);
    }
  });

  it('hole-equal-cutter, pocket-equal-cutter: nothing is roughed and finished by what fills it', () => {
    const plate = judged({
      size: [60, 40, 12],
      features: `  window: { kind: hole, face: top, at: { x: center, y: center }, diameter: 20, depth: through }
  slot: { kind: slot, face: top, ends: [{ x: 8, y: 8 }, { x: 8, y: 32 }], width: 10 +0.1/-0, depth: through }\n`,
    });
    for (const [name, most] of [
      ['window', 18],
      ['slot', 9.8],
    ] as const)
      for (const c of plate.cutsOf(name)) assert.ok((toolOf(c.operation)?.diameterMm ?? 0) <= most, name);
    const recess = judged({
      size: [60, 30, 12],
      material: 'stainless-304',
      features: pocket('recess', { at: 'x: center, y: center', size: [20, 16], radius: 2, depth: 8 }),
    }).cutsOf('recess');
    for (const c of recess) assert.ok(toolOf(c.operation)!.diameterMm <= 15.8);
    assert.ok('enters' in recess[0]!.operation && ['helix', 'ramp', 'drilled'].includes(recess[0]!.operation.enters!));
  });

  it('form-cutters: dovetail in 2 to 3 passes at 0.03 a tooth at most, T-slot at 0.05', () => {
    const { cutsOf } = judged({
      size: [80, 60, 24],
      material: 'steel-c45',
      features: `  tee: { kind: slot, face: top, ends: [{ x: -10, y: center }, { x: 90, y: center }], width: 8, depth: 14, tee: { width: 16, height: 8 } }
  dove: { kind: slot, face: bottom, ends: [{ x: -10, y: center }, { x: 90, y: center }], width: 22, depth: 6, dovetail: { angle: 60 } }\n`,
    });
    const under = (name: string) => cutsOf(name).find((c) => c.operation.does === 'undercut')!;
    assert.ok(under('dove').milling!.feedPerToothMm <= 0.03 && under('tee').milling!.feedPerToothMm <= 0.05);
    assert.ok([2, 3].includes(under('dove').passes ?? 1));
  });

  it('wall-finish, wall-passes: walls of 2.8 and 1.5 mm, 18 high, are finished in one pass; the thicker one stands', () => {
    const ribs = (gap: number) =>
      judged({
        size: [90, 50, 25],
        features:
          pocket('one', { at: `x: ${(25 - gap / 2).toFixed(2)}, y: center`, size: [38, 40], radius: 5.5, depth: 18 }) +
          pocket('other', { at: `x: ${(64 + gap / 2).toFixed(2)}, y: center`, size: [40, 40], radius: 5.5, depth: 18 }),
      });
    assert.deepEqual(graver(ribs(2.8).findings), []);
    for (const gap of [2.8, 1.5]) {
      const finish = ribs(gap)
        .cutsOf('one')
        .find((c) => c.operation.does === 'finish')!;
      assert.ok(Math.abs(finish.milling!.apMm - 18) < 1e-9, `${gap}: ${finish.milling!.apMm} deep`);
    }
    assert.ok(ribs(1.5).told('wall/slender').length === 1);
  });

  it('seat-h7: a bearing seat is no clearance hole of a screw; of class H13 it is', () => {
    const stacked = (fit: string) =>
      judged({
        size: [60, 60, 20],
        features: `  bearing: { kind: hole, face: top, at: { x: center, y: center }, diameter: 22 ${fit}, counterbore: { diameter: 24, depth: 2 }, depth: through }\n`,
      }).told('hole/screw-head').length;
    assert.deepEqual([stacked('H7'), stacked('H13')], [0, 1]);
  });

  it('chamfer-web: what is left between a hole and a wide chamfer, by the distance of a point from a plane', () => {
    const web = (diameter: number) =>
      judged({
        size: [30, 40, 20],
        features: `  edge: { kind: chamfer, edges: [[top, front]], size: 4 }
  pipe: { kind: hole, face: left, at: { y: 6, z: 14 }, diameter: ${diameter}, depth: through }\n`,
      })
        .told('wall/thin')
        .filter((f) => f.of.includes('edge'));
    // The chamfer’s plane is y − z = 4 − 20; the axis (6, 14) is |6 − 14 + 16| / √2 = 5.657 from it.
    assert.equal(web(10)[0]?.facts.thickness_mm, Number((8 / Math.SQRT2 - 5).toFixed(3)));
    assert.equal(web(11.4)[0]?.severity, 'error');
    assert.deepEqual(web(8), []);
  });

  it('step-two: along two sides means the corner, and says so with what a rebate along both is', () => {
    const { findings, solid } = judged({
      size: [60, 40, 20],
      features: '  rebate: { kind: step, face: top, along: [front, left], width: [11, 8], depth: 6 }\n',
    });
    assert.ok(Math.abs(60 * 40 * 20 - solid.measures.volumeMm3 - 528) < 1e-6);
    const told = findings.find((f) => f.rule === 'corner/square')!;
    assert.match(told.message, /front and left is only the corner/);
    assert.match(told.message, /two steps|along each|both sides/);
  });

  it('thread-strength: M5 in 6 mm of 6061 strips at about 9.3 kN, before the screw of 8.8 breaks at 11.3', () => {
    const [told] = judged({
      size: [40, 40, 6],
      features: '  fix: { kind: hole, face: top, at: { x: center, y: center }, thread: M5, depth: through }\n',
    }).told('thread/too-short');
    assert.ok(told);
    const kilonewtons = Object.entries(told.facts).filter(([key]) => /_k?n$/.test(key));
    assert.ok(kilonewtons.length >= 2, JSON.stringify(told.facts));
    const near = (value: unknown, wanted: number) => Math.abs(Number(value) - wanted) < 0.05 * wanted;
    for (const wanted of [9.3, 11.3])
      assert.ok(
        kilonewtons.some(([, v]) => near(v, wanted) || near(v, 1000 * wanted)),
        `${wanted} of ${JSON.stringify(told.facts)}`,
      );
  });

  it('two-seats: a first piece takes a machinist 90 minutes and a student 3 hours, and nothing is wrong with it', () => {
    const checked = judged({
      size: [72, 42, 26],
      features: `  seat: { kind: hole, face: top, at: { x: 22, y: center }, diameter: 24 H7, depth: 9, bottom: flat }
  relief: { kind: hole, face: top, from: seat, at: { x: 22, y: center }, diameter: 16, depth: through }
  pivot: { kind: hole, face: top, at: { x: 54, y: center }, diameter: 12 H7, depth: through }
  feet: { kind: hole, face: bottom, at: { x: center, y: center }, pattern: { grid: { x: { pitch: 60, count: 2 }, y: { pitch: 30, count: 2 } } }, thread: M5, depth: 15, thread-depth: 10 }
  side: { kind: hole, face: front, at: { x: 38, z: 13 }, thread: M4, depth: 12, thread-depth: 8 }
  edges: { kind: chamfer, edges: [top, bottom], size: 0.5 }\n`,
      more: 'stock: { form: block, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }\ntolerances:\n  - { distance: 32 ±0.05, of: [seat, pivot], axis: x }\n',
    });
    assert.deepEqual(graver(checked.findings), []);
    const { firstPiece, eachFurther } = planFor(checked)!.time;
    const [low, high] = firstPiece;
    // Four of them are a student's day of four to five hours at the machine (one memory).
    assert.ok(low + 3 * eachFurther[0] <= 300 && high + 3 * eachFurther[1] >= 240);
    assert.ok(low <= 90 && high >= 180, `${low} to ${high} min`);
    assert.ok(low > 45 && high < 300, `${low} to ${high} min say nothing`);
  });
});
