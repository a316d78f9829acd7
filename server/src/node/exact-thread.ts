/**
 * Exact solids on Node: a thread that is started at the first order, works on one at a time, and is let go when it has
 * grown large, has had nothing to do for a while, or takes far too long. One that dies fails the order it was at, and the
 * next order gets another.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { ExactMeasures } from '../export/exact/measures';
import type { Cuttings } from '../export/exact/solid';
import type { ExactMaker } from '../export/step';

export interface ToExact {
  readonly order: number;
  readonly cuttings: Cuttings;
}
export interface FromExact {
  readonly order: number;
  readonly made?: Made;
  /** What went wrong, for the user. */
  readonly trouble?: string;
  readonly memoryBytes: number;
}
type Made = { readonly text: string; readonly measures: ExactMeasures };

interface Waiting {
  readonly order: ToExact;
  resolve(made: Made): void;
  reject(failure: Error): void;
}

interface Limits {
  /** The kernel's memory never shrinks: a thread beyond this is let go after its order, bytes. */
  readonly mostMemory: number;
  readonly idleMs: number;
  readonly longestMs: number;
}
const LIMITS: Limits = { mostMemory: 400 * 2 ** 20, idleMs: 60_000, longestMs: 300_000 };

export class ExactThread implements ExactMaker {
  readonly #script: string;
  readonly #limits: Limits;
  readonly #queue: Waiting[] = [];
  #worker: Worker | undefined;
  #now: Waiting | undefined;
  #clock: NodeJS.Timeout | undefined;
  #count = 0;

  /** `script`: the worker's bundle. */
  constructor(script: string, limits: Partial<Limits> = {}) {
    this.#script = script;
    this.#limits = { ...LIMITS, ...limits };
  }

  step({ body, voids, expected }: Cuttings): Promise<Made> {
    return new Promise((resolve, reject) => {
      const cuttings = expected ? { body, voids, expected } : { body, voids };
      this.#queue.push({ order: { order: ++this.#count, cuttings }, resolve, reject });
      this.#next();
    });
  }

  /** The thread, while there is one: for tests that end it. */
  get worker(): Worker | undefined {
    return this.#worker;
  }

  /** Ends the thread; it starts again at the next order. */
  async stop(): Promise<void> {
    const worker = this.#worker;
    this.#fail('it was stopped');
    await worker?.terminate();
  }

  #next(): void {
    if (this.#now) return;
    clearTimeout(this.#clock);
    const next = this.#queue.shift();
    if (!next) {
      this.#worker?.unref();
      this.#clock = setTimeout(() => this.#letGo(), this.#limits.idleMs).unref();
      return;
    }
    this.#now = next;
    const worker = this.#worker ?? this.#start();
    this.#worker = worker;
    worker.ref();
    worker.postMessage(next.order);
    const { longestMs } = this.#limits;
    this.#clock = setTimeout(
      () => this.#fail(`it took longer than ${Math.round(longestMs / 1000)} s`, worker),
      longestMs,
    ).unref();
  }

  #start(): Worker {
    const worker = new Worker(this.#script);
    let reason = 'it ended';
    worker.on('message', (answer: FromExact) => this.#answered(answer, worker));
    worker.on('error', (failure) => {
      reason = failure instanceof Error ? failure.message : String(failure);
    });
    worker.on('exit', () => {
      if (this.#worker === worker) this.#fail(reason);
    });
    return worker;
  }

  #answered({ order, made, trouble, memoryBytes }: FromExact, worker: Worker): void {
    const now = this.#now;
    if (this.#worker !== worker || now?.order.order !== order) return;
    this.#now = undefined;
    if (memoryBytes > this.#limits.mostMemory) this.#letGo();
    if (made) now.resolve(made);
    else now.reject(new Error(trouble ?? 'The exact solid could not be made.'));
    this.#next();
  }

  #fail(reason: string, worker = this.#worker): void {
    if (worker !== this.#worker) return;
    this.#letGo();
    const now = this.#now;
    this.#now = undefined;
    now?.reject(new Error(`The thread that makes exact solids was lost: ${reason}. Try again; a simpler part may do.`));
    this.#next();
  }

  #letGo(): void {
    const worker = this.#worker;
    this.#worker = undefined;
    worker?.removeAllListeners();
    void worker?.terminate();
  }
}

/** The worker's bundle: beside this one, or where the build puts it when the sources run as they are. */
function exactScript(): string {
  const beside = join(__dirname, 'exact-worker.js');
  return existsSync(beside) ? beside : join(__dirname, '../../../dist/exact-worker.js');
}

let shared: ExactThread | undefined;

/** One thread a process: two would take twice the memory and not be quicker. */
export const sharedExact: ExactMaker = {
  step(cuttings) {
    shared ??= new ExactThread(exactScript());
    return shared.step(cuttings);
  },
};
