/**
 * The mesh maker in a thread that is started at the first order and replaced when it dies. Only what changed since
 * a model's last order is sent; a later order of the same model makes an earlier one needless.
 */
import type { TriangleMaker } from '../../export/triangles';
import type { ClosedMesh } from '../../geometry/mesh/closed';
import type { Differing, SolidShape } from '../../geometry/mesh/differing';
import type { BodyShape, Void } from '../../geometry/types';
import { Unanswered } from '../asked';
import type { MadeMesh, MeshMaker, MeshOrder } from '../view/mesh-maker';
import { PiecesIn, type SentMesh } from './pieces-sent';
import { Thread, type Threads } from './thread';

/** A mesh to be shown. */
export interface DrawOrder {
  readonly order: number;
  readonly model: string;
  /** Absent where it is the one of the model's last order. */
  readonly body?: BodyShape;
  /** All of them, in order, by number. */
  readonly voids: readonly number[];
  /** Those that the worker has not seen in this model's last order. */
  readonly fresh: readonly (readonly [number, Void])[];
  readonly chordMm?: number;
  /** Models that are no longer kept. */
  readonly drop: readonly string[];
}
/** A closed mesh for a file; nothing of it is kept. */
interface CloseOrder {
  readonly order: number;
  readonly body: BodyShape;
  readonly voids: readonly Void[];
  readonly chordMm: number;
}
/** What of one solid the other has not; nothing of it is kept. */
interface DifferOrder {
  readonly order: number;
  readonly before: SolidShape;
  readonly after: SolidShape;
}
export type Order = DrawOrder | CloseOrder | DifferOrder;
/** Nothing made: a later order came first, or there is nothing to draw. */
export interface FromWorker {
  readonly order: number;
  readonly made?: SentMesh;
  readonly closed?: ClosedMesh;
  readonly differing?: Differing;
}

interface Waiting {
  readonly of: MeshOrder | Omit<CloseOrder, 'order'> | Omit<DifferOrder, 'order'>;
  /** Threads that died over it. */
  deaths: number;
  /** What there is of the model when this one is answered. */
  shelf?: PiecesIn;
  resolve(answer: FromWorker | undefined): void;
  reject(failure: Error): void;
}

/** What the worker has of a model, and what came of it. */
interface Held {
  readonly body: BodyShape;
  readonly voids: ReadonlySet<number>;
  readonly shelf: PiecesIn;
}

/** A thread is given up on after so many deaths over one order. */
const MOST_DEATHS = 2;
const LONGEST_MS = 60_000;
/** A thread that nobody asked anything for so long is ended: the library never gives memory back. */
const QUIET_MS = 60_000;
/** Models that the thread keeps ready; the one that was longest not asked for goes first. */
const MOST_MODELS = 6;

interface Options {
  /** A thread that gives no answer for so long is ended as if it had died. */
  readonly longestMs?: number | undefined;
  readonly quietMs?: number | undefined;
  log(message: string): void;
}

export class MeshQueue implements MeshMaker, TriangleMaker {
  readonly #thread: Thread<Order, FromWorker>;
  readonly #log: (message: string) => void;
  readonly #longestMs: number;
  readonly #waiting = new Map<number, Waiting>();
  /** What the worker holds of each model. */
  readonly #held = new Map<string, Held>();
  /** Handles: what a volume is called between the threads. */
  readonly #numbers = new WeakMap<Void, number>();
  #count = 0;

  constructor(threads: Threads<Order, FromWorker>, { longestMs, quietMs, log }: Options) {
    this.#log = log;
    this.#longestMs = longestMs ?? LONGEST_MS;
    this.#thread = new Thread<Order, FromWorker>(
      {
        quietMs: quietMs ?? QUIET_MS,
        holdsProcess: true,
        heard: (answer) => this.#heard(answer),
        gone: () => this.#held.clear(),
        lost: (reason) => this.#failed(reason),
      },
      threads,
    );
  }

  async make(order: MeshOrder): Promise<MadeMesh | undefined> {
    const numbers = new Map(order.voids.map((v) => [this.#numberOf(v), v]));
    return new Promise((resolve, reject) => {
      const waiting: Waiting = {
        of: order,
        deaths: 0,
        resolve: (answer) => resolve(answer?.made && waiting.shelf?.taken(answer.made, numbers)),
        reject,
      };
      this.#send(waiting);
    });
  }

  async closed(body: BodyShape, voids: readonly Void[], chordMm: number): Promise<ClosedMesh | undefined> {
    return (await this.#ask({ body, voids, chordMm }))?.closed;
  }

  async differing(before: SolidShape, after: SolidShape): Promise<Differing | undefined> {
    return (await this.#ask({ before, after }))?.differing;
  }

  #ask(of: Waiting['of']): Promise<FromWorker | undefined> {
    return new Promise((resolve, reject) => this.#send({ of, deaths: 0, resolve, reject }));
  }

  /** Ends the thread; it starts again at the next order. */
  async stop(): Promise<void> {
    for (const { resolve } of this.#waiting.values()) resolve(undefined);
    this.#waiting.clear();
    await this.#thread.end();
  }

  #send(waiting: Waiting): void {
    const order = ++this.#count;
    this.#waiting.set(order, waiting);
    if (this.#waiting.size === 1) this.#thread.within(this.#longestMs);
    if (!('model' in waiting.of)) {
      this.#thread.send({ order, ...waiting.of });
      return;
    }
    this.#thread.send(this.#drawOrder(order, waiting.of));
    waiting.shelf = this.#held.get(waiting.of.model)!.shelf;
  }

  #drawOrder(order: number, { model, body, voids, chordMm }: MeshOrder): DrawOrder {
    const held = this.#held.get(model);
    const ids = voids.map((v) => this.#numberOf(v));
    const message: DrawOrder = {
      order,
      model,
      ...(chordMm === undefined ? {} : { chordMm }),
      ...(held?.body === body ? {} : { body }),
      voids: ids,
      fresh: ids.flatMap((id, i) => (held?.voids.has(id) ? [] : [[id, voids[i]!] as const])),
      drop: held ? [] : [...this.#held.keys()].slice(0, Math.max(0, this.#held.size + 1 - MOST_MODELS)),
    };
    for (const name of message.drop) this.#held.delete(name);
    this.#held.delete(model);
    this.#held.set(model, { body, voids: new Set(ids), shelf: held?.shelf ?? new PiecesIn() });
    return message;
  }

  #numberOf(v: Void): number {
    let known = this.#numbers.get(v);
    if (known === undefined) {
      known = ++this.#count;
      this.#numbers.set(v, known);
    }
    return known;
  }

  #heard(answer: FromWorker): void {
    const waiting = this.#waiting.get(answer.order);
    this.#waiting.delete(answer.order);
    // From the last answer on, as long as another is owed.
    if (this.#waiting.size === 0) this.#thread.rest();
    else this.#thread.within(this.#longestMs);
    waiting?.resolve(answer);
  }

  #failed(reason: string): void {
    const left = [...this.#waiting.values()];
    this.#waiting.clear();
    this.#log(`the mesh thread is started again: ${reason}`);
    for (const w of left) {
      w.deaths++;
      if (w.deaths >= MOST_DEATHS) w.reject(new Unanswered(`The part’s mesh could not be made: ${reason}.`));
      else this.#send(w);
    }
  }
}
