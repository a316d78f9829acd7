/** What limits a cut: coolant, spindle, machine, holder; each changes its own number and in the right direction. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { resolveShop } from '../../../server/src/model/shop';
import type { Machine, Mill, Tap } from '../../../server/src/model/shop-model';
import { bendOf, stickoutOf } from '../../../server/src/process/cutting/bend';
import { drillingConditions, millingConditions } from '../../../server/src/process/cutting/conditions';
import { boringLoad, tappingTorqueNm } from '../../../server/src/process/cutting/force';
import { settable, speedRange, turning } from '../../../server/src/process/cutting/speed';
import { priceOf } from '../../../server/src/process/operations/priced';
import { cutLine, speedText } from '../../../server/src/report/cuts';
import { findMaterial } from '../../../server/src/tables/materials';
import { readText } from '../../../server/src/text/read';

const ALUMINIUM = findMaterial('aluminium-6061-t6')!;
const STEEL = findMaterial('steel-c45')!;
const POM = findMaterial('pom-c')!;

function shopOf(spindle: string, more = '') {
  const text = `shop: s
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { ${spindle} }${more} } }
tools:
  em: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10, material: carbide, stickout: 40 }
  hss: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10, material: hss, stickout: 40 }
  eng: { kind: engraver, diameter: 0.3, angle: 60 }
  tap: { kind: tap, thread: M5 }
`;
  const shop = resolveShop(readText(text), 's.shop.yaml');
  assert.deepEqual(shop.problems, []);
  return shop;
}
const machineOf = (spindle: string, more = ''): Machine => shopOf(spindle, more).machines[0]!;
const WIDE = 'rpm: [10, 100000], power: 50 kW';
const tool = (name: string) => shopOf(WIDE).tools.find((t) => t.name === name)!;
const EM = tool('em') as Mill;
const HSS = tool('hss') as Mill;
const CUT = { aeMm: 2, apMm: 4 };
/** Limits that a cut too light to bend the cutter meets. */
const LIGHT: readonly string[] = ['revolutions', 'slowest'];

describe('coolant', () => {
  it('from none by air and mist to flood a sticky material is cut faster, and drilled deeper before it pecks', () => {
    const kinds = ['none', 'air', 'mist', 'flood'].map((c) => machineOf(WIDE, `, coolant: ${c}`));
    const [low, high] = speedRange(ALUMINIUM, 'carbide');
    const speeds = kinds.map((m) => millingConditions(ALUMINIUM, EM, m, CUT).speedMPerMin);
    const pecks = kinds.map(
      (m) => drillingConditions(ALUMINIUM, { diameterMm: 5, material: 'hss', pointDeg: 118 }, m, 30).peckMm,
    );
    for (let i = 1; i < kinds.length; i++) {
      assert.ok(speeds[i]! > speeds[i - 1]!);
      assert.ok(pecks[i]! > pecks[i - 1]!);
    }
    assert.ok(speeds.every((v) => v >= low && v <= high));
    // Three diameters deep: only flood and mist go in one.
    const shallow = kinds.map(
      (m) => drillingConditions(ALUMINIUM, { diameterMm: 5, material: 'hss', pointDeg: 118 }, m, 16).peckMm,
    );
    assert.deepEqual(shallow.map(Number.isFinite), [true, true, false, false]);
  });

  it('is not missed by what is cut dry', () => {
    const [none, mist] = ['none', 'mist'].map((c) => machineOf(WIDE, `, coolant: ${c}`));
    assert.equal(
      millingConditions(POM, EM, none!, CUT).speedMPerMin,
      millingConditions(POM, EM, mist!, CUT).speedMPerMin,
    );
  });
});

describe('the spindle', () => {
  it('with steps is set to the nearest below, or its slowest', () => {
    const geared = { rpm: [100, 620], stepsRpm: [100, 250, 620] } as unknown as Parameters<typeof settable>[1];
    assert.equal(settable(619, geared), 250);
    assert.equal(settable(620, geared), 620);
    assert.equal(settable(60, geared), 100);
    assert.equal(settable(619, { ...geared, stepsRpm: [] }), 610);
    const machine = machineOf('rpm: [100, 2500], power: 1 kW, steps: [620, 100, 1250, 2500, 250]', ', coolant: flood');
    const turned = turning(speedRange(STEEL, 'hss'), 10, machine, STEEL);
    // 18 + 0.6 · 14 = 26.4 m/min: 840 rpm wanted.
    assert.ok(Math.abs(turned.wantedRpm - (1000 * 26.4) / (Math.PI * 10)) < 1e-9);
    assert.equal(turned.rpm, 620);
    assert.equal(turned.limitedBy, 'step');
    assert.equal(speedText(turned.rpm, turned.wantedRpm, machine), 'set the step of 620 rpm for 840 wanted');
  });

  it('without a read-out tells how its speed is found', () => {
    assert.match(
      speedText(1234, 1234, machineOf('rpm: [100, 2500], power: 1 kW, speed-set-by: unmarked')),
      /about 1230 rpm.*tachometer/,
    );
    assert.equal(speedText(1234, 1234, machineOf('rpm: [100, 2500], power: 1 kW, set: dial')), 'set 1234 rpm');
    assert.equal(speedText(1234, 1234, machineOf('rpm: [100, 2500], power: 1 kW')), '1234 rpm');
  });

  for (const [limit, spindle, more] of [
    ['revolutions', 'rpm: [10, 1000], power: 50 kW', ''],
    ['slowest', 'rpm: [50000, 60000], power: 500 kW', ''],
    ['feed', WIDE, ', feed: 100 mm/min'],
    ['power', 'rpm: [10, 100000], power: 0.05 kW', ''],
    ['torque', 'rpm: [10, 100000], power: 50 kW, torque: 0.1 N·m', ''],
    ['stiffness', WIDE, ', stiffness: 1 N/µm'],
  ] as const)
    it(`is limited by ${limit}, says so, and keeps to it`, () => {
      const machine = machineOf(spindle, more);
      const c = millingConditions(
        ALUMINIUM,
        EM,
        machine,
        LIGHT.includes(limit) ? { aeMm: 1, apMm: 1 } : { aeMm: 4, apMm: 6 },
      );
      assert.equal(c.limitedBy, limit);
      assert.ok(c.rpm >= machine.rpm[0] && c.rpm <= machine.rpm[1]);
      assert.ok(c.feedMmPerMin <= (machine.feedMmPerMin ?? Number.POSITIVE_INFINITY) * (1 + 1e-9));
      assert.ok(c.load.powerW <= 0.8 * machine.powerW * (1 + 1e-6));
      assert.ok(c.load.torqueNm <= (machine.torqueNm ?? Number.POSITIVE_INFINITY) * (1 + 1e-6));
      assert.ok(c.deflectionMm <= 0.05 * (1 + 1e-6));
    });
});

describe('the machine’s own give', () => {
  it('is force over stiffness, added to what the cutter bends', () => {
    const soft = millingConditions(ALUMINIUM, EM, machineOf(WIDE, ', stiffness: 20 N/µm'), CUT);
    const stiff = millingConditions(ALUMINIUM, EM, machineOf(WIDE), CUT);
    const bends = bendOf(EM, stickoutOf(EM), soft.load.resultantN);
    assert.ok(Math.abs(soft.deflectionMm - (bends + soft.load.resultantN / 20_000)) < 1e-12);
    assert.equal(stiff.deflectionMm, bendOf(EM, stickoutOf(EM), stiff.load.resultantN));
  });
});

describe('a cutter as a stepped cantilever', () => {
  // ∫ F x² / E I over flutes of 0.8 D, neck, shank and holder, summed by hand.
  const by = (sections: readonly (readonly [d: number, from: number, to: number, e: number])[]) =>
    sections.reduce((sum, [d, a, b, e]) => sum + (100 * (b ** 3 - a ** 3)) / (3 * e * ((Math.PI * d ** 4) / 64)), 0);

  it('bends by the sum over its parts', () => {
    const bare = by([
      [8, 0, 22, 600_000],
      [10, 22, 40, 600_000],
    ]);
    assert.ok(Math.abs(bendOf(EM, 40, 100) - bare) < 1e-12);
    const held = bare + by([[34, 40, 90, 210_000]]);
    assert.ok(Math.abs(bendOf(EM, 40, 100, { diameterMm: 34, lengthMm: 50 }) - held) < 1e-12);
    // High-speed steel is 600/210 as soft.
    assert.ok(Math.abs(bendOf(HSS, 40, 100) / bare - 600 / 210) < 1e-9);
  });

  it('all of one thickness and flutes all the way: eight times at twice the stick-out, in proportion to the force', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 2, max: 20, noNaN: true }),
        fc.double({ min: 5, max: 80, noNaN: true }),
        fc.double({ min: 1, max: 900, noNaN: true }),
        (diameterMm, outMm, forceN) => {
          const mill = (out: number): Mill => ({
            ...EM,
            diameterMm,
            shankMm: diameterMm,
            fluteLengthMm: out,
            reachMm: out,
          });
          const once = bendOf(mill(outMm), outMm, forceN);
          assert.ok(Math.abs(bendOf(mill(2 * outMm), 2 * outMm, forceN) / once - 8) < 1e-9);
          assert.ok(Math.abs(bendOf(mill(outMm), outMm, 3 * forceN) / once - 3) < 1e-9);
        },
      ),
      { seed: 20261125, numRuns: 60 },
    );
  });

  it('an engraver’s point is a cone: far stiffer than a wire as thick as its tip', () => {
    const eng = tool('eng') as Mill;
    const wire = bendOf({ ...eng, kind: 'end-mill' }, stickoutOf(eng), 5);
    assert.ok(bendOf(eng, stickoutOf(eng), 5) < wire / 20);
  });
});

describe('thin chips', () => {
  it('of a narrow cut are fed more, up to twice, and no thicker than in a wide one', () => {
    const machine = machineOf(WIDE);
    const at = (aeMm: number) => millingConditions(ALUMINIUM, EM, machine, { aeMm, apMm: 0.2 });
    const wide = at(5);
    const narrow = at(0.5);
    // 1 / sin(acos(1 − 2 · 0.05)) = 2.29, held at 2.
    assert.ok(Math.abs(narrow.feedPerToothMm / wide.feedPerToothMm - 2) < 1e-9);
    assert.ok(narrow.feedPerToothMm * Math.sqrt(1 - 0.9 ** 2) <= wide.feedPerToothMm);
    for (const c of [wide, narrow])
      assert.ok(wide.feedPerToothMm >= c.chipRangeMm[0] && wide.feedPerToothMm <= c.chipRangeMm[1]);
  });
});

describe('a document in inches', () => {
  it('is told feet and inches a minute: 25.4 mm to the inch, 12 inches to the foot', () => {
    const shop = shopOf(WIDE);
    const wall = { kind: 'slope', name: 'w' } as never;
    const operation = {
      feature: wall,
      times: 1,
      does: 'finish',
      tool: EM,
      wayMm: 100,
      depthMm: 10,
      wideMm: 0.2,
    } as const;
    const priced = priceOf(operation, STEEL, shop.machines[0]!);
    const { speedMPerMin, feedMmPerMin } = priced.conditions!;
    const [, feet, inches] = /\((\d+) ft\/min of 262 to 525\), feed ([\d.]+) in\/min/.exec(cutLine(priced, 'in'))!;
    assert.equal(Number(feet), Math.round(speedMPerMin / 0.3048));
    assert.ok(Math.abs(Number(inches) * 25.4 - feedMmPerMin) < 0.005 * feedMmPerMin);
  });
});

describe('taps and bores', () => {
  it('a tap takes kc P² D / 8: eight times at twice the size and pitch', () => {
    const law = { kc11: 1000, mc: 0 };
    const kc = 1000;
    assert.ok(Math.abs(tappingTorqueNm(kc, 10, 1.5) - (1000 * 1.5 ** 2 * 10) / 8000) < 1e-12);
    assert.ok(Math.abs(tappingTorqueNm(kc, 20, 3) / tappingTorqueNm(kc, 10, 1.5) - 8) < 1e-12);
    const { torqueNm, powerW } = boringLoad(law, { diameterMm: 40, feedMm: 0.05, deepMm: 0.25, rpm: 600 });
    assert.ok(Math.abs(torqueNm - (1000 * 0.05 * 0.25 * 20) / 1000) < 1e-12);
    assert.ok(Math.abs(powerW - torqueNm * 2 * Math.PI * 10) < 1e-9);
  });

  it('goes in no faster than the machine feeds: the spindle turns slower', () => {
    const shop = shopOf('rpm: [50, 5000], power: 1 kW', ', feed: 100 mm/min, coolant: flood, tapping: power');
    const hole = { kind: 'hole', name: 'h' } as never;
    const operation = {
      feature: hole,
      times: 1,
      does: 'tap',
      tool: tool('tap') as Tap,
      pitchMm: 0.8,
      depthMm: 10,
    } as const;
    const { conditions } = priceOf(operation, STEEL, shop.machines[0]!);
    assert.equal(conditions?.limitedBy, 'feed');
    // 100 / 0.8 = 125, which is set as 120: two digits, rounded down.
    assert.ok(Math.abs(conditions!.rpm - 120) < 1e-9);
    assert.match(
      cutLine(priceOf(operation, STEEL, shop.machines[0]!), 'mm'),
      /tap with tap · 120 rpm .* limited by the machine’s feed/,
    );
  });
});
