/**
 * The planner against all plans: on small parts drawn at random the fewest set-ups are found by trying everything, judged
 * by the rules themselves, without a line of the planner's search. The two numbers must be one.
 *
 * `BRUTE_RUNS=10` draws ten times as many, `BRUTE_SEED=…` others; `BRUTE_THOROUGH=1` leaves off what is taken on trust.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { planOf } from '../../server/src/planning/plan';
import { checkPart } from '../../server/src/rules/check';
import { bruteFewest, withSetups } from './brute';
import { BENCH, crowdedPart, smallPart } from './brute-parts';

const TIMES = Number(process.env.BRUTE_RUNS ?? 1);
const SEED = Number(process.env.BRUTE_SEED ?? 42);
const THOROUGH = process.env.BRUTE_THOROUGH !== undefined;
const JUDGED = /^(access|hold|setup)\//;
/** Where the planner finds nothing, everything with so many set-ups is tried. */
const MOST_IN_VAIN = 2;

interface Compared {
  readonly planned: number | 'none';
  readonly bound: number;
}

/** Undefined for a part that is faulty however it is held. */
function compare(text: string): Compared | undefined {
  const checked = checkPart(text, BENCH);
  if (checked.findings.some((f) => f.severity === 'error' && !JUDGED.test(f.rule))) return undefined;
  // What others cut wholly is told, and needs no set-up: in how many it is written says nothing.
  if (checked.findings.some((f) => f.rule === 'form/removes-nothing')) return undefined;
  const plan = planOf(checked)!;
  const planned = plan.uncut.length === 0 ? plan.setups.length : 'none';
  const inVises = plan.setups.every(({ setup }) => /vise|soft-jaws/.test(setup.hold!.type));
  // Nor are halves, work that is set out of the jaws, and stock underneath to hold it by.
  const beyond = plan.setups.some(
    ({ setup: s }) =>
      s.hold!.overhang !== undefined ||
      s.cuts.some((c) => c.depth !== undefined || s.hold!.jaws?.some((j) => j.name === c.name)),
  );
  const known = inVises && !beyond;
  const most = planned === 'none' ? MOST_IN_VAIN : known ? planned : planned - 1;
  const { fewest } = bruteFewest(checked, most, THOROUGH);
  const said = `${text}\nplanned: ${plan.setups.map(({ setup: s }) => `${s.up?.name} ${s.hold?.type} [${s.cuts.map((c) => c.name)}]`).join('; ')}; left: ${plan.uncut.map((l) => l.item.name)}\n${fewest ? withSetups('', fewest, 'vise') : 'nothing found'}`;
  // What lies on a plate or the table is not tried: there it is enough that no vise does with fewer.
  if (planned === 'none' || !known) assert.equal(fewest, undefined, said);
  else {
    assert.equal(fewest?.length, planned, said);
    // The text itself, judged from nothing: it was no trick of trying.
    const again = checkPart(withSetups(text, fewest!, 'vise'), BENCH);
    const errors = again.findings.filter((f) => f.severity === 'error');
    assert.deepEqual(
      errors.map((f) => `${f.rule} ${f.message}`),
      [],
      said,
    );
  }
  return { planned, bound: plan.bound };
}

function comparedAll(parts: fc.Arbitrary<string>, wanted: number, seed: number): readonly Compared[] {
  const all: Compared[] = [];
  for (const text of fc.sample(parts, { numRuns: wanted * 3, seed })) {
    const one = compare(text);
    if (one) all.push(one);
    if (all.length === wanted) break;
  }
  assert.equal(all.length, wanted);
  return all;
}

describe('the fewest set-ups, against all plans', function () {
  this.timeout(180_000 * TIMES);

  it('of parts drawn at random', () => {
    const all = comparedAll(smallPart, 20 * TIMES, SEED);
    // One, two and three set-ups, and some that cannot be made: else this says little.
    for (const n of [1, 2, 'none'] as const)
      assert.ok(all.filter((c) => c.planned === n).length >= 2, `${n}: ${JSON.stringify(all)}`);
  });

  it('of parts that need more than their directions say, or are held by a hair', () => {
    const all = comparedAll(crowdedPart, 6 * TIMES, SEED);
    const more = all.filter((c) => c.planned !== 'none' && c.planned > c.bound);
    assert.ok(more.length >= 2, JSON.stringify(all));
  });
});
