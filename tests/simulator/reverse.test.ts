/**
 * An error means that it cannot be made as written: of drawn parts in which a rule calls a matter of geometry an error, none
 * comes out right on the field, with the work where the format says that it lies. Six of them; more with
 * SCRIBELINE_REVERSE=NUMBER.
 *
 * Left out is what the field cannot tell: how far two things run into each other is seen down to its cells. And cuts of which
 * other cuts have taken everything, which form/removes-nothing tells: a tool that has nothing to do there never goes there.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { SHOP } from './defects';
import { partText } from './generate';
import { MARGIN_MM } from './margin';
import { isGeometry, isSeen } from './seen';
import { simulate } from './simulate';

const WANTED = Number(process.env.SCRIBELINE_REVERSE ?? 6);
const SEED = Number(process.env.SCRIBELINE_SEED ?? 22);
/** What only touches steel runs into nothing, but keeps no margin to it. */
function touches({ rule, facts }: Finding): boolean {
  return rule === 'access/jaw' && facts.overlap_mm === undefined;
}

describe('an error cannot be made', () => {
  it(`${WANTED} parts with errors of geometry do not come out right`, function () {
    this.timeout(WANTED * 20_000);
    const { shop } = checkShop(SHOP);
    let tried = 0;
    const rules = new Set<string>();
    for (const text of fc.sample(partText, { numRuns: WANTED * 40, seed: SEED })) {
      const { part, findings } = checkPart(text, shop);
      const errors = findings.filter((f) => f.severity === 'error');
      if (findings.some((f) => f.rule === 'form/removes-nothing')) continue;
      if (errors.length === 0 || !errors.every((f) => isGeometry(f) && isSeen(f))) continue;
      const marginMm = errors.some(touches) ? MARGIN_MM : 0;
      const carried = (fineMm: number) => simulate(part, shop, { fineMm, marginMm, asWritten: true });
      const coarse = carried(0.5);
      const { right, setups } = coarse.right ? carried(0.25) : coarse;
      const said = errors.map((f) => `${f.rule}: ${f.message}`).join('\n');
      assert.equal(right, false, `${said}\n${JSON.stringify(setups)}\n${text}`);
      for (const f of errors) rules.add(touches(f) ? 'touches' : f.rule);
      if (++tried === WANTED) break;
    }
    assert.equal(tried, WANTED);
    for (const rule of ['access/jaw', 'touches', 'hold/in-the-cut']) assert.ok(rules.has(rule), [...rules].join());
  });
});
