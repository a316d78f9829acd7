/** Showing the sheet, bringing it back after the window was loaded again, and printing it. There is one panel. */
import {
  commands,
  type Disposable,
  type ExtensionContext,
  type LogOutputChannel,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
} from 'vscode';
import { inform } from '../notices';
import type { ServerLink } from '../server-link';
import { SHEET_VIEW, SheetPanel } from './panel';
import { printSheet } from './print';

export function registerSheet(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  let view: SheetPanel | undefined;
  const adopt = (panel: WebviewPanel): SheetPanel => {
    const made = new SheetPanel(panel, context, link, log);
    view = made;
    panel.onDidDispose(() => {
      made.dispose();
      if (view === made) view = undefined;
    });
    return made;
  };
  const open = (uri?: Uri) => {
    const part = uri instanceof Uri ? uri : partInView();
    if (!part) {
      void inform('Open a part file first.');
      return;
    }
    const beside = { viewColumn: ViewColumn.Beside, preserveFocus: true };
    const shown =
      view ?? adopt(window.createWebviewPanel(SHEET_VIEW, 'Set-up sheet', beside, { retainContextWhenHidden: true }));
    shown.show(part);
    shown.reveal();
  };
  return [
    commands.registerCommand('scribeline.showSheet', open),
    commands.registerCommand('scribeline.printSheet', (part?: unknown, to?: unknown) => {
      const of = part instanceof Uri && part.path.includes('.part.') ? part : (partInView() ?? view?.uri);
      return printSheet(link, of, to instanceof Uri ? to : undefined);
    }),
    window.registerWebviewPanelSerializer(SHEET_VIEW, {
      async deserializeWebviewPanel(panel) {
        const made = adopt(panel);
        const part = partInView();
        if (part) made.show(part);
      },
    }),
  ];
}

function partInView(): Uri | undefined {
  const documents = [window.activeTextEditor, ...window.visibleTextEditors].map((e) => e?.document);
  return documents.find((d) => d?.languageId === 'scribeline-part')?.uri;
}
