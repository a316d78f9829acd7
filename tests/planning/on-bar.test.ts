/**
 * Small parts of the gimbal made on the end of their bar and sawn off last. Volumes, lengths and where the jaws end are worked
 * out by hand beside each; that small parts stay on the bar is common practice, no source.
 */
import assert from 'node:assert/strict';
import { BUILTIN_SHOP_TEXT } from '../../server/generate/builtin-shop';
import { solidOfVolumes } from '../../server/src/geometry/part-solid';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { barsNeeded } from '../../server/src/planning/bars';
import { USUAL_SAW } from '../../server/src/planning/cost';
import { writePlan } from '../../server/src/planning/keep';
import { planOf } from '../../server/src/planning/plan';
import { passesOfPart } from '../../server/src/process/passes';
import { timelineOf, type Workpiece } from '../../server/src/process/stock';
import { stateOf } from '../../server/src/process/workholding/references';
import { seatingOf } from '../../server/src/process/workholding/seating';
import { planLines } from '../../server/src/report/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';

const latch = (extra: string, more = '') => `part: latch
title: Latch of the elevation stop
material: brass-cw614n
body: { x: 10, y: 6, z: 5 }
stock: { form: flat-bar, sawn: [left, right], extra: ${extra} }
features:
  pivot: { kind: hole, face: top, at: { x: 3, y: center }, diameter: 2, depth: through }
  screw: { kind: hole, face: front, at: { x: 7, z: center }, thread: M2, depth: through }
${more}`;

const BAR = '{ left: 40, right: 1 }';
/** 12 × 7 bar for 10 × 6 × 5: every side is milled. */
const ROUGH = '{ left: 40, right: 1, front: 1, back: 1, top: 1, bottom: 1 }';

const SETUPS = `setups:
  first:
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, overhang: { right: 23 } }
    zero: { x: right, y: back, z: parallels }
    cuts: [right, pivot]
  second:
    up: front
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 6, overhang: { right: 22 } }
    zero: { x: right, y: parallels, z: bottom }
    cuts: [screw, { cut: left, by: saw, leave: 1 }]
  third:
    up: left
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 6, stop: back }
    zero: { x: parallels, y: back, z: bottom }
    cuts: [left]
`;

const checked = (text: string) => checkPart(text, builtinShop());
const told = (text: string) => checked(text).findings.filter((f) => f.severity !== 'hint' && !/^wall/.test(f.rule));
const setupsOf = (text: string) => {
  const { part, solid } = checked(text);
  return timelineOf(part, solid).setups;
};
const near = (a: number, b: number) => assert.ok(Math.abs(a - b) < 1e-6 * Math.max(1, Math.abs(b)), `${a} is not ${b}`);
const volume = (w: Workpiece) => solidOfVolumes(w).measures.volumeMm3;

describe('sawn off last', () => {
  it('nothing is wrong with it', () => {
    assert.deepEqual(
      told(latch(BAR, SETUPS)).map((f) => f.message),
      [],
    );
  });

  it('held until then: what goes is all of the bar but 1 mm on the face', () => {
    const [first, second, third] = setupsOf(latch(BAR, SETUPS));
    assert.equal(first!.leaves, first!.after);
    near(volume(second!.after) - volume(second!.leaves), 39 * 6 * 5);
    assert.equal(third!.before, second!.leaves);
    near(volume(third!.before) - volume(third!.after), 1 * 6 * 5);
    assert.equal(second!.sawnOff!.restMm, 39);
  });

  it('the jaws hold the bar: they end 23 mm from its free end', () => {
    const text = latch(BAR, SETUPS);
    const { part, shop } = checked(text);
    const { held } = seatingOf(setupsOf(text)[0]!, part, shop)!;
    near(held!.jawToMm, 11 - 23);
  });

  it('the face is sawn then, and milled at last', () => {
    const { part, solid } = checked(latch(BAR, SETUPS));
    const { setups } = timelineOf(part, solid);
    assert.equal(stateOf('left', setups[2]!, 0, part, solid), 'sawn');
    assert.equal(stateOf('left', setups[2]!, 1, part, solid), 'cut');
  });

  it('a side that is milled beside the jaws runs 8 mm into the bar, not along all of it', () => {
    const rough = latch(ROUGH, SETUPS.replace('[right, pivot]', '[top, right, pivot]'));
    const [top] = setupsOf(rough)[0]!.cuts;
    // From the free end to 8 mm beyond the saw cut, 1 mm thick, as wide as the bar.
    near(volume(top!.before) - volume(top!.after), (11 + 1 + 8) * 8 * 1);
    assert.ok(!told(rough).some((f) => f.rule.startsWith('hold/')));
  });

  it('left as sawn the part is whole; where the saw leaves something that no set-up mills, that is told', () => {
    const two = SETUPS.slice(0, SETUPS.indexOf('  third'));
    const unassigned = (text: string) => told(text).filter((f) => f.rule === 'setup/unassigned');
    assert.deepEqual(unassigned(latch(BAR, two.replace(', leave: 1', ''))), []);
    const [left] = unassigned(latch(BAR, two));
    assert.equal(left!.facts.comes_out_mm, 11);
    assert.equal(left!.facts.left_mm, 1);
  });

  it('a hole across the end lies in the jaws of a bar that stands out too little', () => {
    const short = SETUPS.replace('overhang: { right: 23 }', 'overhang: { right: 5 }');
    assert.ok(told(latch(BAR, short)).length > 0);
  });
});

describe('setup/sawn-off', () => {
  const of = (text: string) => checked(text).findings.filter((f) => f.rule === 'setup/sawn-off');

  it('needs as much stock as a saw takes beyond the cut', () => {
    assert.equal(of(latch('{ left: 2.9, right: 1 }', SETUPS)).length, 1);
    assert.equal(of(latch('{ left: 3, right: 1 }', SETUPS)).length, 0);
  });

  it('and is done once', () => {
    const again = SETUPS.replace('cuts: [right, pivot]', 'cuts: [right, pivot, { cut: left, by: saw }]');
    assert.deepEqual(
      of(latch(BAR, again)).map((f) => f.facts.set_up),
      ['second'],
    );
  });

  it('what cannot be meant is told where it stands', () => {
    const said = (cuts: string) =>
      checked(latch(BAR, SETUPS.replace('[screw, { cut: left, by: saw, leave: 1 }]', cuts)))
        .findings.filter((f) => f.rule === 'form/schema')
        .map((f) => f.message);
    assert.match(said('[{ cut: left, by: saw, leave: 1 }, screw]')[0]!, /Move the sawn face to the end of `cuts`/);
    assert.match(said('[screw, { cut: pivot, by: saw }]')[0]!, /cuts off a face/);
    assert.match(said('[{ cut: screw, depth: half, leave: 1 }]')[0]!, /by: saw/);
    assert.match(said('[screw, { cut: left }]')[0]!, /`depth` or `by`/);
    assert.match(said('[screw, { cut: left, by: hand }]')[0]!, /`saw`/);
  });
});

describe('what is told of it', () => {
  it('in the passes, last of its set-up: 11 mm long', () => {
    const { part, solid, shop } = checked(latch(BAR, SETUPS));
    const rows = passesOfPart({ part, solid, shop })[1]!.rows;
    assert.deepEqual(rows.at(-1), { kind: 'saw', of: 'left', lengthMm: 11, leavesMm: 1 });
  });

  it('stock/extra: what the saw leaves counts, not what is sawn off', () => {
    const of = (text: string) => checked(text).findings.filter((f) => f.rule === 'stock/extra');
    assert.deepEqual(of(latch(BAR, SETUPS)), []);
    assert.equal(of(latch(BAR, SETUPS.replace('leave: 1', 'leave: 0.2')))[0]!.facts.extra_mm, 0.2);
    assert.match(of(latch(BAR))[0]!.message, /saw it off last/);
  });

  it('bars: a piece and its kerf each, and once what stays in the vise', () => {
    const rack =
      '  - { form: flat-bar, material: brass-cw614n, section: { width: 6, thickness: 5 }, lengths: [100, 1000] }\n';
    const { shop } = checkShop(BUILTIN_SHOP_TEXT.replace(/^rack:\n/m, `rack:\n${rack}`));
    const need = (quantity: number, setups: string) =>
      barsNeeded([{ part: checked(latch(BAR, setups)).part, shop, quantity }], USUAL_SAW)[0]!;
    // 12 mm each (10, 1 on either end), 2 mm of kerf between, 39 mm beyond the last cut.
    near(need(4, SETUPS).usedMm, 4 * 12 + 3 * 2 + 39);
    assert.equal(need(4, SETUPS).bought[0]!.lengthMm, 100);
    // 5 × 12 + 4 × 2 + 39 = 107: the fifth comes off a bar of its own.
    assert.equal(need(5, SETUPS).bought[0]!.count, 2);
    near(need(5, SETUPS).usedMm, 5 * 12 + 3 * 2 + 2 * 39);
    near(need(1, SETUPS).usedMm, 51);
    near(need(4, '').usedMm, 4 * 53);
  });
});

describe('planned so', () => {
  for (const extra of [BAR, '{ left: 40, right: 1, front: 1 }', '{ right: 40, left: 1 }']) {
    it(`with ${extra}: the plan holds the bar, and check says the same of the text`, () => {
      const found = checked(latch(extra));
      const plan = planOf(found)!;
      assert.deepEqual(plan.uncut, []);
      const off = plan.setups.filter((s) => s.setup.sawnOff);
      assert.equal(off.length, 1);
      const written = writePlan(plan, found);
      assert.equal(written.kept, undefined);
      if (written.kept) return;
      assert.match(written.text, /\{ cut: (left|right), by: saw, leave: 1 \}/);
      assert.deepEqual(
        told(written.text)
          .filter((f) => f.severity === 'error')
          .map((f) => f.message),
        [],
      );
      assert.match(
        planLines(plan, checked(written.text)).join('\n'),
        /saw {3}off at (left|right), 1 mm left to be milled/,
      );
      // The same plan is found again with itself in the text.
      assert.equal(planOf(checked(written.text))!.setups.length, plan.setups.length);
    });
  }

  it('three set-ups do: two on the bar, one for the sawn face', () => {
    assert.equal(planOf(checked(latch(BAR)))!.setups.length, 3);
  });

  it('an end with a few millimetres on it is faced, as before', () => {
    const plan = planOf(checked(latch('{ left: 3, right: 1 }')))!;
    assert.ok(plan.setups.every((s) => !s.setup.sawnOff));
  });
});
