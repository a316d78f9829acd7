/**
 * Threads on bosses that are milled, and pipe and trapezoidal threads in holes. Heights of teeth: ISO 68-1 (17/24 H on a screw),
 * ISO 228-1 (0.640327 P), ASME B1.20.1 (0.8 P), ISO 2904 (0.5 P and a clearance); from memory. Run-outs: DIN 76-1, from memory.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { handWork } from '../../../server/src/planning/hand-work';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import { passesOfPart } from '../../../server/src/process/passes';
import { checkPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';
import { toothMm } from '../../../server/src/tables/thread-form';
import { findThread } from '../../../server/src/tables/thread-names';
import { readText } from '../../../server/src/text/read';

const MILL = 'tm-10: { kind: thread-mill, diameter: 10, smallest-pitch: 1, pitch: 3, flutes: 4, reach: 40, shank: 10 }';
const shopOf = (mill = MILL, more = '', control = 'program'): Shop => {
  const shop = resolveShop(
    readText(`shop: club
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW }, control: ${control} } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, bed: 65, force: 15 kN } }
parallels: [10, 18]
tools:
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 45, reach: 50 }
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 45, reach: 60 }
  dr-8.8: { kind: drill, diameter: 8.8 }
  dr-16.5: { kind: drill, diameter: 16.25 }
  dr-11.1: { kind: drill, diameter: 11.1125 }
  ${mill}
${more}`),
  );
  assert.deepEqual(shop.problems, []);
  return shop;
};
const partOf = (feature: string, setups = '') => `part: stub
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 50 }
features:
  it: { ${feature} }
${setups}`;
const BOSS = 'kind: contour, face: top, at: { x: center, y: center }, thread: M20, depth: 24';
const SETUPS = `setups:
  first:
    up: top
    hold: { vise: vise, jaws: [back, front], grip: 12, parallels: 18 }
    cuts: [it]
`;
function of(feature: string, shop: Shop, setups = '') {
  const checked = checkPart(partOf(feature, setups), shop);
  const { part, solid, findings } = checked;
  const it = part.featureByName.get('it');
  assert.ok(it, findings.map((f) => f.message).join());
  const made = operationsOf(it, { part, solid, shop });
  return {
    checked,
    made,
    thread: made.find((o) => o.does === 'thread'),
    said: (rule: string) => findings.filter((f) => f.rule === rule).map((f) => `${f.severity} ${f.message}`),
  };
}

describe('a thread on a boss that is milled', () => {
  it('is cut round the boss after it, where no die is there; a die goes first', () => {
    const { thread, made, said } = of(BOSS, shopOf());
    assert.ok(thread?.does === 'thread' && thread.outside && thread === made.at(-1));
    assert.equal(thread.depthMm, 24 - 2.5 * 2.5);
    assert.ok(Math.abs(thread.toothMm - 0.61343 * 2.5) < 1e-4);
    assert.deepEqual(said('thread/no-die'), []);
    const withDie = of(BOSS, shopOf(MILL, 'dies: [M20]'));
    assert.equal(withDie.thread, undefined);
    const hands = (shop: Shop) => handWork(of(BOSS, shop).checked).threading;
    assert.deepEqual(hands(shopOf()), [0, 0]);
    assert.ok(hands(shopOf(MILL, 'dies: [M20]'))[0] > 0);
    const asked = of(
      BOSS,
      shopOf(MILL, 'dies: [M20]'),
      SETUPS.replace('cuts: [it]', 'cuts: [it]\n    tools: { it: tm-10 }'),
    );
    assert.equal(asked.thread?.does, 'thread');
  });

  it('takes as long as its turns along the wall; the axis goes round faster by the thickness of the cutter', () => {
    const { thread } = of(BOSS, shopOf());
    const {
      milling: m,
      conditions,
      minutes,
      passes = 1,
    } = priceOf(thread!, findMaterial('aluminium-6061-t6')!, shopOf().machines[0]!);
    const turns = 17.75 / 2.5 + 0.5;
    assert.ok(m && conditions && Math.abs(m.aeMm * passes - 0.61343 * 2.5) < 1e-3);
    assert.ok(Math.abs((minutes[0] * m.feedMmPerMin) / (passes * Math.PI * 20) - turns) < 1e-9);
    assert.ok(Math.abs(conditions.feedMmPerMin - m.feedMmPerMin * 1.5) < 1e-9);
  });

  it('is refused where a cutter has full teeth for holes, another pitch, too little reach, no control', () => {
    for (const [mill, why, control] of [
      ['tm: { kind: thread-mill, diameter: 10, pitch: 2.5, reach: 40 }', /its full teeth fit holes only/, 'program'],
      [
        'tm: { kind: thread-mill, diameter: 10, pitch: 2, cuts: outside, reach: 40 }',
        /lists no dies\. Add `dies: \[M20\]`[^.]*\.$/,
        'program',
      ],
      [
        'tm: { kind: thread-mill, diameter: 10, pitch: 2.5, cuts: outside, reach: 15 }',
        /it reaches 15 mm of 19 mm/,
        'program',
      ],
      [MILL, /no machine here moves in circles/, 'hand'],
    ] as const) {
      const { thread, said } = of(BOSS, shopOf(mill, '', control));
      assert.equal(thread, undefined);
      assert.match(said('thread/no-die').join(), why);
    }
    const outside = of(BOSS, shopOf('tm: { kind: thread-mill, diameter: 10, pitch: 2.5, cuts: outside, reach: 40 }'));
    assert.equal(outside.thread?.does, 'thread');
  });

  it('must end above its shoulder: a die by its run-out, a thread mill by one pitch', () => {
    const at = (deep: number, more: string) =>
      of(`${BOSS}, thread-depth: ${deep}`, shopOf(MILL, more)).said('thread/shoulder');
    // P 2.5: 2.5 pitches are 6.25 mm, 1.25 are 3.125 mm.
    assert.deepEqual(at(17.75, 'dies: [M20]'), []);
    assert.match(at(18, 'dies: [M20]').join(), /^hint .*other side first/);
    assert.match(at(20.8, 'dies: [M20]').join(), /^hint /);
    assert.match(at(20.9, 'dies: [M20]').join(), /^error .*needs 3\.13 mm/);
    assert.deepEqual(at(21.5, ''), []);
    assert.match(at(21.6, '').join(), /^error .*A thread mill needs 2\.5 mm/);
  });

  it('is looked at in its set-up: jaws and the holder, and told where and how deep', () => {
    const { checked, said } = of(BOSS, shopOf(), SETUPS);
    assert.deepEqual([...said('access/reach'), ...said('access/jaw'), ...said('access/holder')], []);
    const rows = passesOfPart(checked).flatMap((s) => s.rows.flatMap((row) => (row.kind === 'pass' ? [row] : [])));
    const pass = rows.find((row) => row.operation.does === 'thread')!;
    assert.deepEqual([pass.where.type, pass.needsProgram], ['at', true]);
    assert.ok(pass.where.type === 'at');
    assert.deepEqual(pass.where.places, [[40, 30]]);
    // The boss's end reads 50; 17.75 of thread and half a pitch.
    assert.ok(Math.abs(pass.tipsZ[0]! - (50 - 17.75 - 1.25)) < 1e-6);
    const held = (out: number) =>
      of(
        BOSS,
        shopOf(
          MILL.replace('shank: 10', `shank: 10, holder: h, stickout: ${out}`),
          'holders: { h: { diameter: 40, length: 60 } }',
        ),
        SETUPS,
      ).said('access/holder');
    assert.deepEqual(held(40), []);
  });

  it('meets its holder on the boss where it stands out too little', () => {
    const short = shopOf(
      MILL.replace('reach: 40', 'reach: 18, flute-length: 10').replace(
        'shank: 10',
        'shank: 10, holder: h, stickout: 18',
      ),
      'holders: { h: { diameter: 40, length: 60 } }',
    );
    assert.match(of(BOSS, short, SETUPS).said('thread/no-die').join(), /reaches 18 mm of 19 mm/);
  });
});

describe('a thread mill of another form', () => {
  const hole = (thread: string, depth = 20, more = '') =>
    `kind: hole, face: top, at: { x: center, y: center }, thread: ${thread}, thread-depth: ${depth}, depth: ${depth + 6}${more}`;

  it('cuts pipe and trapezoidal threads whose flanks and pitch it has, and no others', () => {
    const g = 'tm: { kind: thread-mill, diameter: 7, pitch: 0.907, angle: 55, reach: 30 }';
    assert.equal(of(hole('G1/8'), shopOf(g)).thread?.does, 'thread');
    const sixty = of(hole('G1/8'), shopOf(g.replace('angle: 55, ', '')));
    assert.equal(sixty.thread, undefined);
    assert.match(
      sixty.said('thread/no-tap').join(),
      /a G1\/8 tap or a 55° thread mill of 0\.907 mm pitch; .* Thread mill tm does not cut it: its flanks are 60°/,
    );
    assert.equal(
      of(hole('M10x0.75'), shopOf('tm: { kind: thread-mill, diameter: 7, pitch: 0.75, angle: 55, reach: 30 }')).thread,
      undefined,
    );
  });

  it('on a cone cuts all turns at once', () => {
    // 1/4-18 NPT: hand-tight 0.2278 in and three turns, 10.02 mm.
    const npt = (length: number, tapered = 'yes') =>
      of(
        hole('1/4-18 NPT', 10),
        shopOf(
          `tm: { kind: thread-mill, diameter: 9, pitch: 1.411, tapered: ${tapered}, flute-length: ${length}, reach: 25 }`,
        ),
      );
    assert.equal(npt(14).thread?.does, 'thread');
    assert.match(npt(8).said('thread/no-tap').join(), /its teeth are only 8 mm long/);
    assert.match(
      npt(14, 'no').said('thread/no-tap').join(),
      /a tapered 60° thread mill of 1\.411 mm pitch.*its rows lie on no cone/,
    );
  });

  it('of 30° must be thin: what its level teeth cut off the rising flanks stays within 7H', () => {
    const tr = (d: number) =>
      of(hole('Tr20x4'), shopOf(`tm: { kind: thread-mill, diameter: ${d}, pitch: 4, angle: 30, reach: 30 }`));
    const most = Number(/at most ([\d.]+) mm thick/.exec(tr(15).said('thread/no-tap').join())?.[1]);
    assert.ok(most > 6 && most < 12, String(most));
    assert.equal(tr(most - 0.01).thread?.does, 'thread');
    assert.equal(tr(most + 0.01).thread, undefined);
    // Against the surfaces themselves: the most that a level tooth reaches beside the flank, over all places of its edge.
    const [rho, toothR, tan, p] = [
      9,
      most / 2 - (toothMm(findThread('Tr20x4')!, 'inside') - 1),
      Math.tan(Math.PI / 12),
      4,
    ];
    const e = rho - toothR;
    let beside = 0;
    for (let psi = 0; psi < 1; psi += 1e-4) {
      const r = Math.sqrt(e * e + rho * rho - 2 * e * rho * Math.cos(psi));
      beside = Math.max(beside, (p * psi) / (2 * Math.PI) - (r - toothR) * tan);
    }
    const widerMm = (2 * beside) / tan;
    // Tr20x4-7H: pitch diameter 18.000 to 18.355 mm in tables of ISO 2903, from memory.
    assert.ok(Math.abs(widerMm - 0.355) < 0.04, `${widerMm}`);
  });

  it('has teeth as deep as its standard says', () => {
    for (const [thread, deep] of [
      ['M20', 0.54127 * 2.5],
      ['G1/4', 0.856],
      ['1/4-18 NPT', 0.8 * 1.41111],
      ['Tr20x4', 2.25],
    ] as const)
      assert.ok(Math.abs(toothMm(findThread(thread)!, 'inside') - deep) < 1e-3, thread);
  });

  it('says what its numbers contradict', () => {
    const said = (fields: string) =>
      resolveShop(readText(`shop: s\ntools:\n  a: { kind: thread-mill, diameter: 8, pitch: 2, ${fields} }\n`))
        .problems.map((p) => p.message)
        .join();
    assert.match(said('angle: 45'), /No thread here has flanks of 45°/);
    assert.match(said('angle: 30, tapered: yes'), /No trapezoidal thread lies on a cone/);
  });
});
