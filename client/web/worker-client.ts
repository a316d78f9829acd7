/**
 * The language server in a web worker. Its file and the mesh library's are read through the editor, since a worker may
 * fetch nothing here; it is started from memory. Everything stays in the browser.
 */
import { Uri, workspace } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type LanguageClientOptions,
  type MessageTransports,
  State,
} from 'vscode-languageclient/browser';
import type { WorkerStart } from '../../server/src/service/files-protocol';
import type { MakeClient } from '../src/server-link';
import { answerFiles } from './files';

/** What is used of a browser, which Node's types do not name. */
interface Thread {
  postMessage(message: unknown): void;
  terminate(): void;
}
const browser = globalThis as unknown as {
  readonly Worker: new (url: string) => Thread;
};

export function workerClient(extension: Uri): MakeClient {
  return (options: LanguageClientOptions) => {
    let worker: Thread | undefined;
    const start = async (): Promise<MessageTransports> => {
      const [code, manifold] = await Promise.all(
        ['web-server.js', 'manifold.wasm'].map((name) => built(extension, name)),
      );
      const url = URL.createObjectURL(new Blob([code!], { type: 'text/javascript' }));
      worker = new browser.Worker(url);
      worker.postMessage({ manifold: manifold! } satisfies WorkerStart);
      // The host puts a class of its own in the worker's place: reader and writer are made here.
      return { reader: new BrowserMessageReader(worker as never), writer: new BrowserMessageWriter(worker as never) };
    };
    const client = new LanguageClient('scribeline', 'Scribeline', start, options);
    // It hears that it may end, and cannot end itself.
    client.onDidChangeState(({ newState }) => newState === State.Stopped && worker?.terminate());
    answerFiles(client, extension);
    return client;
  };
}

async function built(extension: Uri, name: string): Promise<ArrayBuffer> {
  const bytes = await workspace.fs.readFile(Uri.joinPath(extension, 'dist', name));
  return bytes.slice().buffer;
}
