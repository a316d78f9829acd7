/** Opening the part view, and bringing it back after the window was loaded again. There is one panel. */
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
import { uriFrom } from '../../view/messages';
import { inform } from '../notices';
import type { ServerLink } from '../server-link';
import { PartView, VIEW_TYPE } from './panel';

export function registerPartView(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  let view: PartView | undefined;
  const adopt = (panel: WebviewPanel): PartView => {
    const made = new PartView(panel, context, link, log);
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
    const shown =
      view ??
      adopt(
        window.createWebviewPanel(
          VIEW_TYPE,
          'Part view',
          { viewColumn: ViewColumn.Beside, preserveFocus: true },
          { retainContextWhenHidden: true },
        ),
      );
    shown.show(part);
    shown.reveal();
  };
  return [
    commands.registerCommand('scribeline.showPartView', open),
    window.registerWebviewPanelSerializer(VIEW_TYPE, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const made = adopt(panel);
        const kept = uriFrom(state);
        const part = partInView() ?? (kept === undefined ? undefined : Uri.parse(kept));
        if (part) made.show(part);
      },
    }),
  ];
}

function partInView(): Uri | undefined {
  const documents = [window.activeTextEditor, ...window.visibleTextEditors].map((e) => e?.document);
  return documents.find((d) => d?.languageId === 'scribeline-part')?.uri;
}
