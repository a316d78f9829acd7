/**
 * Two revisions of a part or a job side by side: asked for again when a text of theirs is edited. Each change leads to its
 * line; a part of a job is compared by itself, and leads back.
 */
import {
  EventEmitter,
  Range,
  Selection,
  type TextDocument,
  type TextDocumentContentProvider,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  window,
  workspace,
} from 'vscode';
import { COMPARE, type CompareAnswer, type CompareParams } from '../../../server/src/service/compare-protocol';
import type { ComparedPicture, Side } from '../../../server/src/service/view/protocol';
import { COMPARE_BODY } from '../../view/body';
import { fromPanel, type ToPanel } from '../../view/messages';
import { BesidePanel, type PanelParts } from '../beside/panel';
import { nonce } from '../nonce';
import { pageOf } from '../part-view/page';
import type { Sides } from './sides';

export const COMPARE_VIEW = 'scribeline.compare';
/** The scheme of texts of old revisions: to be looked at, not to be edited. */
export const OLD_TEXT = 'scribeline-revision';
const QUIET_MS = 200;

/** Texts of revisions that were compared, by what they are shown under. */
export class OldTexts implements TextDocumentContentProvider {
  readonly #texts = new Map<string, string>();
  readonly #changed = new EventEmitter<Uri>();
  readonly onDidChange = this.#changed.event;

  provideTextDocumentContent(uri: Uri): string {
    return this.#texts.get(uri.toString()) ?? '';
  }

  keep(uri: Uri, text: string): void {
    if (this.#texts.get(uri.toString()) === text) return;
    this.#texts.set(uri.toString(), text);
    this.#changed.fire(uri);
  }
}

export class ComparePanel extends BesidePanel {
  protected hasShown = false;
  readonly #old: OldTexts;
  #sides: Sides | undefined;
  /** The job that a part was gone to from. */
  #job: Sides | undefined;
  /** What the page has, and of which two. */
  #shown: { readonly sides: Sides; readonly compared: ComparedPicture } | undefined;

  constructor(parts: PanelParts, old: OldTexts) {
    super(parts, { name: 'compared', quietMs: QUIET_MS, language: 'scribeline-part', stays: true });
    this.#old = old;
    const { webview } = parts.panel;
    this.owned.push(webview.onDidReceiveMessage((message: unknown) => this.#heard(message)));
    webview.html = pageOf({
      title: 'Compared',
      body: COMPARE_BODY,
      script: ComparePanel.file(parts, 'view.js'),
      style: ComparePanel.file(parts, 'view.css'),
      cspSource: webview.cspSource,
      nonce: nonce(),
    });
  }

  /** `job`: the comparison that this part is one of. */
  compare(sides: Sides, job?: Sides): void {
    this.#sides = sides;
    this.#job = job;
    this.forget();
    this.show(Uri.parse(sides.after.uri));
  }

  protected forget(): void {
    this.hasShown = false;
  }

  protected older(why: string): void {
    this.#tell({ type: 'stale', why });
  }

  protected override turnsOn(document: TextDocument): boolean {
    const uri = document.uri.toString();
    const shown = [this.#sides, ...(this.#shown?.compared.changes ?? []).map((c) => c.opens)];
    return shown.flatMap((s) => [s?.before, s?.after]).some((s) => s?.uri === uri && s.revision === undefined);
  }

  protected async ask(): Promise<() => void> {
    const sides = this.#sides;
    if (!sides) return () => {};
    const params: CompareParams = { ...sides, trusted: workspace.isTrusted };
    const answer = await this.link.request<CompareAnswer>(COMPARE, params);
    return () => {
      if ('trouble' in answer) {
        this.older(answer.trouble);
        return;
      }
      this.hasShown = true;
      for (const side of ['before', 'after'] as const) {
        const text = answer.texts[side]?.newText;
        if (text !== undefined) this.#old.keep(this.#place(sides[side]), text);
      }
      this.#shown = { sides, compared: answer.compared };
      this.#tell({ type: 'compared', compared: answer.compared, ...(this.#job && { isOfJob: true }) });
    };
  }

  #heard(given: unknown): void {
    const message = fromPanel(given);
    if (message?.type === 'ready') {
      this.isReady = true;
      this.soon();
    }
    if (message?.type === 'back' && this.#job) this.compare(this.#job);
    if (message?.type === 'open') {
      const opens = this.#shown?.compared.changes[message.change]?.opens;
      if (opens) this.compare(opens, this.#shown?.sides);
    }
    if (message?.type === 'reveal' && message.side) {
      const { start, end } = message.range;
      void this.#reveal(message.side, new Range(start.line, start.character, end.line, end.character));
    }
  }

  async #reveal(side: Side, range: Range): Promise<void> {
    const of = this.#sides?.[side];
    if (!of) return;
    const document = await workspace.openTextDocument(this.#place(of));
    const shown = window.visibleTextEditors.find((e) => e.document === document);
    const viewColumn = shown?.viewColumn ?? ViewColumn.One;
    const editor = await window.showTextDocument(document, { viewColumn, preserveFocus: true });
    editor.selection = new Selection(range.start, range.end);
    editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
  }

  /** The file as it is, or a text of its own for a revision. */
  #place({ uri, revision }: Sides['before']): Uri {
    const file = Uri.parse(uri);
    return revision === undefined ? file : file.with({ scheme: OLD_TEXT, query: revision });
  }

  #tell(message: ToPanel): void {
    void this.panel.webview.postMessage(message);
  }
}
