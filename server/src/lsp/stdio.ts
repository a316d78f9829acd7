/** A connection to the editor on Node: over standard input and output, or a channel of the process that started it. */
import { type Connection, createConnection, ProposedFeatures } from 'vscode-languageserver/node';

export const overStdio = (): Connection => createConnection(ProposedFeatures.all);
