/**
 * The findings of what is not open: one document after the other, in slices, and only where something changed. What is
 * held of each is its answer, no model. A request that finds nothing new waits until something is.
 */
import {
  DocumentDiagnosticReportKind,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { areSame } from '../memo';
import type { OnGone } from '../service/asker';
import { diagnosticsOf } from '../service/diagnostics';
import { kindOf } from '../service/documents';
import type { JudgeSoon } from '../service/judge-soon';
import type { Diagnostic } from '../service/shapes';
import type { Workspace } from '../service/workspace';

/** The session, as far as it is asked here. */
interface Watched {
  readonly workspace: Workspace;
  readonly judge: JudgeSoon;
  readonly options: { readonly pagesUri?: string };
  readonly changes: number;
  answers: number;
  changeSince(changes: number, onGone: OnGone): Promise<void>;
}

/** What was answered of a document, and the texts that it turned on. */
interface Answer {
  readonly id: string;
  readonly turnsOn: readonly string[];
  readonly items: Diagnostic[];
}

/** Every document there is, with its text. */
interface World {
  readonly texts: ReadonlyMap<string, string>;
  /** Of shops: what every part turns on. */
  readonly shops: readonly string[];
  readonly all: readonly string[];
}

export class AllFindings {
  readonly #session: Watched;
  readonly #answers = new Map<string, Answer>();

  constructor(session: Watched) {
    this.#session = session;
  }

  async report(asked: WorkspaceDiagnosticParams, onGone: OnGone): Promise<WorkspaceDiagnosticReport> {
    const told = new Map((asked.previousResultIds ?? []).map(({ uri, value }) => [uri, value]));
    let isGone = false;
    onGone(() => {
      isGone = true;
    });
    for (;;) {
      const { changes } = this.#session;
      const items = await this.#news(told, () => isGone);
      if (items.length > 0 || isGone || told.size === 0) return { items };
      await this.#session.changeSince(changes, onGone);
    }
  }

  /** What differs from what the editor was told. */
  async #news(told: ReadonlyMap<string, string>, isGone: () => boolean): Promise<WorkspaceDocumentDiagnosticReport[]> {
    const { workspace } = this.#session;
    const news: WorkspaceDocumentDiagnosticReport[] = [];
    const world = await this.#world();
    const names = new Set<string>();
    for (const [path, text] of world.texts) {
      const uri = workspace.name(path);
      names.add(uri);
      // An open one is told of by itself.
      if (workspace.isOpen(uri)) continue;
      const answer = await this.#answer(uri, [text, ...(kindOf(path) === 'part' ? world.shops : world.all)]);
      if (isGone()) return [];
      if (answer && answer.id !== told.get(uri)) news.push(full(uri, answer.items, answer.id));
    }
    for (const uri of told.keys()) {
      if (names.has(uri)) continue;
      this.#answers.delete(uri);
      news.push(full(uri, []));
    }
    return news;
  }

  async #world(): Promise<World> {
    const { workspace } = this.#session;
    const texts = new Map<string, string>();
    for (const path of await workspace.paths()) {
      const text = await workspace.text(path);
      if (text !== undefined) texts.set(path, text);
    }
    const all = [...texts].flat();
    return { texts, all, shops: [...texts].filter(([path]) => kindOf(path) === 'shop').flat() };
  }

  async #answer(uri: string, turnsOn: readonly string[]): Promise<Answer | undefined> {
    const { workspace, judge, options } = this.#session;
    const known = this.#answers.get(uri);
    if (known && areSame(known.turnsOn, turnsOn)) return known;
    const read = await workspace.snapshot(uri);
    if (!read) return undefined;
    const isJudged = read.kind !== 'part' || (await judge.whole(read));
    // What its jobs say of a part stands at the job's joints; here it would turn on every other part.
    const items = isJudged
      ? diagnosticsOf(read.kind === 'part' ? judge.view(read) : read, options.pagesUri)
      : undefined;
    if (!workspace.isOpen(uri)) {
      judge.forget(uri);
      workspace.leave(uri);
    }
    if (!items) return known;
    const isSame = known !== undefined && JSON.stringify(known.items) === JSON.stringify(items);
    const answer = { id: isSame ? known.id : String(++this.#session.answers), turnsOn, items };
    this.#answers.set(uri, answer);
    return answer;
  }
}

function full(uri: string, items: Diagnostic[], resultId?: string): WorkspaceDocumentDiagnosticReport {
  return { kind: DocumentDiagnosticReportKind.Full, uri, version: null, items, ...(resultId && { resultId }) };
}
