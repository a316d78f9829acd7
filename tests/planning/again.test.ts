/** Planned again after an edit: from memory where the edit has no part in it, and always what is planned from nothing. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { attemptsFor } from '../../server/src/planning/attempt-cache';
import { type Plan, planOf } from '../../server/src/planning/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { deck, edited } from '../bench/plan';
import { parts, textOf } from './parts';

const SHOP_TEXT = readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8');
/** Read anew: nothing is remembered of it. */
const newShop = () => checkShop(SHOP_TEXT, 'file:///campus.shop.yaml').shop;

const told = (plan: Plan | undefined) => ({
  setups: plan?.setups.map(({ setup: { up, hold, zero, cuts } }) => [
    up?.name,
    hold?.type,
    hold?.jaws?.map((j) => j.name),
    hold?.grip?.mm,
    hold?.stop?.name,
    Object.values(zero).map((z) => z.name),
    cuts.map((c) => c.name),
  ]),
  left: plan?.uncut.map((l) => [l.item.name, l.why?.rule]),
  proof: plan?.proof,
});

describe('a part planned again after an edit', function () {
  this.timeout(60_000);

  it('judges again only set-ups that the edit has a part in', () => {
    const shop = newShop();
    const before = checkPart(deck(20), shop);
    const judgedFor = (part: CheckedPart) => {
      const { judged } = attemptsFor(shop);
      planOf(part);
      return attemptsFor(shop).judged - judged;
    };
    const first = judgedFor(before);
    assert.ok(first >= 4);
    assert.equal(judgedFor(before), 0);
    // A hole on the last face that is up: the set-ups before it are as they were.
    const shallower = before.tree.text.replace(/(side-1:[\s\S]*?\n {4}depth:) 7/, '$1 6.5');
    assert.notEqual(shallower, before.tree.text);
    const again = judgedFor(checkPart(shallower, shop, before));
    assert.ok(again > 0, 'the hole is cut somewhere');
    // In the other orders that are tried its set-up comes before others.
    assert.ok(again <= 0.75 * first, `${again} of ${first}`);
    // A pocket under all that comes later: every set-up after it starts from other work.
    assert.ok(judgedFor(checkPart(edited(before.tree.text), shop, before)) < first);
  });

  it('is planned as it is from nothing, whatever was planned before', () => {
    const shop = newShop();
    fc.assert(
      fc.property(parts(4), fc.nat(3), (made, which) => {
        const text = textOf(made);
        const before = checkPart(text, shop);
        planOf(before);
        // One hole or pocket made less deep; stock put on a face.
        const edits = [
          (t: string) => t.replace(/depth: (\d+)/, (_, d) => `depth: ${Number(d) - 0.5}`),
          (t: string) => t.replace(/diameter: 5.5/, 'diameter: 4.5'),
          (t: string) => t.replace(/kind: chamfer, edges: (\w+), size: 0.5/, 'kind: chamfer, edges: $1, size: 0.75'),
          (t: string) => (/stock/.test(t) ? t.replace(/: 2\b/, ': 3') : t),
        ];
        const changed = edits[which]!(text);
        const remembered = planOf(checkPart(changed, shop, before));
        const fresh = planOf(checkPart(changed, newShop()));
        assert.deepEqual(told(remembered), told(fresh), changed);
      }),
      { seed: 20261125, numRuns: 10 },
    );
  });
});
