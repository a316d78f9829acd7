/**
 * The part view's panel: one, beside the text, that follows the part being worked on. Asks the server for a picture after
 * each edit, the latest only; turns presses on faces into selections, and the cursor into lit faces.
 */
import { randomBytes } from 'node:crypto';
import {
  type Disposable,
  type ExtensionContext,
  type LogOutputChannel,
  Range,
  Selection,
  type TextDocument,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type {
  Measured,
  MeasureRequest,
  Moment,
  PartPicture,
  PictureRequest,
} from '../../../server/src/service/view/protocol';
import { label } from '../../../server/src/text/shown';
import { fromPanel, type ToHost, type ToPanel } from '../../view/messages';
import type { ServerLink } from '../server-link';
import { NO_PART, NO_SERVER, pictureTrouble } from './older';
import { pageOf } from './page';

export const VIEW_TYPE = 'scribeline.partView';
/** The names of the requests; `server/src/service/view/protocol.ts` has the same. */
const PICTURE = 'scribeline/picture';
const MEASURE = 'scribeline/measure';
/** After the last key, so that a burst of typing asks once. */
const QUIET_MS = 5;

export class PartView implements Disposable {
  readonly #panel: WebviewPanel;
  readonly #link: ServerLink;
  readonly #log: LogOutputChannel;
  readonly #owned: Disposable[] = [];
  #uri: Uri | undefined;
  #moment: Moment | undefined;
  #picture: PartPicture | undefined;
  #timer: NodeJS.Timeout | undefined;
  #asked = 0;
  #ready = false;
  /** What was selected from here: it need not come back as the cursor's choice. */
  #revealed: Selection | undefined;

  constructor(panel: WebviewPanel, context: ExtensionContext, link: ServerLink, log: LogOutputChannel) {
    this.#panel = panel;
    this.#link = link;
    this.#log = log;
    const { webview } = panel;
    webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(context.extensionUri, 'dist')] };
    const file = (name: string) => webview.asWebviewUri(Uri.joinPath(context.extensionUri, 'dist', name)).toString();
    this.#owned.push(
      webview.onDidReceiveMessage((message: unknown) => this.#heard(fromPanel(message))),
      workspace.onDidChangeTextDocument(({ document }) => this.#isShown(document) && this.#soon()),
      workspace.onDidSaveTextDocument((document) => document.languageId === 'scribeline-shop' && this.#soon()),
      window.onDidChangeActiveTextEditor((editor) => this.#follow(editor)),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#cursor(textEditor)),
      link.onStateChanged((state) => {
        if (state === 'running') this.#soon();
        else this.#tell({ type: 'stale', why: NO_SERVER });
      }),
    );
    webview.html = pageOf({
      script: file('view.js'),
      style: file('view.css'),
      cspSource: webview.cspSource,
      nonce: randomBytes(16).toString('hex'),
    });
  }

  get uri(): Uri | undefined {
    return this.#uri;
  }

  show(uri: Uri): void {
    if (this.#uri?.toString() !== uri.toString()) {
      this.#moment = undefined;
      this.#picture = undefined;
    }
    this.#uri = uri;
    const file = uri.path.slice(uri.path.lastIndexOf('/') + 1);
    this.#panel.title = label(`${file.replace(/\.part\.ya?ml$/, '')} (part view)`);
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
    const uri = this.#uri;
    if (!uri || !this.#ready) return;
    const asked = ++this.#asked;
    const request: PictureRequest = { uri: uri.toString(), ...(this.#moment ? { moment: this.#moment } : {}) };
    try {
      const picture = await this.#link.request<PartPicture | null>(PICTURE, request);
      if (asked !== this.#asked) return;
      if (!picture) {
        if (this.#moment) {
          // The setup that was shown is gone.
          this.#moment = undefined;
          this.#soon();
          return;
        }
        this.#tell({ type: 'stale', why: NO_PART });
        return;
      }
      this.#picture = picture;
      this.#tell({ type: 'picture', picture });
      this.#cursor(this.#editor());
    } catch (error) {
      // Overtaken by a later edit: that one is asked for.
      if (asked !== this.#asked) return;
      this.#log.debug(`part view: ${String(error)}`);
      const why = this.#link.state === 'running' ? pictureTrouble(error, this.#picture !== undefined) : NO_SERVER;
      if (why !== undefined) this.#tell({ type: 'stale', why });
    }
  }

  #heard(message: ToHost | undefined): void {
    switch (message?.type) {
      case 'ready':
        this.#ready = true;
        this.#soon();
        return;
      case 'reveal': {
        const { start, end } = message.range;
        void this.#select(new Range(start.line, start.character, end.line, end.character));
        return;
      }
      case 'moment':
        this.#moment = message.moment;
        void this.#ask();
        return;
      case 'measure':
        void this.#measure(message);
        return;
      case 'drawn':
        this.#log.debug(`part view: ${message.triangles} triangles drawn in ${message.ms.toFixed(1)} ms`);
        return;
      default:
        message satisfies undefined;
    }
  }

  async #measure({ version, a, atA, b, atB }: Extract<ToHost, { type: 'measure' }>): Promise<void> {
    if (!this.#uri) return;
    const moment = this.#picture?.moment;
    const request: MeasureRequest = {
      uri: this.#uri.toString(),
      version,
      a,
      atA,
      b,
      atB,
      ...(moment ? { moment } : {}),
    };
    try {
      this.#tell({ type: 'measured', measured: await this.#link.request<Measured | null>(MEASURE, request) });
    } catch (error) {
      this.#log.debug(`part view: ${String(error)}`);
      this.#tell({ type: 'measured', measured: null });
    }
  }

  async #select(range: Range): Promise<void> {
    if (!this.#uri) return;
    const shown = this.#editor();
    const document = shown?.document ?? (await workspace.openTextDocument(this.#uri));
    const editor = await window.showTextDocument(document, {
      viewColumn: shown?.viewColumn ?? ViewColumn.One,
      preserveFocus: true,
    });
    this.#revealed = new Selection(range.start, range.end);
    editor.selection = this.#revealed;
    editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
  }

  #editor(): TextEditor | undefined {
    return window.visibleTextEditors.find((e) => this.#isShown(e.document));
  }

  #cursor(editor: TextEditor | undefined): void {
    if (!editor || !this.#isShown(editor.document) || !this.#picture) return;
    if (this.#revealed?.isEqual(editor.selection)) return;
    this.#revealed = undefined;
    const { line } = editor.selection.active;
    const feature = this.#picture.features.find((f) => f.range.start.line <= line && line <= f.range.end.line);
    this.#tell(feature ? { type: 'cursor', feature: feature.name } : { type: 'cursor' });
  }

  #tell(message: ToPanel): void {
    void this.#panel.webview.postMessage(message);
  }
}
