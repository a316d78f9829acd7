/** The examples: the gimbal is clean, weighs less than its limit and uses every kind; each faulty part has just the findings it says. */

import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { FEATURE_KINDS, homeOf } from '../server/src/model/feature-kinds';
import { jobFindings } from '../server/src/planning/job';
import { figuresOf } from '../server/src/report/figures';
import { checkJob, checkPart, checkShop } from '../server/src/rules/check';
import type { CheckedPart } from '../server/src/rules/checked-part';
import { agreeWithMarks, checkMarked } from './rules/marked';

const GIMBAL = resolve(__dirname, '../examples/gimbal');
const read = (...path: string[]) => readFileSync(join(GIMBAL, ...path), 'utf8');
const partsIn = (folder: string) =>
  readdirSync(join(GIMBAL, folder))
    .filter((f) => f.endsWith('.part.yaml'))
    .sort();

const shop = checkShop(read('campus.shop.yaml'));
const parts = new Map<string, CheckedPart>(partsIn('parts').map((f) => [f, checkPart(read('parts', f), shop.shop)]));
const FORMS = [...new Set(Object.values(FEATURE_KINDS).map((home) => home.form))].sort();

describe('the gimbal', () => {
  it('has a shop and a job without faults', () => {
    assert.deepEqual(shop.findings, []);
    assert.deepEqual(checkJob(read('gimbal.job.yaml')).findings, []);
  });

  it('is at least six parts', () => assert.ok(parts.size >= 6));

  for (const [file, checked] of parts)
    it(`${file} passes clean, hints and all`, () =>
      assert.deepEqual(
        checked.findings.map((f) => `${f.rule}: ${f.message}`),
        [],
      ));

  it('uses every form of feature, patterns of each form, expressions, inches and tolerances', () => {
    const features = [...parts.values()].flatMap((p) => p.part.features);
    assert.deepEqual([...new Set(features.map((f) => homeOf(f).form))].sort(), FORMS);
    assert.deepEqual([...new Set(features.flatMap((f) => f.pattern?.type ?? []))].sort(), [
      'bolt-circle',
      'grid',
      'line',
      'places',
    ]);
    assert.ok([...parts.values()].some((p) => p.part.units === 'in'));
    assert.ok([...parts.values()].some((p) => p.part.tolerances.length > 0));
    assert.ok([...parts.values()].some((p) => p.part.parameters.size > 0));
  });

  it('weighs less than its limit', () => {
    const { job } = checkJob(read('gimbal.job.yaml'));
    let grams = 0;
    for (const { spec, quantity } of job.parts) {
      const checked = parts.get(spec.name.replace('parts/', ''));
      assert.ok(checked, spec.name);
      const { mass_g, exact } = figuresOf(checked);
      assert.ok(mass_g !== null && mass_g > 1 && exact, spec.name);
      grams += mass_g * (quantity?.value ?? 1);
    }
    assert.ok(grams > 500 && grams < job.massLimitG!.value, `${grams} g of ${job.massLimitG?.value} g`);
  });
});

describe('the faulty parts', () => {
  for (const file of partsIn('faulty'))
    it(`${file} has the findings it is marked with`, () => void checkMarked(read('faulty', file), { shop: shop.shop }));
});

describe('the faulty joints', () => {
  it('each seeded fault is found at its line, and nothing else is', () => {
    const { job, tree, findings } = checkJob(read('faulty', 'joints.job.yaml'));
    const pieces = job.parts.map((entry) => ({
      entry,
      checked: checkPart(read('faulty', entry.spec.name), shop.shop),
      quantity: 1,
    }));
    agreeWithMarks(tree, [...findings, ...jobFindings(job, pieces, true)], { hints: true });
  });
});
