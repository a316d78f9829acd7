/** The language server in this process, over streams in memory: for tests that must get at its threads. */
import { PassThrough } from 'node:stream';
import { createConnection } from 'vscode-languageserver/node';
import {
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver-protocol/node';
import { listen } from '../../server/src/lsp/connection';
import type { Host } from '../../server/src/service/host';

export interface Here {
  readonly connection: ProtocolConnection;
  end(): void;
}

/** `host`: what it is handed besides an empty world. */
export async function serverHere(host: Partial<Host>): Promise<Here> {
  const [up, down] = [new PassThrough(), new PassThrough()];
  const server = createConnection(new StreamMessageReader(up), new StreamMessageWriter(down));
  const world: Host = { read: async () => undefined, list: async () => [], documents: async () => [], log: () => {} };
  listen(server, { ...world, ...host }, '0.0.0');
  const connection = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: null,
    rootUri: null,
    capabilities: {},
    workspaceFolders: null,
  });
  await connection.sendNotification('initialized', {});
  return {
    connection,
    end() {
      connection.dispose();
      server.dispose();
    },
  };
}
