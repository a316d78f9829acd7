/** The extension's door in a browser: the same extension, with the language server in a web worker. */
import type { ExtensionContext } from 'vscode';
import { activateWith, deactivate } from '../src/activation';
import { workerClient } from './worker-client';

export const activate = (context: ExtensionContext): Promise<void> =>
  activateWith(context, workerClient(context.extensionUri));
export { deactivate };
