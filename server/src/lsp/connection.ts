/**
 * The language server's wiring: which message is answered by which function of the service. Knows the protocol, not the
 * machine it runs on: `server.ts` hands in a connection and a host made of Node's own, a browser worker another.
 *
 * Nobody waits for judging: a request is answered from what is read of the text and known of it by then. What takes
 * longer than a slice of time is worked out in slices or in the thread beside, and a request that is called off is left.
 */
import {
  type CancellationToken,
  CodeLensRefreshRequest,
  type Connection,
  DidChangeWatchedFilesNotification,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  ErrorCodes,
  type Hover,
  type HoverParams,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { withoutItsShop } from '../model/unread-shop';
import { FACTS } from '../report/at-hand';
import { actionsOf, asOffered, FIX_ALL, wantsPlan } from '../service/actions';
import { BadRequest, exportParams, measureRequest, pictureRequest, Unanswered, uriOf } from '../service/asked';
import { Asker, type OnGone } from '../service/asker';
import { completionsAt } from '../service/completion';
import { diagnosticsOf } from '../service/diagnostics';
import { kindOf, kindOfLanguage } from '../service/documents';
import { behindDoor } from '../service/door';
import { exportOf, formatsOf } from '../service/export';
import { EXPORT, FORMATS } from '../service/export-protocol';
import type { Host } from '../service/host';
import { findingsAt, hoverAt } from '../service/hover';
import { inlaysOf } from '../service/inlays';
import { JudgeSoon } from '../service/judge-soon';
import { lensesOf } from '../service/lenses';
import { definitionAt, prepareRename, referencesAt, renameAt } from '../service/names';
import { foldsOf, symbolsOf } from '../service/outline';
import { Pace } from '../service/pace';
import { PLAN } from '../service/plan/answer';
import { PlanSoon } from '../service/plan/scheduler';
import type { PartSnapshot, Snapshot } from '../service/snapshot';
import { WATCHED } from '../service/texts';
import { Pictures, Superseded } from '../service/view/pictures';
import { MEASURE, PICTURE } from '../service/view/protocol';
import { Workspace } from '../service/workspace';
import { line } from '../text/shown';

interface Options {
  /** The folder of the rules' pages, as a URI. */
  readonly pagesUri?: string;
  /** A shop file to judge every part by. */
  readonly shop?: string;
}

/** After so long the first findings of a text just opened are told, where the editor can be asked to ask again, ms. */
const FIRST_MS = 30;
/** So long a hover may keep someone who points at a word waiting; then it is shown without its figures, ms. */
const HOVER_MS = 300;

export function listen(given: Connection, host: Host, version: string): void {
  const connection = behindDoor(given, (failure, params) => told(failure, params, host));
  new Server(connection, host, version).listen();
}

class Server {
  readonly #documents = new TextDocuments(TextDocument);
  readonly #pace: Pace;
  readonly #judge: JudgeSoon;
  readonly #soon: PlanSoon;
  readonly #asker: Asker;
  #workspace: Workspace;
  #options: Options = {};
  #roots: string[] = [];
  #can = { watch: false, refresh: false, refreshLenses: false, followFolders: false, snippets: false };
  /** The last answer of each document, so that an unchanged one is said in a word. */
  readonly #answered = new Map<string, { id: string; findings: readonly unknown[]; lines: unknown }>();
  #answers = 0;
  #leaveHover = () => {};

  constructor(
    readonly connection: Connection,
    readonly host: Host,
    readonly version: string,
  ) {
    this.#pace = new Pace(host.pause?.bind(host));
    this.#workspace = new Workspace(host, { pace: this.#pace });
    this.#judge = new JudgeSoon(this.#pace, host.aside, () => this.#refresh());
    this.#soon = new PlanSoon(host, () => {
      this.#refresh();
      if (this.#can.refreshLenses) void connection.sendRequest(CodeLensRefreshRequest.type);
    });
    this.#asker = new Asker(this.#pace, host.aside);
  }

  listen(): void {
    this.connection.onInitialize((params) => this.#initialize(params));
    this.connection.onInitialized(() => this.#initialized());
    this.#followDocuments();
    this.#answerFindings();
    this.#answerReading();
    this.#answerNames();
    this.#answerView();
    this.#answerFigures();
    this.#documents.listen(this.connection);
    this.connection.listen();
  }

  #initialize(params: InitializeParams): InitializeResult {
    const { workspace } = params.capabilities;
    this.#options = (params.initializationOptions ?? {}) as Options;
    this.#roots = (params.workspaceFolders ?? []).map((f) => f.uri);
    if (this.#roots.length === 0 && params.rootUri) this.#roots = [params.rootUri];
    const { shop } = this.#options;
    const disk = workspace?.didChangeWatchedFiles?.dynamicRegistration === true ? 'watched' : 'unwatched';
    this.#workspace = new Workspace(this.host, { roots: this.#roots, pace: this.#pace, disk, ...(shop && { shop }) });
    this.#can = {
      watch: disk === 'watched',
      refresh: workspace?.diagnostics?.refreshSupport === true,
      refreshLenses: workspace?.codeLens?.refreshSupport === true,
      followFolders: workspace?.workspaceFolders === true,
      snippets: workspace?.workspaceEdit?.snippetEditSupport === true,
    };
    return {
      serverInfo: { name: 'scribeline', version: this.version },
      capabilities: {
        textDocumentSync: TextDocumentSyncKind.Incremental,
        diagnosticProvider: { identifier: 'scribeline', interFileDependencies: true, workspaceDiagnostics: false },
        hoverProvider: true,
        completionProvider: { triggerCharacters: [':', ' ', '[', '{', ','] },
        codeActionProvider: { codeActionKinds: ['quickfix', FIX_ALL] },
        documentSymbolProvider: true,
        foldingRangeProvider: true,
        inlayHintProvider: true,
        codeLensProvider: {},
        definitionProvider: true,
        referencesProvider: true,
        renameProvider: { prepareProvider: true },
        workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
      },
    };
  }

  #initialized(): void {
    const { client, workspace } = this.connection;
    if (this.#can.watch) void client.register(DidChangeWatchedFilesNotification.type, { watchers: WATCHED });
    if (this.#can.followFolders)
      workspace.onDidChangeWorkspaceFolders((event) => {
        const gone = new Set(event.removed.map((f) => f.uri));
        this.#roots = [...this.#roots.filter((r) => !gone.has(r)), ...event.added.map((f) => f.uri)];
        this.#workspace.setRoots(this.#roots);
        this.#refresh();
      });
  }

  /** Findings may have changed: an editor that can is asked to ask again. */
  #refresh(): void {
    if (this.#can.refresh) void this.connection.languages.diagnostics.refresh();
  }

  #followDocuments(): void {
    this.#documents.onDidChangeContent(({ document }) => {
      const { uri } = document;
      const isNew = !this.#workspace.isOpen(uri);
      this.#workspace.open(uri, document.getText(), kindOfLanguage(document.languageId));
      this.#soon.forget(uri);
      this.#judge.supersede(uri);
      if (kindOf(uri) === 'shop' && !isNew) this.#refresh();
    });
    this.#documents.onDidClose(({ document: { uri } }) => {
      this.#workspace.close(uri);
      this.#soon.forget(uri);
      this.#judge.forget(uri);
      this.#answered.delete(uri);
      if (kindOf(uri) === 'shop') this.#refresh();
    });
    this.connection.onDidChangeWatchedFiles(({ changes }) => {
      if (changes.filter(({ uri }) => this.#workspace.fileChanged(uri) || kindOf(uri)).length > 0) this.#refresh();
    });
  }

  /** The answer, or at once that the request was called off. */
  #unlessCancelled<T>(token: CancellationToken, answer: (onGone: OnGone) => Promise<T>): Promise<T> {
    this.#pace.begin();
    return new Promise<T>((resolve, reject) => {
      const leave = () => reject(new ResponseError(LSPErrorCodes.RequestCancelled, 'The request was called off.'));
      if (token.isCancellationRequested) return leave();
      const watch = token.onCancellationRequested(leave);
      answer((left) => void token.onCancellationRequested(left))
        .then(resolve, reject)
        .finally(() => watch.dispose());
    });
  }

  /** Answers from the document as it is now, or with `none` where there is no such document. */
  #on<T>(
    { uri }: { readonly uri: string },
    token: CancellationToken,
    none: T,
    answer: (snapshot: Snapshot, onGone: OnGone) => T | Promise<T>,
  ): Promise<T> {
    return this.#unlessCancelled(token, async (onGone) => {
      const snapshot = await this.#workspace.snapshot(uri);
      return snapshot ? answer(snapshot, onGone) : none;
    });
  }

  /** With what is found of it by now. */
  #soFar(snapshot: Snapshot): Snapshot {
    return snapshot.kind === 'part' ? this.#soon.withKnown(this.#judge.view(snapshot)) : snapshot;
  }

  #answerFindings(): void {
    const { languages } = this.connection;
    languages.diagnostics.on((params, token) => this.#unlessCancelled(token, () => this.#findings(params)));
    this.connection.onCodeAction(({ textDocument, range, context: { only } }, token) =>
      this.#on(textDocument, token, [], async (read, onGone) => {
        if (read.kind !== 'part') return actionsOf(read, range, only);
        const part = this.#soon.with(this.#judge.view(read));
        const planned = wantsPlan(part, range, only);
        if (planned) await this.#soon.planned(part);
        const offered = asOffered(await this.#asker.answer('actions', part, { range, only }, onGone), this.#can);
        // Planning takes a while: what is offered is offered for the text as it is now, or not at all.
        if (planned && (await this.#workspace.text(read.path)) !== read.text)
          throw new ResponseError(LSPErrorCodes.ContentModified, 'the text was changed while it was planned');
        return offered;
      }),
    );
  }

  async #findings({ textDocument, previousResultId }: DocumentDiagnosticParams): Promise<DocumentDiagnosticReport> {
    const { uri } = textDocument;
    const read = await this.#workspace.snapshot(uri);
    if (!read) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    if (read.kind === 'part' && !(await this.#firstFindings(read)))
      return this.#findings({ textDocument, ...(previousResultId !== undefined && { previousResultId }) });
    const snapshot = read.kind === 'part' ? this.#soon.with(this.#judge.view(read)) : read;
    const last = this.#answered.get(uri);
    if (last && last.id === previousResultId && last.findings === snapshot.findings && last.lines === snapshot.lines)
      return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: last.id };
    const id = String(++this.#answers);
    this.#answered.set(uri, { id, findings: snapshot.findings, lines: snapshot.lines });
    const items = diagnosticsOf(snapshot, this.#options.pagesUri);
    return { kind: DocumentDiagnosticReportKind.Full, resultId: id, items };
  }

  /** Resolves when there are findings to tell: all, where the editor cannot be asked again; of a keystroke what was judged at once, the text before stands for the rest. False where the text was changed meanwhile. */
  async #firstFindings(part: PartSnapshot): Promise<boolean> {
    if (this.#judge.isDone(part)) return true;
    const whole = this.#judge.whole(part);
    if (this.#can.refresh && this.#judge.hasBefore(part)) return true;
    return this.#can.refresh ? ((await this.#atMost(FIRST_MS, whole)) ?? true) : whole;
  }

  /** What comes of it, or undefined where that takes longer. */
  #atMost<T>(ms: number, answer: Promise<T>): Promise<T | undefined> {
    const { later } = this.host;
    if (!later) return answer;
    return new Promise((resolve, reject) => {
      const leave = later(ms, () => resolve(undefined));
      answer.then(resolve, reject).finally(leave);
    });
  }

  #answerReading(): void {
    const { languages } = this.connection;
    this.connection.onHover((params, token) =>
      this.#on(params.textDocument, token, null, (s, onGone) => this.#hover(s, params, onGone)),
    );
    this.connection.onCompletion(({ textDocument, position }, token) =>
      this.#on(textDocument, token, [], (s) => completionsAt(s, s.lines.offset(position))),
    );
    this.connection.onDocumentSymbol(({ textDocument }, token) => this.#on(textDocument, token, [], symbolsOf));
    this.connection.onFoldingRanges(({ textDocument }, token) => this.#on(textDocument, token, [], foldsOf));
    this.connection.onCodeLens(({ textDocument }, token) =>
      this.#on(textDocument, token, [], (s, onGone) =>
        lensesOf(this.#workspace, s, (part) => this.#asker.answer('figures', part, {}, onGone)),
      ),
    );
    languages.inlayHint.on(({ textDocument, range }, token) =>
      this.#on(textDocument, token, [], async (s, onGone) =>
        s.kind === 'part' ? [...(await this.#asker.answer('inlays', s, { range }, onGone))] : inlaysOf(s, range),
      ),
    );
  }

  /** Whoever points at a word is not kept waiting for figures that take long. */
  async #hover(read: Snapshot, { position }: HoverParams, onGone: OnGone): Promise<Hover | null> {
    const offset = read.lines.offset(position);
    const { pagesUri } = this.#options;
    const snapshot = this.#soFar(read);
    if (snapshot.kind !== 'part') return hoverAt(snapshot, offset, { pagesUri }) ?? null;
    this.#leaveHover();
    const told = { offset, findings: findingsAt(snapshot, offset), ...(pagesUri !== undefined && { pagesUri }) };
    const leave = (left: () => void) => {
      this.#leaveHover = left;
      onGone(left);
    };
    const whole = this.#asker.answer('hover', snapshot, told, leave).catch(() => undefined);
    const hover = await this.#atMost(HOVER_MS, whole);
    return hover === undefined ? (hoverAt(snapshot, offset, { pagesUri, quick: true }) ?? null) : hover;
  }

  #answerNames(): void {
    const { connection } = this;
    connection.onDefinition(({ textDocument, position }, token) =>
      this.#on(textDocument, token, null, (s) => definitionAt(this.#workspace, s, s.lines.offset(position))),
    );
    connection.onReferences(({ textDocument, position, context }, token) =>
      this.#on(textDocument, token, [], (s) =>
        referencesAt(this.#workspace, s, s.lines.offset(position), context.includeDeclaration),
      ),
    );
    connection.onPrepareRename(({ textDocument, position }, token) =>
      this.#on(textDocument, token, null, (s) => prepareRename(s, s.lines.offset(position))),
    );
    connection.onRenameRequest(({ textDocument, position, newName }, token) =>
      this.#on(textDocument, token, null, async (s) => {
        const renamed = await renameAt(this.#workspace, s, s.lines.offset(position), newName);
        if (typeof renamed === 'string') throw new ResponseError(-32602, renamed);
        return renamed;
      }),
    );
  }

  #answerView(): void {
    const { connection } = this;
    const pictures = this.host.meshes && new Pictures(this.host.meshes, this.#asker);
    connection.onRequest(PICTURE, (params: unknown, token: CancellationToken) => {
      const { uri, ...wanted } = pictureRequest(params);
      const version = this.#versionOf(uri) ?? 0;
      return this.#on({ uri }, token, null, (read, onGone) => {
        const s = this.#soFar(read);
        return pictures && s.kind === 'part' ? pictures.picture(s, version, wanted, onGone) : null;
      }).catch((failure: unknown) => {
        if (failure instanceof Superseded) throw new ResponseError(LSPErrorCodes.ContentModified, failure.message);
        throw failure;
      });
    });
    connection.onRequest(MEASURE, (params: unknown) => {
      const { uri, ...request } = measureRequest(params);
      return pictures?.measure(uri, request) ?? null;
    });
    this.#documents.onDidClose(({ document }) => pictures?.forget(document.uri));
    const writers = async () => (await this.host.writers?.()) ?? [];
    connection.onRequest(FORMATS, async () => formatsOf(await writers()));
    connection.onRequest(EXPORT, (params: unknown, token: CancellationToken) => {
      const wanted = exportParams(params);
      return this.#unlessCancelled(token, async (): Promise<object> => {
        const snapshot = await this.#workspace.snapshot(wanted.uri);
        return exportOf(snapshot, wanted, await writers(), `Scribeline ${this.version}`);
      });
    });
  }

  #answerFigures(): void {
    this.connection.onRequest(FACTS, (params: unknown, token: CancellationToken) =>
      this.#on({ uri: uriOf(params) }, token, null, (s, onGone) =>
        s.kind === 'part' ? this.#asker.answer('figures', s, {}, onGone) : null,
      ),
    );
    this.connection.onRequest(PLAN, async (params: unknown, token: CancellationToken) => {
      const uri = uriOf(params);
      const version = this.#versionOf(uri);
      const answer = await this.#on({ uri }, token, null, (read, onGone) => {
        const s = this.#soFar(read);
        if (s.kind !== 'part') return null;
        const shopless = withoutItsShop(s.checked.shop);
        if (shopless)
          throw new ResponseError(LSPErrorCodes.RequestFailed, `${s.checked.part.name} was not planned: ${shopless}.`);
        return this.#soon.answer(s, onGone);
      });
      return answer && version !== undefined ? { ...answer, version } : answer;
    });
  }

  #versionOf(uri: string): number | undefined {
    return this.#documents.get(uri)?.version;
  }
}

/** What an editor is told of a failure: a sentence; the rest is for the log. */
function told(failure: unknown, params: unknown, host: Host): ResponseError<void> {
  if (failure instanceof ResponseError) return new ResponseError(failure.code, line(failure.message));
  if (failure instanceof BadRequest) return new ResponseError(ErrorCodes.InvalidParams, line(failure.message));
  if (failure instanceof Unanswered) return new ResponseError(LSPErrorCodes.RequestFailed, line(failure.message));
  if (typeof params !== 'object' || params === null)
    return new ResponseError(ErrorCodes.InvalidParams, 'The request comes without its parameters.');
  host.log(failure instanceof Error ? (failure.stack ?? failure.message) : String(failure));
  return new ResponseError(
    ErrorCodes.InternalError,
    'Scribeline could not answer this: a fault of its own, written to its log. Please report it.',
  );
}
