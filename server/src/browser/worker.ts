/**
 * The language server's door in a browser: a web worker that speaks the protocol with the editor beside it. It has no disk
 * and no network: files come through the editor, and the library for meshes with the first message.
 */
import { version } from '../../../package.json';
import { listen } from '../lsp/connection';
import { overMessages } from '../lsp/in-worker';
import type { WorkerStart } from '../service/files-protocol';
import { lines } from '../text/shown';
import { browserHost } from './host';
import { BrowserMeshes } from './meshes';
import { writersWith } from './writers';

/** What is used of a worker's own scope, which Node's types do not name. */
interface Scope {
  onmessage: ((event: { readonly data: WorkerStart }) => void) | null;
  addEventListener(type: 'unhandledrejection', heard: (event: { readonly reason: unknown }) => void): void;
}
const scope = globalThis as unknown as Scope;

scope.onmessage = ({ data }) => {
  scope.onmessage = null;
  const connection = overMessages(scope);
  const log = (message: string) => connection.console.info(lines(message));
  // A worker goes on after an unhandled failure: it is told here.
  scope.addEventListener('unhandledrejection', ({ reason }) => log(`an unhandled failure: ${String(reason)}`));
  const meshes = new BrowserMeshes(data.manifold);
  listen(connection, { ...browserHost(connection, log), meshes, writers: async () => writersWith(meshes) }, version);
};
