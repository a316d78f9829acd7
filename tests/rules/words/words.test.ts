/**
 * The wording of what users read: every message and fix of the rules' bad examples and of the examples, and every rule's page.
 * What does not hold yet is let off by name; the list only shrinks.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { checkPart, checkShop, fixesFor } from '../../../server/src/rules/check';
import type { CheckedPart } from '../../../server/src/rules/checked-part';
import { RULES } from '../../../server/src/rules/registry';
import { shopOf } from '../tester';
import { LET_OFF } from './let-off';
import { faultsOfFinding, faultsOfPage, faultsOfTitle } from './terms';

const GIMBAL = resolve(__dirname, '../../../examples/gimbal');
const campus = checkShop(readFileSync(join(GIMBAL, 'campus.shop.yaml'), 'utf8')).shop;

/** Each text, and of which rule's findings the fixes are looked at: of all where none is named. */
function* checkedTexts(): Generator<readonly [checked: CheckedPart, rule?: string]> {
  for (const rule of RULES)
    if (rule.when !== 'job' && rule.name !== 'form/checker-failed')
      yield [checkPart(rule.bad, shopOf(rule)), rule.name];
  for (const folder of ['faulty', 'parts'])
    for (const file of readdirSync(join(GIMBAL, folder)))
      if (file.endsWith('.part.yaml')) yield [checkPart(readFileSync(join(GIMBAL, folder, file), 'utf8'), campus)];
}

describe('what users read', function () {
  this.timeout(60_000);
  const faults = new Map<string, Set<string>>();
  const told = (rule: string, found: readonly string[]) => {
    const all = faults.get(rule) ?? new Set();
    faults.set(rule, all);
    for (const fault of found) all.add(fault);
  };
  before(() => {
    for (const rule of RULES) told(rule.name, faultsOfPage(rule));
    for (const [checked, rule] of checkedTexts())
      for (const finding of checked.findings) {
        told(finding.rule, faultsOfFinding(finding));
        if (rule !== undefined && rule !== finding.rule) continue;
        for (const { title } of fixesFor(checked, finding)) told(finding.rule, faultsOfTitle(title));
      }
  });

  for (const { name } of RULES)
    it(`${name} is worded plainly`, () => {
      const found = [...(faults.get(name) ?? [])];
      if (LET_OFF.has(name)) assert.ok(found.length > 0, `${name} is let off for nothing: take it off the list`);
      else assert.deepEqual(found, []);
    });
});
