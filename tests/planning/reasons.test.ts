/**
 * What a plan says of itself: each reason against the part planned without or with the change, written as text here; the
 * comparison with set-ups that are there; machines and vises one by one.
 */

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { inEachVise, onEachMachine } from '../../server/src/planning/alternatives';
import { compareWritten } from '../../server/src/planning/compare';
import { type Plan, planOf } from '../../server/src/planning/plan';
import { reasonsOf } from '../../server/src/planning/reasons';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { alternativesText, planText } from '../report/told';
import { SHOP } from './parts';

const SHOP_TEXT = readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8');
const part = (features: string, more = '', body = '{ x: 60, y: 40, z: 24 }') => `part: block
material: aluminium-6061-t6
body: ${body}
features:
${features}${more}`;
const TIE = '  tie: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 5.5, depth: 8 }\n';
const UNDER = '  under: { kind: hole, face: bottom, at: { x: 40, y: center }, diameter: 5.5, depth: 8 }\n';
const SEAT = '  seat: { kind: pocket, face: bottom, at: { x: 40, y: center }, diameter: 16, depth: 6 }\n';

function planned(text: string): { checked: CheckedPart; plan: Plan } {
  const checked = checkPart(text, SHOP);
  return { checked, plan: planOf(checked)! };
}
const count = (text: string) => planned(text).plan.setups.length;

describe('what a plan says of itself', () => {
  it('a blind hole that needs a set-up of its own: through it is saved, as the part written so shows', () => {
    const { plan, checked } = planned(part(TIE + SEAT));
    assert.equal(plan.setups.length, 2);
    const reason = reasonsOf(plan, checked).find((r) => r.up === 'top')!;
    assert.deepEqual(
      reason.items.map((i) => i.name),
      ['tie'],
    );
    const [change] = reason.changes;
    assert.equal(change?.type, 'through');
    assert.deepEqual(change.faces, ['bottom']);
    assert.equal(change.setups, count(part(TIE.replace('depth: 8', 'depth: through') + SEAT)));
    assert.equal(reason.without, count(part(SEAT)));
  });

  describe('only where it leaves what the part is for', () => {
    const changesOf = (features: string, more = '') => {
      const { plan, checked } = planned(part(features, more));
      return { said: planText(plan, checked), changes: reasonsOf(plan, checked).flatMap((r) => r.changes) };
    };

    it('no hole that something is asked of, or that would open into something else', () => {
      const screw = TIE.replace('diameter: 5.5, depth: 8', 'thread: M5, depth: 14, thread-depth: 10');
      assert.deepEqual(changesOf(screw + SEAT).changes, []);
      const placed = 'tolerances:\n  - { position: 0.2, of: tie, datums: [A] }\ndatums: { A: front }\n';
      assert.deepEqual(changesOf(TIE + SEAT, placed).changes, []);
      // Above the seat it would open into its floor.
      assert.deepEqual(changesOf(TIE.replace('x: 20', 'x: 38') + SEAT).changes, []);
      assert.equal(changesOf(TIE + SEAT).changes.length, 1);
    });

    it('no marking that names the side it is on', () => {
      const mark = (text: string) =>
        `${SEAT}  mark: { kind: engraving, face: top, at: { x: 20, y: 20 }, text: ${text}, height: 5, stroke: 0.5, depth: 0.3 }\n`;
      assert.deepEqual(
        changesOf(mark('GB-7')).changes.map((c) => c.type),
        ['other-face'],
      );
      for (const text of ['LEFT', 'UP', '"THIS SIDE UP"', '"TOP 2"'])
        assert.deepEqual(changesOf(mark(text)).changes, [], text);
    });

    it('every change names its faces', () => {
      for (const deep of [6, 8, 12])
        for (const face of ['top', 'front', 'right']) {
          const at =
            face === 'top' ? 'x: 20, y: center' : face === 'front' ? 'x: 20, z: center' : 'y: center, z: center';
          const blind = `  pin: { kind: hole, face: ${face}, at: { ${at} }, diameter: 4, depth: ${deep} }\n`;
          const { said, changes } = changesOf(blind + SEAT);
          for (const c of changes) if (c.type !== 'by-hand') assert.ok(c.faces.length > 0);
          assert.doesNotMatch(said, /cut with {2}| on {2}instead|instead of \?/);
        }
    });
  });

  it('no change is told that saves nothing: two kinds of work on one side are no reason to change one of them', () => {
    const ledge = '  ledge: { kind: pocket, face: top, at: { x: 44, y: center }, diameter: 16, depth: 5 }\n';
    const { plan, checked } = planned(part(TIE + ledge + UNDER));
    const [top] = reasonsOf(plan, checked).filter((r) => r.up === 'top');
    assert.deepEqual(top?.items.map((i) => i.name).sort(), ['ledge', 'tie']);
    for (const change of top!.changes) assert.ok(change.setups < plan.setups.length);
    const said = planText(plan, checked);
    assert.doesNotMatch(said, /putting .*ledge.* on/);
  });

  it('wide edges alone: by hand a set-up is saved; small ones have none', () => {
    const { plan, checked } = planned(part(`${TIE}  edges: { kind: chamfer, edges: bottom, size: 1.5 }\n`));
    const reason = reasonsOf(plan, checked).find((r) => r.up === 'bottom')!;
    assert.deepEqual(
      reason.changes.map((c) => [c.type, c.setups]),
      [['by-hand', count(part(TIE))]],
    );
    assert.match(planText(plan, checked), /edges is the only thing that needs a second set-up\. Break it by hand/);
    const small = planned(part(`${TIE}  edges: { kind: chamfer, edges: bottom, size: 1 }\n`));
    assert.equal(small.plan.setups.length, count(part(TIE)));
    assert.deepEqual(small.plan.uncut, []);
    // Four edges of 60, 40, 60 and 40 mm, at 5 to 11 minutes a metre.
    assert.match(
      planText(small.plan, small.checked),
      /No set-up breaks the edges of edges: a file does it, about 1 to 2\.2 min/,
    );
  });

  it('every line is told once, and everything that is not cut has its reason', () => {
    const { plan, checked } = planned(
      part(
        `${TIE}  pit: { kind: pocket, face: top, at: { x: 44, y: center }, size: { x: 20, y: 20 }, corner-radius: 1, depth: 22 }\n  edges: { kind: chamfer, edges: [{ rim: pit }], size: 1.5 }\n`,
      ),
    );
    assert.deepEqual(
      plan.uncut.map((l) => l.item.name),
      ['pit', 'edges'],
    );
    assert.equal(plan.uncut[0]!.why?.rule, 'access/reach');
    assert.equal(plan.uncut[1]!.waits?.name, 'pit');
    const lines = planText(plan, checked)
      .split('\n')
      .filter((l) => l.trim() !== '');
    assert.equal(new Set(lines).size, lines.length);
    assert.match(
      lines.find((l) => l.includes('not cut: pit'))!,
      /with top up: a corner of radius 1 mm in pit needs a reach of 22 mm/,
    );
  });
});

describe('a plan beside the set-ups that are there', () => {
  const vise = (jaws: string, stop: string) =>
    `{ vise: mill-vise-100, jaws: [${jaws}], grip: 14, parallels: 18, stop: ${stop} }`;
  const setup = (name: string, up: string, cuts: string, hold = vise('back, front', 'left')) =>
    `  ${name}: { up: ${up}, hold: ${hold}, zero: { x: left, y: back, z: parallels }, cuts: [${cuts}] }\n`;

  it('two where one does: take the plan, a set-up fewer', () => {
    const { plan, checked } = planned(
      part(
        `${TIE}  other: { kind: hole, face: top, at: { x: 40, y: center }, diameter: 5.5, depth: 8 }\n`,
        `setups:\n${setup('one', 'top', 'tie')}${setup('two', 'top', 'other')}`,
      ),
    );
    const compared = compareWritten(checked, plan)!;
    assert.equal(compared.take, 'plan');
    assert.equal(compared.by, 'setups');
    assert.deepEqual([compared.written.setups, compared.planned.setups], [2, 1]);
    assert.ok(compared.planned.toolChanges < compared.written.toolChanges);
    assert.match(alternativesText(checked, plan), /Take the plan: 1 set-up fewer\./);
  });

  it('as good as the plan: keep them', () => {
    const { plan, checked } = planned(part(TIE, `setups:\n${setup('one', 'top', 'tie')}`));
    const compared = compareWritten(checked, plan)!;
    assert.deepEqual([compared.take, compared.by], ['written', 'nothing']);
  });

  it('as many, but what is held by nothing is no set-up: take the plan, it holds', () => {
    const loose = '{ vise: mill-vise-100, jaws: [back, front], grip: 0.5, parallels: 30, stop: left }';
    const { plan, checked } = planned(part(TIE, `setups:\n${setup('one', 'top', 'tie', loose)}`));
    const compared = compareWritten(checked, plan)!;
    assert.ok(compared.written.errors > 0);
    assert.deepEqual([compared.take, compared.by], ['plan', 'errors']);
  });

  it('without set-ups, or without a whole plan, there is nothing to choose', () => {
    const { plan, checked } = planned(part(TIE));
    assert.equal(compareWritten(checked, plan), undefined);
  });
});

describe('machines and vises of a shop', () => {
  const with_ = (old: string, more: string) => checkShop(SHOP_TEXT.replace(old, `${old}${more}`)).shop;

  it('a machine too small for the work would not do, and is told after those that would', () => {
    const shop = with_(
      'machines:\n',
      '  engraver: { travel: { x: 40, y: 30, z: 40 }, spindle: { rpm: [1000, 20000], power: 0.3 kW }, feed: 1500 mm/min, coolant: none, zero-error: { edge-finder: 0.02 } }\n',
    );
    const pair = TIE.replace('at: {', 'pattern: { line: { x: 60, count: 2 } }, at: {').replace('x: 20', 'x: center');
    const checked = checkPart(part(pair, '', '{ x: 90, y: 60, z: 24 }'), shop);
    const [first, second] = onEachMachine(checked, planOf(checked)!);
    assert.equal(first?.machine.name, 'toolroom-mill');
    assert.deepEqual(first.cannot, []);
    assert.equal(second?.machine.name, 'engraver');
    assert.match(second.cannot.map((f) => f.rule).join(), /machine\/travel/);
  });

  it('of two vises the one that opens too little cannot do it alone; of one nothing is told', () => {
    const shop = with_(
      'vises:\n',
      '  small: { jaw: { width: 60, height: 25 }, opens: 30, force: 8 kN, face: smooth }\n',
    );
    const checked = checkPart(part(TIE), shop);
    const vises = inEachVise(checked);
    assert.deepEqual(
      vises.map((v) => [v.vise.name, v.plan.setups.every((s) => s.setup.hold?.type === 'vise')]),
      [
        ['mill-vise-100', true],
        ['small', false],
      ],
    );
    assert.deepEqual(inEachVise(checkPart(part(TIE), SHOP)), []);
  });
});
