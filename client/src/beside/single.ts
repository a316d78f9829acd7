/** Opening a panel beside the text, and bringing it back after the window was loaded again. There is one of each kind. */
import { type Disposable, Uri, ViewColumn, type WebviewPanel, window } from 'vscode';
import { inform } from '../notices';
import type { BesidePanel, PanelKind } from './panel';

interface Single<P extends BesidePanel> {
  /** Shows a document, or the one in view. */
  open(uri?: unknown): void;
  readonly current: P | undefined;
  /** Brings it back; to be disposed of. */
  readonly serializer: Disposable;
}

interface SingleKind<P> {
  readonly type: string;
  readonly title: string;
  /** What kind of document it is opened for. */
  readonly language: PanelKind['language'];
  readonly make: (panel: WebviewPanel) => P;
  /** The document that a panel's saved state names, where it names one. */
  readonly keptIn?: (state: unknown) => string | undefined;
}

export function singlePanel<P extends BesidePanel>(kind: SingleKind<P>): Single<P> {
  const { type, title, language, make, keptIn = () => undefined } = kind;
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
      const part = uri instanceof Uri ? uri : inView(language);
      if (!part) {
        void inform(language === 'scribeline-job' ? 'Open a job file first.' : 'Open a part file first.');
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
        const part = inView(language) ?? (kept === undefined ? undefined : Uri.parse(kept));
        if (part) made.show(part);
      },
    }),
  };
}

export function inView(
  language: PanelKind['language'] | readonly PanelKind['language'][] = 'scribeline-part',
): Uri | undefined {
  const documents = [window.activeTextEditor, ...window.visibleTextEditors].map((e) => e?.document);
  return documents.find((d) => [language].flat().some((l) => l === d?.languageId))?.uri;
}
