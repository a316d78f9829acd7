/**
 * Work in slices, so that whoever asks meanwhile is answered between two of them. Only one slice is done in a turn of the
 * event loop, however many pieces of work are under way: each waits for its turn.
 */
import { CutShort, metered, type Steps } from '../effort';

/** A slice of work under way: whoever types waits for it, and then for what is done at once, before he is answered. */
const SLICE_MS = 10;
/** What one asked for may take before it is asked beside: what others wait for at most, twice over. */
const ANSWER_MS = 20;
/** From when it was asked for, slices wait so long at most for an answer that is to be passed on first. */
const FIRST_MS = 12;
/** What is done for a request at once: with reading the text and telling what was found it is to fit a frame of the screen. */
const AT_ONCE_MS = 8;

export class Pace {
  readonly #pause: (() => Promise<void>) | undefined;
  readonly #later: ((ms: number, work: () => void) => () => void) | undefined;
  /** Until when each is waited for. */
  readonly #first = new Map<Promise<unknown>, number>();
  /** The work that goes on when the turn before has ended. */
  #turn: Promise<void> = Promise.resolve();
  #since = performance.now();
  #mostMs = AT_ONCE_MS;

  /** `pause` lets others have their turn; without one everything is done at once. `later` does something after so many ms. */
  constructor(pause?: () => Promise<void>, later?: (ms: number, work: () => void) => () => void) {
    this.#pause = pause;
    this.#later = later;
  }

  /** What a thread is about to answer: the next slice waits a little for it, so that whoever asked has it at once. */
  async first<T>(answer: Promise<T>): Promise<T> {
    this.#first.set(answer, performance.now() + FIRST_MS);
    try {
      return await answer;
    } finally {
      this.#first.delete(answer);
    }
  }

  async #letFirst(): Promise<void> {
    const now = performance.now();
    const near = [...this.#first].filter(([, until]) => until > now);
    if (near.length === 0 || !this.#later) return;
    let leave = () => {};
    const enough = new Promise<void>((resolve) => {
      leave = this.#later!(Math.max(...near.map(([, until]) => until)) - now, resolve);
    });
    await Promise.race([Promise.allSettled(near.map(([answer]) => answer)), enough]);
    leave();
  }

  /** A request came in: what is done for it at once counts from here. */
  begin(): void {
    this.#since = performance.now();
    this.#mostMs = AT_ONCE_MS;
  }

  get isOver(): boolean {
    return this.#pause !== undefined && performance.now() - this.#since > this.#mostMs;
  }

  /** Lets others have their turn. */
  async pause(): Promise<void> {
    if (!this.#pause) return;
    const mine = this.#turn.then(() => this.#letFirst()).then(this.#pause);
    this.#turn = mine;
    await mine;
    this.#since = performance.now();
    this.#mostMs = SLICE_MS;
  }

  /** All steps, in as many slices as it takes; undefined where `isGone` says on the way that nobody wants it any more. */
  async through<T>(work: Steps<T>, isGone: () => boolean): Promise<T | undefined> {
    for (;;) {
      const { done, value } = work.next();
      if (done) return value;
      if (!this.isOver) continue;
      await this.pause();
      if (isGone()) return undefined;
    }
  }

  /** The answer, if a slice of its own is long enough for it; `CUT` where not. */
  slice<T>(work: () => T): T | typeof CUT {
    const begun = performance.now();
    return this.#until(() => performance.now() - begun > ANSWER_MS, work);
  }

  /** The same, if what is left of this turn's slice is long enough. */
  rest<T>(work: () => T): T | typeof CUT {
    return this.#until(() => this.isOver, work);
  }

  #until<T>(isOver: () => boolean, work: () => T): T | typeof CUT {
    if (!this.#pause) return work();
    try {
      return metered(isOver, work);
    } catch (failure) {
      if (failure instanceof CutShort) return CUT;
      throw failure;
    }
  }
}

export const CUT = Symbol('cut short');
