/**
 * How much work may go into a question, and who may call it off. Everything that judges a part says what it does with
 * `spend` or `heed`, in its innermost loops; one unit is about a look at an edge of an outline.
 *
 * Three things end work early, and they are kept apart. A *budget* counts: where it does not reach, a rougher answer serves
 * (`within`), and because it is counted, not timed, the answer is the same on every machine. A *limit* counts everything,
 * generously, and where it is met the answer says so (`limited`). A *meter* watches a clock or
 * a cancellation (`metered`): where it is over, `CutShort` goes up to whoever set it, the work is left undone and is done
 * again at another time or in another thread. A meter therefore never decides what an answer is, only where it is worked
 * out; nobody between may take a `CutShort` for a failure, and what is kept for later must be whole when it is kept.
 *
 * Budget and limit belong to one question and are counted from nothing. So that the answer does not turn on what was asked
 * before, what is kept between questions is kept with its price (`Priced`), and whoever takes it pays that as if he had
 * done it.
 */

/** Judging is one stretch of work without waiting, so one meter, one limit and one budget are in force at a time. */
let granted = Number.POSITIVE_INFINITY;
let over: (() => boolean) | undefined;
let allowed = Number.POSITIVE_INFINITY;
let stretch = Number.POSITIVE_INFINITY;
let untilLook = Number.POSITIVE_INFINITY;
/** All that was ever spent, and all that was ever heeded. */
let total = 0;
let turned = 0;

/** So much is spent between two looks at the meter: some tens of microseconds. */
const BETWEEN_LOOKS = 500;

export interface Budget {
  /** Units that are left. */
  remaining: number;
  /** Questions answered roughly so far: the more there are, the less each may cost. */
  rough?: number;
}

class TooMuch extends Error {}
class BeyondLimit extends Error {}

/** The work was called off, or its time is over. */
export class CutShort extends Error {
  constructor() {
    super('the computation was cut short');
  }
}

/** Counts work done against the budget. Called by the inner loops whose question has a rougher answer. */
export function spend(units: number): void {
  charge(units);
  heed(units);
}

/** Counts work that no budget asks for, and looks up now and then. Called by every other loop that can turn often. */
export function heed(units: number): void {
  turned += units;
  untilLook -= units;
  if (untilLook <= 0) look();
}

/** Counts work that was done before, where its result is taken from what was kept. */
export function charge(units: number): void {
  total += units;
  granted -= units;
  if (granted < 0) throw new TooMuch('more work than a question may cost');
}

/** What work came to, in units. */
export function unitsOf(work: () => void): number {
  const before = total;
  work();
  return total - before;
}

/** The same as a limit counts: what was heeded as well. */
export function turnsOf(work: () => void): number {
  const before = turned;
  work();
  return turned - before;
}

/**
 * A result that is worked out when it is first asked for, and kept with its price: whoever asks again is charged as much,
 * by budget and by limit.
 * Where it was more than a question had left, that is kept too, so that it is not tried again with as little.
 */
export class Priced<T> {
  #work: (() => T) | undefined;
  #value: T | undefined;
  #units = 0;
  #turns = 0;
  #tooLittle = Number.NEGATIVE_INFINITY;

  constructor(work: () => T) {
    this.#work = work;
  }

  /** Something is known that need not be worked out again: the result, or that so much does not reach. */
  get isKept(): boolean {
    return this.#work === undefined || this.#tooLittle >= 0;
  }

  get(): T {
    if (this.#work) return this.#make(this.#work);
    charge(this.#units);
    heed(this.#turns);
    return this.#value as T;
  }

  #make(work: () => T): T {
    const had = granted;
    if (had <= this.#tooLittle) charge(had + 1);
    const [spent, heeded] = [total, turned];
    try {
      const value = work();
      this.#value = value;
      this.#units = total - spent;
      this.#turns = turned - heeded;
      this.#work = undefined;
      return value;
    } catch (failure) {
      if (failure instanceof TooMuch) this.#tooLittle = had;
      throw failure;
    }
  }
}

function look(): void {
  allowed -= stretch - untilLook;
  if (allowed < 0) {
    begin();
    throw new BeyondLimit('more work than is allowed');
  }
  begin();
  if (over?.()) {
    untilLook = 0;
    stretch = 0;
    throw new CutShort();
  }
}

/** The next look is due after so much. */
function begin(): void {
  stretch = over ? Math.min(BETWEEN_LOOKS, Math.max(0, allowed)) : Math.max(0, allowed);
  untilLook = stretch;
}

/** Does `work` under a meter; throws `CutShort` where `isOver` says so before it is done. A meter outside goes on watching. */
export function metered<T>(isOver: () => boolean, work: () => T): T {
  const outer = over;
  settle();
  over = outer ? () => outer() || isOver() : isOver;
  begin();
  try {
    return work();
  } finally {
    settle();
    over = outer;
    begin();
  }
}

/** The answer of `work`, or of `otherwise` where it takes more than so many units, spent or heeded. */
export function limited<T>(units: number, work: () => T, otherwise: () => T): T {
  settle();
  const outer = allowed;
  const mine = Math.min(outer, units);
  allowed = mine;
  begin();
  try {
    return work();
  } catch (failure) {
    if (!(failure instanceof BeyondLimit) || outer < units) throw failure;
    return otherwise();
  } finally {
    settle();
    allowed = outer - (mine - allowed);
    begin();
  }
}

/** Takes what was done since the last look from what is allowed. */
function settle(): void {
  if (Number.isFinite(stretch)) allowed -= stretch - untilLook;
  stretch = untilLook;
}

/** For every `catch` on the way: that work was stopped is nobody's failure, and goes on to whoever set budget or meter. */
export function unlessStopped(failure: unknown): void {
  if (failure instanceof CutShort || failure instanceof TooMuch || failure instanceof BeyondLimit) throw failure;
}

/** The answer of `work`, or of `otherwise` where the budget does not reach. What `work` costs is taken from the budget. */
export function within<T>(budget: Budget, work: () => T, otherwise: () => T): T {
  const outer = granted;
  const start = Math.min(outer, budget.remaining);
  const before = total;
  granted = start;
  let charged = true;
  try {
    return work();
  } catch (failure) {
    // It will be done again: what was spent so far must not make that answer another.
    if (failure instanceof CutShort || failure instanceof BeyondLimit) charged = false;
    // Nor is it this question's to answer roughly where what it is part of has nothing left.
    if (!(failure instanceof TooMuch) || outer < budget.remaining) throw failure;
    // By how much the last step went beyond turns on where it was taken: all that there was is what it cost.
    granted = 0;
    total = before + start;
  } finally {
    const spent = charged ? start - granted : 0;
    granted = Math.max(0, outer - spent);
    budget.remaining = Math.max(0, budget.remaining - spent);
  }
  return otherwise();
}

/** Work in short steps, between which something else may be done. */
export type Steps<T> = Generator<undefined, T>;

/** All steps one after the other. */
export function atOnce<T>(work: Steps<T>): T {
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}

/** Work that has no steps. */
// biome-ignore lint/correctness/useYield: one step is all there is.
export function* steps<T>(work: () => T): Steps<T> {
  return work();
}
