/**
 * Questions answered beside the typing, on Node: a thread that is started at the first question and replaced when it dies
 * or hangs. It has one question at a time. What is more urgent goes before: the question it is at is called off, through a
 * flag in shared memory that all judging looks at, and asked again afterwards; what was worked out on the way is kept.
 */
import { join } from 'node:path';
import type { Shop } from '../model/shop-model';
import type { Aside, Errand, Order, Urgency } from '../service/aside';
import type { Question, Questions } from '../service/questions';
import { Thread } from './thread';

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
  readonly #thread: Thread<ToAside, FromAside>;
  readonly #log: (message: string) => void;
  readonly #longestMs: number;
  readonly #leave = new Int32Array(new SharedArrayBuffer(4));
  /** In the order they are to be done. */
  readonly #queue: Waiting[] = [];
  /** What the thread is at; it may be called off already. */
  #now: Waiting | undefined;
  /** What the thread judges by. */
  #shop: Shop | undefined;
  #count = 0;

  /** `script`: the worker's bundle. A thread that gives no answer for `longestMs` is ended as if it had died. */
  constructor(
    script: string,
    log: (message: string) => void,
    longestMs = LONGEST_MS,
    heapMb = HEAP_MB,
    quietMs = QUIET_MS,
  ) {
    this.#log = log;
    this.#longestMs = longestMs;
    this.#thread = new Thread<ToAside, FromAside>({
      script,
      data: { leave: this.#leave.buffer as SharedArrayBuffer } satisfies AsideData,
      heapMb,
      quietMs,
      // Nobody's process is kept alive by what might yet be worked out.
      holdsProcess: false,
      heard: (message) => this.#heard(message),
      gone: () => {
        this.#shop = undefined;
      },
      lost: (reason) => this.#failed(reason),
    });
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
    return this.#thread.worker?.threadId;
  }

  /** Ends the thread; it starts again at the next question. */
  async stop(): Promise<void> {
    this.#now?.resolve(undefined);
    this.#now = undefined;
    for (const { resolve } of this.#queue.splice(0)) resolve(undefined);
    await this.#thread.end();
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
    this.#now = first;
    // It may have been called off once, for a more urgent one; now it is wanted.
    Atomics.store(this.#leave, 0, 0);
    const { shop, urgency: _, ...order } = first.order;
    const known = this.#shop === shop;
    this.#shop = shop;
    this.#thread.send({ number: first.number, ...order, ...(known ? {} : { shop }) });
    this.#thread.within(this.#longestMs);
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
    this.#thread.within(LEAVES_MS, () => {
      void this.#thread.end();
      this.#again();
      this.#next();
    });
  }

  /** What the thread was at is asked once more, unless it is not wanted any more. */
  #again(): void {
    const left = this.#now;
    this.#now = undefined;
    if (left && left.deaths < MOST_DEATHS) {
      const at = this.#queue.findIndex((w) => rank(w) >= rank(left));
      this.#queue.splice(at < 0 ? this.#queue.length : at, 0, left);
    }
  }

  #heard(message: FromAside): void {
    const now = this.#now;
    if (now?.number !== message.number) return;
    this.#thread.rest();
    if ('reply' in message) {
      this.#now = undefined;
      now.resolve(message.reply);
    } else this.#again();
    this.#next();
  }

  /** The thread is gone, or as good as gone: the question it had is asked once more of another. */
  #failed(reason: string): void {
    const failed = this.#now;
    this.#now = undefined;
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
