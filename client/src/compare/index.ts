/** Comparing revisions of a part, and parts: from a difference, from a file's history, from two files. */
import {
  commands,
  type Disposable,
  type ExtensionContext,
  type LogOutputChannel,
  Uri,
  ViewColumn,
  window,
  workspace,
} from 'vscode';
import { inView } from '../beside/single';
import { failed, inform } from '../notices';
import type { ServerLink } from '../server-link';
import { chooseSides } from './choose';
import { COMPARE_VIEW, ComparePanel, OLD_TEXT, OldTexts } from './panel';
import { isPart, type Sides, sidesFrom } from './sides';

export function registerCompare(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  const old = new OldTexts();
  let current: ComparePanel | undefined;
  const open = (sides: Sides | string | undefined) => {
    if (typeof sides === 'string') void inform(sides);
    if (sides === undefined || typeof sides === 'string') return;
    if (!current) {
      const beside = { viewColumn: ViewColumn.Beside, preserveFocus: true };
      const panel = window.createWebviewPanel(COMPARE_VIEW, 'Compared', beside, { retainContextWhenHidden: true });
      const made = new ComparePanel({ panel, context, link, log }, old);
      current = made;
      panel.onDidDispose(() => {
        made.dispose();
        current = undefined;
      });
    }
    current.compare(sides);
    current.reveal();
  };
  return [
    workspace.registerTextDocumentContentProvider(OLD_TEXT, old),
    commands.registerCommand('scribeline.compare', (given?: unknown, others?: unknown) =>
      open(sidesFrom(given, others)),
    ),
    commands.registerCommand('scribeline.compareWith', async (given?: unknown) => {
      const part = given instanceof Uri && isPart(given) ? given : inView();
      if (!part) {
        void inform('Open a part file first.');
        return;
      }
      try {
        open(await chooseSides(link, part));
      } catch (error) {
        failed('The part was not compared', error);
      }
    }),
  ];
}
