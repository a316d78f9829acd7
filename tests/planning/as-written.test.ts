/**
 * A plan says of itself what `check` says of the text with the plan in it: of the examples, of parts that differed once, and
 * of small ones drawn at random, for other shops than those of `generated.test.ts`. `PLAN_SAYS=10` draws ten times as many.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { saidOfPlan } from '../../server/src/planning/as-written';
import { hiddenIn, writePlan } from '../../server/src/planning/keep';
import { planOf } from '../../server/src/planning/plan';
import { planLines } from '../../server/src/report/plan';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { someOf } from '../fuzz/runs';
import { SHOP as SMALL_BENCH } from '../simulator/defects';
import { partText } from '../simulator/generate';
import { BENCH, crowdedPart, smallPart } from './brute-parts';
import { SHOP } from './parts';
import { saidAsChecked } from './said';

const TIMES = Number(process.env.PLAN_SAYS ?? 1);
const PARTS = resolve(__dirname, '../../examples/gimbal/parts');
const withoutSetups = (text: string) => `${text.split('\nsetups:')[0]!}\n`;

describe('a plan says what check says of its text', function () {
  this.timeout(120_000 * TIMES);

  for (const file of someOf(readdirSync(PARTS), 3))
    it(file, () => {
      const checked = checkPart(withoutSetups(readFileSync(resolve(PARTS, file), 'utf8')), SHOP);
      assert.ok(saidAsChecked(planOf(checked)!, checked));
    });

  it('of a wall that is lower once the face under it is milled: nothing is lacking', () => {
    const { shop } = checkShop(`shop: bench
machines: { mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.5 kW, torque: 14 N·m }, feed: 3000 mm/min, coolant: flood } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 100, force: 15 kN } }
parallels: [10, 14, 18, 22]
tools:
  em-12: { kind: end-mill, diameter: 12, flutes: 3, flute-length: 45, reach: 45, shank: 12, material: carbide }
  fm-50: { kind: face-mill, diameter: 50, teeth: 4, reach: 40 }
  dr-6: { kind: drill, diameter: 6, flute-length: 60, material: hss }
`);
    const checked = checkPart(
      `part: low-wall
material: aluminium-6061-t6
body: { x: 60, y: 60, z: 43 }
stock: { form: block, sawn: [left, bottom], extra: { left: 1.5, bottom: 4 } }
features:
  bore: { kind: hole, face: top, at: { x: 45, y: 30 }, diameter: 6, depth: 20 }
`,
      shop,
    );
    const plan = planOf(checked)!;
    const again = saidAsChecked(plan, checked)!;
    assert.deepEqual(
      again.findings.filter((f) => f.severity === 'error').map((f) => f.message),
      [],
    );
    assert.deepEqual(
      plan.time.setups.flatMap((s) => s.missing),
      [],
    );
  });

  it('of a tolerance between two set-ups, which no set-up has by itself', () => {
    const checked = checkPart(
      `part: seat-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 24 }
features:
  upper: { kind: hole, face: top, at: { x: center, y: center }, diameter: 12, depth: 8 }
  lower: { kind: hole, face: bottom, at: { x: center, y: center }, diameter: 12, depth: 8 }
datums: { A: upper }
tolerances: [{ concentricity: 0.02, of: lower, datums: [A] }]
`,
      builtinShop(),
    );
    const plan = planOf(checked)!;
    assert.ok(saidAsChecked(plan, checked));
    const { bySetup, besides } = saidOfPlan(plan, checked);
    const across = [...bySetup.flat(), ...besides].find((f) => f.rule === 'setup/across');
    assert.ok(across);
    assert.ok(planLines(plan, checked).some((line) => line.includes(`mind  ${across.message} [setup/across]`)));
  });

  for (const [what, parts, shop] of [
    ['small parts', smallPart, BENCH],
    ['crowded parts', crowdedPart, BENCH],
    ['parts for the simulator', partText.map(withoutSetups), checkShop(SMALL_BENCH).shop],
  ] as const)
    it(`of ${what} drawn at random`, () => {
      let written = 0;
      for (const text of fc.sample(parts, { numRuns: 3 * TIMES, seed: 19 })) {
        const checked = checkPart(text, shop);
        const plan = planOf(checked, { mostAttempts: 60 })!;
        const again = saidAsChecked(plan, checked);
        if (!again) continue;
        written++;
        if (hiddenIn(again).length > 0) continue;
        // And planned again it is this plan.
        const same = writePlan(planOf(again, { mostAttempts: 60 })!, again);
        assert.equal(same.kept, 'same', `${again.tree.text}\n${same.kept ?? same.text}`);
      }
      assert.ok(written >= 1.5 * TIMES, `${written} written`);
    });
});
