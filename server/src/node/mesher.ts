/**
 * The mesh maker on Node: a thread that is started at the first order and replaced when it dies. Only what changed since
 * a model's last order is sent; a later order of the same model makes an earlier one needless.
 */
import { Worker } from 'node:worker_threads';
import type { BodyShape, Void } from '../geometry/types';
import type { MadeMesh, MeshMaker, MeshOrder } from '../service/view/mesh-maker';

export interface ToWorker {
  readonly order: number;
  readonly model: string;
  /** Absent where it is the one of the model's last order. */
  readonly body?: BodyShape;
  /** All of them, in order, by number. */
  readonly voids: readonly number[];
  /** Those that the worker has not seen in this model's last order. */
  readonly fresh: readonly (readonly [number, Void])[];
  /** Models that are no longer kept. */
  readonly drop: readonly string[];
}
/** Nothing made: a later order came first, or there is nothing to draw. */
export interface FromWorker {
  readonly order: number;
  readonly made?: MadeMesh;
}

interface Waiting {
  readonly of: MeshOrder;
  /** Threads that died over it. */
  readonly deaths: number;
  resolve(made: MadeMesh | undefined): void;
  reject(failure: Error): void;
}

/** A thread is given up on after so many deaths over one order. */
const MOST_DEATHS = 2;
const HEAP_MB = 768;
/** Models that the thread keeps ready; the one that was longest not asked for goes first. */
const MOST_MODELS = 6;

export class NodeMeshMaker implements MeshMaker {
  readonly #script: string;
  readonly #log: (message: string) => void;
  #worker: Worker | undefined;
  readonly #waiting = new Map<number, Waiting>();
  /** What the worker holds of each model. */
  readonly #held = new Map<string, { body: BodyShape; voids: ReadonlySet<number> }>();
  readonly #numbers = new WeakMap<Void, number>();
  #count = 0;

  /** `script`: the worker's bundle. */
  constructor(script: string, log: (message: string) => void) {
    this.#script = script;
    this.#log = log;
  }

  make(order: MeshOrder): Promise<MadeMesh | undefined> {
    return new Promise((resolve, reject) => this.#send({ of: order, deaths: 0, resolve, reject }));
  }

  /** Ends the thread; it starts again at the next order. */
  async stop(): Promise<void> {
    const worker = this.#worker;
    this.#worker = undefined;
    this.#held.clear();
    for (const { resolve } of this.#waiting.values()) resolve(undefined);
    this.#waiting.clear();
    worker?.removeAllListeners();
    await worker?.terminate();
  }

  /** The thread's number, while there is one. */
  get threadId(): number | undefined {
    return this.#worker?.threadId;
  }

  #send(waiting: Waiting): void {
    this.#worker ??= this.#start();
    const worker = this.#worker;
    const { model, body, voids } = waiting.of;
    const held = this.#held.get(model);
    const ids = voids.map((v) => this.#numberOf(v));
    const order = ++this.#count;
    this.#waiting.set(order, waiting);
    const message: ToWorker = {
      order,
      model,
      ...(held?.body === body ? {} : { body }),
      voids: ids,
      fresh: ids.flatMap((id, i) => (held?.voids.has(id) ? [] : [[id, voids[i]!] as const])),
      drop: held ? [] : [...this.#held.keys()].slice(0, Math.max(0, this.#held.size + 1 - MOST_MODELS)),
    };
    for (const name of message.drop) this.#held.delete(name);
    this.#held.delete(model);
    this.#held.set(model, { body, voids: new Set(ids) });
    worker.postMessage(message);
  }

  #numberOf(v: Void): number {
    let known = this.#numbers.get(v);
    if (known === undefined) {
      known = ++this.#count;
      this.#numbers.set(v, known);
    }
    return known;
  }

  #start(): Worker {
    const worker = new Worker(this.#script, { resourceLimits: { maxOldGenerationSizeMb: HEAP_MB } });
    worker.unref();
    let reason = 'it ended';
    worker.on('message', (answer: FromWorker) => {
      const waiting = this.#waiting.get(answer.order);
      this.#waiting.delete(answer.order);
      waiting?.resolve(answer.made);
    });
    worker.on('error', (failure) => {
      reason = failure instanceof Error ? failure.message : String(failure);
    });
    worker.on('exit', () => {
      if (this.#worker === worker) this.#replace(reason);
    });
    return worker;
  }

  #replace(reason: string): void {
    this.#worker = undefined;
    this.#held.clear();
    const left = [...this.#waiting.values()];
    this.#waiting.clear();
    this.#log(`the mesh thread is started again: ${reason}`);
    for (const w of left) {
      if (w.deaths + 1 >= MOST_DEATHS) w.reject(new Error(`The part's mesh could not be made: ${reason}.`));
      else this.#send({ ...w, deaths: w.deaths + 1 });
    }
  }
}
