/** The plan of a part beside its text: planned when it is asked for, not as one types; written and stepped through from here. */
import {
  CancellationTokenSource,
  commands,
  Range,
  type TextDocument,
  type Uri,
  WorkspaceEdit,
  workspace,
} from 'vscode';
import type { PlanAnswer, PlanParams, PlanProgress } from '../../../server/src/service/plan/answer';
import { fromPlan, type ToPlan } from '../../view/plan-messages';
import { BesidePanel, type PanelParts } from '../beside/panel';
import { nonce } from '../nonce';
import { warn } from '../notices';
import { pageOf } from './page';

export const PLAN_VIEW = 'scribeline.plan';
/** The name of the request; `server/src/service/plan/answer.ts` has the same. */
const PLAN = 'scribeline/plan';

const CHANGED = 'The text was changed since: plan it again.';
const LEFT = 'It was left half-way: plan it again.';
const NOTHING = 'This part cannot be planned: it has no body yet, or its shop has no vise.';

export class PlanPanel extends BesidePanel {
  #underWay: CancellationTokenSource | undefined;
  #answer: PlanAnswer | undefined;
  /** The text's version that the answer is of. */
  #version = -1;

  constructor(parts: PanelParts) {
    super(parts, { name: 'plan', quietMs: 0, language: 'scribeline-part', stays: true });
    const { webview } = parts.panel;
    this.owned.push(
      webview.onDidReceiveMessage((message: unknown) => this.#heard(message)),
      workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        if (contentChanges.length > 0 && this.isShown(document)) this.#changed(document);
      }),
    );
    webview.html = pageOf({
      script: PlanPanel.file(parts, 'plan.js'),
      styles: ['job.css', 'plan.css'].map((name) => PlanPanel.file(parts, name)),
      cspSource: webview.cspSource,
      nonce: nonce(),
    });
  }

  override dispose(): void {
    this.#underWay?.cancel();
    super.dispose();
  }

  protected get hasShown(): boolean {
    return this.#answer !== undefined;
  }

  /** It is planned again when somebody asks. */
  protected override turnsOn(): boolean {
    return false;
  }

  protected async ask(uri: Uri): Promise<() => void> {
    this.#underWay?.cancel();
    const source = new CancellationTokenSource();
    this.#underWay = source;
    const { version } = await workspace.openTextDocument(uri);
    const workDoneToken = nonce();
    const listening = this.link.onProgress<PlanProgress>(workDoneToken, (progress) => {
      if (this.#underWay === source) this.#tell({ type: 'progress', ...progress });
    });
    const params: PlanParams = { uri: uri.toString(), workDoneToken };
    this.#tell({ type: 'progress', done: 0, of: 2, what: '' });
    try {
      const answer = await this.link.request<PlanAnswer | null>(PLAN, params, source.token);
      return () => this.#answered(answer, version);
    } catch (failure) {
      // Called off: what is shown stays.
      if (!source.token.isCancellationRequested) throw failure;
      return () => {};
    } finally {
      listening.dispose();
      if (this.#underWay === source) {
        this.#underWay = undefined;
        this.#tell({ type: 'rests' });
      }
    }
  }

  protected forget(): void {
    this.#answer = undefined;
    this.#tell({ type: 'empty' });
  }

  protected older(why: string): void {
    this.#tell({ type: 'older', why });
  }

  #answered(answer: PlanAnswer | null, version: number): void {
    this.#answer = answer ?? undefined;
    this.#version = answer?.version ?? version;
    if (!answer) {
      this.older(NOTHING);
      return;
    }
    const { page, whole, refused } = answer;
    const part = this.uri?.path.slice(this.uri.path.lastIndexOf('/') + 1) ?? '';
    this.#tell({ type: 'plan', plan: { part, page, whole, ...(refused !== undefined && { refused }) } });
    const document = workspace.textDocuments.find((d) => this.isShown(d));
    if (document && document.version !== this.#version) this.older(CHANGED);
  }

  #changed(document: TextDocument): void {
    if (this.#answer && document.version !== this.#version) this.older(CHANGED);
  }

  #heard(message: unknown): void {
    const heard = fromPlan(message);
    switch (heard?.type) {
      case 'ready':
        this.isReady = true;
        this.soon();
        return;
      case 'again':
        this.soon();
        return;
      case 'cancel':
        this.#underWay?.cancel();
        this.older(LEFT);
        return;
      case 'write':
        void this.#write();
        return;
      case 'step':
        void commands.executeCommand('scribeline.stepThroughPlan', this.uri, heard.setup);
        return;
      default:
        heard satisfies undefined;
    }
  }

  async #write(): Promise<void> {
    const { uri } = this;
    const answer = this.#answer;
    if (!uri || !answer?.whole) return;
    const document = await workspace.openTextDocument(uri);
    // The edits are for one version of the text, and for no other.
    if (document.version !== this.#version) {
      this.older(CHANGED);
      return;
    }
    const edit = new WorkspaceEdit();
    for (const { range, newText } of answer.edits) {
      const { start, end } = range;
      const at = new Range(start.line, start.character, end.line, end.character);
      edit.replace(uri, document.validateRange(at), newText);
    }
    if (await workspace.applyEdit(edit)) this.#tell({ type: 'written' });
    else void warn('The set-ups were not written: the editor did not take the change.');
  }

  #tell(message: ToPlan): void {
    void this.panel.webview.postMessage(message);
  }
}
