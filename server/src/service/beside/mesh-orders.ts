/**
 * What the thread that makes meshes does. Keeps a mesher for each of the last few models; answers only the newest order of
 * each.
 */
import { closedMesh } from '../../geometry/mesh/closed';
import { differing } from '../../geometry/mesh/differing';
import type { Kernel } from '../../geometry/mesh/handles';
import { Pieces } from '../../geometry/mesh/pieces';
import type { BodyShape, Void } from '../../geometry/types';
import type { DrawOrder, FromWorker, Order } from './mesh-queue';
import { PiecesOut } from './pieces-sent';

/** Thinner differences than this are between chords, mm. */
const DIFFER_CHORD_MM = 0.02;

interface Model {
  mesher: Pieces;
  out: PiecesOut;
  chordMm: number | undefined;
  body: BodyShape;
  voids: Map<number, Void>;
  waiting: DrawOrder | undefined;
}

/** The thread it works in. */
interface Around {
  say(message: FromWorker): void;
  /** When the messages that wait have been taken. */
  soon(work: () => void): void;
  /** Nothing is to be done just now. */
  idle?(): void;
}

export class MeshOrders {
  readonly #kernel: Kernel;
  readonly #around: Around;
  readonly #models = new Map<string, Model>();

  constructor(kernel: Kernel, around: Around) {
    this.#kernel = kernel;
    this.#around = around;
  }

  take(order: Order): void {
    const { say, soon } = this.#around;
    if ('before' in order) {
      const found = differing(this.#kernel, order.before, order.after, DIFFER_CHORD_MM);
      say({ order: order.order, ...(found ? { differing: found } : {}) });
      return;
    }
    if (!('model' in order)) {
      const { body, voids, chordMm } = order;
      const closed = closedMesh(this.#kernel, body, voids, chordMm);
      say({ order: order.order, ...(closed ? { closed } : {}) });
      return;
    }
    for (const name of order.drop) this.#drop(name);
    const model = this.#models.get(order.model) ?? {
      mesher: new Pieces(this.#kernel, order),
      out: new PiecesOut(),
      chordMm: order.chordMm,
      body: order.body!,
      voids: new Map(),
      waiting: undefined,
    };
    this.#models.set(order.model, model);
    bringUp(model, order);
    if (model.waiting) say({ order: model.waiting.order });
    else soon(() => this.#work(model));
    model.waiting = order;
  }

  #drop(name: string): void {
    const model = this.#models.get(name);
    if (!model) return;
    if (model.waiting) this.#around.say({ order: model.waiting.order });
    model.waiting = undefined;
    model.mesher.dispose();
    this.#models.delete(name);
  }

  #work(model: Model): void {
    const order = model.waiting;
    model.waiting = undefined;
    if (!order) return;
    const voids = order.voids.map((id) => model.voids.get(id)!);
    if (order.chordMm !== model.chordMm) {
      model.mesher.dispose();
      model.mesher = new Pieces(this.#kernel, order);
      model.chordMm = order.chordMm;
    }
    const { say, idle } = this.#around;
    const built = model.mesher.build(model.body, voids);
    say({ order: order.order, ...(built ? { made: model.out.sent(built, model.voids) } : {}) });
    if ([...this.#models.values()].every((m) => !m.waiting)) idle?.();
  }
}

/** Unchanged volumes are named by their numbers only. */
function bringUp(model: Model, { body, voids, fresh }: DrawOrder): void {
  if (body) model.body = body;
  const known = new Map([...model.voids, ...fresh]);
  model.voids = new Map(voids.map((id) => [id, known.get(id)!]));
}
