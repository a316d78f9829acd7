/**
 * Keeps a thread: starts it at the first message, ends it when it answers too late or had nothing to do for a while, and
 * says when it is lost. What is owed to whom is its user's.
 */
import { Worker } from 'node:worker_threads';

interface Kept<From> {
  /** The worker's bundle. */
  readonly script: string;
  /** What it is started with. */
  readonly data?: unknown;
  readonly heapMb?: number;
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
  #worker: Worker | undefined;
  #clock: NodeJS.Timeout | undefined;

  constructor(kept: Kept<From>) {
    this.#kept = kept;
  }

  /** The thread, while there is one: for tests that end it. */
  get worker(): Worker | undefined {
    return this.#worker;
  }

  /** To the thread there is, or a new one. An answer is owed from now on: `within` says how long. */
  send(message: To): void {
    this.#worker ??= this.#start();
    if (this.#kept.holdsProcess) this.#worker.ref();
    this.#worker.postMessage(message);
  }

  /** Unless something is heard, and `within` or `rest` called again, by then: the thread is lost, or what `late` does. */
  within(ms: number, late = () => this.lose('it took too long')): void {
    clearTimeout(this.#clock);
    this.#clock = setTimeout(late, ms);
    this.#clock.unref();
  }

  /** Nothing is owed. */
  rest(): void {
    this.#worker?.unref();
    this.within(this.#kept.quietMs, () => void this.end());
  }

  /** Ends the thread; it starts again at the next message. */
  async end(): Promise<void> {
    const worker = this.#worker;
    clearTimeout(this.#clock);
    this.#worker = undefined;
    this.#kept.gone();
    await worker?.terminate();
  }

  lose(reason: string): void {
    void this.end();
    this.#kept.lost(reason);
  }

  #start(): Worker {
    const { script, data, heapMb } = this.#kept;
    const resourceLimits = heapMb === undefined ? {} : { maxOldGenerationSizeMb: heapMb };
    const worker = new Worker(script, { workerData: data, resourceLimits });
    worker.unref();
    let reason = 'it ended';
    // A thread that was replaced may still speak for a moment.
    worker.on('message', (message: From) => {
      if (this.#worker === worker) this.#kept.heard(message);
    });
    worker.on('error', (failure) => {
      reason = failure instanceof Error ? failure.message : String(failure);
    });
    worker.on('exit', () => {
      if (this.#worker === worker) this.lose(reason);
    });
    return worker;
  }
}
