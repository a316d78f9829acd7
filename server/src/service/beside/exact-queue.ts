/**
 * Exact solids in a thread that is started at the first order, works on one at a time, and is let go when it has
 * grown large, has had nothing to do for a while, or takes far too long. One that dies fails the order it was at, and the
 * next order gets another.
 */
import type { ExactMeasures } from '../../export/exact/measures';
import type { Cuttings } from '../../export/exact/solid';
import type { ExactMaker } from '../../export/step';
import { Thread, type Threads } from './thread';

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

export interface Limits {
  /** The kernel's memory never shrinks: a thread beyond this is let go after its order, bytes. */
  readonly mostMemory: number;
  readonly idleMs: number;
  readonly longestMs: number;
}
const LIMITS: Limits = { mostMemory: 400 * 2 ** 20, idleMs: 60_000, longestMs: 300_000 };

export class ExactQueue implements ExactMaker {
  readonly #thread: Thread<ToExact, FromExact>;
  readonly #limits: Limits;
  readonly #queue: Waiting[] = [];
  #now: Waiting | undefined;
  #count = 0;

  constructor(threads: Threads<ToExact, FromExact>, limits: Partial<Limits> = {}) {
    this.#limits = { ...LIMITS, ...limits };
    this.#thread = new Thread<ToExact, FromExact>(
      {
        quietMs: this.#limits.idleMs,
        holdsProcess: true,
        heard: (answer) => this.#answered(answer),
        gone: () => {},
        lost: (reason) => this.#failed(reason),
      },
      threads,
    );
  }

  step({ body, voids, expected }: Cuttings): Promise<Made> {
    return new Promise((resolve, reject) => {
      const cuttings = expected ? { body, voids, expected } : { body, voids };
      this.#queue.push({ order: { order: ++this.#count, cuttings }, resolve, reject });
      this.#next();
    });
  }

  /** Ends the thread; it starts again at the next order. */
  async stop(): Promise<void> {
    const ended = this.#thread.end();
    this.#failed('it was stopped');
    await ended;
  }

  #next(): void {
    if (this.#now) return;
    const next = this.#queue.shift();
    if (!next) {
      this.#thread.rest();
      return;
    }
    this.#now = next;
    this.#thread.send(next.order);
    const { longestMs } = this.#limits;
    this.#thread.within(longestMs, () => this.#thread.lose(`it took longer than ${Math.round(longestMs / 1000)} s`));
  }

  #answered({ order, made, trouble, memoryBytes }: FromExact): void {
    const now = this.#now;
    if (now?.order.order !== order) return;
    this.#now = undefined;
    if (memoryBytes > this.#limits.mostMemory) void this.#thread.end();
    if (made) now.resolve(made);
    else now.reject(new Error(trouble ?? 'The exact solid could not be made.'));
    this.#next();
  }

  #failed(reason: string): void {
    const now = this.#now;
    this.#now = undefined;
    now?.reject(new Error(`The thread that makes exact solids was lost: ${reason}. Try again; a simpler part may do.`));
    this.#next();
  }
}
