/** The planner for an editor: the plan of a part in words, and the edits that write it. Planned when asked for, not as one types. */
import type { TextEdit } from 'vscode-languageserver-types';
import { planFor } from '../planning/fewer';
import type { Plan } from '../planning/plan';
import { writeSetups } from '../planning/write';
import { alternativesLines, headline, planLines } from '../report/plan';
import { line } from '../text/shown';
import { rangeOf } from './lsp';
import type { PartSnapshot } from './workspace';

/** Request: `{ uri }` → `PlanAnswer | null` (null: no part, no body, or a shop without a vise). */
export const PLAN = 'scribeline/plan';

export interface PlanAnswer {
  /** One sentence: how many setups, and whether fewer could do. */
  readonly headline: string;
  /** All of it, as `scribeline plan` prints it. */
  readonly text: string;
  /** False where something cannot be cut: then there is nothing to write. */
  readonly whole: boolean;
  readonly setups: number;
  /** How many the text has; absent where it has none. */
  readonly written?: number;
  readonly edits: readonly TextEdit[];
}

export function planAnswer(snapshot: PartSnapshot): PlanAnswer | undefined {
  const { checked } = snapshot;
  const plan = planFor(checked);
  if (!plan) return undefined;
  const others = alternativesLines(checked, plan);
  const told = [...planLines(plan, checked), ...(others.length > 0 ? ['', ...others] : []), ''];
  const whole = plan.left.length === 0 && plan.setups.length > 0;
  return {
    headline: line(headline(plan, checked.part)),
    text: told.map((words) => line(words)).join('\n'),
    whole,
    setups: plan.setups.length,
    ...(checked.part.setups && { written: checked.part.setups.length }),
    edits: whole ? editsFor(snapshot, plan) : [],
  };
}

/** The edits that write a plan into the text, in place of the setups that are there. */
export function editsFor(snapshot: PartSnapshot, plan: Plan): TextEdit[] {
  const { part, tree } = snapshot.checked;
  const setups = plan.setups.map((s) => s.setup);
  return writeSetups(setups, part, tree).map(({ span, newText }) => ({ range: rangeOf(snapshot, span), newText }));
}
