/** What is told with a plan against what `check` says of the text with the plan in it. */
import assert from 'node:assert/strict';
import { OF_SETUPS, saidOfPlan } from '../../server/src/planning/as-written';
import type { Plan } from '../../server/src/planning/plan';
import { writeSetups } from '../../server/src/planning/write';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { Finding } from '../../server/src/rules/kit/rule';
import { applyEdits, locateEdits } from '../../server/src/text/edit';

const keyOf = ({ rule, severity, of, span }: Finding) => `${severity} ${rule} [${of}] ${span.block}`;
const sorted = (all: readonly Finding[]) => all.map(keyOf).sort();

/** Holds the two against each other, both ways; answers the text, judged from nothing. Undefined where it is no whole plan. */
export function saidAsChecked(plan: Plan, checked: CheckedPart): CheckedPart | undefined {
  const { part, tree } = checked;
  if (plan.uncut.length > 0 || plan.setups.length === 0) return undefined;
  const edits = writeSetups(
    plan.setups.map((s) => s.setup),
    part,
    tree,
  );
  const text = applyEdits(tree.text, locateEdits(tree, edits));
  const again = checkPart(text, checked.shop);
  const { bySetup, besides } = saidOfPlan(plan, checked);
  const told = [...bySetup.flat(), ...besides];
  const ofSetups = (all: readonly Finding[]) => all.filter((f) => OF_SETUPS.test(f.rule));
  assert.deepEqual(sorted(ofSetups(told)), sorted(ofSetups(again.findings)), text);
  const all = sorted(again.findings);
  for (const key of sorted(told)) assert.ok(all.includes(key), `${key}\n${text}`);
  // What was said while it was planned is what is said of it now, but for what is of the part itself, or of a whole plan.
  const own = plan.setups.flatMap((s) => s.warnings).map((f) => `${f.rule} ${f.of}`);
  const warned = again.findings.filter((f) => f.severity === 'warning').map((f) => `${f.rule} ${f.of}`);
  for (const key of own) assert.ok(warned.includes(key), `${key} is told while planning alone\n${text}`);
  for (const key of warned)
    if (/^(access|hold)\//.test(key)) assert.ok(own.includes(key), `${key} was not known while planning\n${text}`);
  return again;
}
