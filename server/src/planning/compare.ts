/** A part that has set-ups already, and the plan: which to take, by what each holds, how often each is turned over, and how long it takes. */
import type { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { OF_SETUPS, saidOfPlan } from './as-written';
import type { Plan } from './plan';
import { type Minutes, timeOf } from './times';

export interface Way {
  readonly setups: number;
  readonly toolChanges: number;
  readonly firstPiece: Minutes;
  /** What the rules on holding, reaching and order say of it. */
  readonly errors: number;
  readonly warnings: number;
}

export interface Comparison {
  readonly written: Way;
  readonly planned: Way;
  readonly take: 'written' | 'plan';
  /** The first thing in which they differ, in the order in which it counts; `nothing`: neither is better. */
  readonly by: 'errors' | 'setups' | 'warnings' | 'toolChanges' | 'time' | 'nothing';
}

/** Times nearer to each other than this are the same: they are ranges. */
const SAME_TIME = 0.05;

/** Undefined where the text has no set-ups, or the plan is not whole: then there is nothing to choose. */
export function compareWritten(checked: CheckedPart, plan: Plan): Comparison | undefined {
  const { part, findings } = checked;
  if (!part.setups || part.setups.length === 0 || plan.uncut.length > 0) return undefined;
  const time = timeOf(part.setups, checked);
  // Judged with all its rules: what only a plan with fewer set-ups would cure is counted as such.
  const count = (said: readonly Finding[], severity: string) =>
    said.filter((f) => f.severity === severity && OF_SETUPS.test(f.rule) && f.rule !== 'setup/more-than-needed').length;
  const { bySetup, besides } = saidOfPlan(plan, checked);
  const ofPlan = [...bySetup.flat(), ...besides];
  const written: Way = {
    setups: part.setups.length,
    toolChanges: time.toolChanges,
    firstPiece: time.firstPiece,
    errors: count(findings, 'error'),
    warnings: count(findings, 'warning'),
  };
  const planned: Way = {
    setups: plan.setups.length,
    toolChanges: plan.time.toolChanges,
    firstPiece: plan.time.firstPiece,
    errors: count(ofPlan, 'error'),
    warnings: count(ofPlan, 'warning'),
  };
  return { written, planned, ...chosen(written, planned) };
}

function chosen(written: Way, planned: Way): Pick<Comparison, 'take' | 'by'> {
  for (const by of ['errors', 'setups', 'warnings', 'toolChanges'] as const) {
    const more = written[by] - planned[by];
    if (more !== 0) return { by, take: more > 0 ? 'plan' : 'written' };
  }
  const [a, b] = [middle(written), middle(planned)];
  if (Math.abs(a - b) <= SAME_TIME * Math.max(a, b)) return { by: 'nothing', take: 'written' };
  return { by: 'time', take: a > b ? 'plan' : 'written' };
}

function middle({ firstPiece }: Way): number {
  return (firstPiece[0] + firstPiece[1]) / 2;
}
