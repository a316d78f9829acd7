/**
 * The part view's panel: one, beside the text, that follows the part being worked on. Asks the server for a picture after
 * each edit, the latest only; turns presses on faces into selections, and the cursor into lit faces.
 */
import {
  languages,
  Range,
  Selection,
  type TextEditor,
  TextEditorRevealType,
  type Uri,
  ViewColumn,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import { bytesOf } from '../../../server/src/geometry/mesh/base64';
import type { ExportAnswer } from '../../../server/src/service/export-protocol';
import { type HeldPicture, heldAfter } from '../../../server/src/service/view/held';
import type {
  Measured,
  MeasureRequest,
  Moment,
  PictureRequest,
  PictureSizes,
  ToldPicture,
  TypedAnswer,
} from '../../../server/src/service/view/protocol';
import { PART_BODY } from '../../view/body';
import { fromPanel, type ToHost, type ToPanel } from '../../view/messages';
import { NO_PART } from '../beside/older';
import { BesidePanel, type PanelParts } from '../beside/panel';
import { nonce } from '../nonce';
import { pageOf } from './page';

export const VIEW_TYPE = 'scribeline.partView';
/** The names of the requests; `server/src/service/view/protocol.ts` has the same. */
const PICTURE = 'scribeline/picture';
const MEASURE = 'scribeline/measure';
const SIZES = 'scribeline/sizes';
const TYPED = 'scribeline/typed';
const EXPORT = 'scribeline/export';
/** After the last key, so that a burst of typing asks once. */
const QUIET_MS = 5;

export class PartView extends BesidePanel {
  #moment: Moment | undefined;
  /** The set-ups are the plan's. */
  #planned = false;
  /** What the page was told last, and holds. */
  #held: HeldPicture<null> | undefined;
  /**
   * What was selected from here, the latest last: none of it need come back as the cursor's choice. The editor tells of
   * each, and of one selected before may tell only after the next was.
   */
  #revealed: Selection[] = [];

  constructor(parts: PanelParts) {
    super(parts, { name: 'part view', quietMs: QUIET_MS, language: 'scribeline-part' });
    const { webview } = parts.panel;
    this.owned.push(
      webview.onDidReceiveMessage((message: unknown) => this.#heard(fromPanel(message))),
      window.onDidChangeTextEditorSelection(({ textEditor }) => this.#cursor(textEditor)),
      // A picture is told with what was found by then; what takes longer is marked when it is found.
      languages.onDidChangeDiagnostics(({ uris }) => {
        if (uris.some((uri) => uri.toString() === this.uri?.toString())) this.soon();
      }),
    );
    webview.html = pageOf({
      title: 'Part view',
      body: PART_BODY,
      script: PartView.file(parts, 'view.js'),
      style: PartView.file(parts, 'view.css'),
      cspSource: webview.cspSource,
      nonce: nonce(),
    });
  }

  protected get hasShown(): boolean {
    return this.#held !== undefined;
  }

  protected forget(): void {
    this.#moment = undefined;
    this.#planned = false;
    this.#held = undefined;
  }

  /** Shows a set-up of the plan, to be stepped through. */
  stepThroughPlan(setup: number): void {
    this.#planned = true;
    this.#moment = { setup, when: 'before' };
    this.soon();
  }

  protected older(why: string): void {
    this.#tell({ type: 'stale', why });
  }

  protected async ask(uri: Uri): Promise<() => void> {
    const request: PictureRequest = {
      uri: uri.toString(),
      ...(this.#moment && { moment: this.#moment }),
      ...(this.#planned && { planned: true }),
      held: this.#held?.id ?? '',
    };
    const told = await this.link.request<ToldPicture | null>(PICTURE, request);
    return () => this.#answered(told);
  }

  #answered(told: ToldPicture | null): void {
    if (told) {
      this.#held = heldAfter(told, this.#held, () => null);
      // An answer that came too late may be told by one that is held no more.
      if (!this.#held) {
        this.soon();
        return;
      }
      this.#tell({ type: 'told', told });
      this.#cursor(this.#editor());
    } else if (this.#moment || this.#planned) {
      // The set-up that was shown is gone, or there is no plan.
      this.#moment = undefined;
      this.#planned = false;
      this.soon();
    } else this.older(NO_PART);
  }

  #heard(message: ToHost | undefined): void {
    switch (message?.type) {
      case 'ready':
        this.isReady = true;
        // The page holds nothing, or not what it was told by.
        this.#held = undefined;
        this.soon();
        return;
      case 'reveal': {
        const { start, end } = message.range;
        void this.#select(new Range(start.line, start.character, end.line, end.character));
        return;
      }
      case 'moment':
        this.#moment = message.moment;
        this.#planned = message.planned === true;
        void this.now();
        return;
      case 'measure':
        void this.#measure(message);
        return;
      case 'sizes':
        void this.#ask<PictureSizes | null>(SIZES, { feature: message.feature }).then(
          (sizes) => sizes !== undefined && this.#tell({ type: 'sizes', sizes }),
        );
        return;
      case 'typed':
        void this.#typed(message);
        return;
      case 'drawing':
        void this.#drawing();
        return;
      // Of comparisons.
      case 'open':
      case 'back':
        return;
      case 'drawn':
        this.log.debug(`part view: ${message.triangles} triangles drawn in ${message.ms.toFixed(1)} ms`);
        return;
      default:
        message satisfies undefined;
    }
  }

  /** Undefined where there is no answer: what is shown stays. */
  async #ask<T>(request: string, more: object): Promise<T | undefined> {
    if (!this.uri) return undefined;
    try {
      return await this.link.request<T>(request, { uri: this.uri.toString(), ...more });
    } catch (error) {
      this.log.debug(`part view: ${String(error)}`);
      return undefined;
    }
  }

  /** Written into the text, as if typed there: it can be undone. */
  async #typed({ type: _, ...typed }: Extract<ToHost, { type: 'typed' }>): Promise<void> {
    const answer = await this.#ask<TypedAnswer | null>(TYPED, typed);
    const document = workspace.textDocuments.find((d) => this.isShown(d));
    if (!answer || !document || !this.uri) return;
    if ('why' in answer) return this.#refuse(answer.why);
    // The edit is for one version of the text, and for no other.
    if (document.version !== answer.version) return this.#refuse('The text was changed meanwhile: type it again.');
    const { start, end } = answer.range;
    const edit = new WorkspaceEdit();
    edit.replace(this.uri, new Range(start.line, start.character, end.line, end.character), answer.newText);
    if (!(await workspace.applyEdit(edit))) this.#refuse('The editor did not take the change.');
  }

  #refuse(why: string): void {
    this.#tell({ type: 'refused', why });
  }

  /** For a page that cannot draw: the part's drawing. */
  async #drawing(): Promise<void> {
    const answer = await this.#ask<ExportAnswer>(EXPORT, { name: 'drawing.svg', drawing: true });
    if (answer && 'base64' in answer)
      this.#tell({ type: 'drawing', svg: new TextDecoder().decode(bytesOf(answer.base64)) });
    else if (answer) this.#refuse(answer.trouble);
  }

  async #measure({ type: _, ...touched }: Extract<ToHost, { type: 'measure' }>): Promise<void> {
    if (!this.uri) return;
    const { moment, planned } = this.#held?.picture ?? {};
    const request: MeasureRequest = {
      uri: this.uri.toString(),
      ...touched,
      ...(moment && { moment }),
      ...(planned && { planned }),
    };
    try {
      this.#tell({ type: 'measured', measured: await this.link.request<Measured | null>(MEASURE, request) });
    } catch (error) {
      this.log.debug(`part view: ${String(error)}`);
      this.#tell({ type: 'measured', measured: null });
    }
  }

  async #select(range: Range): Promise<void> {
    if (!this.uri) return;
    const shown = this.#editor();
    const document = shown?.document ?? (await workspace.openTextDocument(this.uri));
    const editor = await window.showTextDocument(document, {
      viewColumn: shown?.viewColumn ?? ViewColumn.One,
      preserveFocus: true,
    });
    const selection = new Selection(range.start, range.end);
    this.#revealed.push(selection);
    editor.selection = selection;
    editor.revealRange(range, TextEditorRevealType.InCenterIfOutsideViewport);
  }

  #editor(): TextEditor | undefined {
    return window.visibleTextEditors.find((e) => this.isShown(e.document));
  }

  #cursor(editor: TextEditor | undefined): void {
    if (!editor || !this.isShown(editor.document) || !this.#held) return;
    const from = this.#revealed.findIndex((r) => r.isEqual(editor.selection));
    this.#revealed = from < 0 ? [] : this.#revealed.slice(from);
    if (from >= 0) return;
    const { line } = editor.selection.active;
    const feature = this.#held.picture.features.find((f) => f.range.start.line <= line && line <= f.range.end.line);
    this.#tell(feature ? { type: 'cursor', feature: feature.name } : { type: 'cursor' });
  }

  #tell(message: ToPanel): void {
    void this.panel.webview.postMessage(message);
  }
}
