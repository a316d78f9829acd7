/**
 * Activation: builds what lives as long as the extension does, and starts the language server in the background. How the
 * server is run is handed in: a process on a desktop, a worker in a browser.
 */
import { type ExtensionContext, window, workspace } from 'vscode';
import { registerCommands } from './commands';
import { registerCompare } from './compare';
import { registerJob } from './job';
import { registerPartView } from './part-view';
import { registerPlan } from './plan';
import { type MakeClient, ServerLink } from './server-link';
import { registerSheet } from './sheet';
import { registerFigures, registerStatus } from './status';

let link: ServerLink | undefined;

export async function activateWith(context: ExtensionContext, make: MakeClient): Promise<void> {
  const log = window.createOutputChannel('Scribeline', { log: true });
  link = new ServerLink(context, log, make);
  context.subscriptions.push(log, link, registerStatus(link), registerFigures(link));
  context.subscriptions.push(...registerCommands(context, link), ...registerPartView(context, link, log));
  context.subscriptions.push(...registerSheet(context, link, log), ...registerJob(context, link, log));
  context.subscriptions.push(...registerPlan(context, link, log));
  context.subscriptions.push(...registerCompare(context, link, log));
  context.subscriptions.push(
    workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration('scribeline.shop')) void link?.shopChanged();
      if (change.affectsConfiguration('scribeline.besideText')) link?.besideChanged();
    }),
    workspace.onDidGrantWorkspaceTrust(() => void link?.shopChanged()),
  );
  await link.start();
}

export async function deactivate(): Promise<void> {
  await link?.stop();
}
