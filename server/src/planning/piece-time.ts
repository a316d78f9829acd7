/**
 * What one piece of a part takes, at the machine and beside it: by the set-ups of its text; else by the plan that was
 * found; else by a rough order, one set-up for each face that must look up, which is said.
 */

import { memo } from '../memo';
import type { Face, Setup } from '../model/model';
import type { ReadPart } from '../rules/judging';
import { facesOf, fewestDirections, maskOf } from './directions';
import { type HandWork, handWork } from './hand-work';
import { type Item, needed } from './item';
import { itemsOf } from './items';
import { planSpan } from './make-setup';
import { knownPlan } from './plan-cache';
import { add, type Range, scaled } from './ranges';
import { batchMinutes, type PlanTime, timeOf } from './times';

/** Where the set-ups come from. */
export type Order = 'written' | 'planned' | 'rough';

export interface PieceTime {
  readonly order: Order;
  readonly machine: PlanTime;
  readonly hands: HandWork;
}

/** Undefined without a body, or in a shop without a machine. Worked out again when a plan has been found. */
export function pieceTime(checked: ReadPart): PieceTime | undefined {
  if (!checked.part.body || checked.shop.machines.length === 0) return undefined;
  const { order, setups } = orderOf(checked);
  return timeIn(checked, order, setups);
}

/** The same part in these set-ups. */
export const timeIn = memo(
  (checked: ReadPart, order: Order, setups: readonly Setup[]): PieceTime => ({
    order,
    machine: timeOf(setups, { ...checked, part: { ...checked.part, setups } }),
    hands: handWork({ ...checked, part: { ...checked.part, setups } }),
  }),
  { size: 3 },
);

export function orderOf(checked: ReadPart): { readonly order: Order; readonly setups: readonly Setup[] } {
  const { part } = checked;
  if (part.setups && part.setups.length > 0) return { order: 'written', setups: part.setups };
  const plan = knownPlan(checked);
  if (plan && plan.uncut.length === 0 && plan.setups.length > 0)
    return { order: 'planned', setups: plan.setups.map((s) => s.setup) };
  return { order: 'rough', setups: roughSetups(checked) };
}

/** A smallest set of faces from which all is reached, and each cut from the first of them that it can be cut from. */
const roughSetups = memo((read: ReadPart): readonly Setup[] => {
  const items = itemsOf(read);
  if (items.length === 0) return [];
  const [set] = fewestDirections(needed(items).map((i) => i.from)).sets;
  const ups: readonly Face[] = set ? facesOf(set) : ['top'];
  const span = planSpan(0);
  return (ups.length > 0 ? ups : (['top'] as const)).map((up, i) => {
    const first = (from: number) => ups.findIndex((face) => from & maskOf([face]));
    const at = (item: Item) => (item.byHand ? first(item.from) : Math.max(0, first(item.from)));
    const here = items.filter((item) => at(item) === i);
    return {
      name: `${up} up`,
      span,
      up: { name: up, span },
      zero: {},
      cuts: [...new Set(here.map((item) => item.name))].map((name) => ({ name, span })),
      tools: [],
      whole: span,
    };
  });
});

export interface Spent {
  /** Machine taken up: set up, loaded, cutting. */
  readonly machine: Range;
  /** A person at work: all that, for someone stands by a mill that cuts, and sawing, deburring and measuring. */
  readonly person: Range;
}

export function spentOn({ machine, hands }: PieceTime, quantity: number): Spent {
  const at = batchMinutes(machine, quantity);
  return { machine: at, person: add(at, scaled(hands.each, quantity)) };
}
