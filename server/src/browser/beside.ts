/** What a worker beside the server's does: it answers questions about parts, or makes meshes. The script is the same. */
import { AsideAnswers } from '../service/beside/answers';
import type { ToAside } from '../service/beside/aside-queue';
import { MeshOrders } from '../service/beside/mesh-orders';
import type { FromWorker, Order } from '../service/beside/mesh-queue';
import type { Threads } from '../service/beside/thread';
import { startMeshLibrary } from './mesh-library';
import { type BesideStart, later } from './threads';

interface Scope {
  onmessage: ((event: { readonly data: never }) => void) | null;
  postMessage(message: unknown): void;
}

export function workBeside(scope: Scope, start: BesideStart): void {
  switch (start.does) {
    case 'questions': {
      // A question is left by ending this worker: nothing is to be looked at on the way.
      const answers = new AsideAnswers(() => false);
      scope.onmessage = ({ data }: { readonly data: ToAside }) => scope.postMessage(answers.to(data));
      return;
    }
    case 'meshes': {
      const orders = ordersOf(start.manifold, (message) => scope.postMessage(message));
      scope.onmessage = ({ data }: { readonly data: Order }) => void orders.then((all) => all.take(data), fatal);
      return;
    }
    default:
      start satisfies never;
  }
}

/** Where no worker may be started: meshes are made in the one that asks. */
export const meshesHere = (manifold: ArrayBuffer): Threads<Order, FromWorker> => ({
  later,
  start({ heard, died }) {
    const orders = ordersOf(manifold, heard);
    return {
      post: (order) =>
        void orders
          .then((all) => all.take(order))
          .catch((failure: unknown) => died(failure instanceof Error ? failure.message : String(failure))),
      end: () => {},
    };
  },
});

async function ordersOf(manifold: ArrayBuffer, say: (message: FromWorker) => void): Promise<MeshOrders> {
  return new MeshOrders(await startMeshLibrary(manifold), { say, soon: (work) => void later(0, work) });
}

/** As an error of this worker's own, which whoever started it hears of. */
function fatal(failure: unknown): void {
  setTimeout(() => {
    throw failure;
  }, 0);
}
