/** The job beside its text: asked for after each edit of the job, its parts and their shop; what is under way can be left. */
import { CancellationTokenSource, commands, type TextDocument, Uri, ViewColumn, window } from 'vscode';
import type { JobAnswer } from '../../../server/src/service/job/protocol';
import { fromJob, type ToJob } from '../../view/job-messages';
import { BesidePanel, type PanelParts } from '../beside/panel';
import { isOurs } from '../documents';
import { nonce } from '../nonce';
import { pageOf } from './page';
import { jobRequest } from './request';

export const JOB_VIEW = 'scribeline.job';
/** A job takes longer than a picture: a burst of edits is waited for. */
const QUIET_MS = 600;

const LEFT = 'It was left half-way: what is shown is older.';

export class JobPanel extends BesidePanel {
  protected hasShown = false;
  #underWay: CancellationTokenSource | undefined;

  constructor(parts: PanelParts) {
    super(parts, { name: 'job', quietMs: QUIET_MS, language: 'scribeline-job' });
    const { webview } = parts.panel;
    this.owned.push(webview.onDidReceiveMessage((message: unknown) => this.#heard(message)));
    webview.html = pageOf({
      script: JobPanel.file(parts, 'job.js'),
      style: JobPanel.file(parts, 'job.css'),
      cspSource: webview.cspSource,
      nonce: nonce(),
    });
  }

  override dispose(): void {
    this.#underWay?.cancel();
    super.dispose();
  }

  /** Its parts and their shops change it as well. */
  protected override turnsOn(document: TextDocument): boolean {
    return isOurs(document.languageId);
  }

  protected async ask(uri: Uri): Promise<() => void> {
    // Only the latest is worked out.
    this.#underWay?.cancel();
    const source = new CancellationTokenSource();
    this.#underWay = source;
    this.#tell({ type: 'progress', done: 0, of: 1, what: '' });
    try {
      const answer = await jobRequest(this.link, {
        uri,
        as: 'view',
        token: source.token,
        heard: (progress) => this.#underWay === source && this.#tell({ type: 'progress', ...progress }),
      });
      return () => this.#answered(answer);
    } finally {
      if (this.#underWay === source) {
        this.#underWay = undefined;
        this.#tell({ type: 'rests' });
      }
    }
  }

  protected forget(): void {
    this.hasShown = false;
    this.#tell({ type: 'empty' });
  }

  protected older(why: string): void {
    this.#tell({ type: 'older', why });
  }

  #answered(answer: JobAnswer | null): void {
    if (answer && 'view' in answer) {
      this.hasShown = true;
      this.#tell({ type: 'job', view: answer.view });
    } else this.older(answer && 'trouble' in answer ? answer.trouble : 'The text makes no job just now.');
  }

  #heard(message: unknown): void {
    const heard = fromJob(message);
    switch (heard?.type) {
      case 'ready':
        this.isReady = true;
        this.soon();
        return;
      case 'cancel':
        this.#underWay?.cancel();
        this.#tell({ type: 'left', why: LEFT });
        return;
      case 'again':
        this.soon();
        return;
      case 'print':
        void commands.executeCommand('scribeline.printJob', this.uri);
        return;
      case 'sheet':
        void commands.executeCommand('scribeline.showSheet', Uri.parse(heard.uri));
        return;
      case 'open':
        void window.showTextDocument(Uri.parse(heard.uri), { viewColumn: ViewColumn.One });
        return;
      default:
        heard satisfies undefined;
    }
  }

  #tell(message: ToJob): void {
    void this.panel.webview.postMessage(message);
  }
}
