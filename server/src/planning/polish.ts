/**
 * A plan as its judge would have it: where the rules warn of a set-up and one of their own fixes, tried on the text with the
 * plan in it, leaves fewer warnings in as many set-ups, that is the plan. So no plan is told with what a fix of it would cure.
 */

import { checkPart, fixesFor } from '../rules/check';
import { CheckedPart } from '../rules/checked-part';
import { placed } from '../rules/fixes';
import type { ReadPart } from '../rules/judging';
import type { Finding, Fix } from '../rules/kit/rule';
import { applyEdits, locateEdits } from '../text/edit';
import { entry } from '../text/tree';
import { ofWhole } from './check-setup';
import { maskOf } from './directions';
import type { Item } from './item';
import type { Plan, PlannedSetup } from './planned';
import { timeOf } from './times';
import { writeSetups } from './write';

/** Judged with set-ups only: what they warn of a part alone, no plan can mend. */
const OF_SETUPS = /^(access|hold|setup|machine)\//;
/** Fixes taken one after the other, and warnings looked at for each: what a person would do too. */
const MOST_FIXES = 4;
const MOST_WARNINGS = 6;

export function polished(plan: Plan, read: ReadPart): Plan {
  if (plan.uncut.length > 0) return plan;
  const { warnings, hints } = foundIn(plan, read);
  if (warnings === 0 && hints === 0) return plan;
  const checked = asChecked(read);
  const setups = plan.setups.map((s) => s.setup);
  const edits = writeSetups(setups, checked.part, checked.tree);
  if (edits.length === 0) return plan;
  const first = checkPart(applyEdits(checked.tree.text, locateEdits(checked.tree, edits)), checked.shop, checked);
  if (first.part.setups?.length !== setups.length) return plan;
  let now = first;
  for (let taken = 0; taken < MOST_FIXES; taken++) {
    const better = betterThan(now);
    if (!better) break;
    now = better;
  }
  return now === first ? plan : asPlanned(now, plan, read);
}

/** Of its set-ups one by one, and as a whole. */
export function warningsIn(plan: Plan, read: ReadPart): number {
  return foundIn(plan, read).warnings;
}

function foundIn({ setups }: Plan, read: ReadPart): ReturnType<typeof ofWhole> {
  const whole = ofWhole(read, setups);
  return { ...whole, warnings: whole.warnings + setups.reduce((n, s) => n + s.warnings.length, 0) };
}

/** After the first fix that leaves fewer warnings (or as many, and fewer hints) and no error more; undefined where none does. */
function betterThan(now: CheckedPart): CheckedPart | undefined {
  const worth = [...warningsOf(now), ...hintsOf(now)].filter((f) => OF_SETUPS.test(f.rule));
  for (const finding of worth.slice(0, MOST_WARNINGS))
    for (const fix of fixesFor(now, finding)) {
      const after = isOfSetups(fix, now) && judgedAfter(fix, now);
      if (after && isBetter(after, now)) return after;
    }
  return undefined;
}

function judgedAfter({ edits }: Fix, { tree, shop }: CheckedPart): CheckedPart | undefined {
  const sorted = placed(edits, tree);
  return sorted && checkPart(applyEdits(tree.text, sorted), shop, undefined, tree.others);
}

/** The part itself is its author's: only how it is set up is the plan's. */
function isOfSetups({ edits }: Fix, { tree }: CheckedPart): boolean {
  const setups = entry(tree.root, 'setups');
  if (!setups?.value) return false;
  const { start, end } = tree.locate(setups.value.span);
  return edits.every(({ span }) => {
    const at = tree.locate(span);
    return at.start >= start && at.end <= end;
  });
}

function isBetter(after: CheckedPart, now: CheckedPart): boolean {
  const errors = (c: CheckedPart) => c.findings.filter((f) => f.severity === 'error').length;
  if (after.part.setups?.length !== now.part.setups?.length || errors(after) > errors(now)) return false;
  const fewer = warningsOf(now).length - warningsOf(after).length;
  return fewer > 0 || (fewer === 0 && hintsOf(after).length < hintsOf(now).length);
}

function warningsOf({ findings }: CheckedPart): readonly Finding[] {
  return findings.filter((f) => f.severity === 'warning');
}

function hintsOf({ findings }: CheckedPart): readonly Finding[] {
  return findings.filter((f) => f.severity === 'hint');
}

function asPlanned(now: CheckedPart, plan: Plan, { part, shop, solid, tree }: ReadPart): Plan {
  const setups = now.part.setups!;
  const warned = warningsOf(now).filter((f) => OF_SETUPS.test(f.rule));
  const time = timeOf(setups, { part: { ...part, setups }, shop, solid, tree });
  const planned: readonly PlannedSetup[] = setups.map((setup) => ({
    setup,
    items: plan.items.filter((item) => isCutIn(item, setup)),
    warnings: warned.filter((f) => f.span.block === setup.span.block),
  }));
  return { ...plan, setups: planned, time };
}

function isCutIn({ name, from, share, sawn }: Item, { up, cuts, sawnOff }: PlannedSetup['setup']): boolean {
  if (sawn) return sawnOff?.name === name;
  const halfFromHere = !share || (up !== undefined && (from & maskOf([up.name])) !== 0);
  return halfFromHere && cuts.some((c) => c.name === name);
}

/** With a shop of the asker’s it may not have been judged yet. */
function asChecked(read: ReadPart): CheckedPart {
  if (read instanceof CheckedPart) return read;
  const { tree, part, solid, shop } = read;
  return new CheckedPart({ tree, part, solid, problems: [], lost: false }, shop);
}
