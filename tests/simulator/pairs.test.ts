/**
 * Two pieces in one vise, both ways: drawn parts held two at a time that no rule calls an error come out right, with nothing
 * in the way of a tool beside either; and those with errors of geometry do not. Two of each; more with SCRIBELINE_PAIRS=NUMBER, others with SCRIBELINE_SEED=NUMBER.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { checkPart, checkShop } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { SHOP } from './defects';
import { partText } from './generate';
import { inwardFor } from './margin';
import { isGeometry, isSeen } from './seen';
import { simulate } from './simulate';

const WANTED = Number(process.env.SCRIBELINE_PAIRS ?? 2);
const SEED = Number(process.env.SCRIBELINE_SEED ?? 31);
const WARNED = new Set(['hold/drills-the-parallels', 'hold/parallels', 'setup/unassigned']);
const one = <T>(...of: T[]) => fc.constantFrom(...of);

/** The parts of `generate.ts` two at a time, half as long, with slots and steps along the row drawn often. */
const pairs = fc
  .record({ text: partText, gap: one('', ', gap: 1', ', gap: 14'), along: one('', '', 'slot', 'step') })
  .map(({ text, gap, along }) => {
    const x = Number(/body: { x: (\d+)/.exec(text)![1]);
    const more = {
      '': '',
      slot: `  row: { kind: slot, face: top, ends: [{ x: -8, y: center }, { x: ${x + 8}, y: center }], width: 7, depth: 3 }\n`,
      step: '  row: { kind: step, face: top, along: back, width: 4, depth: 3 }\n',
    }[along];
    const cut = more && /first: .*cuts: \[/.test(text) ? text.replace(/(first: .*cuts: \[)/, '$1row, ') : text;
    return cut
      .replace('setups:\n', cut === text ? 'setups:\n' : `${more}setups:\n`)
      .replace('material:', 'quantity: 4\nmaterial:')
      .replaceAll(/(grip: \d+) }/g, `$1, stop: left, pieces: 2, pad: 8${gap} }`);
  });

const PIECES = (f: Finding) => f.facts.meets === 'other piece';

describe('two pieces in one vise', () => {
  const { shop } = checkShop(SHOP);
  const texts = fc.sample(pairs, { numRuns: WANTED * 30, seed: SEED });

  it(`${WANTED} clean pairs come out right`, function () {
    this.timeout(WANTED * 20_000);
    let [made, through] = [0, 0];
    for (const text of texts) {
      const { part, findings } = checkPart(text, shop);
      if (findings.some((f) => f.severity === 'error' || (WARNED.has(f.rule) && f.severity !== 'hint'))) continue;
      const { right, ...seen } = simulate(part, shop, { fineMm: 0.5, asWritten: true, inward: inwardFor(findings) });
      assert.ok(right, `${JSON.stringify(seen, null, 1)}\n${text}`);
      if (text.includes('row:')) through++;
      if (++made === WANTED) break;
    }
    assert.equal(made, WANTED);
    assert.ok(through > 0);
  });

  it(`${WANTED} pairs with an error where one piece is in the way of the other do not`, function () {
    this.timeout(WANTED * 20_000);
    let tried = 0;
    for (const text of texts) {
      const { part, findings } = checkPart(text, shop);
      const errors = findings.filter((f) => f.severity === 'error');
      if (!errors.some(PIECES) || !errors.every((f) => isGeometry(f) && isSeen(f))) continue;
      if (findings.some((f) => f.rule === 'form/removes-nothing')) continue;
      const coarse = simulate(part, shop, { fineMm: 0.5, asWritten: true });
      const { right, setups } = coarse.right ? simulate(part, shop, { fineMm: 0.25, asWritten: true }) : coarse;
      assert.equal(right, false, `${errors.map((f) => f.message).join('\n')}\n${JSON.stringify(setups)}\n${text}`);
      if (++tried === WANTED) break;
    }
    assert.equal(tried, WANTED);
  });
});
