/** Threads against published rows: tap drills, minor diameters, percent of thread. Sources: `data/README.md`. */
import assert from 'node:assert/strict';
import { minorLimits } from '../../server/src/tables/thread-limits';
import { findThread } from '../../server/src/tables/thread-names';
import { THREADS, threadPercent } from '../../server/src/tables/threads';
import { num, rowsOf } from './csv';
import { near } from './near';

describe('oracle: threads', () => {
  const metric = rowsOf('threads-metric.csv');
  const unified = rowsOf('threads-unified.csv');

  it('has every row of the tables', () => {
    const of = (...series: string[]) => THREADS.filter((t) => series.includes(t.series)).length;
    assert.ok(of('coarse', 'fine') >= metric.length && of('UNC', 'UNF') >= unified.length);
    // ISO 261 to M64: 39 coarse; ASME B1.1 to 1 1/2: UNC from #1, UNF from #0. From memory.
    assert.deepEqual([of('coarse'), of('UNC'), of('UNF')], [39, 23, 24]);
  });

  // The tables' own tap drills against the standards' limits of the minor diameter, for every thread there is.
  it('every tap drill lies inside the minor diameter limits of its standard', () => {
    for (const thread of THREADS) {
      const { minMm, maxMm } = minorLimits(thread);
      const { tapDrillMm, designation } = thread;
      // Handbooks list 33/64 for 9/16-18 and the like: a 64th is no finer, and they are up to 0.0015 in over the limit of 2B.
      const overMm = thread.tapDrillName ? 0.038 : 1e-6;
      assert.ok(
        tapDrillMm >= minMm - 1e-6 && tapDrillMm <= maxMm + overMm,
        `${designation} ${tapDrillMm}: ${minMm} to ${maxMm}`,
      );
    }
  });

  // ISO 261, clause 5: the pitches of fine threads are each finer than the coarse one of the size; ISO 68-1.
  it('ISO 261: fine pitches are finer than coarse, sizes and pitches of ISO 965-1’s table', () => {
    const coarse = new Map(THREADS.filter((t) => t.series === 'coarse').map((t) => [t.diameterMm, t.pitchMm]));
    for (const t of THREADS.filter((f) => f.series === 'fine'))
      assert.ok(t.pitchMm < (coarse.get(t.diameterMm) ?? Number.POSITIVE_INFINITY), t.designation);
    // ISO 965-1: TD1(6H) by its formula, µm, for the pitches that the handbook's rows do not reach; the table rounds (from memory).
    for (const name of ['M30', 'M36', 'M42', 'M48', 'M56', 'M64']) {
      const thread = findThread(name)!;
      const { minMm, maxMm } = minorLimits(thread);
      near((1000 * (maxMm - minMm)) / (230 * thread.pitchMm ** 0.7), 1, 0.04, name);
    }
  });

  // BS 2779 / BS 21 give the diameters in inches, from memory; GOST 6357 (a public page) has 9.729, 8.567 and 13.158, 11.446.
  it('ISO 228-1: diameters by their inch sizes, minor diameters by h = 0.640327 P', () => {
    const inches = {
      '1/16': 0.3041,
      '1/8': 0.383,
      '1/4': 0.518,
      '3/8': 0.656,
      '1/2': 0.825,
      '5/8': 0.902,
      '3/4': 1.041,
      '7/8': 1.189,
      '1': 1.309,
      '1 1/8': 1.492,
      '1 1/4': 1.65,
      '1 1/2': 1.882,
      '1 3/4': 2.116,
      '2': 2.347,
    };
    for (const [size, inch] of Object.entries(inches))
      near(findThread(`G${size}`)!.diameterMm, inch * 25.4, 0.0013, size);
    near(minorLimits(findThread('G1/8')!).minMm, 8.567, 0.0015);
    near(minorLimits(findThread('G1/4')!).minMm, 11.446, 0.0015);
    near(minorLimits(findThread('G1')!).minMm, 30.291, 0.0015);
  });

  // ASME B1.20.1 Table 2, in, from memory: E0 0.36351, 0.75843, 1.21363; K0 of 1/2 is 0.7013; handbook L2 of 1/8 0.2639.
  it('ASME B1.20.1: the bore of a tapered thread at its small end and its mouth', () => {
    const e0 = { '1/8': 0.36351, '1/2': 0.75843, '1': 1.21363 };
    for (const [size, inch] of Object.entries(e0)) {
      const thread = findThread(`${size} NPT`)!;
      near(minorLimits(thread).minMm / 25.4, inch - (0.8 * thread.pitchMm) / 25.4, 2e-5, size);
    }
    near(minorLimits(findThread('1/2 NPT')!).minMm / 25.4, 0.7013, 1e-4);
  });

  // DIN 8140-2, limits of the minor diameter of the hole, mm, from memory.
  it('DIN 8140-2: holes of wire thread inserts', () => {
    const limits = {
      M3: [3.108, 3.22],
      M5: [5.174, 5.334],
      M6: [6.217, 6.407],
      M8: [8.271, 8.483],
      M10: [10.325, 10.561],
      M12: [12.379, 12.644],
    };
    for (const [name, [least, most]] of Object.entries(limits)) {
      const { minMm, maxMm } = minorLimits(findThread(`EG ${name}`)!);
      near(minMm, least!, 0.0011, name);
      near(maxMm, most!, 0.0011, name);
    }
  });

  // ISO 261 sizes and pitches; tap drills: Mechanical Engineer's Data Handbook p. 299, ISO 2306.
  it('ISO 261: diameter, pitch and tap drill of each metric thread', () => {
    for (const row of metric) {
      const thread = findThread(row.designation!);
      assert.ok(thread, row.designation);
      assert.equal(thread.diameterMm, num(row, 'D_mm'), row.designation);
      assert.equal(thread.pitchMm, num(row, 'P_mm'), row.designation);
      assert.equal(thread.tapDrillMm, num(row, 'tap_drill_mm'), row.designation);
      assert.equal(thread.series, row.series);
    }
  });

  // ISO 965-1, class 6H: the drilled hole must lie within the thread's minor diameter limits.
  it('ISO 965-1: every metric tap drill lies inside the 6H minor diameter limits', () => {
    for (const row of metric) {
      const thread = findThread(row.designation!)!;
      const limits = minorLimits(thread);
      near(limits.minMm, num(row, 'D1_min_6H=D-1.08253P'), 1e-4, row.designation);
      near(limits.maxMm, num(row, 'D1_max_6H'), 6e-4, row.designation);
      assert.ok(thread.tapDrillMm >= limits.minMm && thread.tapDrillMm <= limits.maxMm, row.designation);
    }
  });

  // ISO 965-1 gives TD1(6H) = 433 P − 190 P^1.22 below 1 mm pitch, 230 P^0.7 from there (µm); it then rounds.
  it('ISO 965-1: the tolerance table agrees with the formula of the standard within 5 %', () => {
    for (const row of metric) {
      const { minMm, maxMm } = minorLimits(findThread(row.designation!)!);
      const formulaUm = num(row, 'TD1_formula_um');
      near(((maxMm - minMm) * 1000) / formulaUm, 1, 0.05, row.designation);
    }
  });

  it('percent of thread of each metric tap drill', () => {
    for (const row of metric) {
      const thread = findThread(row.designation!)!;
      const percent = threadPercent(thread, thread.tapDrillMm);
      near(percent, num(row, 'pct_thread=(D-drill)/(1.29904P)*100'), 0.06, row.designation);
      assert.ok(percent > 60 && percent < 85, row.designation);
    }
  });

  // ASME B1.1; drills: Machinery's Handbook 31 p. 2168.
  it('ASME B1.1: each unified thread, its tap drill and its percentage', () => {
    for (const row of unified) {
      const thread = findThread(`${row.designation} ${row.series}`);
      assert.ok(thread, row.designation);
      near(thread.diameterMm, num(row, 'D_in') * 25.4, 1e-4, row.designation);
      near(thread.pitchMm, num(row, 'pitch_mm'), 6e-5, row.designation);
      near(thread.tapDrillMm, num(row, 'tap_drill_in') * 25.4, 1e-4, row.designation);
      assert.equal(thread.tapDrillName, row.tap_drill);
      const percent = threadPercent(thread, thread.tapDrillMm);
      near(percent, num(row, 'pct_thread=(D-d)*tpi/1.299038*100'), 0.06, row.designation);
    }
  });

  it('ASME B1.1: every unified tap drill lies inside the 2B minor diameter limits', () => {
    for (const row of unified) {
      const thread = findThread(row.designation!)!;
      const limits = minorLimits(thread);
      near(limits.minMm / 25.4, num(row, 'D1_min_2B=D-1.08253P_in'), 6e-5, row.designation);
      assert.ok(thread.tapDrillMm >= limits.minMm && thread.tapDrillMm <= limits.maxMm, row.designation);
    }
  });

  // Upper limits of ASME B1.1 Table 3, class 2B, from memory: 0.0737, 0.156, 0.207, 0.457 in.
  it('ASME B1.1: upper 2B limits of four sizes', () => {
    const upper = { '2-56': 0.0737, '10-24': 0.156, '1/4-20': 0.207, '1/2-20': 0.457 };
    for (const [designation, inches] of Object.entries(upper)) {
      near(minorLimits(findThread(designation)!).maxMm / 25.4, inches, 6e-4, designation);
    }
  });

  // Machinery's Handbook 31, Table 2, p. 2155: whole percentages.
  it('MH31 Table 2: percent of thread of every drill and thread listed', () => {
    for (const row of rowsOf('percent-thread-mh31.csv')) {
      const thread = {
        designation: row.thread!,
        series: 'UNC' as const,
        diameterMm: num(row, 'D_in') * 25.4,
        pitchMm: 25.4 / num(row, 'tpi'),
        tapDrillMm: 0,
        source: '',
      };
      const percent = threadPercent(thread, num(row, 'drill_in') * 25.4);
      near(percent, num(row, 'MH31_pct'), 0.75, `${row.thread} drilled ${row.drill_in}`);
    }
  });

  // Where tables disagree: M8 6.8 or 6.75, M12 10.2 or 10.25; fine pitches D − P (8.75, 10.75, 5.25) or rounded to 0.1.
  it('tap drills of other tables: both readings lie inside 6H, ours is one of them', () => {
    const readings = {
      M8: [6.8, 6.75],
      M12: [10.2, 10.25],
      'M10x1.25': [8.75, 8.8],
      'M12x1.25': [10.75, 10.8],
      'M6x0.75': [5.25, 5.2],
    };
    for (const [designation, both] of Object.entries(readings)) {
      const thread = findThread(designation)!;
      const { minMm, maxMm } = minorLimits(thread);
      for (const mm of both) assert.ok(mm >= minMm && mm <= maxMm, `${designation} ${mm}`);
      assert.ok(both.includes(thread.tapDrillMm), designation);
    }
  });

  // The Unified height (1.0825 P) as basis reads 20 % higher than MH31's Table 2: not the one that is used.
  it('MH31 Table 2 is reproduced by 1.299 P and by no other basis', () => {
    for (const row of rowsOf('percent-thread-mh31.csv')) {
      const other = ((num(row, 'D_in') - num(row, 'drill_in')) * num(row, 'tpi') * 100) / 1.0825;
      assert.ok(other - num(row, 'MH31_pct') > 8, row.thread);
    }
  });
});
