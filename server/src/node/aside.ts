/**
 * Questions answered beside the typing, on Node: a thread that is started at the first question and replaced when it dies
 * or hangs. It has one question at a time. What is more urgent goes before: the question it is at is called off, through a
 * flag in shared memory that all judging looks at, and asked again afterwards; what was worked out on the way is kept.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Shop } from '../model/shop-model';
import type { Aside, Errand, Order, Urgency } from '../service/aside';
import type { Question, Questions } from '../service/questions';

/** The number of the question to be left, in memory that the thread sees too. */
export interface AsideData {
  readonly leave: SharedArrayBuffer;
}
export interface ToAside extends Omit<Order, 'shop' | 'urgency'> {
  readonly number: number;
  /** Absent where it is the one of the order before. */
  readonly shop?: Shop;
}
export interface FromAside {
  readonly number: number;
  /** Absent where it was left. */
  readonly reply?: Questions[Question]['answer'];
}

interface Waiting {
  readonly order: Order;
  readonly number: number;
  /** Threads that died over it. */
  deaths: number;
  resolve(reply: Questions[Question]['answer'] | undefined): void;
}

const MOST_DEATHS = 2;
const HEAP_MB = 1024;
const LONGEST_MS = 180_000;
/** A question that is called off is left within moments; a thread that does not look up so long is ended. */
const LEAVES_MS = 1000;
/** A thread that nobody asked anything for so long is ended: with what it remembers it takes as much memory as all else. */
const QUIET_MS = 60_000;
const URGENCY: readonly Urgency[] = ['asked', 'typed', 'quiet'];
const rank = ({ order }: Waiting) => URGENCY.indexOf(order.urgency);

export class NodeAside implements Aside {
  readonly #script: string;
  readonly #log: (message: string) => void;
  readonly #longestMs: number;
  readonly #heapMb: number;
  readonly #quietMs: number;
  readonly #leave = new Int32Array(new SharedArrayBuffer(4));
  #worker: Worker | undefined;
  /** In the order they are to be done. */
  readonly #queue: Waiting[] = [];
  /** What the thread is at; it may be called off already. */
  #now: Waiting | undefined;
  #shop: Shop | undefined;
  #count = 0;
  #clock: NodeJS.Timeout | undefined;
  #quiet: NodeJS.Timeout | undefined;

  /** `script`: the worker's bundle. A thread that gives no answer for `longestMs` is ended as if it had died. */
  constructor(
    script: string,
    log: (message: string) => void,
    longestMs = LONGEST_MS,
    heapMb = HEAP_MB,
    quietMs = QUIET_MS,
  ) {
    this.#heapMb = heapMb;
    this.#quietMs = quietMs;
    this.#script = script;
    this.#log = log;
    this.#longestMs = longestMs;
  }

  ask<Q extends Question>(order: Order<Q>): Errand<Questions[Q]['answer']> {
    const number = ++this.#count;
    const reply = new Promise<Questions[Question]['answer'] | undefined>((resolve) => {
      this.#enqueue({ order, number, deaths: 0, resolve });
    });
    this.#next();
    return { reply: reply as Promise<Questions[Q]['answer'] | undefined>, cancel: () => this.#cancel(number) };
  }

  /** The thread's number, while there is one. */
  get threadId(): number | undefined {
    return this.#worker?.threadId;
  }

  /** Ends the thread; it starts again at the next question. */
  async stop(): Promise<void> {
    this.#now?.resolve(undefined);
    for (const { resolve } of this.#queue.splice(0)) resolve(undefined);
    await this.#end();
  }

  /** Behind all that are as urgent. */
  #enqueue(waiting: Waiting): void {
    const at = this.#queue.findIndex((w) => rank(w) > rank(waiting));
    this.#queue.splice(at < 0 ? this.#queue.length : at, 0, waiting);
  }

  #next(): void {
    const [first] = this.#queue;
    if (!first) return;
    if (this.#now) {
      if (rank(first) < rank(this.#now)) this.#callOff();
      return;
    }
    this.#queue.shift();
    clearTimeout(this.#quiet);
    this.#worker ??= this.#start();
    this.#now = first;
    // It may have been called off once, for a more urgent one; now it is wanted.
    Atomics.store(this.#leave, 0, 0);
    const { shop, urgency: _, ...order } = first.order;
    const known = this.#shop === shop;
    this.#shop = shop;
    this.#worker.postMessage({ number: first.number, ...order, ...(known ? {} : { shop }) } satisfies ToAside);
    this.#watch(this.#longestMs, () => this.#failed('it took too long'));
  }

  #watch(ms: number, late: () => void): void {
    clearTimeout(this.#clock);
    this.#clock = setTimeout(late, ms);
    this.#clock.unref();
  }

  #cancel(number: number): void {
    const at = this.#queue.findIndex((w) => w.number === number);
    if (at >= 0) this.#queue.splice(at, 1)[0]?.resolve(undefined);
    else if (this.#now?.number === number) {
      this.#now.resolve(undefined);
      this.#now = { ...this.#now, deaths: Number.POSITIVE_INFINITY, resolve: () => {} };
      this.#callOff();
    }
  }

  /** Has the thread leave what it is at. */
  #callOff(): void {
    if (!this.#now || Atomics.load(this.#leave, 0) === this.#now.number) return;
    Atomics.store(this.#leave, 0, this.#now.number);
    this.#watch(LEAVES_MS, () => {
      const left = this.#now;
      void this.#end();
      this.#again(left);
      this.#next();
    });
  }

  /** To be asked once more, unless it is not wanted any more. */
  #again(left: Waiting | undefined): void {
    if (left && left.deaths < MOST_DEATHS) {
      const at = this.#queue.findIndex((w) => rank(w) >= rank(left));
      this.#queue.splice(at < 0 ? this.#queue.length : at, 0, left);
    }
  }

  #start(): Worker {
    const workerData: AsideData = { leave: this.#leave.buffer as SharedArrayBuffer };
    const worker = new Worker(this.#script, { workerData, resourceLimits: { maxOldGenerationSizeMb: this.#heapMb } });
    // Nobody's process is kept alive by what might yet be worked out.
    worker.unref();
    let reason = 'it ended';
    worker.on('message', (message: FromAside) => {
      const now = this.#now;
      if (this.#worker !== worker || now?.number !== message.number) return;
      this.#rest();
      if ('reply' in message) now.resolve(message.reply);
      else this.#again(now);
      this.#next();
    });
    worker.on('error', (failure) => {
      reason = failure instanceof Error ? failure.message : String(failure);
    });
    worker.on('exit', () => {
      if (this.#worker === worker) this.#failed(reason);
    });
    return worker;
  }

  #rest(): void {
    clearTimeout(this.#clock);
    clearTimeout(this.#quiet);
    this.#now = undefined;
    this.#quiet = setTimeout(() => void this.#end(), this.#quietMs);
    this.#quiet.unref();
  }

  async #end(): Promise<void> {
    const worker = this.#worker;
    this.#rest();
    clearTimeout(this.#quiet);
    this.#worker = undefined;
    this.#shop = undefined;
    await worker?.terminate();
  }

  /** The thread is gone, or as good as gone: the question it had is asked once more of another. */
  #failed(reason: string): void {
    const failed = this.#now;
    void this.#end();
    this.#log(`the thread beside is started again: ${reason}`);
    if (failed && ++failed.deaths >= MOST_DEATHS) {
      if (Number.isFinite(failed.deaths))
        this.#log(`${failed.order.path}: \`${failed.order.question}\` could not be worked out: ${reason}`);
      failed.resolve(undefined);
    } else if (failed) this.#queue.unshift(failed);
    this.#next();
  }
}

/** The thread beside this file's bundle. */
export function nodeAside(log: (message: string) => void): NodeAside {
  return new NodeAside(join(__dirname, 'aside-worker.js'), log);
}
