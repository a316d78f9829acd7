/** Opening a panel beside the text, and bringing it back after the window was loaded again. There is one of each kind. */
import { type Disposable, Uri, ViewColumn, type WebviewPanel, window } from 'vscode';
import { inform } from '../notices';
import type { BesidePanel } from './panel';

interface Single<P extends BesidePanel> {
  /** Shows a part, or the one in view. */
  open(uri?: unknown): void;
  readonly current: P | undefined;
  /** Brings it back; to be disposed of. */
  readonly serializer: Disposable;
}

/** `keptIn`: the part that a panel's saved state names, where it names one. */
export function singlePanel<P extends BesidePanel>(
  type: string,
  title: string,
  make: (panel: WebviewPanel) => P,
  keptIn: (state: unknown) => string | undefined = () => undefined,
): Single<P> {
  let current: P | undefined;
  const adopt = (panel: WebviewPanel): P => {
    const made = make(panel);
    current = made;
    panel.onDidDispose(() => {
      made.dispose();
      if (current === made) current = undefined;
    });
    return made;
  };
  return {
    open(uri) {
      const part = uri instanceof Uri ? uri : partInView();
      if (!part) {
        void inform('Open a part file first.');
        return;
      }
      const beside = { viewColumn: ViewColumn.Beside, preserveFocus: true };
      const shown = current ?? adopt(window.createWebviewPanel(type, title, beside, { retainContextWhenHidden: true }));
      shown.show(part);
      shown.reveal();
    },
    get current() {
      return current;
    },
    serializer: window.registerWebviewPanelSerializer(type, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const made = adopt(panel);
        const kept = keptIn(state);
        const part = partInView() ?? (kept === undefined ? undefined : Uri.parse(kept));
        if (part) made.show(part);
      },
    }),
  };
}

export function partInView(): Uri | undefined {
  const documents = [window.activeTextEditor, ...window.visibleTextEditors].map((e) => e?.document);
  return documents.find((d) => d?.languageId === 'scribeline-part')?.uri;
}
