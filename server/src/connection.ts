/**
 * The language server's wiring: which message is answered by which function of the service. Knows the protocol, not the
 * machine it runs on: `server.ts` hands in a connection and a host made of Node's own, a browser worker another.
 */
import {
  CodeLensRefreshRequest,
  type Connection,
  DidChangeWatchedFilesNotification,
  DocumentDiagnosticReportKind,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { FACTS, figuresAtHand } from './report/at-hand';
import { actionsOf, FIX_ALL, wantsPlan } from './service/actions';
import { BadRequest, exportParams, measureRequest, pictureRequest, Unanswered, uriOf } from './service/asked';
import { completionsAt } from './service/completion';
import { diagnosticsOf } from './service/diagnostics';
import { kindOf, kindOfLanguage } from './service/documents';
import { behindDoor } from './service/door';
import { exportOf, formatsOf } from './service/export';
import { EXPORT, FORMATS } from './service/export-protocol';
import type { Host } from './service/host';
import { hoverAt } from './service/hover';
import { inlaysOf } from './service/inlays';
import { lensesOf } from './service/lenses';
import { definitionAt, prepareRename, referencesAt, renameAt } from './service/names';
import { foldsOf, symbolsOf } from './service/outline';
import { PlanSoon } from './service/plan-soon';
import { PLAN } from './service/planning';
import { Pictures, Superseded } from './service/view/pictures';
import { MEASURE, PICTURE } from './service/view/protocol';
import { type Snapshot, Workspace } from './service/workspace';
import { withoutItsShop } from './spec/unread-shop';
import { line } from './text/shown';

interface Options {
  /** The folder of the rules' pages, as a URI. */
  readonly pagesUri?: string;
  /** A shop file to judge every part by. */
  readonly shop?: string;
}

const WATCHED = '**/*.{part,shop,job}.{yaml,yml}';

export function listen(given: Connection, host: Host, version: string): void {
  const connection = behindDoor(given, (failure, params) => told(failure, params, host));
  const documents = new TextDocuments(TextDocument);
  let workspace = new Workspace(host);
  let options: Options = {};
  let canWatch = false;
  let canRefresh = false;
  let canRefreshLenses = false;
  let canFollowFolders = false;
  let roots: string[] = [];

  connection.onInitialize((params: InitializeParams): InitializeResult => {
    options = (params.initializationOptions ?? {}) as Options;
    roots = (params.workspaceFolders ?? []).map((f) => f.uri);
    if (roots.length === 0 && params.rootUri) roots = [params.rootUri];
    workspace = new Workspace(host, { roots, ...(options.shop ? { shop: options.shop } : {}) });
    canWatch = params.capabilities.workspace?.didChangeWatchedFiles?.dynamicRegistration === true;
    canRefresh = params.capabilities.workspace?.diagnostics?.refreshSupport === true;
    canRefreshLenses = params.capabilities.workspace?.codeLens?.refreshSupport === true;
    canFollowFolders = params.capabilities.workspace?.workspaceFolders === true;
    return {
      serverInfo: { name: 'scribeline', version },
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
  });

  connection.onInitialized(() => {
    if (canWatch)
      void connection.client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: WATCHED }] });
    if (canFollowFolders)
      connection.workspace.onDidChangeWorkspaceFolders((event) => {
        const gone = new Set(event.removed.map((f) => f.uri));
        roots = [...roots.filter((r) => !gone.has(r)), ...event.added.map((f) => f.uri)];
        workspace.setRoots(roots);
        refresh();
      });
  });

  /** Findings of other documents may have changed: an editor that can is asked to ask again. */
  const refresh = () => {
    if (canRefresh) void connection.languages.diagnostics.refresh();
  };

  const soon = new PlanSoon(host, () => {
    refresh();
    if (canRefreshLenses) void connection.sendRequest(CodeLensRefreshRequest.type);
  });

  documents.onDidChangeContent(({ document }) => {
    const isNew = !workspace.isOpen(document.uri);
    workspace.open(document.uri, document.getText(), kindOfLanguage(document.languageId));
    soon.forget(document.uri);
    if (kindOf(document.uri) === 'shop' && !isNew) refresh();
  });
  documents.onDidClose(({ document }) => {
    workspace.close(document.uri);
    if (kindOf(document.uri) === 'shop') refresh();
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const change of changes) workspace.fileChanged(change.uri);
    refresh();
  });

  /** Answers from the document as it is now, or with `none` where there is no such document. */
  const on = async <T>(uri: string, none: T, answer: (snapshot: Snapshot) => T | Promise<T>): Promise<T> => {
    const snapshot = await workspace.snapshot(uri);
    return snapshot ? answer(snapshot) : none;
  };
  const offsetOf = (snapshot: Snapshot, position: { line: number; character: number }) =>
    snapshot.lines.offset(position);

  // The last answer of each document, so that an unchanged one is said in a word.
  const answered = new Map<string, { id: string; findings: readonly unknown[]; lines: unknown }>();
  let answers = 0;
  connection.languages.diagnostics.on(async ({ textDocument, previousResultId }) => {
    const { uri } = textDocument;
    const read = await workspace.snapshot(uri);
    if (!read) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    const snapshot = soon.with(read);
    const last = answered.get(uri);
    if (last && last.id === previousResultId && last.findings === snapshot.findings && last.lines === snapshot.lines)
      return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: last.id };
    const id = String(++answers);
    answered.set(uri, { id, findings: snapshot.findings, lines: snapshot.lines });
    return { kind: DocumentDiagnosticReportKind.Full, resultId: id, items: diagnosticsOf(snapshot, options.pagesUri) };
  });
  documents.onDidClose(({ document }) => {
    answered.delete(document.uri);
    soon.forget(document.uri);
  });

  connection.onHover(({ textDocument, position }) =>
    on(textDocument.uri, null, (s) => hoverAt(s, offsetOf(s, position), options.pagesUri) ?? null),
  );
  connection.onCompletion(({ textDocument, position }) =>
    on(textDocument.uri, [], (s) => completionsAt(s, offsetOf(s, position))),
  );
  connection.onCodeAction(({ textDocument, range, context }) =>
    on(textDocument.uri, [], async (s) => {
      if (!wantsPlan(s, range, context.only)) return actionsOf(soon.with(s), range, context.only);
      const version = documents.get(textDocument.uri)?.version;
      await soon.planned(s);
      // Planning takes a while: what is offered is offered for the text as it is now, or not at all.
      if (documents.get(textDocument.uri)?.version !== version)
        throw new ResponseError(LSPErrorCodes.ContentModified, 'the text was changed while it was planned');
      return actionsOf(soon.with(s), range, context.only);
    }),
  );
  connection.onDocumentSymbol(({ textDocument }) => on(textDocument.uri, [], symbolsOf));
  connection.onFoldingRanges(({ textDocument }) => on(textDocument.uri, [], foldsOf));
  connection.onCodeLens(({ textDocument }) => on(textDocument.uri, [], (s) => lensesOf(workspace, s)));
  connection.languages.inlayHint.on(({ textDocument, range }) => on(textDocument.uri, [], (s) => inlaysOf(s, range)));
  connection.onDefinition(({ textDocument, position }) =>
    on(textDocument.uri, null, (s) => definitionAt(workspace, s, offsetOf(s, position))),
  );
  connection.onReferences(({ textDocument, position, context }) =>
    on(textDocument.uri, [], (s) => referencesAt(workspace, s, offsetOf(s, position), context.includeDeclaration)),
  );
  connection.onPrepareRename(({ textDocument, position }) =>
    on(textDocument.uri, null, (s) => prepareRename(s, offsetOf(s, position))),
  );
  connection.onRenameRequest(({ textDocument, position, newName }) =>
    on(textDocument.uri, null, async (s) => {
      const renamed = await renameAt(workspace, s, offsetOf(s, position), newName);
      if (typeof renamed === 'string') throw new ResponseError(-32602, renamed);
      return renamed;
    }),
  );

  const pictures = host.meshes && new Pictures(host.meshes);
  connection.onRequest(PICTURE, (params: unknown) => {
    const { uri, ...wanted } = pictureRequest(params);
    const version = documents.get(uri)?.version ?? 0;
    return on(uri, null, (s) => (pictures && s.kind === 'part' ? pictures.picture(s, version, wanted) : null)).catch(
      (failure: unknown) => {
        if (failure instanceof Superseded) throw new ResponseError(LSPErrorCodes.ContentModified, failure.message);
        throw failure;
      },
    );
  });
  connection.onRequest(MEASURE, (params: unknown) => {
    const { uri, ...request } = measureRequest(params);
    return pictures?.measure(uri, request) ?? null;
  });
  documents.onDidClose(({ document }) => pictures?.forget(document.uri));

  const writers = async () => (await host.writers?.()) ?? [];
  connection.onRequest(FORMATS, async () => formatsOf(await writers()));
  connection.onRequest(EXPORT, async (params: unknown): Promise<object> => {
    const wanted = exportParams(params);
    return exportOf(await workspace.snapshot(wanted.uri), wanted, await writers(), `Scribeline ${version}`);
  });

  connection.onRequest(FACTS, (params: unknown) =>
    on(uriOf(params), null, (s) => (s.kind === 'part' ? figuresAtHand(s.checked) : null)),
  );
  connection.onRequest(PLAN, async (params: unknown) => {
    const uri = uriOf(params);
    const version = documents.get(uri)?.version;
    const answer = await on(uri, null, (s) => {
      if (s.kind !== 'part') return null;
      const shopless = withoutItsShop(s.checked.shop);
      if (shopless)
        throw new ResponseError(LSPErrorCodes.RequestFailed, `${s.checked.part.name} was not planned: ${shopless}.`);
      return soon.answer(s);
    });
    return answer && version !== undefined ? { ...answer, version } : answer;
  });

  documents.listen(connection);
  connection.listen();
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
