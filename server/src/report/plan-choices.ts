/** Fewer set-ups in another way of holding, offered as a choice: what it takes beside what the plan takes. */
import { heldOtherwise } from '../planning/alternatives';
import { hiddenIn } from '../planning/keep';
import type { Plan } from '../planning/plan';
import { batchMinutes, type PlanTime } from '../planning/times';
import type { CheckedPart } from '../rules/checked-part';
import { minutesText } from './cuts';
import { WAYS } from './held';

/** What set-ups take, in minutes: quick hands and slow ones. */
interface Takes {
  readonly set_ups: number;
  readonly first_piece_min: readonly [number, number];
  readonly each_further_min: readonly [number, number];
  readonly all_min: readonly [number, number];
}

export interface PlanChoice extends Takes {
  /** `clamps`, as under `hold:`; absent: several ways together. */
  readonly way?: string;
  /** Which face is up, and how each is held. */
  readonly held: readonly { readonly up: string; readonly by: string }[];
  readonly instead_of: Takes;
}

/** None where not all could be read: of what is not there nobody knows how it is held. */
export function choicesOf(plan: Plan, checked: CheckedPart): readonly PlanChoice[] {
  if (plan.items.length === 0 || hiddenIn(checked).length > 0) return [];
  const { quantity } = checked.part;
  return heldOtherwise(checked, plan).map(({ way, plan: other }) => ({
    ...(way && { way }),
    ...takesOf(other.time, quantity),
    held: other.setups.map(({ setup: { up, hold } }) => ({ up: up?.name ?? '', by: hold?.type ?? 'vise' })),
    instead_of: takesOf(plan.time, quantity),
  }));
}

export function takesOf(time: PlanTime, quantity: number): Takes {
  const tenth = ([low, high]: readonly [number, number]) =>
    [Math.round(low * 10) / 10, Math.round(high * 10) / 10] as const;
  return {
    set_ups: time.setups.length,
    first_piece_min: tenth(time.firstPiece),
    each_further_min: tenth(time.eachFurther),
    all_min: tenth(batchMinutes(time, quantity)),
  };
}

/** `Held under clamps where that helps, 1 set-up is enough instead of 2: top up under clamps. The first piece takes … instead of …` */
export function choiceText({ way, held, instead_of: now, ...takes }: PlanChoice, quantity: number): string {
  const kinds = WAYS as Readonly<Record<string, string>>;
  const with_ = way ? `Held ${kinds[way]} where that helps` : 'Not only in vises';
  const n = takes.set_ups;
  const how = held.map(({ up, by }) => `${up} up ${kinds[by]}`).join(', ');
  const first = `The first piece takes ${minutesText(takes.first_piece_min)} instead of ${minutesText(now.first_piece_min)}`;
  const further = `, each after it ${minutesText(takes.each_further_min)} instead of ${minutesText(now.each_further_min)}`;
  return `${with_}, ${n} set-up${n === 1 ? ' is' : 's are'} enough instead of ${now.set_ups}: ${how}. ${first}${quantity > 1 ? further : ''}.`;
}
