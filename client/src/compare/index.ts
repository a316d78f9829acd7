/** Comparing revisions of a part or a job, and two of a kind: from a difference, from a file's history, from two files. */
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
import { kindOf, type Sides, sidesFrom } from './sides';

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
      const named = given instanceof Uri && kindOf(given) ? given : undefined;
      const part = named ?? inView(['scribeline-part', 'scribeline-job']);
      if (!part) {
        void inform('Open a part or a job file first.');
        return;
      }
      try {
        open(await chooseSides(link, part));
      } catch (error) {
        failed('It was not compared', error);
      }
    }),
  ];
}
