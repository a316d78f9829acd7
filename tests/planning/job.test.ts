/** A job's sums by hand, and the examples of the rules on whole jobs with the gimbal's own parts. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { type JobPiece, jobBars, jobFindings } from '../../server/src/planning/job';
import { checkJob, checkPart, checkShop } from '../../server/src/rules/check';
import { RULES } from '../../server/src/rules/registry';

const FOLDER = 'examples/gimbal';
const shop = checkShop(readFileSync(`${FOLDER}/campus.shop.yaml`, 'utf8')).shop;

function judged(text: string) {
  const { job, findings } = checkJob(text);
  assert.deepEqual(findings, []);
  const pieces = job.parts.map((entry): JobPiece => {
    const checked = checkPart(readFileSync(`${FOLDER}/${entry.spec.name}`, 'utf8'), shop);
    return { entry, checked, quantity: entry.quantity?.value ?? checked.part.quantity };
  });
  return { job, pieces, findings: jobFindings(job, pieces, true) };
}

describe('what a job comes to', () => {
  // That of a record is judged with it (tests/service/record.test.ts).
  for (const rule of RULES.filter((r) => r.when === 'job' && r.name !== 'tol/measured')) {
    it(`${rule.name}: its bad example raises it, its good one does not`, () => {
      const found = judged(rule.bad).findings.filter((f) => f.rule === rule.name);
      assert.equal(found.length, 1);
      assert.ok(['error', 'warning', 'hint'].includes(found[0]!.severity));
      assert.deepEqual(
        judged(rule.good).findings.filter((f) => f.rule === rule.name),
        [],
      );
    });
  }

  it('the mass is that of each part times its number', () => {
    const { findings, pieces } = judged(RULES.find((r) => r.name === 'cost/over-mass')!.bad);
    const { checked } = pieces[0]!;
    const mass = findings.find((f) => f.rule === 'cost/over-mass')!.facts.mass_g;
    assert.ok(Math.abs(Number(mass) - (2 * checked.solid.measures.volumeMm3 * 2.7) / 1000) < 0.01);
  });

  it('the real job is within its limits, and knows its bars', () => {
    const { findings, job, pieces } = judged(readFileSync(`${FOLDER}/gimbal.job.yaml`, 'utf8'));
    assert.deepEqual(
      findings.filter((f) => f.severity === 'error'),
      [],
    );
    for (const need of jobBars(job, pieces))
      assert.ok(need.bought[0]!.count >= 1 && need.bought[0]!.lengthMm > 0, need.what);
  });

  it('pieces go into bars longest first: 63 + 2 mm, 15 to a metre', () => {
    const { job, pieces } = judged(
      'job: g\nshop: campus.shop.yaml\nsaw-kerf: 2\nparts:\n  b: { spec: parts/bearing-block.part.yaml, quantity: 16 }\n',
    );
    assert.match(jobBars(job, pieces)[0]!.what, /flat-bar 40 × 16/);
    const count = (quantity: number) => jobBars(job, [{ ...pieces[0]!, quantity }])[0]!.bought[0]!.count;
    assert.deepEqual([count(1), count(15), count(16), count(30), count(31)], [1, 1, 2, 2, 3]); // 15 × 65 = 975
  });
});
