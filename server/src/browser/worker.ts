/**
 * The language server's door in a browser: a web worker that speaks the protocol with the editor beside it. It has no disk
 * and no network: files come through the editor, and the library for meshes with the first message. What takes long is done
 * in workers that it starts of the same script; where a browser allows none, in slices.
 */
import { version } from '../../../package.json';
import { listen } from '../lsp/connection';
import { overMessages } from '../lsp/in-worker';
import { AsideQueue } from '../service/beside/aside-queue';
import { MeshQueue } from '../service/beside/mesh-queue';
import type { WorkerStart } from '../service/files-protocol';
import { lines } from '../text/shown';
import { meshesHere, workBeside } from './beside';
import { browserHost } from './host';
import { Own } from './own';
import { markOf, printingWith } from './print';
import { allowsThreads, type BesideStart, ownThread } from './threads';
import { writersWith } from './writers';

interface Message {
  readonly data: never;
}
/** What is used of a worker's own scope, which Node's types do not name. */
interface Scope {
  onmessage: ((event: Message) => void) | null;
  postMessage(message: unknown): void;
  addEventListener(type: 'unhandledrejection', heard: (event: { readonly reason: unknown }) => void): void;
}
const scope = globalThis as unknown as Scope;

scope.onmessage = ({ data }: { readonly data: WorkerStart | BesideStart }) => {
  if ('does' in data) workBeside(scope, data);
  else void serve(data);
};

async function serve({ manifold }: WorkerStart): Promise<void> {
  // The editor does not wait.
  const early: Message[] = [];
  scope.onmessage = (event) => void early.push(event);
  const threads = await allowsThreads();
  const connection = overMessages(scope);
  const log = (message: string) => connection.console.info(lines(message));
  // A worker goes on after an unhandled failure: it is told here.
  scope.addEventListener('unhandledrejection', ({ reason }) => log(`an unhandled failure: ${String(reason)}`));
  const own = new Own(connection);
  const print = printingWith(own);
  const meshes = new MeshQueue(threads ? ownThread({ does: 'meshes', manifold }) : meshesHere(manifold), { log });
  const host = {
    ...browserHost(connection, log),
    meshes,
    print,
    mark: markOf,
    writers: async () => writersWith({ own, meshes, threads, print }),
    ...(threads && { aside: new AsideQueue(ownThread({ does: 'questions' }), { log }) }),
  };
  listen(connection, host, version);
  for (const event of early) scope.onmessage(event);
}
