/** A job's set-ups in the order of the day, evening by evening, and what is saved against part by part. */
import type { Minutes } from '../../model/shop-times';
import { bestOrder } from './order';
import { changesFor, minutesWith } from './switching';
import type { DayAsk, DayPlan, DaySetup, DayStep } from './types';
import { onward, START, weightsOf } from './weights';

export function dayPlan(ask: DayAsk): DayPlan {
  const { parts, proven } = bestOrder(ask);
  const best = { ...planIn(parts, ask), proven };
  const plain = partByPart(ask);
  // A bounded search may miss what the plainest order has.
  return proven || !isShorter(plain, best) ? best : { ...plain, proven: false };
}

/** The parts as the job lists them, one after the other. */
export function partByPart(ask: DayAsk): DayPlan {
  return planIn(
    ask.parts.flatMap((setups, p) => setups.map(() => p)),
    ask,
  );
}

function isShorter(a: DayPlan, b: DayPlan): boolean {
  return a.evenings < b.evenings || (a.evenings === b.evenings && a.minutes[1] < b.minutes[1]);
}

/** Walks the order as it was weighed, and tells each step. */
function planIn(order: readonly number[], ask: DayAsk): DayPlan {
  const weights = weightsOf(ask);
  const done = ask.parts.map(() => 0);
  const steps: DayStep[] = [];
  let label = START;
  let before = -1;
  for (const p of order) {
    const at = weights.firsts[p]! + done[p]!++;
    const setup: DaySetup = weights.setups[at]!;
    const next = onward(label, before, at, weights);
    const bare = next.evenings > label.evenings;
    const changes = changesFor(bare ? undefined : weights.setups[before], setup);
    steps.push({ setup, evening: next.evenings, changes, minutes: minutesWith(changes, setup) });
    [label, before] = [next, at];
  }
  const sum = (i: 0 | 1) => steps.reduce((all, s) => all + s.minutes[i], 0);
  const minutes: Minutes = [sum(0), sum(1)];
  const { eveningMin } = ask;
  return {
    steps,
    evenings: label.evenings,
    minutes,
    changes: steps.reduce((n, s) => n + s.changes.length, 0),
    proven: true,
    tooLong: steps.flatMap(({ setup }) => {
      const [, alone] = minutesWith(changesFor(undefined, setup), setup);
      return eveningMin !== undefined && alone > eveningMin ? [`${setup.part}: ${setup.name}`] : [];
    }),
  };
}
