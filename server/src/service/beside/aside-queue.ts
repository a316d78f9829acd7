/**
 * Questions answered beside the typing: in a thread that is started at the first question and replaced when it dies
 * or hangs. It has one question at a time. What is more urgent goes before: the question it is at is called off and asked
 * again afterwards. Where threads share memory, a flag there, that all judging looks at, calls it off, and what was worked
 * out on the way is kept; where they do not, the thread is ended.
 */
import type { Shop } from '../../model/shop-model';
import type { Aside, Errand, Order, Urgency } from '../aside';
import type { Question, Questions } from '../questions';
import { Thread, type Threads } from './thread';

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
const LONGEST_MS = 180_000;
/** A question that is called off is left within moments; a thread that does not look up so long is ended. */
const LEAVES_MS = 1000;
/** One that cannot look up is given so long to be done anyway: starting another costs as much. */
const ENDS_MS = 300;
/** A thread that nobody asked anything for so long is ended: with what it remembers it takes as much memory as all else. */
const QUIET_MS = 60_000;
const URGENCY: readonly Urgency[] = ['asked', 'typed', 'quiet'];
const rank = ({ order }: Waiting) => URGENCY.indexOf(order.urgency);

interface Options {
  /** Has the thread leave the question of that number; without it the thread is ended. */
  leave?(number: number): void;
  /** A thread that gives no answer for so long is ended as if it had died. */
  readonly longestMs?: number | undefined;
  readonly quietMs?: number | undefined;
  log(message: string): void;
}

export class AsideQueue implements Aside {
  readonly #thread: Thread<ToAside, FromAside>;
  readonly #log: (message: string) => void;
  readonly #longestMs: number;
  readonly #leave: Options['leave'];
  /** The number of the question that the thread is to leave; 0: of none. */
  #leaving = 0;
  /** In the order they are to be done. */
  readonly #queue: Waiting[] = [];
  /** What the thread is at; it may be called off already. */
  #now: Waiting | undefined;
  /** What the thread judges by. */
  #shop: Shop | undefined;
  #count = 0;

  constructor(threads: Threads<ToAside, FromAside>, { leave, longestMs, quietMs, log }: Options) {
    this.#log = log;
    this.#longestMs = longestMs ?? LONGEST_MS;
    this.#leave = leave;
    this.#thread = new Thread<ToAside, FromAside>(
      {
        quietMs: quietMs ?? QUIET_MS,
        // Nobody's process is kept alive by what might yet be worked out.
        holdsProcess: false,
        heard: (message) => this.#heard(message),
        gone: () => {
          this.#shop = undefined;
        },
        lost: (reason) => this.#failed(reason),
      },
      threads,
    );
  }

  ask<Q extends Question>(order: Order<Q>): Errand<Questions[Q]['answer']> {
    const number = ++this.#count;
    const reply = new Promise<Questions[Question]['answer'] | undefined>((resolve) => {
      this.#enqueue({ order, number, deaths: 0, resolve });
    });
    this.#next();
    return { reply: reply as Promise<Questions[Q]['answer'] | undefined>, cancel: () => this.#cancel(number) };
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
    this.#leaving = 0;
    this.#leave?.(0);
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
    if (!this.#now || this.#leaving === this.#now.number) return;
    this.#leaving = this.#now.number;
    this.#leave?.(this.#leaving);
    this.#thread.within(this.#leave ? LEAVES_MS : ENDS_MS, () => {
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
