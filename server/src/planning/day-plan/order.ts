/**
 * The order in which all set-ups take least: each part's own order is kept, all pieces of a set-up are made before the next.
 * Exact by dynamic programming over how many set-ups of each part are done and which part was last (M. Held and R. M. Karp,
 * 1962, with chains in place of single cities); beyond what fits, the best of each layer are kept.
 */
import { heed } from '../../effort';
import { ROUNDING } from '../../tolerance';
import type { DayAsk } from './types';
import { isBetter, type Label, onward, START, type Weights, weightsOf } from './weights';

/** States, at most, that are all looked at: about a second. */
const MOST_STATES = 2_000_000;
/** Kept of each layer beyond that. */
const BEAM = 1_000;

interface Ordered {
  /** Part by part, which is next. */
  readonly parts: readonly number[];
  readonly proven: boolean;
}

export function bestOrder(ask: DayAsk): Ordered {
  const weights = weightsOf(ask);
  const states = weights.counts.reduce((n, count) => n * (count + 1), weights.counts.length);
  return states <= MOST_STATES
    ? { parts: exactOrder(weights), proven: isOrdered(weights) }
    : { parts: boundedOrder(weights), proven: false };
}

/**
 * Whether a better beginning never leads to a worse end, which the search leans on: no set-up is spared more by the one
 * before it than the least set-up takes by itself. So it is wherever set-ups take the same time to set up.
 */
function isOrdered({ bare, after }: Weights): boolean {
  const spared = Math.max(0, ...after.flatMap((row) => row.map((minutes, b) => bare[b]! - minutes)));
  return spared <= Math.min(...bare) + ROUNDING;
}

/** The best label of every state. A state is a number: what is done of each part as digits, then which part was last. */
class Table {
  readonly #evenings: Uint16Array;
  readonly #minutes: Float64Array;
  readonly #total: Float64Array;
  readonly #from: Int8Array;

  constructor(size: number) {
    this.#evenings = new Uint16Array(size);
    this.#minutes = new Float64Array(size);
    this.#total = new Float64Array(size);
    this.#from = new Int8Array(size).fill(-1);
  }

  /** Undefined where nothing leads there. */
  at(state: number): Label | undefined {
    const evenings = this.#evenings[state]!;
    return evenings === 0 ? undefined : { evenings, minutes: this.#minutes[state]!, total: this.#total[state]! };
  }

  offer(state: number, label: Label, from: number): void {
    const known = this.at(state);
    if (known && !isBetter(label, known)) return;
    this.#evenings[state] = label.evenings;
    this.#minutes[state] = label.minutes;
    this.#total[state] = label.total;
    this.#from[state] = from;
  }

  /** The part that was last before it; -1 at the beginning. */
  from(state: number): number {
    return this.#from[state]!;
  }
}

function exactOrder(weights: Weights): number[] {
  const { counts, firsts } = weights;
  const parts = counts.length;
  const steps = digitValues(counts);
  const size = counts.reduce((n, count) => n * (count + 1), 1);
  const table = new Table(size * parts);
  const done = new Int32Array(parts);
  const goOn = (code: number, last: number, label: Label) => {
    const before = last < 0 ? -1 : firsts[last]! + done[last]! - 1;
    for (let p = 0; p < parts; p++) {
      if (done[p]! >= counts[p]!) continue;
      table.offer((code + steps[p]!) * parts + p, onward(label, before, firsts[p]! + done[p]!, weights), last);
    }
  };
  goOn(0, -1, START);
  for (let code = 1; code < size; code++) {
    countUp(done, counts);
    heed(parts);
    for (let last = 0; last < parts; last++) {
      const label = table.at(code * parts + last);
      if (label) goOn(code, last, label);
    }
  }
  return walkedBack(weights, table);
}

function walkedBack({ counts }: Weights, table: Table): number[] {
  const parts = counts.length;
  const steps = digitValues(counts);
  let code = counts.reduce((sum, count, p) => sum + count * steps[p]!, 0);
  let last = -1;
  let best: Label | undefined;
  for (let p = 0; p < parts; p++) {
    const label = table.at(code * parts + p);
    if (label && (!best || isBetter(label, best))) [last, best] = [p, label];
  }
  const order: number[] = [];
  while (code > 0) {
    order.push(last);
    const before = table.from(code * parts + last);
    code -= steps[last]!;
    last = before;
  }
  return order.reverse();
}

/** What one more of each part adds to the number of a state. */
function digitValues(counts: readonly number[]): readonly number[] {
  return counts.map((_, p) => counts.slice(0, p).reduce((n, count) => n * (count + 1), 1));
}

function countUp(done: Int32Array, counts: readonly number[]): void {
  for (let p = 0; p < counts.length; p++) {
    if (done[p]! < counts[p]!) {
      done[p]!++;
      return;
    }
    done[p] = 0;
  }
}

interface Place {
  readonly done: readonly number[];
  readonly last: number;
  readonly label: Label;
  readonly before?: Place;
}

function boundedOrder(weights: Weights): number[] {
  const { counts } = weights;
  let layer: readonly Place[] = [{ done: counts.map(() => 0), last: -1, label: START }];
  for (let step = counts.reduce((n, count) => n + count, 0); step > 0; step--) {
    const next = layerAfter(layer, weights);
    layer = next.sort((a, b) => (isBetter(a.label, b.label) ? -1 : 1)).slice(0, BEAM);
  }
  const order: number[] = [];
  for (let at: Place | undefined = layer[0]; at && at.last >= 0; at = at.before) order.push(at.last);
  return order.reverse();
}

/** Of places alike in what is done and what was last, the best. */
function layerAfter(layer: readonly Place[], weights: Weights): Place[] {
  const { counts, firsts } = weights;
  const found = new Map<string, Place>();
  for (const place of layer) {
    const before = place.last < 0 ? -1 : firsts[place.last]! + place.done[place.last]! - 1;
    heed(counts.length);
    counts.forEach((count, p) => {
      if (place.done[p]! >= count) return;
      const done = place.done.map((n, i) => (i === p ? n + 1 : n));
      const label = onward(place.label, before, firsts[p]! + place.done[p]!, weights);
      const key = `${p}:${done.join()}`;
      const known = found.get(key);
      if (!known || isBetter(label, known.label)) found.set(key, { done, last: p, label, before: place });
    });
  }
  return [...found.values()];
}
