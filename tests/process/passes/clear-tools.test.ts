/** What is printed and timed is cut with a tool that passes what stands round the work in that set-up. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import type { Shop } from '../../../server/src/model/shop-model';
import { verdictOf } from '../../../server/src/process/access';
import { passesOfPart } from '../../../server/src/process/passes';
import { timelineOf } from '../../../server/src/process/stock';
import { checkShop, readPart } from '../../../server/src/rules/check';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');

/** Upright against an angle plate, with straps on the front that stand higher than the floor of the step. */
const UPRIGHT = `part: lug
material: aluminium-6061-t6
body: { x: 60, y: 20, z: 130 }
features:
  shelf: { kind: step, face: top, along: front, width: 4, depth: 8 }
setups:
  first:
    up: top
    hold: { angle-plate: angle-plate-100, against: back, out: 40, clamps: [{ x: 15, z: 118 }, { x: 45, z: 118 }] }
    cuts: [shelf]
`;

/** Mills of the passes: each with whether its set-up lets it pass, when it is the one that is asked for. */
function mills(text: string, shop: Shop) {
  const { part, solid } = readPart(text, shop);
  const { setups } = timelineOf(part, solid);
  return passesOfPart({ part, solid, shop }).flatMap(({ rows }, index) =>
    rows.flatMap((row) => {
      if (row.kind !== 'pass' || row.tool.kind !== 'end-mill') return [];
      const then = setups[index]!;
      return row.of.flatMap((name) => {
        const cut = then.cuts.find((c) => c.name === name);
        if (!cut?.feature) return [];
        const span = cut.feature.nameSpan;
        const tools = [{ of: { name, span }, tool: { name: row.tool.name, span } }];
        const verdict = verdictOf(cut, { ...then, setup: { ...then.setup, tools } }, { part, solid, shop });
        return [{ tool: row.tool.name, isClear: verdict === undefined || verdict.uses.length > 0 }];
      });
    }),
  );
}

describe('cutters on paper', () => {
  it('a strap beside the cut keeps out those that would run into it', () => {
    const found = mills(UPRIGHT, builtinShop());
    assert.ok(found.length >= 2);
    assert.ok(
      found.every((m) => m.isClear),
      JSON.stringify(found),
    );
    // Without straps so high the widest is the quickest.
    const free = mills(UPRIGHT.replaceAll('z: 118', 'z: 100'), builtinShop());
    assert.ok(
      free.every((m) => m.tool !== found[0]!.tool),
      JSON.stringify([found, free]),
    );
  });

  it('in every set-up of the examples', () => {
    const shop = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;
    let count = 0;
    for (const file of readdirSync(join(GIMBAL, 'parts'))) {
      const found = mills(readFileSync(join(GIMBAL, 'parts', file), 'utf8'), shop);
      count += found.length;
      assert.deepEqual(
        found.filter((m) => !m.isClear),
        [],
        file,
      );
    }
    assert.ok(count > 10, String(count));
  });
});
