/** The thread that makes meshes, on Node. Ends itself when the library fails: whoever started it starts another. */
import { parentPort } from 'node:worker_threads';
import { MeshOrders } from '../service/beside/mesh-orders';
import type { Order } from '../service/beside/mesh-queue';
import { loadKernel } from './manifold';

/** The library's memory never shrinks: beyond this, bytes, the thread ends once it has nothing to do. */
const MOST_MEMORY = 768 * 2 ** 20;

const port = parentPort;
if (!port) throw new Error('This file is run by the language server as a thread.');

const loaded = loadKernel().then(
  (kernel) =>
    new MeshOrders(kernel, {
      say: (message) => port.postMessage(message),
      soon: setImmediate,
      idle: () => kernel.memoryBytes() > MOST_MEMORY && port.close(),
    }),
);

port.on('message', (order: Order) => {
  loaded.then(
    (orders) => orders.take(order),
    (failure: unknown) => {
      throw failure;
    },
  );
});
