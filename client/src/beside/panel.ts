/**
 * A panel beside the text that follows the document being worked on: it asks the server anew after each edit, the latest
 * answer only, and says why where what it shows is older. What is asked for, and shown, is each panel's own.
 */
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
import { label } from '../../../server/src/text/shown';
import type { ServerLink } from '../server-link';
import { NO_SERVER, pictureTrouble } from './older';

/** What a panel is made from. */
export interface PanelParts {
  readonly panel: WebviewPanel;
  readonly context: ExtensionContext;
  readonly link: ServerLink;
  readonly log: LogOutputChannel;
}

/** What a panel is like. */
export interface PanelKind {
  /** Behind the document's name in the tab. */
  readonly name: string;
  /** After the last key, so that a burst of typing asks once. */
  readonly quietMs: number;
  /** What kind of document it follows. */
  readonly language: 'scribeline-part' | 'scribeline-job';
  /** It shows another document only when that is asked for. */
  readonly stays?: true;
}

export abstract class BesidePanel implements Disposable {
  protected readonly panel: WebviewPanel;
  protected readonly link: ServerLink;
  protected readonly log: LogOutputChannel;
  protected readonly owned: Disposable[] = [];
  /** The page is loaded and listens. */
  protected isReady = false;
  #uri: Uri | undefined;
  #timer: NodeJS.Timeout | undefined;
  #asked = 0;

  constructor(
    { panel, context, link, log }: PanelParts,
    private readonly kind: PanelKind,
  ) {
    this.panel = panel;
    this.link = link;
    this.log = log;
    panel.webview.options = { enableScripts: true, localResourceRoots: [Uri.joinPath(context.extensionUri, 'dist')] };
    this.owned.push(
      workspace.onDidChangeTextDocument(({ document }) => this.turnsOn(document) && this.soon()),
      workspace.onDidSaveTextDocument((document) => document.languageId === 'scribeline-shop' && this.soon()),
      window.onDidChangeActiveTextEditor((editor) => kind.stays || this.#follow(editor)),
      link.onStateChanged((state) => {
        if (state === 'running') this.soon();
        else this.older(NO_SERVER);
      }),
    );
  }

  get uri(): Uri | undefined {
    return this.#uri;
  }

  show(uri: Uri): void {
    if (this.#uri?.toString() !== uri.toString()) this.forget();
    this.#uri = uri;
    const file = uri.path.slice(uri.path.lastIndexOf('/') + 1);
    this.panel.title = label(`${file.replace(/\.(?:part|job)\.ya?ml$/, '')} (${this.kind.name})`);
    this.soon();
  }

  reveal(): void {
    this.panel.reveal(undefined, true);
  }

  dispose(): void {
    clearTimeout(this.#timer);
    for (const d of this.owned) d.dispose();
  }

  /** The server's answer, and what is to be done with it where no later one is asked for meanwhile. */
  protected abstract ask(uri: Uri): Promise<() => void>;
  /** What is shown is not that of the text. */
  protected abstract older(why: string): void;
  /** Another part is shown from now on. */
  protected abstract forget(): void;
  /** Something is shown that can be called older. */
  protected abstract readonly hasShown: boolean;

  /** The address of a file that comes with the extension, as the page may load it. */
  protected static file({ panel, context }: PanelParts, ...name: string[]): string {
    return panel.webview.asWebviewUri(Uri.joinPath(context.extensionUri, 'dist', ...name)).toString();
  }

  /** What is shown is another when this document is edited. */
  protected turnsOn(document: TextDocument): boolean {
    return this.isShown(document);
  }

  protected isShown(document: TextDocument): boolean {
    return document.uri.toString() === this.#uri?.toString();
  }

  protected soon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(), this.kind.quietMs);
  }

  protected async now(): Promise<void> {
    if (!this.#uri || !this.isReady) return;
    const asked = ++this.#asked;
    try {
      const tell = await this.ask(this.#uri);
      if (asked === this.#asked) tell();
    } catch (error) {
      // Overtaken by a later edit: that one is asked for.
      if (asked !== this.#asked) return;
      this.log.debug(`${this.kind.name}: ${String(error)}`);
      const why = this.link.state === 'running' ? pictureTrouble(error, this.hasShown) : NO_SERVER;
      if (why !== undefined) this.older(why);
    }
  }

  #follow(editor: TextEditor | undefined): void {
    if (this.kind.stays) return;
    if (editor?.document.languageId === this.kind.language && !this.isShown(editor.document))
      this.show(editor.document.uri);
  }
}
