/** The sheet beside the text: pages of the part being worked on, asked for after each edit. */
import { type Uri, workspace } from 'vscode';
import { NO_PART } from '../beside/older';
import { BesidePanel, type PanelParts } from '../beside/panel';
import { nonce } from '../nonce';
import { pageOf } from './page';
import { sheetRequest } from './request';

export const SHEET_VIEW = 'scribeline.sheet';
/** Pages take longer than a picture. */
const QUIET_MS = 200;

export class SheetPanel extends BesidePanel {
  protected hasShown = false;

  constructor(parts: PanelParts) {
    super(parts, { name: 'sheet', quietMs: QUIET_MS, language: 'scribeline-part' });
    const { webview } = parts.panel;
    this.owned.push(
      webview.onDidReceiveMessage(() => {
        this.isReady = true;
        this.soon();
      }),
      workspace.onDidChangeConfiguration((change) => change.affectsConfiguration('scribeline.sheet') && this.soon()),
    );
    webview.html = pageOf({
      script: SheetPanel.file(parts, 'sheet.js'),
      plain: SheetPanel.file(parts, 'fonts', 'DejaVuSansCondensed.ttf'),
      bold: SheetPanel.file(parts, 'fonts', 'DejaVuSansCondensed-Bold.ttf'),
      cspSource: webview.cspSource,
      nonce: nonce(),
    });
  }

  protected async ask(uri: Uri): Promise<() => void> {
    const answer = await sheetRequest(this.link, uri, 'svg');
    return () => {
      if (!answer) this.older(NO_PART);
      else if ('trouble' in answer) this.older(answer.trouble);
      else {
        this.hasShown = true;
        void this.panel.webview.postMessage({ type: 'pages', pages: answer.data ?? [], why: answer.notes.join(' ') });
      }
    };
  }

  protected forget(): void {
    this.hasShown = false;
  }

  protected older(why: string): void {
    void this.panel.webview.postMessage({ type: 'older', why });
  }
}
