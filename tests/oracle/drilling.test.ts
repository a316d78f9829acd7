/**
 * Drilling and tapping against what is published: drill points, percent of thread, the taper of taps, bands of depth.
 * Sources stand beside each check.
 */
import assert from 'node:assert/strict';
import { boresOf } from '../../server/src/process/drilling';
import { RULES as HOLE } from '../../server/src/rules/hole';
import { RULES as THREAD } from '../../server/src/rules/thread';
import { CHAMFER_PITCHES } from '../../server/src/rules/thread/tapped-holes';
import { make } from '../process/parts';
import { block } from '../rules/parts';
import { drill, shopWith, tap } from '../rules/shops';
import { findingsOf, onlyFinding } from '../rules/tester';
import { num, rowsOf } from './csv';
import { near } from './near';

const limit = (rules: typeof HOLE, rule: string, name: string) =>
  rules.find((r) => r.name === rule)!.limits.find((l) => l.name === name)!;

describe('oracle: drilling', () => {
  // Handbook factors of a drill's point: 0.300 D at 118°, 0.207 D at 135°, 0.182 D at 140°, 0.5 D at 90° (geometry).
  for (const [deg, factor] of [
    [118, 0.3],
    [135, 0.207],
    [140, 0.182],
    [90, 0.5],
  ] as const) {
    it(`the point of a ${deg}° drill is ${factor} D long, in the bore and in the solid`, () => {
      const { part, solid, feature } = make(
        '{ x: 40, y: 40, z: 40 }',
        `  h: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 10, depth: 20, point: ${deg} }\n`,
      );
      near(boresOf(feature('h', 'hole'), part, solid)[0]!.pointMm, 10 * factor, 0.006);
      // Closed form: cylinder plus cone.
      const volume = 64000 - Math.PI * 25 * (20 + (10 * factor) / 3);
      near(solid.measures.volumeMm3 / volume, 1, 1e-5);
    });
  }

  // Common practice, no source: 5 D in one go, 10 D with pecking.
  it('bands of depth are the usual ones, and are said to be rules of thumb', () => {
    assert.equal(limit(HOLE, 'hole/depth-ratio', 'jobber').value, 5);
    assert.equal(limit(HOLE, 'hole/depth-ratio', 'peck').value, 10);
    assert.match(limit(HOLE, 'hole/depth-ratio', 'jobber').source, /common practice/);
  });
});

describe('oracle: tapping', () => {
  // US Army TM 9-254, para. 4-27: taper taps have 7 to 10 tapered threads, plug taps 3 to 5, bottoming taps 1 to 2.
  it('TM 9-254: turns that a tap tapers over', () => {
    const within = (n: number, from: number, to: number) => assert.ok(n >= from && n <= to, `${n}`);
    within(CHAMFER_PITCHES.taper, 7, 10);
    within(CHAMFER_PITCHES.plug, 3, 5);
    within(CHAMFER_PITCHES.bottoming, 1, 2);
    assert.equal(limit(THREAD, 'thread/no-room', 'plug').value, CHAMFER_PITCHES.plug);
    assert.equal(limit(THREAD, 'thread/no-room', 'bottoming').value, CHAMFER_PITCHES.bottoming);
  });

  // The same page for M6 × 1: a plug tap leaves 3 to 5 mm, a bottoming tap 1 to 2 mm.
  it('TM 9-254: room under an M6 thread', () => {
    const m6 = (room: number) =>
      block(
        [30, 30, 40],
        `  h: { kind: hole, face: top, at: { x: 15, y: 15 }, thread: M6, thread-depth: 12, depth: ${12 + room} }\n`,
      );
    const plug = shopWith(drill(5, 90) + tap('M6', 'plug', 30));
    assert.equal(onlyFinding('thread/no-room', m6(2.9), plug).severity, 'error');
    assert.deepEqual(findingsOf('thread/no-room', m6(5), plug), []);
    const bottoming = shopWith(drill(5, 90) + tap('M6', 'bottoming', 30));
    assert.equal(onlyFinding('thread/no-room', m6(0.9), bottoming).severity, 'error');
    assert.notEqual(findingsOf('thread/no-room', m6(2), bottoming)[0]?.severity, 'error');
  });

  // US Army OD 1621 lesson 2 p. 177: 75 % is usual, 83 % the most, 50 to 53 % for small or deep holes.
  it('OD 1621: the band of thread height', () => {
    const { value: least } = limit(THREAD, 'thread/percent', 'least');
    const { value: most } = limit(THREAD, 'thread/percent', 'most');
    assert.ok(least > 53 && least < 75 && most >= 83 && most < 90, `${least} to ${most}`);
  });

  // Machinery's Handbook 31 p. 2155, Table 2: the percentages listed for each drill, as the rule gives them.
  it('MH31 Table 2: percent of thread as found on a part, to a percent', () => {
    let judged = 0;
    for (const row of rowsOf('percent-thread-mh31.csv')) {
      const series = ['UNC', 'UNF'].find((s) => KNOWN.has(`${row.thread} ${s}`));
      if (!series) continue;
      const text = `part: p\nunits: in\nbody: { x: 1, y: 1, z: 0.25 }\nfeatures:\n  h: { kind: hole, face: top, at: { x: center, y: center }, thread: ${row.thread} ${series}, diameter: ${num(row, 'drill_in')}, depth: through }\n`;
      const published = num(row, 'MH31_pct');
      const [finding] = findingsOf('thread/percent', text);
      if (published > 61 && published < 84) assert.equal(finding, undefined, `${row.thread} ${row.drill_in}`);
      if (published < 59) {
        assert.ok(finding, `${row.thread} ${row.drill_in}`);
        near(Number(finding.facts.percent), published, 1, row.thread);
        judged++;
      }
    }
    assert.ok(judged > 3, `${judged}`);
  });
});

/** Designations of the handbook's table that the thread tables have too. */
const KNOWN = new Set(['2-56 UNC', '2-64 UNF', '3-48 UNC', '3-56 UNF']);
