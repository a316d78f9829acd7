/**
 * The language server's wiring: who the editor is, and which texts it has open. Knows the protocol, not the machine it
 * runs on: `server.ts` hands in a connection and a host made of Node's own, a browser worker another. What answers a
 * request stands in the table `requests.ts`.
 */
import {
  type Connection,
  DidChangeWatchedFilesNotification,
  ErrorCodes,
  type InitializeParams,
  type InitializeResult,
  LSPErrorCodes,
  ResponseError,
  type ServerCapabilities,
  TextDocumentSyncKind,
} from 'vscode-languageserver';
import { FIX_ALL, REFACTORINGS } from '../service/actions';
import { BadRequest, Unanswered } from '../service/asked';
import { kindOf, kindOfLanguage } from '../service/documents';
import { behindDoor } from '../service/door';
import type { Host } from '../service/host';
import { LEGEND } from '../service/legend';
import { WATCHED } from '../service/texts';
import { Superseded } from '../service/view/pictures';
import { Workspace } from '../service/workspace';
import { line } from '../text/shown';
import { answerAll } from './requests';
import { type Options, Session } from './session';

export function listen(given: Connection, host: Host, version: string): void {
  const connection = behindDoor(given, (failure, params) => errorFor(failure, params, host));
  const session = new Session(connection, host, version);
  connection.onInitialize((params) => initialize(session, params));
  connection.onInitialized(() => initialized(session));
  followDocuments(session);
  answerAll(session, connection);
  session.documents.listen(connection);
  connection.listen();
}

/** Who the editor is, and what it is told of us. */
function initialize(session: Session, params: InitializeParams): InitializeResult {
  const { workspace, textDocument } = params.capabilities;
  session.options = (params.initializationOptions ?? {}) as Options;
  const folders = (params.workspaceFolders ?? []).map((f) => f.uri);
  session.roots = folders.length === 0 && params.rootUri ? [params.rootUri] : folders;
  const { shop } = session.options;
  const disk = workspace?.didChangeWatchedFiles?.dynamicRegistration === true ? 'watched' : 'unwatched';
  const { roots, pace } = session;
  session.workspace = new Workspace(session.host, { roots, pace, disk, ...(shop && { shop }) });
  session.can = {
    watch: disk === 'watched',
    refresh: workspace?.diagnostics?.refreshSupport === true,
    refreshLenses: workspace?.codeLens?.refreshSupport === true,
    followFolders: workspace?.workspaceFolders === true,
    snippets: workspace?.workspaceEdit?.snippetEditSupport === true,
    resolve: textDocument?.codeAction?.resolveSupport?.properties.includes('edit') === true,
  };
  return {
    serverInfo: { name: 'scribeline', version: session.version },
    capabilities: CAPABILITIES,
  };
}

const CAPABILITIES: ServerCapabilities = {
  textDocumentSync: TextDocumentSyncKind.Incremental,
  diagnosticProvider: {
    identifier: 'scribeline',
    interFileDependencies: true,
    workspaceDiagnostics: true,
    workDoneProgress: true,
  },
  hoverProvider: true,
  completionProvider: { triggerCharacters: [':', ' ', '[', '{', ','], resolveProvider: true },
  signatureHelpProvider: { triggerCharacters: ['(', ','] },
  codeActionProvider: {
    codeActionKinds: ['quickfix', ...REFACTORINGS, FIX_ALL],
    resolveProvider: true,
    workDoneProgress: true,
  },
  documentSymbolProvider: true,
  foldingRangeProvider: true,
  inlayHintProvider: true,
  codeLensProvider: {},
  definitionProvider: true,
  documentHighlightProvider: true,
  documentLinkProvider: {},
  selectionRangeProvider: true,
  linkedEditingRangeProvider: true,
  workspaceSymbolProvider: true,
  referencesProvider: true,
  renameProvider: { prepareProvider: true },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: { rangesSupport: true },
  documentOnTypeFormattingProvider: { firstTriggerCharacter: '}', moreTriggerCharacter: [']', '\n'] },
  semanticTokensProvider: { legend: LEGEND, full: { delta: true }, range: true },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
};

/** What the editor tells of from now on, besides the texts it has open. */
function initialized(session: Session): void {
  const { client, workspace } = session.connection;
  if (session.can.watch) void client.register(DidChangeWatchedFilesNotification.type, { watchers: WATCHED });
  if (session.can.followFolders)
    workspace.onDidChangeWorkspaceFolders((event) => {
      const gone = new Set(event.removed.map((f) => f.uri));
      session.roots = [...session.roots.filter((r) => !gone.has(r)), ...event.added.map((f) => f.uri)];
      session.workspace.setRoots(session.roots);
      session.changed();
      session.refresh();
    });
}

/** What is found of parts turns on them too. */
const REACHING: ReadonlySet<string | undefined> = new Set(['shop', 'job']);

function followDocuments(session: Session): void {
  const { documents, connection, soon, judge } = session;
  documents.onDidChangeContent(({ document }) => {
    const { uri } = document;
    const isNew = !session.workspace.isOpen(uri);
    session.workspace.open(uri, document.getText(), kindOfLanguage(document.languageId));
    soon.forget(uri);
    judge.supersede(uri);
    if (kindOf(uri) === 'part') void session.resting.changed(uri);
    session.changed();
    if (!isNew && (REACHING.has(kindOf(uri)) || session.workspace.isIncluded(uri))) session.refresh();
  });
  documents.onDidClose(({ document: { uri } }) => {
    const reaches = REACHING.has(kindOf(uri)) || session.workspace.isIncluded(uri);
    session.workspace.close(uri);
    soon.forget(uri);
    judge.forget(uri);
    session.joints.forget(uri);
    session.answered.delete(uri);
    session.tokens.delete(uri);
    session.changed();
    session.pictures?.forget(uri);
    session.resting.forget(uri);
    if (reaches) session.refresh();
  });
  connection.onDidChangeWatchedFiles(({ changes }) => {
    if (changes.filter(({ uri }) => session.workspace.fileChanged(uri) || kindOf(uri)).length === 0) return;
    session.changed();
    session.refresh();
  });
}

/** What an editor is told of a failure: a sentence; the rest is for the log. */
function errorFor(failure: unknown, params: unknown, host: Host): ResponseError<void> {
  if (failure instanceof ResponseError) return new ResponseError(failure.code, line(failure.message));
  if (failure instanceof BadRequest) return new ResponseError(ErrorCodes.InvalidParams, line(failure.message));
  if (failure instanceof Superseded) return new ResponseError(LSPErrorCodes.ContentModified, line(failure.message));
  if (failure instanceof Unanswered) return new ResponseError(LSPErrorCodes.RequestFailed, line(failure.message));
  if (typeof params !== 'object' || params === null)
    return new ResponseError(ErrorCodes.InvalidParams, 'The request comes without its parameters.');
  host.log(failure instanceof Error ? (failure.stack ?? failure.message) : String(failure));
  return new ResponseError(
    ErrorCodes.InternalError,
    'Scribeline could not answer this: a fault of its own, written to its log. Please report it.',
  );
}
