/**
 * Joints against published examples, through whole jobs. Sources: ASME Y14.5M-1994, appendix B (its figures F = 6 and
 * H = 6.44, as printed at joshuanava.biz, "dimensioning and tolerancing"); ISO 273, from memory; Wikipedia, "Engineering
 * fit" (50 mm H8/f7, H7/k6, H7/p6); metricmech.com, "Tolerance stack-up: a worked example using worst-case and RSS";
 * Bickford's strip areas (beside `thread-strength.test.ts`); Roloff/Matek, table of least lengths of engagement, from memory.
 */
import assert from 'node:assert/strict';
import { findThread } from '../../server/src/tables/thread-names';
import { engaged } from '../../server/src/tables/thread-strength';
import { hole, judged, plate } from '../rules/joint/job';
import { near } from './near';

const FOUR = [
  [10, 10],
  [90, 10],
  [90, 50],
  [10, 50],
] as const;
const THICK = '{ x: 100, y: 60, z: 30 }';

const zone = (mm: number, more = '') =>
  `datums: { A: bottom, B: front, C: left }\ntolerances:\n  - { position: ${mm}, of: screws, datums: [A, B, C]${more} }\n`;
const through = (mm: number, fields = 'diameter: 6.44, depth: through', more = '') =>
  plate(hole('screws', FOUR, fields), { more: zone(mm, more) });
/** Its zone projected as far as the other part is thick, unless told. */
const threaded = (mm: number, projected: number | null = 10) =>
  plate(hole('screws', FOUR, 'thread: M6, depth: 26, thread-depth: 20'), {
    size: THICK,
    more: zone(mm, projected === null ? '' : `, projected: ${projected}`),
  });
const found = (parts: Readonly<Record<string, string>>, joints: string, rule: string) =>
  judged(parts, joints).filter((f) => f.rule === rule);

describe('oracle: joints', () => {
  it('Y14.5M B.3, floating: F = 6, H = 6.44 allow 0.44 in each part', () => {
    const nut = '  j: { screw: M6x30, through: [a.screws, b.screws], nut: ISO 4032 }';
    assert.deepEqual(found({ a: through(0.44), b: through(0.44) }, nut, 'joint/position'), []);
    const [over] = found({ a: through(0.44), b: through(0.45) }, nut, 'joint/position');
    near(Number(over!.facts.play_mm), 0.88, 1e-9);
    near(Number(over!.facts.each_mm), 0.44, 1e-9);
  });

  it('Y14.5M B.4, fixed: 0.22 in each part, or 0.18 and 0.26', () => {
    const into = '  j: { screw: M6x25, through: a.screws, into: b.screws }';
    for (const [a, b] of [
      [0.22, 0.22],
      [0.18, 0.26],
    ] as const)
      assert.deepEqual(found({ a: through(a), b: threaded(b) }, into, 'joint/position'), []);
    // B.5: the same zones where that of the thread is not projected, or by half the thickness only: a hint.
    for (const [mm, sum] of [
      [null, 0.22 + 0.22 * (1 + (2 * 10) / 20)],
      [5, 0.22 + 0.22 * (1 + (2 * 5) / 5)],
    ] as const) {
      const [lean] = found({ a: through(0.22), b: threaded(0.22, mm) }, into, 'joint/position');
      assert.equal(lean!.severity, 'hint');
      near(Number(lean!.facts.unprojected_mm), sum, 1e-9);
    }
    const [over] = found({ a: through(0.22), b: threaded(0.23, null) }, into, 'joint/position');
    near(Number(over!.facts.play_mm), 0.44, 1e-9);
    near(Number(over!.facts.each_mm), 0.22, 1e-9);
    // B.5, where the zone of the thread is not projected: H = F + T1 + T2 (1 + 2 P / D), P = 10, D = 20.
    near(Number(over!.facts.unprojected_mm), 0.22 + 0.23 * (1 + (2 * 10) / 20), 1e-9);
  });

  // Virtual condition 6.22 (ASME Y14.5, 2.15): a zone of 0.22 in a hole of 6.44 leaves a pin of 6.22 the room that a hole of
  // 6.22 has with none, at maximum material; that is the zero tolerance of Y14.5, 5.3.3.
  it('Y14.5 at maximum material: a zero zone grows with the hole, and the sum is that of the smallest hole', () => {
    const into = '  j: { screw: M6x25, through: a.screws, into: b.screws }';
    const atMaximum = ', material-condition: maximum-material';
    const zero = through(0, 'diameter: 6.22 +0.3/-0, depth: through', atMaximum);
    assert.deepEqual(found({ a: zero, b: threaded(0.22) }, into, 'joint/position'), []);
    const [over] = found({ a: zero, b: threaded(0.23) }, into, 'joint/position');
    near(Number(over!.facts.play_mm), 0.22, 1e-9);
    near(Number(over!.facts.zones_mm), 0.23, 1e-9);
    near(Number(over!.facts.first_bonus_mm), 0.3, 1e-9);
    assert.match(over!.message, /position 0 at maximum material/);
  });

  it('ISO 273: holes up to the coarse series belong to the screw, wider ones do not', () => {
    const coarse = { M3: 3.6, M4: 4.8, M5: 5.8, M6: 7, M8: 10, M10: 12 };
    for (const [size, mm] of Object.entries(coarse)) {
      const nut = `  j: { screw: ${size}x40, through: [a.screws, b.screws], nut: ISO 4032 }`;
      const of = (d: number) => plate(hole('screws', FOUR, `diameter: ${d}, depth: through`));
      assert.deepEqual(found({ a: of(mm), b: of(mm) }, nut, 'joint/screw'), [], size);
      assert.equal(found({ a: of(mm + 0.1), b: of(mm) }, nut, 'joint/screw').length, 1, size);
    }
  });

  it('fits of 50 mm: H8/f7 +25 to +89 µm, H7/k6 −18 to +23, H7/p6 −42 to −1', () => {
    const published = [
      ['H8', 'f7', 'interference', 0.025, 0.089],
      ['H7', 'k6', 'clearance', -0.018, 0.023],
      ['H7', 'p6', 'clearance', -0.042, -0.001],
    ] as const;
    for (const [bore, shaft, not, least, most] of published) {
      const block = plate(hole('seat', [[50, 30]], `diameter: 50 ${bore}, depth: 7, bottom: flat`));
      const [told] = found({ block }, `  j: { shaft: 50 ${shaft}, seat: block.seat, fit: ${not} }`, 'joint/fit');
      near(Number(told!.facts.least_mm), least, 1e-9, `${bore}/${shaft}`);
      near(Number(told!.facts.most_mm), most, 1e-9, `${bore}/${shaft}`);
    }
  });

  it('a stack of four: 40 ±0.10 less 25 ±0.05, 2 ±0.03 and 10 ±0.05 is 3 ±0.23 at worst, ±0.126 by root of squares', () => {
    const housing = plate(hole('bore', [[50, 30]], 'diameter: 22 H7, depth: 40 ±0.1, bottom: flat'), {
      size: '{ x: 100, y: 60, z: 60 }',
    });
    const stack = (leaves: string) =>
      `  j: { stack: [housing.bore, -25 ±0.05, -2 ±0.03, -10 ±0.05], leaves: [${leaves}] }`;
    const [told] = found({ housing }, stack('0, 1'), 'joint/stack');
    near(Number(told!.facts.nominal_mm), 3, 1e-9);
    near(Number(told!.facts.least_mm), 2.77, 1e-9);
    near(Number(told!.facts.most_mm), 3.23, 1e-9);
    near(Number(told!.facts.likely_mm), 0.126, 5e-4);
    assert.equal(told!.severity, 'error');
    assert.deepEqual(found({ housing }, stack('2.77, 3.23'), 'joint/stack'), []);
    assert.equal(found({ housing }, stack('2.87, 3.13'), 'joint/stack')[0]?.severity, 'hint');
  });

  // FED-STD-H28 by Bickford's areas: M5 4.8 breaks at 14.18 mm² · 420; its own thread, weaker than that in 6061-T6, strips at
  // 0.5 · 420 · 35.366 / 5 per mm: 4.01 mm.
  it('engagement: an M5 4.8 in 6061-T6 needs 1.25 × 4.01 mm', () => {
    const parts = {
      lid: plate(hole('screws', FOUR, 'clearance: M5, depth: through')),
      tub: plate(hole('screws', FOUR, 'thread: M5, depth: 25, thread-depth: 18'), { size: THICK }),
    };
    const [told] = found(parts, '  j: { screw: M5x12 4.8, through: lid.screws, into: tub.screws }', 'joint/engagement');
    near(Number(told!.facts.engaged_mm), 2, 1e-9);
    near(Number(told!.facts.needed_mm), 1.25 * 4.01, 0.1);
  });

  // Roloff/Matek: 8.8 in AlCuMg1 F40 (400 N/mm²) 1.1 d, coarse threads.
  it('engagement: 8.8 in an alloy of 400 N/mm² is equally strong at 1.1 d, within a tenth', () => {
    for (const name of ['M5', 'M6', 'M8', 'M10', 'M12']) {
      const thread = findThread(name)!;
      const { equalMm } = engaged(thread, thread.tapDrillMm, 1, { screwMPa: 800, materialMPa: 400 })!;
      near(equalMm / thread.diameterMm / 1.1, 1, 0.1, name);
    }
  });
});
