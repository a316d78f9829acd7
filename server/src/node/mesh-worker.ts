/**
 * A thread that makes meshes. Keeps a mesher for each of the last few models; answers only the newest order of each.
 * Ends itself when the library fails: whoever started it starts another.
 */
import { parentPort } from 'node:worker_threads';
import { closedMesh } from '../geometry/mesh/closed';
import { differing } from '../geometry/mesh/differing';
import { Mesher } from '../geometry/mesh/mesher';
import { packed } from '../geometry/mesh/packed';
import type { BodyShape, Void } from '../geometry/types';
import { type LoadedKernel, loadKernel } from './manifold';
import type { CloseOrder, DifferOrder, DrawOrder, FromWorker } from './mesher';

/** The library's memory never shrinks: beyond this, bytes, the thread ends once it has nothing to do. */
const MOST_MEMORY = 768 * 2 ** 20;

/** Thinner differences than this are between chords, mm. */
const DIFFER_CHORD_MM = 0.02;

interface Model {
  mesher: Mesher;
  chordMm: number | undefined;
  body: BodyShape;
  voids: Map<number, Void>;
  waiting: DrawOrder | undefined;
}

const port = parentPort;
if (!port) throw new Error('This file is run by the language server as a thread.');
const say = (message: FromWorker) => port.postMessage(message);

const models = new Map<string, Model>();
const loaded = loadKernel();

port.on('message', (order: DrawOrder | CloseOrder | DifferOrder) => {
  loaded.then(
    (kernel) => {
      if ('before' in order) {
        const found = differing(kernel, order.before, order.after, DIFFER_CHORD_MM);
        say({ order: order.order, ...(found ? { differing: found } : {}) });
        return;
      }
      if (!('model' in order)) {
        const { body, voids, chordMm } = order;
        const closed = closedMesh(kernel, body, voids, chordMm);
        say({ order: order.order, ...(closed ? { closed } : {}) });
        return;
      }
      for (const name of order.drop) drop(name);
      const model = models.get(order.model) ?? {
        mesher: new Mesher(kernel, order),
        chordMm: order.chordMm,
        body: order.body!,
        voids: new Map(),
        waiting: undefined,
      };
      models.set(order.model, model);
      take(model, order);
      if (model.waiting) say({ order: model.waiting.order });
      else setImmediate(() => work(kernel, model));
      model.waiting = order;
    },
    (failure: unknown) => {
      throw failure;
    },
  );
});

/** Node's own base64, which is quicker than one written in script. */
function encode({ buffer, byteOffset, byteLength }: ArrayBufferView): string {
  return Buffer.from(buffer, byteOffset, byteLength).toString('base64');
}

function drop(name: string): void {
  const model = models.get(name);
  if (!model) return;
  if (model.waiting) say({ order: model.waiting.order });
  model.waiting = undefined;
  model.mesher.dispose();
  models.delete(name);
}

/** Unchanged volumes are named by their numbers only. */
function take(model: Model, { body, voids, fresh }: DrawOrder): void {
  if (body) model.body = body;
  const known = new Map([...model.voids, ...fresh]);
  model.voids = new Map(voids.map((id) => [id, known.get(id)!]));
}

function work(kernel: LoadedKernel, model: Model): void {
  const order = model.waiting;
  model.waiting = undefined;
  if (!order) return;
  const voids = order.voids.map((id) => model.voids.get(id)!);
  if (order.chordMm !== model.chordMm) {
    model.mesher.dispose();
    model.mesher = new Mesher(kernel, order);
    model.chordMm = order.chordMm;
  }
  const built = model.mesher.build(model.body, voids);
  say({ order: order.order, ...(built ? { made: packed(built, voids, encode) } : {}) });
  if (kernel.memoryBytes() > MOST_MEMORY && [...models.values()].every((m) => !m.waiting)) port!.close();
}
