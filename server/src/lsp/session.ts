/**
 * What the answers of one connection share: the texts that are open, what is known of them by now, and what the editor can
 * do. Nobody waits for judging: a request is answered from what is read of the text and known of it by then. What takes
 * longer than a slice of time is worked out in slices or in the thread beside, and a request that is called off is left.
 */
import {
  type CancellationToken,
  CodeLensRefreshRequest,
  type Connection,
  LSPErrorCodes,
  ResponseError,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { Asker, type OnGone } from '../service/asker';
import type { Host } from '../service/host';
import { JointsSoon } from '../service/joints-soon';
import { JudgeSoon } from '../service/judge-soon';
import { Pace } from '../service/pace';
import { PlanSoon } from '../service/plan/scheduler';
import { Resting } from '../service/resting';
import type { PartSnapshot, Snapshot } from '../service/snapshot';
import { Pictures } from '../service/view/pictures';
import { Workspace } from '../service/workspace';
import type { Writing } from '../service/writing';
import { AllFindings } from './all-findings';

/** What was changed is looked at when nothing more was for so long, ms. */
const QUIET_MS = 1500;

export interface Options {
  /** The folder of the rules' pages, as a URI. */
  readonly pagesUri?: string;
  /** A shop file to judge every part by. */
  readonly shop?: string;
}

/** The last answer about a document, so that an unchanged one is said in a word. */
interface LastFindings {
  readonly id: string;
  readonly findings: readonly unknown[];
  readonly lines: unknown;
}

export class Session {
  readonly documents = new TextDocuments(TextDocument);
  readonly pace: Pace;
  readonly judge: JudgeSoon;
  readonly soon: PlanSoon;
  readonly joints: JointsSoon;
  readonly asker: Asker;
  readonly pictures: Pictures | undefined;
  readonly resting: Resting;
  readonly answered = new Map<string, LastFindings>();
  /** The last tokens of a document, so that only what changed is told. */
  readonly tokens = new Map<string, { readonly id: string; readonly data: readonly number[] }>();
  readonly all: AllFindings;
  /** So many answers were given that the next one may be told by. */
  answers = 0;
  /** So often a document or a file was changed. */
  changes = 0;
  workspace: Workspace;
  options: Options = {};
  roots: readonly string[] = [];
  can = { watch: false, refresh: false, refreshLenses: false, followFolders: false, snippets: false, resolve: false };
  /** Leaves what is worked out for the last hover. */
  leaveHover = () => {};

  constructor(
    readonly connection: Connection,
    readonly host: Host,
    readonly version: string,
  ) {
    this.pace = new Pace(host.pause?.bind(host), host.later?.bind(host));
    this.workspace = new Workspace(host, { pace: this.pace });
    this.judge = new JudgeSoon(this.pace, host.aside, () => this.refresh());
    this.joints = new JointsSoon(
      (path) => this.workspace.jobsOf(path),
      this.pace,
      () => this.refresh(),
    );
    this.soon = new PlanSoon(host, () => {
      this.refresh();
      if (this.can.refreshLenses) void connection.sendRequest(CodeLensRefreshRequest.type);
    });
    this.asker = new Asker(this.pace, host.aside);
    this.all = new AllFindings(this);
    const { meshes } = host;
    this.pictures =
      meshes &&
      new Pictures(
        {
          make: (order) => this.pace.first(meshes.make(order)),
          differing: (before, after) => meshes.differing(before, after),
        },
        this.asker,
      );
    this.resting = new Resting(this);
  }

  /** A document or a file was changed: whoever waits for that goes on after a quiet moment. */
  changed(): void {
    this.changes++;
    this.#leaveQuiet();
    const tell = () => {
      for (const wake of this.#waiting.splice(0)) wake();
    };
    this.#leaveQuiet = this.host.later?.(QUIET_MS, tell) ?? (() => {});
    if (!this.host.later) tell();
  }
  #leaveQuiet = () => {};
  readonly #waiting: (() => void)[] = [];

  /** Resolves when something was changed since `changes` was read, or nobody waits for it any more. */
  changeSince(changes: number, onGone: OnGone): Promise<void> {
    if (changes !== this.changes) return Promise.resolve();
    return new Promise((resolve) => {
      this.#waiting.push(resolve);
      onGone(resolve);
    });
  }

  /** What is seldom asked for lies beside the server, and is loaded then. */
  async writing(): Promise<Writing> {
    return (await import('../service/writing')).WRITING;
  }

  /** Findings may have changed: an editor that can is asked to ask again. */
  refresh(): void {
    if (this.can.refresh) void this.connection.languages.diagnostics.refresh();
  }

  /** The answer, or at once that the request was called off. */
  unlessCancelled<T>(token: CancellationToken, answer: (onGone: OnGone) => T | Promise<T>): Promise<T> {
    this.pace.begin();
    return new Promise<T>((resolve, reject) => {
      const leave = () => reject(new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was called off.'));
      if (token.isCancellationRequested) return leave();
      const watch = token.onCancellationRequested(leave);
      // A failure before the first pause is one of the answer too.
      const begun = async () => answer((left) => void token.onCancellationRequested(left));
      begun()
        .then(resolve, reject)
        .finally(() => watch.dispose());
    });
  }

  /** Answers from the document as it is now, or with `none` where there is no such document. */
  async on<T>(uri: string, none: T, answer: (snapshot: Snapshot) => T | Promise<T>): Promise<T> {
    const snapshot = await this.workspace.snapshot(uri);
    return snapshot ? answer(snapshot) : none;
  }

  /** With what is found of it by now. */
  soFar<S extends Snapshot>(snapshot: S): S | PartSnapshot {
    return snapshot.kind === 'part' ? this.joints.with(this.soon.withKnown(this.judge.view(snapshot))) : snapshot;
  }

  /** With what is judged of it by now; what the planner finds follows after a quiet moment. */
  judged(part: PartSnapshot): PartSnapshot {
    return this.joints.with(this.soon.with(this.judge.view(part)));
  }

  /** What comes of it, or undefined where that takes longer. */
  atMost<T>(ms: number, answer: Promise<T>): Promise<T | undefined> {
    const { later } = this.host;
    if (!later) return answer;
    return new Promise((resolve, reject) => {
      const leave = later(ms, () => resolve(undefined));
      answer.then(resolve, reject).finally(leave);
    });
  }

  versionOf(uri: string): number | undefined {
    return this.documents.get(uri)?.version;
  }
}
