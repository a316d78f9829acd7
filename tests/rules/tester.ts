/**
 * Tries a rule on its own examples: the bad one raises it and no other error, the good one is free of it and of
 * errors, and every fix that is offered cures, harms nothing and keeps every comment.
 */

import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { resolveShop } from '../../server/src/model/shop';
import type { Shop } from '../../server/src/model/shop-model';
import { checkPart, fixesFor } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import { placed } from '../../server/src/rules/fixes';
import type { Finding, Fix, Rule } from '../../server/src/rules/kit/rule';
import { ruleByName } from '../../server/src/rules/registry';
import { contextOf } from '../../server/src/rules/run';
import { commentsOf } from '../../server/src/text/comments';
import { applyEdits } from '../../server/src/text/edit';
import { readText } from '../../server/src/text/read';
import { withoutHidden } from '../../server/src/text/shown';

/** The findings of one rule on a text. */
export function findingsOf(rule: string, text: string, shop: Shop = builtinShop()): readonly Finding[] {
  return checkPart(text, shop).findings.filter((f) => f.rule === rule);
}

/** The one finding of a rule on a text; fails where there is none or more. */
export function onlyFinding(rule: string, text: string, shop: Shop = builtinShop()): Finding {
  const all = checkPart(text, shop).findings;
  const found = all.filter((f) => f.rule === rule);
  assert.equal(found.length, 1, `one ${rule} expected, found:\n${describeFindings(all)}`);
  return found[0]!;
}

/** The text after the first fix (or the one whose title matches) of the rule's first finding. */
export function mended(rule: string, text: string, title?: RegExp, shop: Shop = builtinShop()): string {
  const checked = checkPart(text, shop);
  const finding = checked.findings.find((f) => f.rule === rule);
  assert.ok(finding, `${rule} expected, found:\n${describeFindings(checked.findings)}`);
  const fixes = fixesFor(checked, finding);
  const fix = title ? fixes.find((f) => title.test(f.title)) : fixes[0];
  assert.ok(fix, `no such fix for ${rule}; offered: ${fixes.map((f) => f.title).join(' | ') || 'none'}`);
  return fixed(checked, fix);
}

export function fixed(checked: CheckedPart, fix: Fix): string {
  const edits = placed(fix.edits, checked.tree);
  assert.ok(edits, `the edits of '${fix.title}' overlap`);
  return applyEdits(checked.tree.text, edits);
}

export function describeFindings(findings: readonly Finding[]): string {
  return findings.map((f) => `  ${f.severity} ${f.rule} [${f.of.join(' ')}]: ${f.message}`).join('\n') || '  nothing';
}

/** The shop that a rule's examples are judged by. */
export function shopOf(rule: Pick<Rule, 'shop'>): Shop {
  return rule.shop === undefined ? builtinShop() : resolveShop(readText(rule.shop), 'example.shop.yaml');
}

/** The bad example: raises the rule, no error of another rule; sound findings. */
export function testBad(rule: Rule, shop: Shop = shopOf(rule)): void {
  const checked = checkPart(rule.bad, shop);
  const own = checked.findings.filter((f) => f.rule === rule.name);
  assert.ok(
    own.length > 0,
    `the bad example does not raise ${rule.name}; found:\n${describeFindings(checked.findings)}`,
  );
  const others = checked.findings.filter((f) => f.rule !== rule.name && f.severity === 'error');
  assert.equal(others.length, 0, `the bad example has other errors:\n${describeFindings(others)}`);
  for (const finding of own) assertSound(finding, checked);
  for (const finding of checked.findings) assertNoGraver(finding, shop);
  assertValue(rule, checked, checkPart(rule.bad, shop), own);
}

/** A rule says whether it may raise errors: a fix that is tried asks only those that may. */
function assertNoGraver({ rule, severity }: Finding, shop: Shop): void {
  if (severity !== 'error') return;
  const raised = ruleByName(rule)!;
  assert.ok(raised.severity === 'error' || raised.mayBeError, `${rule} raises an error`);
  assert.ok(!shop.builtIn || !raised.mildByBuiltIn, `${rule} raises an error by the built-in shop`);
}

/** A feature, a tool or a volume as a whole is longer than this; characters. */
const MOST_KEPT = 2500;

/** A finding means what it says wherever it has been: copied, and on another reading of the same text, it has the same fixes. */
function assertValue(rule: Rule, checked: CheckedPart, again: CheckedPart, findings: readonly Finding[]): void {
  const candidates = ({ part, shop, solid, tree, findings: raised }: CheckedPart, finding: Finding) => [
    ...(finding.fixes ?? []),
    ...(rule.mend?.(finding, contextOf(rule, { part, shop, solid, tree }, { raised })) ?? []),
  ];
  for (const finding of findings) {
    const copied = structuredClone(finding);
    assert.deepEqual(copied, finding);
    assert.deepEqual(candidates(again, copied), candidates(checked, finding));
    const kept = JSON.stringify(finding.data ?? null);
    assert.ok(kept.length < MOST_KEPT, `${rule.name} keeps more than names, numbers and places: ${kept.slice(0, 400)}`);
  }
}

/** The good example: neither the rule nor any error. */
export function testGood(rule: Rule, shop: Shop = shopOf(rule)): void {
  const wrong = checkPart(rule.good, shop).findings.filter((f) => f.rule === rule.name || f.severity === 'error');
  assert.equal(wrong.length, 0, `the good example has:\n${describeFindings(wrong)}`);
}

/** Every fix of the bad example; answers how many there were. */
export function testFixes(rule: Rule, shop: Shop = shopOf(rule)): number {
  // Also with a comment after every line that can take one, so that a fix that eats one is found out.
  return tryFixesOn(rule, rule.bad, shop) + tryFixesOn(rule, withComments(rule.bad), shop);
}

/** Every fix that a rule offers on a text: each cures, brings no error and keeps every comment. Answers how many. */
export function tryFixesOn(rule: Pick<Rule, 'name'>, text: string, shop: Shop = builtinShop()): number {
  const checked = checkPart(text, shop);
  const errors = checked.findings.filter((f) => f.severity === 'error').length;
  let tried = 0;
  for (const finding of checked.findings.filter((f) => f.rule === rule.name)) {
    const before = checked.findings.filter((f) => f.rule === rule.name).length;
    for (const fix of fixesFor(checked, finding)) {
      tried++;
      const after = fixed(checked, fix);
      const again = checkPart(after, shop);
      const left = again.findings.filter((f) => f.rule === rule.name).length;
      assert.ok(left < before, `'${fix.title}' leaves ${rule.name}:\n${after}\n${describeFindings(again.findings)}`);
      const now = again.findings.filter((f) => f.severity === 'error');
      assert.ok(now.length <= errors, `'${fix.title}' brings errors:\n${describeFindings(now)}`);
      assert.deepEqual(lost(text, after), [], `'${fix.title}' loses comments:\n${after}`);
    }
  }
  return tried;
}

/** What every finding must be. */
export function assertSound(finding: Finding, checked: CheckedPart): void {
  const { start, end } = checked.tree.locate(finding.span);
  assert.ok(start >= 0 && end >= start && end <= checked.tree.text.length, `${finding.rule} points outside the text`);
  assert.ok(finding.message.length > 20, `${finding.rule} says too little: ${finding.message}`);
  assert.ok(!/undefined|NaN|Infinity|\[object/.test(finding.message), `${finding.rule}: ${finding.message}`);
  for (const [key, value] of Object.entries(finding.facts)) {
    assert.match(key, /^[a-z0-9_]+$/i, `fact key ${key}`);
    if (typeof value === 'number') assert.ok(Number.isFinite(value), `fact ${key} of ${finding.rule} is ${value}`);
  }
  for (const name of finding.of) {
    const base = name.replace(/\[\d+\]$/, '');
    const known = checked.part.featureByName.has(base) || checked.part.broken.has(base) || isFace(base);
    assert.ok(known || /^form\//.test(finding.rule), `${finding.rule} speaks of '${name}', which is no feature`);
  }
}

const isFace = (name: string) => ['left', 'right', 'front', 'back', 'bottom', 'top'].includes(name);

function lost(before: string, after: string): readonly string[] {
  const is = commentsOf(after);
  // A value that YAML took for a comment is still there when it stands in quotes.
  return commentsOf(before).filter(
    (c) => !is.includes(c) && !is.includes(withoutHidden(c)) && !after.includes(JSON.stringify(c)),
  );
}

function withComments(text: string): string {
  return text
    .split('\n')
    .map((line, i) => (/^\s*[\w-]+:/.test(line) && !line.includes('#') ? `${line} # line ${i + 1}` : line))
    .join('\n');
}
