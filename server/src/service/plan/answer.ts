/** The planner for an editor: the plan of a part in words, and the edits that write it. Planned when asked for, not as one types. */

import { hiddenIn, notRead, writePlan } from '../../planning/keep';
import { planFor } from '../../planning/plan-cache';
import { alternativesLines, headline, type PlanTold, planLines, planTold } from '../../report/plan';
import { choicesOf, type PlanChoice } from '../../report/plan-choices';
import { line } from '../../text/shown';
import { editsOf } from '../lsp';
import type { TextEdit } from '../shapes';
import type { PartSnapshot } from '../snapshot';

/** Request: `PlanParams` → `PlanAnswer | null` (null: no part, no body, or a shop without a vise); on the way `PlanProgress` under `$/progress`, where a token was told. */
export const PLAN = 'scribeline/plan';

export interface PlanParams {
  readonly uri: string;
  readonly workDoneToken?: string | number;
}

/** So many steps are done, and what is worked out now. */
export interface PlanProgress {
  readonly done: number;
  readonly of: number;
  readonly what: string;
}

/** The plan as a page has it: piece by piece, with what else would do and what would spare a set-up. */
export interface PlanPage extends PlanTold {
  readonly others: readonly string[];
  /** Fewer set-ups in another way of holding, in numbers; `others` tells them in words. */
  readonly choices: readonly PlanChoice[];
}

export interface PlanAnswer {
  /** One sentence: how many setups, and whether fewer could do. */
  readonly headline: string;
  /** All of it, as `scribeline plan` prints it. */
  readonly text: string;
  readonly page: PlanPage;
  /** False where there is nothing to write: something cannot be cut, or could not be read. */
  readonly whole: boolean;
  /** One sentence why it is not to be written, where there is a plan all the same. */
  readonly refused?: string;
  /** The document's version that the edits are for, where it is open; they must be made in no other. */
  readonly version?: number;
  readonly setups: number;
  /** How many the text has; absent where it has none. */
  readonly written?: number;
  readonly edits: readonly TextEdit[];
}

export function planAnswer(snapshot: PartSnapshot): PlanAnswer | undefined {
  const { checked } = snapshot;
  const plan = planFor(checked);
  if (!plan) return undefined;
  const choices = choicesOf(plan, checked);
  const others = alternativesLines(checked, plan, choices);
  const told = [...planLines(plan, checked), ...(others.length > 0 ? ['', ...others] : []), ''];
  const written = writePlan(plan, checked, snapshot.findings);
  return {
    headline: line(headline(plan, checked)),
    text: told.map((words) => line(words)).join('\n'),
    page: { ...planTold(plan, checked), others, choices },
    whole: !written.kept,
    setups: plan.setups.length,
    ...(checked.part.setups && { written: checked.part.setups.length }),
    ...(written.kept ? { refused: line(written.why), edits: [] } : { edits: editsOf(snapshot, written) }),
  };
}

/** An answer that was worked out elsewhere from the text alone, for the document as it is here, where its shop may be missing. */
export function answerFor(answer: PlanAnswer, snapshot: PartSnapshot): PlanAnswer {
  const hidden = hiddenIn(snapshot.checked, snapshot.findings);
  if (!answer.whole || hidden.length === 0) return answer;
  return { ...answer, whole: false, refused: line(notRead(hidden)), edits: [] };
}
