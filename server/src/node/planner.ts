/**
 * The planner on Node: a thread that is started at the first order and replaced when it dies or hangs. It has one order at
 * a time; one that is called off while it is worked on ends the thread, since planning does not look up.
 */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { PlanJob, Planner, PlanOrder, PlanReply } from '../service/planner';
import type { Shop } from '../spec/shop-model';

export interface ToPlanner extends Omit<PlanOrder, 'shop'> {
  readonly number: number;
  /** Absent where it is the one of the order before. */
  readonly shop?: Shop;
}
export interface FromPlanner {
  readonly number: number;
  readonly reply: PlanReply;
}

interface Waiting {
  readonly order: PlanOrder;
  readonly number: number;
  /** Threads that died over it. */
  deaths: number;
  resolve(reply: PlanReply | undefined): void;
}

const MOST_DEATHS = 2;
const HEAP_MB = 1024;
const LONGEST_MS = 180_000;

export class NodePlanner implements Planner {
  readonly #script: string;
  readonly #log: (message: string) => void;
  readonly #longestMs: number;
  #worker: Worker | undefined;
  /** In the order they came; the first is being worked on. */
  readonly #queue: Waiting[] = [];
  #busy = false;
  #shop: Shop | undefined;
  #count = 0;
  #clock: NodeJS.Timeout | undefined;

  /** `script`: the worker's bundle. A thread that gives no answer for `longestMs` is ended as if it had died. */
  constructor(script: string, log: (message: string) => void, longestMs = LONGEST_MS) {
    this.#script = script;
    this.#log = log;
    this.#longestMs = longestMs;
  }

  plan(order: PlanOrder): PlanJob {
    const number = ++this.#count;
    const reply = new Promise<PlanReply | undefined>((resolve) => {
      this.#queue.push({ order, number, deaths: 0, resolve });
    });
    this.#next();
    return { reply, cancel: () => this.#cancel(number) };
  }

  /** Ends the thread; it starts again at the next order. */
  async stop(): Promise<void> {
    for (const { resolve } of this.#queue.splice(0)) resolve(undefined);
    await this.#end();
  }

  #next(): void {
    const [first] = this.#queue;
    if (!first || this.#busy) return;
    this.#worker ??= this.#start();
    this.#busy = true;
    const { shop, ...order } = first.order;
    const known = this.#shop === shop;
    this.#shop = shop;
    this.#worker.postMessage({ number: first.number, ...order, ...(known ? {} : { shop }) } satisfies ToPlanner);
    this.#clock = setTimeout(() => this.#failed('it took too long'), this.#longestMs);
    this.#clock.unref();
  }

  #cancel(number: number): void {
    const at = this.#queue.findIndex((w) => w.number === number);
    if (at < 0) return;
    const [gone] = this.#queue.splice(at, 1);
    gone?.resolve(undefined);
    if (at > 0) return;
    void this.#end();
    this.#next();
  }

  #start(): Worker {
    const worker = new Worker(this.#script, { resourceLimits: { maxOldGenerationSizeMb: HEAP_MB } });
    // Nobody's process is kept alive by what might yet be planned.
    worker.unref();
    let reason = 'it ended';
    worker.on('message', ({ number, reply }: FromPlanner) => {
      const [first] = this.#queue;
      if (this.#worker !== worker || first?.number !== number) return;
      this.#queue.shift();
      this.#rest();
      first.resolve(reply);
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
    this.#busy = false;
  }

  async #end(): Promise<void> {
    const worker = this.#worker;
    this.#rest();
    this.#worker = undefined;
    this.#shop = undefined;
    await worker?.terminate();
  }

  /** The thread is gone, or as good as gone: the order it had is tried once more by another. */
  #failed(reason: string): void {
    void this.#end();
    const [first] = this.#queue;
    this.#log(`the planning thread is started again: ${reason}`);
    if (first && ++first.deaths >= MOST_DEATHS) {
      this.#queue.shift();
      this.#log(`${first.order.path} could not be planned: ${reason}`);
      first.resolve(undefined);
    }
    this.#next();
  }
}

/** The thread beside this file's bundle. */
export function nodePlanner(log: (message: string) => void): NodePlanner {
  return new NodePlanner(join(__dirname, 'plan-worker.js'), log);
}
