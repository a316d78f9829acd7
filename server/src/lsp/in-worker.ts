/** A connection to the editor from a web worker: by messages to and from whoever started it. */
import type { Connection } from 'vscode-languageserver';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';

/** `scope`: the worker's own, which Node's types do not name. */
export function overMessages(scope: object): Connection {
  const [reader, writer] = [new BrowserMessageReader(scope as never), new BrowserMessageWriter(scope as never)];
  return createConnection(ProposedFeatures.all, reader, writer);
}
