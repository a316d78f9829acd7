/** The language server's door on Node: over standard input and output, or a channel of the process that started it. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { version } from '../../package.json';
import { listen } from './connection';
import { nodeHost } from './node/host';

// Standard output belongs to the protocol: whatever a library prints there would break it.
console.log = console.info = console.debug = (...words: unknown[]) => console.error(...words);

const connection = createConnection(ProposedFeatures.all);
listen(
  connection,
  nodeHost((message) => connection.console.info(message)),
  version,
);
