/**
 * Threads that are milled. Pitches and tap drills are those of ISO 261 and D − P; the height of an internal thread is 5/8 of the
 * sharp profile's (ISO 68-1): 5/8 · 0.86603 P = 0.54127 P. Way over feed is a textbook's; from memory.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { planOf } from '../../../server/src/planning/plan';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import { passesOfPart } from '../../../server/src/process/passes';
import { cutLine } from '../../../server/src/report/cuts';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { readText } from '../../../server/src/text/read';

const MILL = 'tm-16: { kind: thread-mill, diameter: 16, pitch: 3, flutes: 4, reach: 45, shank: 16 }';
const shopOf = (mill = MILL, control = 'program', more = ''): Shop => {
  const shop = resolveShop(
    readText(`shop: club
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW }, control: ${control} } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, bed: 65, force: 15 kN } }
parallels: [10, 18]
tools:
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 50 }
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 32, reach: 60 }
  tap-m10: { kind: tap, thread: M10 }
  ${mill}
${more}`),
  );
  assert.deepEqual(shop.problems, []);
  return shop;
};
function threadOf(thread: string, shop = shopOf(), depth = 'depth: 34, thread-depth: 30') {
  const text = `part: nut
material: aluminium-6061-t6
body: { x: 100, y: 90, z: 50 }
features:
  it: { kind: hole, face: top, at: { x: center, y: center }, thread: ${thread}, ${depth} }
`;
  const { part, solid, findings } = checkPart(text, shop);
  const it = part.featureByName.get('it')!;
  const last = operationsOf(it, { part, solid, shop }).at(-1)!;
  const price = () => priceOf(last, findMaterial('aluminium-6061-t6')!, shop.machines[0]!);
  const told = findings.map((f) => f.message).join(' ');
  return { last, price, told, rules: findings.filter((f) => f.severity === 'error').map((f) => f.rule), shop };
}

describe('a thread mill', () => {
  it('cuts threads of its pitch that no tap is there for: large, fine, left-hand', () => {
    for (const [thread, pitch] of [
      ['M24', 3],
      ['M27', 3],
      ['M36x3', 3],
      ['M24-LH', 3],
    ] as const) {
      const { last, rules } = threadOf(thread);
      assert.ok(last.does === 'thread' && last.pitchMm === pitch && last.tool.name === 'tm-16', thread);
      assert.equal(last.leftHand, thread.endsWith('LH'));
      assert.deepEqual(rules, [], thread);
    }
    const m64 = threadOf('M64', shopOf('tm-25: { kind: thread-mill, diameter: 25, pitch: 6, reach: 60 }'));
    assert.ok(m64.last.does === 'thread' && m64.last.majorMm === 64);
    const single = shopOf('tm-16: { kind: thread-mill, diameter: 16, smallest-pitch: 1.5, pitch: 4, reach: 45 }');
    for (const thread of ['M24x1.5', 'M36']) assert.equal(threadOf(thread, single).last.does, 'thread', thread);
    assert.match(
      cutLine(threadOf('M24-LH').price(), 'mm', shopOf().machines[0]),
      /thread with tm-16, left-hand: round the other way/,
    );
  });

  it('leaves to taps what they do, and cuts no other pitch, no narrower hole, no other profile, none by hand', () => {
    assert.equal(threadOf('M10', shopOf('tm-6: { kind: thread-mill, diameter: 6, pitch: 1.5 }')).last.does, 'tap');
    for (const thread of ['M24x2', 'M16', 'G1', 'M20'])
      assert.ok(threadOf(thread).last.does === 'missing' && threadOf(thread).rules.includes('thread/no-tap'), thread);
    // D − P = 21 mm: 0.2 mm of room for a cutter of 20.8.
    for (const [d, does] of [
      [20.8, 'thread'],
      [20.9, 'missing'],
    ] as const)
      assert.equal(
        threadOf('M24', shopOf(`tm: { kind: thread-mill, diameter: ${d}, pitch: 3, reach: 60 }`)).last.does,
        does,
      );
    for (const control of ['hand', 'read-out']) {
      const { last, rules } = threadOf('M24', shopOf(MILL, control));
      assert.ok(last.does === 'missing' && rules.includes('thread/no-tap'), control);
    }
  });

  it('must reach the end of the thread', () => {
    const { last, rules, told } = threadOf('M24', shopOf(MILL.replace('reach: 45', 'reach: 25')));
    assert.match(told, /reach of 30 mm\. The longest thread mill, tm-16, reaches 25 mm/);
    assert.equal(last.does, 'missing');
    assert.ok(rules.includes('access/reach'), rules.join());
    assert.deepEqual(threadOf('M24', shopOf(MILL.replace('reach: 45', 'reach: 30'))).rules, []);
  });

  it('needs no room for a taper below a blind thread, as a tap does', () => {
    assert.deepEqual(threadOf('M24', shopOf(), 'depth: 31, thread-depth: 30').rules, []);
    const tapped = shopOf('tap-m24: { kind: tap, thread: M24 }');
    assert.deepEqual(threadOf('M24', tapped, 'depth: 31, thread-depth: 30').rules, ['thread/no-room']);
  });

  it('goes round once for each pitch with one row of teeth, once and a half for each length of several', () => {
    const timeOf = (mill: string) => {
      const { milling: m, passes = 1, minutes, conditions } = threadOf('M24', shopOf(mill)).price();
      assert.ok(m && conditions && Math.abs(m.aeMm * passes - 0.54127 * 3) < 1e-3);
      assert.ok(Math.abs(conditions.feedMmPerMin - m.feedMmPerMin * (8 / 24)) < 1e-9);
      return (minutes[0] * m.feedMmPerMin) / (passes * Math.PI * 24);
    };
    assert.ok(Math.abs(timeOf(MILL) - 10.5) < 1e-9);
    assert.ok(Math.abs(timeOf(MILL.replace('reach', 'flute-length: 30, reach')) - 1.5) < 1e-9);
    assert.ok(Math.abs(timeOf(MILL.replace('reach', 'flute-length: 18, reach')) - 3) < 1e-9);
  });

  it('is looked at all round the hole: its holder passes what it would pass on the axis, and meets a wall off it', () => {
    const wall = (holder: number) => {
      const shop = shopOf(
        'tm-25: { kind: thread-mill, diameter: 25, pitch: 6, reach: 38, shank: 25, holder: h, stickout: 38 }',
        'program',
        `holders: { h: { diameter: ${holder}, length: 60 } }\n`,
      );
      const text = `part: nut
material: aluminium-6061-t6
body: { x: 100, y: 90, z: 60 }
features:
  low: { kind: step, face: top, along: left, width: 86, depth: 25 }
  it: { kind: hole, face: top, from: low, at: { x: 45, y: center }, thread: M64, depth: 35, thread-depth: 30 }
setups:
  first:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 12, parallels: 18 }
    cuts: [top, low, it]
`;
      return checkPart(text, shop)
        .findings.filter((f) => f.rule.startsWith('access/'))
        .map((f) => `${f.rule} ${f.message}`)
        .join();
    };
    assert.equal(wall(30), '');
    // 41 mm from the axis to the wall; the axis of the cutter goes round on a radius of 19.5 mm.
    assert.match(wall(60), /access\/holder.*tm-25/);
  });

  it('is in the plan, and on the sheet with its turns of speed and what is to be seen', () => {
    const shop = shopOf(MILL.replace('reach: 45', 'reach: 45'));
    const text = `part: nut
material: aluminium-6061-t6
body: { x: 100, y: 90, z: 50 }
features:
  it: { kind: hole, face: top, at: { x: center, y: center }, thread: M24, depth: 34, thread-depth: 30 }
`;
    const plan = planOf(checkPart(text, shop))!;
    assert.deepEqual(plan.uncut, []);
    const set = checkPart(
      `${text}setups:\n  first:\n    up: top\n    hold: { vise: vise, jaws: [back, front], grip: 12, parallels: 18 }\n    cuts: [it]\n`,
      shop,
    );
    const rows = passesOfPart(set).flatMap((s) => s.rows.flatMap((row) => (row.kind === 'pass' ? [row] : [])));
    const pass = rows.find((row) => row.operation.does === 'thread')!;
    assert.equal(pass.tool.name, 'tm-16');
    assert.deepEqual([pass.needsProgram, pass.where.type, pass.tipsZ], [true, 'at', [20]]);
    assert.ok(pass.speed.rpm > 0 && pass.feed.by === 'program' && rows.at(-1) === pass);
  });

  it('says what its numbers contradict', () => {
    const problems = (mill: string) =>
      resolveShop(readText(`shop: s\ntools:\n  ${mill}\n`)).problems.map((p) => p.message);
    assert.match(
      problems('a: { kind: thread-mill, diameter: 8, pitch: 1, smallest-pitch: 2 }').join(),
      /over the largest/,
    );
    assert.match(
      problems('a: { kind: thread-mill, diameter: 8, pitch: 1, flute-length: 20, reach: 12 }').join(),
      /longer than its reach/,
    );
    assert.match(problems('a: { kind: thread-mill, diameter: 8 }').join(), /pitch/);
  });
});
