/** What hands do: which way round a cutter goes, how places are come to, tapping and trial cuts, tools with a largest speed. */
import assert from 'node:assert/strict';
import { timeOf } from '../../../server/src/planning/times';
import { operationsOf } from '../../../server/src/process/operations';
import { priceOf } from '../../../server/src/process/operations/priced';
import { cutLine } from '../../../server/src/report/cuts';
import { checkShop, readPart } from '../../../server/src/rules/check';
import { findMaterial } from '../../../server/src/tables/materials';

const AL = findMaterial('aluminium-6061-t6')!;
const shopOf = (machine = '', more = '', head = '') => {
  const { shop, findings } = checkShop(`shop: s
machines: { m: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [50, 6000], power: 2 kW }, coolant: flood${machine} } }
tools:
  em-8: { kind: end-mill, diameter: 8, reach: 30 }
  sd-6: { kind: spot-drill, diameter: 6 }
  dr-4.2: { kind: drill, diameter: 4.2 }
  dr-15: { kind: drill, diameter: 15 }
  tap-m5: { kind: tap, thread: M5 }
  bh: { kind: boring-head, diameter: 12, largest: 60, reach: 40${head} }
${more}`);
  assert.deepEqual(
    findings.filter((f) => f.severity === 'error'),
    [],
  );
  return shop;
};
const TEXT = `part: p
material: aluminium-6061-t6
body: { x: 80, y: 60, z: 20 }
features:
  tray: { kind: pocket, face: top, at: { x: 20, y: 30 }, size: { x: 30, y: 30 }, corner-radius: 5, depth: 5 }
  thread: { kind: hole, face: top, at: { x: 45, y: 30 }, thread: M5, depth: 14, thread-depth: 8 }
  seat: { kind: hole, face: top, at: { x: 63, y: 30 }, diameter: 16 H7, depth: through }
`;
function cutsOf(name: string, shop = shopOf()) {
  const { part, solid } = readPart(TEXT, shop);
  return operationsOf(part.featureByName.get(name)!, { part, solid, shop }).map((o) =>
    priceOf(o, AL, shop.machines[0]!),
  );
}
const linesOf = (name: string, shop = shopOf()) => cutsOf(name, shop).map((p) => cutLine(p, 'mm', shop.machines[0]));

describe('hands', () => {
  it('mill conventionally, as screws with play do; a control without play may climb, and nothing is said', () => {
    const said = (machine: string) => linesOf('tray', shopOf(machine)).map((l) => /conventional, not climb/.test(l));
    assert.deepEqual(new Set(said('')), new Set([false]));
    for (const machine of [', control: hand', ', control: read-out', ', control: program, backlash: 0.1'])
      assert.deepEqual(new Set(said(machine)), new Set([true]), machine);
    assert.deepEqual(new Set(said(', backlash: 0.03')), new Set([false]));
  });

  it('come to a place from one side by dials and on screws with play; a read-out’s scales need not', () => {
    const said = (machine: string) => linesOf('seat', shopOf(machine)).filter((l) => /from one side/.test(l)).length;
    assert.deepEqual([said(''), said(', control: read-out'), said(', backlash: 0.03')], [0, 0, 0]);
    assert.ok(said(', control: hand') > 0 && said(', backlash: 0.1') > 0);
  });

  it('feed no faster than hands turn, unless the shop says what a power feed does', () => {
    assert.equal(shopOf(', control: hand').machines[0]!.feedMmPerMin, 400);
    assert.equal(shopOf(', control: hand, feed: 600').machines[0]!.feedMmPerMin, 600);
    assert.equal(shopOf().machines[0]!.feedMmPerMin, undefined);
    for (const { conditions } of cutsOf('tray', shopOf(', control: hand')))
      assert.ok(conditions!.feedMmPerMin <= 400.001);
  });

  it('tap in minutes, by the times of the shop; a spindle that taps takes seconds and says its speed', () => {
    const tap = (shop = shopOf()) => cutsOf('thread', shop).at(-1)!;
    assert.match(linesOf('thread').at(-1)!, /^tap with tap-m5 · by hand: .* N·m · 1 to 1\.8 min$/);
    // Ten turns: put in and taken out, and ten times a turn.
    const own = tap(shopOf('', 'times: { tap: [1, 2], tap-turn: [6 s, 12 s] }'));
    assert.ok(Math.abs(own.minutes[0] - 2) < 1e-9 && Math.abs(own.minutes[1] - 4) < 1e-9);
    const power = tap(shopOf(', tapping: power'));
    assert.ok(power.conditions!.rpm > 100 && power.minutes[1] < 0.5);
    assert.equal(power.torqueNm, tap().torqueNm);
  });

  it('bore by cut and try: each cut measured, as long as the shop says', () => {
    const bore = (more = '') => cutsOf('seat', shopOf('', more)).at(-1)!;
    const [low, high] = bore().minutes;
    assert.ok(low > 10 && high < 25);
    const own = bore('times: { bore-cut: [4, 7] }').minutes;
    assert.ok(Math.abs(own[0] - low - 10) < 1e-9 && Math.abs(own[1] - high - 17.5) < 1e-9);
  });

  it('a tool turns no faster than it bears: a boring head 1,000 unless its maker says more, any tool by its own field', () => {
    const rpm = (head: string, machine = '') => cutsOf('seat', shopOf(machine, '', head)).at(-1)!.conditions!;
    assert.equal(rpm('').rpm, 1000);
    assert.equal(rpm('').limitedBy, 'tool');
    assert.equal(rpm(', largest-speed: 700').rpm, 700);
    assert.ok(rpm(', largest-speed: 5000').rpm > 1000);
    assert.equal(shopOf().tools.find((t) => t.name === 'em-8')!.mostRpm, undefined);
    assert.match(linesOf('seat').at(-1)!, /limited by what the tool bears/);
  });

  it('make soft jaws and plates before the first piece, once', () => {
    const minutes = (hold: string) => {
      const text = `${TEXT}setups:\n  one: { up: top, hold: ${hold}, cuts: [tray] }\n`;
      const { firstPiece, eachFurther, setups } = (() => {
        const checked = readPart(text, shopOf('', 'vises: { v: { jaw: { width: 100, height: 30 }, opens: 100 } }'));
        return timeOf(checked.part.setups!, checked);
      })();
      return { first: firstPiece, further: eachFurther, making: setups[0]!.making };
    };
    const [hard, soft] = [
      minutes('{ vise: v, jaws: [front, back], grip: 8 }'),
      minutes('{ soft-jaws: v, jaws: [front, back], grip: 8 }'),
    ];
    assert.deepEqual(
      [hard.making, soft.making],
      [
        [0, 0],
        [20, 40],
      ],
    );
    assert.ok(Math.abs(soft.first[0] - hard.first[0] - 20) < 1e-9);
    assert.deepEqual(soft.further, hard.further);
  });
});
