/** The plan's page: only its own script and style, its messages checked at both doors, and every word of a plan in it. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { pageOf } from '../../../client/src/plan/page';
import { fromPlan, toPlan } from '../../../client/view/plan-messages';

const page = pageOf({
  script: 'https://x/plan.js',
  styles: ['https://x/job.css', 'https://x/plan.css'],
  cspSource: 'https://x',
  nonce: 'n0',
});

describe('the page of a plan', () => {
  it('lets nothing load but its own script and styles', () => {
    const policy = /Content-Security-Policy" content="([^"]*)"/.exec(page)?.[1];
    assert.equal(policy, "default-src 'none'; script-src 'nonce-n0'; style-src https://x");
    assert.doesNotMatch(page, /<style|\sstyle=|\son\w+=|javascript:/i);
    assert.equal([...page.matchAll(/<script\b/g)].length, 1);
  });

  it('has what its script looks for, and tells its keys', () => {
    const script = readFileSync(join(__dirname, '../../../client/view/plan.ts'), 'utf8');
    const wanted = [...script.matchAll(/byId(?:<\w+>)?\('([\w-]+)'\)/g)].map((m) => m[1]!);
    assert.ok(wanted.length > 6);
    for (const id of wanted) assert.ok(page.includes(`id="${id}"`), id);
    const keys = /const KEYS[^=]*= \{([^}]*)\}/.exec(script)?.[1] ?? '';
    for (const [, key] of keys.matchAll(/(\w+):/g)) assert.ok(page.includes(`<kbd>${key}</kbd>`), key);
  });

  it('says only what it may', () => {
    for (const type of ['ready', 'cancel', 'again', 'write']) assert.deepEqual(fromPlan({ type, more: 1 }), { type });
    assert.deepEqual(fromPlan({ type: 'step', setup: 2 }), { type: 'step', setup: 2 });
    for (const setup of [-1, 0.5, '0', undefined, Number.NaN])
      assert.equal(fromPlan({ type: 'step', setup }), undefined);
    fc.assert(
      fc.property(fc.anything(), (message) => {
        for (const answer of [fromPlan(message), toPlan(message)])
          assert.ok(answer === undefined || typeof answer.type === 'string');
      }),
      { seed: 20261130, numRuns: 300 },
    );
  });
});
