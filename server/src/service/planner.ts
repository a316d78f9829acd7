/**
 * Where parts are planned so that typing does not wait for it. A host hands one in; without one the service plans in its
 * own thread. What is sent and what comes back is plain data: the same text and shop give the same part anywhere.
 */
import { knownPlan, planFor } from '../planning/fewer';
import type { Plan } from '../planning/plan';
import { plannerFindings } from '../planning/told';
import type { CheckedPart } from '../rules/check';
import type { Finding } from '../rules/rule';
import type { Shop } from '../spec/shop-model';
import { linesOf } from '../text/lines';
import { type PlanAnswer, planAnswer } from './planning';

export interface PlanOrder {
  readonly path: string;
  readonly text: string;
  readonly shop: Shop;
  /** What the planner finds without being asked; the plan itself; or the plan with all that is said of it. */
  readonly want: 'findings' | 'plan' | 'answer';
}

export interface PlanReply {
  /** Absent where none was looked for; null where there is none: no body, no vise. */
  readonly plan?: Plan | null;
  readonly findings?: readonly Finding[];
  readonly answer?: PlanAnswer | null;
}

export interface PlanJob {
  /** Undefined where it was called off, or the planner failed; never rejects. */
  readonly reply: Promise<PlanReply | undefined>;
  cancel(): void;
}

export interface Planner {
  plan(order: PlanOrder): PlanJob;
}

/** Carries out an order for a part that was checked; wherever that is. */
export function replyFor(checked: CheckedPart, { path, text, want }: Omit<PlanOrder, 'shop'>): PlanReply {
  if (want === 'findings') {
    // A part without set-ups has its plan told above it: then it is there when it is asked for, and prices are by it.
    if (!checked.part.setups) planFor(checked);
    const findings = plannerFindings(checked);
    const plan = knownPlan(checked);
    return { findings, ...(plan || !checked.part.setups ? { plan: plan ?? null } : {}) };
  }
  const plan = planFor(checked) ?? null;
  if (want === 'plan') return { plan };
  const snapshot = {
    kind: 'part',
    path,
    text,
    lines: linesOf(text),
    checked,
    shopPath: undefined,
    findings: checked.findings,
  } as const;
  return { plan, answer: planAnswer(snapshot) ?? null };
}
