/** A plan for other programs: the words of `scribeline plan` piece by piece, its minutes, and what else would do. */
import type { Plan } from '../planning/plan';
import type { CheckedPart } from '../rules/checked-part';
import { json } from '../text/shown';
import { alternativesLines, planTold } from './plan';
import { choicesOf, takesOf } from './plan-choices';

export function planJson(path: string, plan: Plan, checked: CheckedPart): unknown {
  const { headline, about, setups, besides, time, uncut } = planTold(plan, checked);
  const choices = choicesOf(plan, checked);
  return {
    path,
    part: checked.part.name,
    headline,
    about,
    proof: plan.proof,
    least_set_ups: plan.bound,
    ...takesOf(plan.time, checked.part.quantity),
    setups,
    besides,
    time,
    not_cut: uncut,
    choices,
    others: alternativesLines(checked, plan, choices),
  };
}

/** `format: 1`, as the report of findings. */
export function plansJson(files: readonly unknown[], unread: readonly string[]): string {
  return `${json({ format: 1, files, ...(unread.length > 0 && { unread }) })}\n`;
}
