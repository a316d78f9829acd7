/** The language server's door on Node: over standard input and output, or a channel of the process that started it. */
import { version } from '../../package.json';
import { listen } from './lsp/connection';
import { overStdio } from './lsp/stdio';
import { nodeAside } from './node/aside';
import { gitDoor } from './node/git-door';
import { nodeHost } from './node/host';
import { markOf } from './node/mark';
import { sharedMeshes } from './node/mesher';
import { solverWithin } from './node/solver';
import { spareMemory } from './node/thrift';
import { lines } from './text/shown';

// Before any thread starts.
spareMemory();

// Standard output belongs to the protocol: whatever a library prints there would break it.
console.log = console.info = console.debug = (...words: unknown[]) => console.error(...words);

const connection = overStdio();
const log = (message: string) => connection.console.info(lines(message));
const meshes = sharedMeshes(log);
// Loaded only when asked for: findings should not wait for the formats' code.
const writers = async () => (await import('./node/writers')).WRITERS;
const print = async () => (await import('./node/print')).pdfKit();
const host = {
  ...nodeHost(log),
  ...gitDoor,
  meshes,
  writers,
  print,
  mark: markOf,
  aside: nodeAside(log),
  solver: solverWithin,
};
listen(connection, host, version);
