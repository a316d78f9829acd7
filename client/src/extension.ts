/** The extension's door on a desktop: the language server is a process of its own. */
import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { SPARING } from '../../server/src/node/thrift';
import { activateWith, deactivate } from './activation';

export function activate(context: ExtensionContext): Promise<void> {
  const module = context.asAbsolutePath('dist/server.js');
  const transport = TransportKind.ipc;
  const run = { module, transport, options: { execArgv: [...SPARING.execArgv], env: SPARING.env } };
  const debug = { module, transport, options: { execArgv: ['--nolazy', '--inspect=6019'] } };
  return activateWith(context, (options) => new LanguageClient('scribeline', 'Scribeline', { run, debug }, options));
}
export { deactivate };
