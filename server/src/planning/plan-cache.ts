/** Whether a part could be made in fewer set-ups than its text has: looked for only where the directions leave room. */
import type { CheckedPart } from '../rules/checked-part';
import type { ReadPart } from '../rules/judging';
import { said } from '../rules/kit/define';
import type { Finding } from '../rules/kit/rule';
import { moreThanNeeded } from '../rules/setup/more-than-needed';
import { fewestDirections } from './directions';
import { needed } from './item';
import { itemsOf } from './items';
import { hiddenIn } from './keep';
import { type Plan, planOf } from './plan';

/** No memory of work done here: a plan may also come from another thread, and some ask only whether there is one. */
const plans = new WeakMap<ReadPart, Plan | undefined>();

/** The plan of a checked part, worked out once. Undefined where there is no body or no vise to plan with. */
export function planFor(checked: ReadPart): Plan | undefined {
  if (!plans.has(checked)) plans.set(checked, planOf(checked));
  return plans.get(checked);
}

/** Takes a plan that was worked out elsewhere; undefined: that there is none. */
export function rememberPlan(checked: ReadPart, plan: Plan | undefined): void {
  if (!plans.has(checked)) plans.set(checked, plan);
}

/** The plan, where it was worked out before. */
export function knownPlan(checked: ReadPart): Plan | undefined {
  return plans.get(checked);
}

/** The part with the plan that is told and with no other: one that was made for another question is not to be in the answer. */
export function knowingOnly(checked: CheckedPart, plan: Plan | null | undefined): CheckedPart {
  const known = plan === undefined && plans.has(checked) ? checked.next(checked.reading, checked.shop) : checked;
  if (plan !== undefined) rememberPlan(known, plan ?? undefined);
  return known;
}

/** `setup/more-than-needed`, or nothing. */
export function fewerSetups(checked: CheckedPart): readonly Finding[] {
  const { part, solid, shop } = checked;
  const written = part.setups?.length ?? 0;
  if (written < 2 || !part.body || hiddenIn(checked).length > 0) return [];
  const bound = Math.max(1, fewestDirections(needed(itemsOf({ part, solid, shop })).map((i) => i.from)).count);
  if (written <= bound) return [];
  const plan = planFor(checked);
  // Where nothing is to be cut, or not all could be read, fewer set-ups are no gain.
  if (!plan || plan.uncut.length > 0 || plan.setups.length === 0 || plan.setups.length >= written) return [];
  // Tabs are filed off by hand: no set-up is saved by them.
  if (plan.setups.some((s) => s.setup.hold?.type === 'tabs')) return [];
  const planned = plan.setups.length;
  const ups = plan.setups.map((s) => s.setup.up?.name).join(', ');
  const last = part.setups!.at(-1)!;
  return [
    said(moreThanNeeded, {
      message: `The part has ${written} set-ups; ${planned} ${planned === 1 ? 'holds and reaches' : 'hold and reach'} everything (${ups} up). Use ${planned === 1 ? 'that one' : `those ${planned}`}.`,
      of: [],
      span: last.span,
      facts: { written, needed: planned, bound, up: ups },
    }),
  ];
}
