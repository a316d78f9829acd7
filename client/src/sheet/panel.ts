/** The sheet beside the text: one panel that follows the part being worked on, and asks for its pages after each edit. */
import { randomBytes } from 'node:crypto';
import {
  type Disposable,
  type ExtensionContext,
  type LogOutputChannel,
  type TextDocument,
  type TextEditor,
  Uri,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { SheetAnswer } from '../../../server/src/service/sheet-protocol';
import { label } from '../../../server/src/text/shown';
import { NO_PART, NO_SERVER, pictureTrouble } from '../part-view/older';
import type { ServerLink } from '../server-link';
import { pageOf } from './page';
import { sheetRequest } from './request';

export const SHEET_VIEW = 'scribeline.sheet';
/** After the last key: pages take longer than a picture. */
const QUIET_MS = 200;

export class SheetPanel implements Disposable {
  readonly #panel: WebviewPanel;
  readonly #link: ServerLink;
  readonly #log: LogOutputChannel;
  readonly #owned: Disposable[] = [];
  #uri: Uri | undefined;
  #timer: NodeJS.Timeout | undefined;
  #asked = 0;
  #ready = false;
  #shown = false;

  constructor(panel: WebviewPanel, context: ExtensionContext, link: ServerLink, log: LogOutputChannel) {
    this.#panel = panel;
    this.#link = link;
    this.#log = log;
    const { webview } = panel;
    webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(context.extensionUri, 'dist')] };
    const file = (...name: string[]) =>
      webview.asWebviewUri(Uri.joinPath(context.extensionUri, 'dist', ...name)).toString();
    this.#owned.push(
      webview.onDidReceiveMessage(() => {
        this.#ready = true;
        this.#soon();
      }),
      workspace.onDidChangeTextDocument(({ document }) => this.#isShown(document) && this.#soon()),
      workspace.onDidSaveTextDocument((document) => document.languageId === 'scribeline-shop' && this.#soon()),
      workspace.onDidChangeConfiguration((change) => change.affectsConfiguration('scribeline.sheet') && this.#soon()),
      window.onDidChangeActiveTextEditor((editor) => this.#follow(editor)),
      link.onStateChanged((state) => {
        if (state === 'running') this.#soon();
        else this.#older(NO_SERVER);
      }),
    );
    webview.html = pageOf({
      script: file('sheet.js'),
      plain: file('fonts', 'DejaVuSansCondensed.ttf'),
      bold: file('fonts', 'DejaVuSansCondensed-Bold.ttf'),
      cspSource: webview.cspSource,
      nonce: randomBytes(16).toString('hex'),
    });
  }

  get uri(): Uri | undefined {
    return this.#uri;
  }

  show(uri: Uri): void {
    if (this.#uri?.toString() !== uri.toString()) this.#shown = false;
    this.#uri = uri;
    const file = uri.path.slice(uri.path.lastIndexOf('/') + 1);
    this.#panel.title = label(`${file.replace(/\.part\.ya?ml$/, '')} (sheet)`);
    this.#soon();
  }

  reveal(): void {
    this.#panel.reveal(undefined, true);
  }

  dispose(): void {
    clearTimeout(this.#timer);
    for (const d of this.#owned) d.dispose();
  }

  #isShown(document: TextDocument): boolean {
    return document.uri.toString() === this.#uri?.toString();
  }

  #follow(editor: TextEditor | undefined): void {
    if (editor?.document.languageId === 'scribeline-part' && !this.#isShown(editor.document))
      this.show(editor.document.uri);
  }

  #soon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#ask(), QUIET_MS);
  }

  async #ask(): Promise<void> {
    if (!this.#uri || !this.#ready) return;
    const asked = ++this.#asked;
    try {
      const answer = await sheetRequest(this.#link, this.#uri, 'svg');
      if (asked === this.#asked) this.#told(answer);
    } catch (error) {
      // Overtaken by a later edit: that one is asked for.
      if (asked !== this.#asked) return;
      this.#log.debug(`sheet: ${String(error)}`);
      const why = this.#link.state === 'running' ? pictureTrouble(error, this.#shown) : NO_SERVER;
      if (why !== undefined) this.#older(why);
    }
  }

  #told(answer: SheetAnswer | null): void {
    if (!answer) this.#older(NO_PART);
    else if ('trouble' in answer) this.#older(answer.trouble);
    else {
      this.#shown = true;
      void this.#panel.webview.postMessage({ type: 'pages', pages: answer.data ?? [], why: answer.notes.join(' ') });
    }
  }

  #older(why: string): void {
    void this.#panel.webview.postMessage({ type: 'older', why });
  }
}
