/**
 * Ways of holding beyond plain jaws: each part needs the one it is here for, because of what a vise does: it holds two flat,
 * opposed sides that stay, no wider than it opens, with some of the height between the jaws and the cuts above them
 * (common practice, no source). What is planned is judged again by the checker, as text.
 */

import assert from 'node:assert/strict';
import type { Hold } from '../../server/src/model/model';
import { thickerStock } from '../../server/src/planning/alternatives';
import { type Plan, planOf } from '../../server/src/planning/plan';
import { timeOf } from '../../server/src/planning/times';
import { writeSetups } from '../../server/src/planning/write';
import { alternativesLines } from '../../server/src/report/plan';
import { choicesOf } from '../../server/src/report/plan-choices';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { applyEdits, locateEdits } from '../../server/src/text/edit';
import { SHOP } from './parts';

const part = (body: string, features: string, stock = '') => `part: block
material: aluminium-6061-t6
body: ${body}
${stock}features:
${features}`;

/** Whole; written down without an error of reaching, holding or order, and read again as it was planned. */
function whole(text: string): { plan: Plan; holds: readonly Hold[]; checked: CheckedPart; again: CheckedPart } {
  const checked = checkPart(text, SHOP);
  assert.deepEqual(
    checked.findings.filter((f) => f.severity === 'error').map((f) => f.message),
    [],
  );
  const plan = planOf(checked)!;
  assert.deepEqual(
    plan.uncut.map((l) => `${l.item.name}: ${l.why?.message}`),
    [],
  );
  const setups = plan.setups.map((s) => s.setup);
  const written = applyEdits(text, locateEdits(checked.tree, writeSetups(setups, checked.part, checked.tree)));
  const again = checkPart(written, SHOP);
  assert.deepEqual(
    again.findings
      .filter((f) => f.severity === 'error' || f.rule.startsWith('form/'))
      .map((f) => `${f.rule} ${f.message}`),
    [],
    written,
  );
  assert.deepEqual(
    again.part.setups?.map((s) => [s.hold?.type, s.hold?.on, s.cuts.map((c) => c.name)]),
    setups.map((s) => [s.hold?.type, s.hold?.on, s.cuts.map((c) => c.name)]),
  );
  return { plan, holds: setups.map((s) => s.hold!), checked, again };
}

const WINDOW = '{ kind: pocket, face: top, at: { x: center, y: center }, size: { x: 40, y: 30 }, corner-radius: 4';
const outline = (x0: number, y0: number, x1: number, y1: number) =>
  `  outline: { kind: contour, face: top, depth: through, path: [{ x: ${x0}, y: ${y0}, round: 8 }, { x: ${x1}, y: ${y0}, round: 8 }, { x: ${x1}, y: ${y1}, round: 8 }, { x: ${x0}, y: ${y1}, round: 8 }] }\n`;

describe('ways of holding beyond plain jaws', () => {
  it('a sheet thinner than any grip lies under clamps, none of them on what is cut', () => {
    const { holds, plan } = whole(
      part(
        '{ x: 120, y: 80, z: 3 }',
        `  window: ${WINDOW}, depth: through }\n  ties: { kind: hole, face: top, at: { x: center, y: center }, pattern: { grid: { x: { pitch: 70, count: 2 }, y: { pitch: 50, count: 2 } } }, diameter: 5.5, depth: through }\n`,
      ),
    );
    assert.equal(plan.setups.length, 1);
    const [hold] = holds;
    assert.equal(hold?.type, 'clamps');
    // Cut right through: not on the machine's table.
    assert.equal(hold.on, 'plate');
    assert.equal(hold.clamps?.length, 2);
    for (const { u, v } of hold.clamps!) {
      assert.ok(u > 0 && u < 120 && v > 0 && v < 80);
      assert.ok(Math.abs(u - 60) > 20 || Math.abs(v - 40) > 15, 'beside the window');
    }
  });

  it('a plate wider than the vise opens lies under clamps, on the table where nothing goes through', () => {
    const { holds } = whole(part('{ x: 200, y: 140, z: 12 }', `  window: ${WINDOW}, depth: 5 }\n`));
    assert.deepEqual(
      holds.map((h) => [h.type, h.on]),
      [['clamps', 'table']],
    );
  });

  it('an outline cut right round, too near the edge for a frame, is screwed down through holes drilled before', () => {
    const ties =
      '  ties: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 24, count: 2 } }, diameter: 5.5, depth: through }\n';
    const { holds, plan } = whole(part('{ x: 60, y: 60, z: 8 }', ties + outline(4, 4, 56, 56)));
    assert.deepEqual(
      holds.map((h) => h.type),
      ['vise', 'screws'],
    );
    assert.deepEqual(
      holds[1]!.screws?.map((s) => s.name),
      ['ties'],
    );
    assert.deepEqual(
      plan.setups.map((s) => s.setup.cuts.map((c) => c.name)),
      [['ties'], ['outline']],
    );
  });

  it('one screw alone lets the work turn: not planned, and told', () => {
    const tie = '  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }\n';
    const plan = planOf(checkPart(part('{ x: 60, y: 60, z: 8 }', tie + outline(4, 4, 56, 56)), SHOP))!;
    assert.deepEqual(
      plan.uncut.map((l) => l.item.name),
      ['outline'],
    );
    assert.ok(plan.uncut[0]!.why, 'a reason');
  });

  it('an outline with stock all round it and no hole stays in it by tabs', () => {
    const { holds } = whole(part('{ x: 90, y: 60, z: 4 }', outline(12, 12, 78, 48)));
    assert.deepEqual(
      holds.map((h) => [h.type, h.tabs?.count]),
      [['tabs', 4]],
    );
  });

  it('tabs are planned with the cutter that leaves them a frame, as the rule on them wants it', () => {
    const text = part('{ x: 90, y: 60, z: 4 }', outline(12, 12, 78, 48));
    const { plan, again } = whole(text);
    const { setup } = plan.setups.at(-1)!;
    // 12 mm of stock: 6 mm of frame beside a cutter of 6 mm, where a wider one would have been taken.
    assert.deepEqual(
      setup.tools.map((t) => [t.of.name, t.tool.name]),
      [['outline', 'em-6']],
    );
    const found = again.findings.filter((f) => f.rule === 'hold/cut-free');
    assert.deepEqual(found, []);
  });

  it('a ring is bored and drilled before its outside goes', () => {
    const { holds, plan } = whole(
      part(
        '{ x: 84, y: 84, z: 8 }',
        `  outside: { kind: contour, face: top, depth: through, path: [{ x: 6, y: 42, arc: { x: 42, y: 78 } }, { x: 78, y: 42, arc: { x: 42, y: 6 } }] }
  bolts: { kind: hole, face: top, at: { x: center, y: center }, pattern: { bolt-circle: { diameter: 58, count: 6 } }, diameter: 4.5, depth: through }
  bore: { kind: pocket, face: top, at: { x: center, y: center }, diameter: 44, depth: through }
`,
      ),
    );
    assert.equal(holds.at(-1)?.type, 'screws');
    assert.ok(plan.setups.at(-1)!.setup.cuts.some((c) => c.name === 'outside'));
    assert.ok(plan.setups[0]!.setup.cuts.some((c) => c.name === 'bolts'));
  });

  it('a disc lies in jaws milled to it', () => {
    const { holds } = whole(
      `part: disc\nmaterial: aluminium-6061-t6\nbody: { diameter: 50, length: 16, axis: z }\nfeatures:\n  seat: { kind: pocket, face: top, at: { x: center, y: center }, diameter: 24, depth: 5 }\n`,
    );
    assert.deepEqual(
      holds.map((h) => h.type),
      ['soft-jaws'],
    );
  });

  it('work is pushed out of the jaws where a corner is cut off beside them: a vise does', () => {
    const { holds, plan } = whole(
      part(
        '{ x: 80, y: 24, z: 60 }',
        `  shoulders: { kind: contour, face: front, depth: through, path: [{ x: 0, z: 0 }, { x: 80, z: 0 }, { x: 80, z: 60, bevel: 14 }, { x: 0, z: 60, bevel: 14 }] }\n`,
      ),
    );
    assert.deepEqual(
      holds.map((h) => h.type),
      ['vise'],
    );
    assert.deepEqual(holds[0]!.jaws?.map((j) => j.name).sort(), ['left', 'right'], 'the top stands out');
    assert.equal(plan.setups.length, 1);
  });

  it('an outline all round without hole or frame is held by its excess: thicker stock, told as what would do', () => {
    // Half of 12 mm and a little more do not stand above the least grip, 6 mm.
    const checked = checkPart(part('{ x: 60, y: 60, z: 12 }', outline(3, 3, 57, 57)), SHOP);
    const plan = planOf(checked)!;
    assert.deepEqual(
      plan.uncut.map((l) => l.item.name),
      ['outline'],
    );
    const [thicker] = thickerStock(checked, plan);
    assert.ok(thicker, 'more stock does');
    assert.ok(thicker.face === 'bottom' || thicker.face === 'top');
    assert.deepEqual(thicker.plan.uncut, []);
    // Nothing is planned anew where the bound says that no stock saves a set-up.
    const plain = checkPart(
      part(
        '{ x: 60, y: 40, z: 20 }',
        '  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5.5, depth: 8 }\n',
      ),
      SHOP,
    );
    assert.deepEqual(thickerStock(plain, planOf(plain)!), []);
  });

  it('what a vise holds is planned in it, whatever else would do', () => {
    const { holds } = whole(part('{ x: 90, y: 60, z: 16 }', `  window: ${WINDOW}, depth: 5 }\n`));
    assert.deepEqual(
      holds.map((h) => h.type),
      ['vise'],
    );
  });

  it('fewer set-ups under clamps are a choice, with the minutes that they were planned to take', () => {
    const lid = part(
      '{ x: 80, y: 60, z: 8 }',
      `  l: { kind: step, face: top, along: left, width: 6, depth: 4 }
  k: { kind: step, face: top, along: back, width: 6, depth: 4 }
`,
    );
    const { plan, checked } = whole(lid);
    assert.equal(plan.setups.length, 2);
    const [choice, ...others] = choicesOf(plan, checked);
    assert.equal(others.length, 0);
    assert.deepEqual([choice?.way, choice?.set_ups, choice?.instead_of.set_ups], ['clamps', 1, 2]);
    assert.deepEqual(choice?.held, [{ up: 'top', by: 'clamps' }]);
    // The same plan by itself, timed as a text would be.
    const other = planOf(checked, { mostSetups: 1, anyWay: 'clamps' })!;
    const setups = other.setups.map((s) => s.setup);
    const { firstPiece } = timeOf(setups, { ...checked, part: { ...checked.part, setups } });
    assert.deepEqual(
      choice?.first_piece_min,
      firstPiece.map((m) => Math.round(m * 10) / 10),
    );
    // Two sides that meet: across from each other there is no room beside the steps.
    const [hold] = setups.map((s) => s.hold);
    assert.equal(hold?.clamps?.length, 2);
    assert.match(alternativesLines(checked, plan).join(' '), /1 set-up is enough instead of 2: top up under clamps\./);
  });

  it('where the faces up are as many there is no choice, and nothing is looked for', () => {
    const { plan, checked } = whole(part('{ x: 80, y: 60, z: 20 }', `  window: ${WINDOW}, depth: 5 }\n`));
    assert.deepEqual(choicesOf(plan, checked), []);
  });
});
