/** Which of several plans with as many set-ups is taken. */
import { memo } from '../memo';
import type { Setup } from '../model/model';
import type { ReadPart } from '../rules/judging';
import { SAME } from '../tolerance';
import { reordered } from './better-order';
import { ofWhole } from './check-setup';
import { againstCraft } from './craft';
import { costOf, type Pose } from './poses';
import type { Ask, Move, Tried } from './search';
import { type PlanTime, timeOf } from './times';
import type { Made } from './trial';

/**
 * The fewest warnings about holding and reaching, in vises where they do as well, the least against the order of craft, plain jaws rather than milled ones, the fewest
 * edges left to the file; then the fewest changes of tool, the fewest hints (one zero for a batch, none from a sawn face), the least time.
 */
export function bestOf(
  plans: readonly (readonly Move<Made>[])[],
  checked: ReadPart,
  ask: (a: Ask<Made>) => Tried<Made>,
  poses: readonly Pose[],
): readonly Move<Made>[] | undefined {
  const weighed = plans.map((plan) => ({ plan, cost: weigh(plan, checked) }));
  const lighter = (a: Weighed, b: Weighed) => (less(b.cost, a.cost) ? b : a);
  if (weighed.length === 0) return undefined;
  const best = weighed.reduce(lighter);
  const sum = (of: (m: Move<Made>) => number) => best.plan.reduce((n, m) => n + of(m), 0);
  const wrong = best.cost[0]! + best.cost[2]! > 0;
  const others = wrong || sum((m) => m.made.hints) > 0 ? reordered(best.plan, ask, wrong ? poses : []) : [];
  return others.map((plan) => ({ plan, cost: weigh(plan, checked) })).reduce(lighter, best).plan;
}

interface Weighed {
  readonly plan: readonly Move<Made>[];
  readonly cost: readonly number[];
}

/** Of one set-up by itself: plans share most of theirs, and edges broken in two take about as long. */
const timeAlone = memo(
  (setup: Setup, checked: ReadPart): PlanTime =>
    timeOf([setup], { ...checked, part: { ...checked.part, setups: [setup] } }),
);

function weigh(plan: readonly Move<Made>[], checked: ReadPart): readonly number[] {
  const sum = (of: (m: Move<Made>) => number) => plan.reduce((n, m) => n + of(m), 0);
  const time = (m: Move<Made>) => timeAlone(m.made.setup, checked);
  return [
    sum((m) => m.made.warnings.length) +
      ofWhole(
        checked,
        plan.map((m) => m.made),
      ).warnings,
    sum((m) => costOf(m.pose)),
    againstCraft(plan),
    sum((m) => (m.made.setup.hold?.type === 'soft-jaws' ? 1 : 0)),
    -sum((m) => m.cut.filter((i) => i.byHand).length),
    sum((m) => time(m).toolChanges),
    sum((m) => m.made.hints),
    sum((m) => time(m).firstPiece[0] + time(m).firstPiece[1]),
  ];
}

function less(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((x, k) => Math.abs(x - b[k]!) > SAME);
  return i >= 0 && a[i]! < b[i]!;
}
