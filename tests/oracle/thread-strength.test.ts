/** What threads hold, against published stress areas, nut heights and the closed form of equal strength. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { limitsOf } from '../../server/src/tables/thread-limits';
import { findThread } from '../../server/src/tables/thread-names';
import { engaged as engagedAt, shearAreas, stressAreaMm2 } from '../../server/src/tables/thread-strength';
import { THREADS } from '../../server/src/tables/threads';
import { near } from './near';

const engaged = (...asked: Parameters<typeof engagedAt>) => engagedAt(...asked)!;
/** Pipe and trapezoidal threads hold no screw. */
const SCREWS = THREADS.filter((t) => limitsOf(t) !== undefined);

describe('oracle: strength of threads', () => {
  // ISO 898-1, nominal stress areas of coarse and fine threads, mm² (three figures), from memory.
  it('ISO 898-1: stress areas', () => {
    const published = {
      M3: 5.03,
      M4: 8.78,
      M5: 14.2,
      M6: 20.1,
      M8: 36.6,
      M10: 58,
      M12: 84.3,
      M16: 157,
      M20: 245,
      M24: 353,
      M8x1: 39.2,
      'M10x1.25': 61.2,
      'M12x1.5': 88.1,
    };
    for (const [name, mm2] of Object.entries(published)) near(stressAreaMm2(findThread(name)!) / mm2, 1, 0.004, name);
  });

  // ASME B1.1, tensile stress areas, in², from memory.
  it('ASME B1.1: stress areas', () => {
    const published = { '10-24': 0.0175, '10-32': 0.02, '1/4-20': 0.0318, '3/8-16': 0.0775, '1/2-13': 0.1419 };
    for (const [name, in2] of Object.entries(published))
      near(stressAreaMm2(findThread(name)!) / 25.4 ** 2 / in2, 1, 0.005, name);
  });

  // Bickford, Introduction to the Design and Behavior of Bolted Joints, 4th ed., table of metric stress and shear areas:
  // strip areas of bolt and nut threads 6g / 6H over one diameter, mm², as printed at engineersedge.com (table 15797).
  it('Bickford: strip areas by least material, over one diameter of engagement', () => {
    const published: Readonly<Record<string, readonly [bolt: number, nut: number]>> = {
      M5: [35.366, 49.994],
      M6: [51.875, 73.145],
      M8: [97.29, 134.63],
      M10: [155.8, 214.77],
      M12: [227.72, 313.41],
      M16: [417.55, 569.12],
      M20: [665.58, 907.76],
      M24: [971.1, 1320.2],
    };
    for (const [name, [bolt, nut]] of Object.entries(published)) {
      const thread = findThread(name)!;
      const areas = shearAreas(thread, thread.tapDrillMm)!;
      near((areas.holeMm2 * thread.diameterMm) / nut, 1, 0.008, `${name}: nut`);
      near((areas.screwMm2 * thread.diameterMm) / bolt, 1, 0.008, `${name}: bolt`);
    }
  });

  // ISO 965-2, limits of sizes of everyday threads, mm, from memory: M6 6g major 5.794 to 5.974, 6H pitch to 5.500.
  // ASME B1.1, inches, from memory: 1/4-20 UNC 2A major 0.2408 to 0.2489, pitch from 0.2127; 2B pitch to 0.2224, minor to 0.207.
  it('limits of single threads', () => {
    const m6 = limitsOf(findThread('M6')!)!;
    near(m6.leastMajorMm, 5.794, 0.004); // the standard rounds its tolerance to 180 µm

    near(m6.mostHolePitchMm, 5.5, 0.004);
    const quarter = limitsOf(findThread('1/4-20')!)!;
    near(quarter.leastMajorMm / 25.4, 0.2408, 0.0002);
    near(quarter.leastScrewPitchMm / 25.4, 0.2127, 0.0002);
    near(quarter.mostHolePitchMm / 25.4, 0.2224, 0.0002);
    near(quarter.mostMinorMm / 25.4, 0.207, 0.0006);
  });

  // Bhandari, Design of Machine Elements, ch. 7: equal strength in like materials with dc = 0.8 d asks for a nut of 0.4 d;
  // standard nuts are 0.8 d high (ISO 4032: M10 8.4 mm, M12 10.8 mm), from memory.
  it('like materials: between the textbook’s 0.4 D and the standard nut’s 0.8 D, a little more of small ones at least material', () => {
    for (const thread of THREADS.filter((t) => t.series === 'coarse' && t.diameterMm >= 3)) {
      const { equalMm } = engaged(thread, thread.tapDrillMm, 1, { screwMPa: 800, materialMPa: 800 });
      assert.ok(equalMm > 0.4 * thread.diameterMm && equalMm < 0.88 * thread.diameterMm, thread.designation);
    }
    for (const [name, nutMm] of [['M10', 8.4] as const, ['M12', 10.8] as const]) {
      const thread = findThread(name)!;
      assert.ok(engaged(thread, thread.tapDrillMm, 1, { screwMPa: 800, materialMPa: 800 }).equalMm < nutMm);
    }
  });

  // By hand: M6 in 6061-T6 (310 N/mm²), class 8.8: 20.12 · 800 = 16.1 kN; 0.5 · 310 · 12.19 (73.145 / 6) = 1890 N per mm; 8.5 mm.
  it('M6 in aluminium, worked by hand', () => {
    const found = engaged(findThread('M6')!, 5, 9, { screwMPa: 800, materialMPa: 310 });
    near(found.breaksN / 16098, 1, 0.002);
    near(found.stripsN / (9 * 1890), 1, 0.008);
    near(found.equalMm, 8.52, 0.06);
    assert.equal(found.weaker, 'hole');
  });

  it('goes with length, strength and percent of thread as it must', () => {
    const any = fc.record({
      thread: fc.constantFrom(...SCREWS),
      lengthMm: fc.double({ min: 1, max: 40, noNaN: true }),
      screwMPa: fc.integer({ min: 300, max: 1200 }),
      materialMPa: fc.integer({ min: 30, max: 1200 }),
    });
    fc.assert(
      fc.property(any, ({ thread, lengthMm, ...of }) => {
        const once = engaged(thread, thread.tapDrillMm, lengthMm, of);
        const twice = engaged(thread, thread.tapDrillMm, 2 * lengthMm, of);
        near(twice.stripsN / once.stripsN, 2, 1e-9);
        assert.equal(twice.breaksN, once.breaksN);
        // At the equal length both loads are the same.
        const equal = engaged(thread, thread.tapDrillMm, once.equalMm, of);
        near(equal.stripsN / equal.breaksN, 1, 1e-9);
        // Less of the thread's height never holds more.
        const wider = engaged(thread, thread.tapDrillMm + 0.2 * thread.pitchMm, lengthMm, of);
        assert.ok(wider.stripsN <= once.stripsN + 1e-9);
      }),
      { seed: 11, numRuns: 200 },
    );
  });
});
