/** What each set-up takes after each other one, worked out once: slow minutes, for orders are weighed by slow hands. */
import { ROUNDING } from '../../tolerance';
import { changesFor, minutesWith } from './switching';
import type { DayAsk, DaySetup } from './types';

export interface Weights {
  /** Set-ups of each part, and the number of its first among all of them. */
  readonly counts: readonly number[];
  readonly firsts: readonly number[];
  readonly setups: readonly DaySetup[];
  /** On a bare table. */
  readonly bare: readonly number[];
  /** `after[a][b]`: b where a was. */
  readonly after: readonly (readonly number[])[];
  readonly eveningMin: number;
}

export function weightsOf({ parts, eveningMin = Number.POSITIVE_INFINITY }: DayAsk): Weights {
  const setups = parts.flat();
  const slow = (before: DaySetup | undefined, setup: DaySetup) => minutesWith(changesFor(before, setup), setup)[1];
  return {
    counts: parts.map((p) => p.length),
    firsts: parts.map((_, i) => parts.slice(0, i).reduce((n, p) => n + p.length, 0)),
    setups,
    bare: setups.map((s) => slow(undefined, s)),
    after: setups.map((a) => setups.map((b) => slow(a, b))),
    eveningMin,
  };
}

/** How far an order has come: evenings begun, minutes of the one it is in, minutes in all. */
export interface Label {
  readonly evenings: number;
  readonly minutes: number;
  readonly total: number;
}
export const START: Label = { evenings: 0, minutes: Number.POSITIVE_INFINITY, total: 0 };

/** Onto the table as it is, or, where the evening has no room for it, onto a bare one the next evening. */
export function onward(label: Label, before: number, setup: number, { bare, after, eveningMin }: Weights): Label {
  const here = before < 0 ? Number.POSITIVE_INFINITY : after[before]![setup]!;
  const sum = label.minutes + here;
  if (sum <= eveningMin && before >= 0) return { evenings: label.evenings, minutes: sum, total: label.total + here };
  return { evenings: label.evenings + 1, minutes: bare[setup]!, total: label.total + bare[setup]! };
}

/** Fewer evenings, then a shorter last one: whatever follows, that is never the worse beginning. */
export function isBetter(a: Label, b: Label): boolean {
  if (a.evenings !== b.evenings) return a.evenings < b.evenings;
  if (Math.abs(a.minutes - b.minutes) > ROUNDING) return a.minutes < b.minutes;
  return a.total < b.total - ROUNDING;
}
