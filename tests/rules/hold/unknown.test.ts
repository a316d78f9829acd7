/** Where an outline at the jaws cannot be followed nothing is known of the hold, and that is said. No text is known that does it: one is broken by hand. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { timelineOf } from '../../../server/src/process/stock';
import { contactOf, heldOf } from '../../../server/src/process/workholding/in-jaws';
import { readPart } from '../../../server/src/rules/check';
import { RULES } from '../../../server/src/rules/hold';
import { runOne } from '../../../server/src/rules/run';
import { ALUMINIUM } from '../parts';

const TEXT = `${ALUMINIUM}body: { x: 60, y: 40, z: 20 }
features:
  notch: { kind: pocket, face: front, at: { x: center, z: 6 }, size: { x: 20, z: 8 }, corner-radius: 2, depth: 5 }
  tie: { kind: hole, face: top, at: { x: 10, y: center }, diameter: 5, depth: 5 }
setups:
  one: { up: front, hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 10 }, cuts: [notch] }
  two: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [tie] }
`;

function judged(broken: boolean) {
  const { part, solid, shop, tree } = readPart(TEXT, builtinShop());
  if (broken) for (const { region } of solid.voidsOf('notch')) (region.outer.edges as unknown[]).pop();
  const [, x] = heldOf({ part, solid, shop });
  const { after } = timelineOf(part, solid).setups[1]!;
  const { known } = contactOf(after, x!.seating, x!.inVise);
  return { known, findings: RULES.flatMap((rule) => runOne(rule, { part, shop, solid, tree })) };
}

describe('what the jaws touch, where no outline there can be followed', () => {
  it('is told as not judged, and once', () => {
    const { known, findings } = judged(true);
    assert.equal(known, false);
    const told = findings.filter((f) => f.rule === 'form/not-judged');
    assert.deepEqual(
      told.map((f) => [f.severity, f.facts.set_up]),
      [['error', 'two']],
    );
  });
  it('is judged where it can', () => {
    const { known, findings } = judged(false);
    assert.equal(known, true);
    assert.deepEqual(findings, []);
  });
});
