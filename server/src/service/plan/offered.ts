/** The offer to plan anew: for findings that a whole plan cures, where the part has been planned. */

import { writePlan } from '../../planning/keep';
import { knownPlan } from '../../planning/plan-cache';
import { wouldCure } from '../../rules/check';
import type { CheckedPart } from '../../rules/checked-part';
import type { Finding, Fix } from '../../rules/kit/rule';
import { isCollision } from '../accept';

/** Findings that are about the set-ups as a whole. */
const OF_SETUPS: ReadonlySet<string> = new Set(['setup/unassigned', 'setup/more-than-needed', 'access/no-setup']);

/** What a plan is mostly the cure of: it is looked for before a person asks. */
export function planIsLikely(finding: Finding): boolean {
  return OF_SETUPS.has(finding.rule) || isCollision(finding);
}

/** How the work lies, is held and is reached: what a plan decides. */
export function planMayCure(finding: Finding): boolean {
  return planIsLikely(finding) || /^(?:hold|setup|access)\//.test(finding.rule);
}

/** The plan written; tried like every other fix, where it may be one that no set-up cures. */
export function planOffered(checked: CheckedPart, finding: Finding, findings = checked.findings): Fix | undefined {
  const plan = planMayCure(finding) ? knownPlan(checked) : undefined;
  const written = plan && writePlan(plan, checked, findings);
  if (!plan || !written || written.kept) return undefined;
  const n = plan.setups.length;
  const ups = plan.setups.map((s) => s.setup.up?.name).join(', ');
  const title = `Plan anew: ${n} set-up${n === 1 ? '' : 's'} (${ups} up)`;
  const fix: Fix = { title, safe: false, edits: written.edits };
  return OF_SETUPS.has(finding.rule) || wouldCure(checked, finding, fix) ? fix : undefined;
}
