/**
 * Keeps a thread: starts it at the first message, ends it when it answers too late or had nothing to do for a while, and
 * says when it is lost. What is owed to whom is its user's; how a thread is started here, the machine's.
 */

/** One thread, running. */
interface Runner<To> {
  post(message: To): void;
  /** While an answer is owed the process does not end; where there is such a thing. */
  hold?(): void;
  release?(): void;
  end(): Promise<void> | void;
}

/** What a thread says, and that it is there no more. */
export interface Ears<From> {
  heard(message: From): void;
  died(reason: string): void;
}
/** Of one kind, as this machine starts them. */
export interface Threads<To, From> {
  start(ears: Ears<From>): Runner<To>;
  /** Does something after so many ms; answers what calls it off. That alone keeps no process alive. */
  later(ms: number, work: () => void): () => void;
}

interface Kept<From> {
  /** A thread that owes nothing for so long is ended, ms. */
  readonly quietMs: number;
  /** While an answer is owed the process does not end. */
  readonly holdsProcess: boolean;
  heard(message: From): void;
  /** There is no such thread any more: what it remembered is gone. */
  gone(): void;
  /** It died, or answered too late; it is gone by then. */
  lost(reason: string): void;
}

export class Thread<To, From> {
  readonly #kept: Kept<From>;
  readonly #threads: Threads<To, From>;
  #runner: Runner<To> | undefined;
  #stopClock = () => {};

  constructor(kept: Kept<From>, threads: Threads<To, From>) {
    this.#kept = kept;
    this.#threads = threads;
  }

  /** To the thread there is, or a new one. An answer is owed from now on: `within` says how long. */
  send(message: To): void {
    this.#runner ??= this.#start();
    if (this.#kept.holdsProcess) this.#runner.hold?.();
    this.#runner.post(message);
  }

  /** Unless something is heard, and `within` or `rest` called again, by then: the thread is lost, or what `late` does. */
  within(ms: number, late = () => this.lose('it took too long')): void {
    this.#stopClock();
    this.#stopClock = this.#threads.later(ms, late);
  }

  /** Nothing is owed. */
  rest(): void {
    this.#runner?.release?.();
    this.within(this.#kept.quietMs, () => void this.end());
  }

  /** Ends the thread; it starts again at the next message. */
  async end(): Promise<void> {
    const runner = this.#runner;
    this.#stopClock();
    this.#runner = undefined;
    this.#kept.gone();
    await runner?.end();
  }

  lose(reason: string): void {
    void this.end();
    this.#kept.lost(reason);
  }

  #start(): Runner<To> {
    // A thread that was replaced may still speak for a moment.
    const isCurrent = () => this.#runner === runner;
    const runner = this.#threads.start({
      heard: (message) => {
        if (isCurrent()) this.#kept.heard(message);
      },
      died: (reason) => {
        if (isCurrent()) this.lose(reason);
      },
    });
    return runner;
  }
}
