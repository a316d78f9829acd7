/**
 * Which request is answered by what: a row each, and nothing else answers. Every answer is given the session, what was
 * asked, and where to say what is to be left when the request is called off (`answerAll` answers that itself).
 */
import {
  CodeActionRequest,
  CodeActionResolveRequest,
  CodeLensRequest,
  CompletionRequest,
  CompletionResolveRequest,
  type Connection,
  DefinitionRequest,
  DocumentDiagnosticRequest,
  DocumentFormattingRequest,
  DocumentHighlightRequest,
  DocumentLinkRequest,
  DocumentOnTypeFormattingRequest,
  DocumentRangeFormattingRequest,
  DocumentRangesFormattingRequest,
  DocumentSymbolRequest,
  ErrorCodes,
  FoldingRangeRequest,
  HoverRequest,
  InlayHintRequest,
  LinkedEditingRangeRequest,
  LSPErrorCodes,
  PrepareRenameRequest,
  ProgressType,
  type ProtocolRequestType,
  ReferencesRequest,
  RenameRequest,
  ResponseError,
  SelectionRangeRequest,
  SemanticTokensDeltaRequest,
  SemanticTokensRangeRequest,
  SemanticTokensRequest,
  SignatureHelpRequest,
  WorkspaceDiagnosticRequest,
  WorkspaceSymbolRequest,
} from 'vscode-languageserver';
import { withoutItsShop } from '../model/unread-shop';
import { FACTS } from '../report/at-hand';
import {
  compareParams,
  exportParams,
  importParams,
  jobParams,
  measureRequest,
  pictureRequest,
  planParams,
  revisionsParams,
  sheetParams,
  sizesRequest,
  starterParams,
  typedRequest,
  uriOf,
} from '../service/asked';
import type { OnGone } from '../service/asker';
import { COMPARE, REVISIONS } from '../service/compare-protocol';
import { completionsAt, explained } from '../service/completion';
import { exportOf, formatsOf } from '../service/export';
import { EXPORT, FORMATS } from '../service/export-protocol';
import { IMPORT } from '../service/import-protocol';
import { inlaysOf } from '../service/inlays';
import { jobAnswer } from '../service/job/answer';
import { JOB, type JobProgress } from '../service/job/protocol';
import { lensesOf } from '../service/lenses';
import { foldsOf, symbolsOf } from '../service/outline';
import { textsOf } from '../service/paper-texts';
import { PLAN, type PlanParams, type PlanProgress } from '../service/plan/answer';
import { starterRecord } from '../service/record';
import { RECORD, type RecordStarter } from '../service/record-protocol';
import { revisionsAnswer } from '../service/revisions';
import { fileName, sheetAnswer } from '../service/sheet';
import { SHEET } from '../service/sheet-protocol';
import { forEditor } from '../service/shown';
import type { PartSnapshot } from '../service/snapshot';
import { atHandAnswer, partToBe, starterTold } from '../service/starter/answer';
import { AT_HAND, STARTER, type StarterAnswer } from '../service/starter/protocol';
import { MEASURE, PICTURE, SIZES, TYPED } from '../service/view/protocol';
import { sizesAnswer, typedAnswer } from '../service/view/typed';
import { actionResolved, actionsFor } from './actions';
import { findingsOf } from './findings';
import { hoverFor } from './hover';
import { inProgress } from './progress';
import type { Session } from './session';
import { changedTokens, someTokens, wholeTokens } from './tokens';
import { formatted, formattedRanges, formattedTyped } from './writing';

type Answer<P, R> = (session: Session, asked: P, onGone: OnGone) => R | Promise<R>;
type Row = readonly [request: string, answer: Answer<unknown, unknown>];

/** A request of the protocol: what comes and goes has its types. */
function row<P, R, PR, E, RO>({ method }: ProtocolRequestType<P, R, PR, E, RO>, answer: Answer<P, R>): Row {
  return [method, (session, asked, onGone) => answer(session, asked as P, onGone)];
}

export const REQUESTS: readonly Row[] = [
  row(DocumentDiagnosticRequest.type, findingsOf),
  row(WorkspaceDiagnosticRequest.type, (session, asked, onGone) => session.all.report(asked, onGone)),
  row(CodeActionRequest.type, actionsFor),
  row(CodeActionResolveRequest.type, actionResolved),
  row(HoverRequest.type, hoverFor),
  row(CompletionRequest.type, (session, { textDocument, position }) =>
    session.on(textDocument.uri, [], (s) => completionsAt(s, s.lines.offset(position))),
  ),
  row(CompletionResolveRequest.type, (_, item) => explained(item)),
  row(SignatureHelpRequest.type, (session, { textDocument, position }) =>
    session.on(textDocument.uri, null, async (s) => {
      const writing = await session.writing();
      return writing.signatureAt(s, s.lines.offset(position));
    }),
  ),
  row(DocumentSymbolRequest.type, (session, { textDocument }) => session.on(textDocument.uri, [], symbolsOf)),
  row(FoldingRangeRequest.type, (session, { textDocument }) => session.on(textDocument.uri, [], foldsOf)),
  row(CodeLensRequest.type, (session, { textDocument }, onGone) =>
    session.on(textDocument.uri, [], (s) =>
      lensesOf(session.workspace, s, (part) => session.asker.answer('figures', part, {}, onGone)),
    ),
  ),
  row(InlayHintRequest.type, (session, { textDocument, range }, onGone) =>
    session.on(textDocument.uri, [], async (s) =>
      s.kind === 'part' ? [...(await session.asker.answer('inlays', s, { range }, onGone))] : inlaysOf(s, range),
    ),
  ),
  row(DefinitionRequest.type, (session, { textDocument, position }) =>
    session.on(textDocument.uri, null, async (s) =>
      (await session.writing()).definitionAt(session.workspace, s, s.lines.offset(position)),
    ),
  ),
  row(ReferencesRequest.type, (session, { textDocument, position, context }) =>
    session.on(textDocument.uri, [], async (s) =>
      (await session.writing()).referencesAt(
        session.workspace,
        s,
        s.lines.offset(position),
        context.includeDeclaration,
      ),
    ),
  ),
  row(DocumentHighlightRequest.type, (session, { textDocument, position }) =>
    session.on(textDocument.uri, [], async (s) => (await session.writing()).highlightsAt(s, s.lines.offset(position))),
  ),
  row(DocumentLinkRequest.type, (session, { textDocument }) =>
    session.on(textDocument.uri, [], async (s) => (await session.writing()).linksOf(session.workspace, s)),
  ),
  row(SelectionRangeRequest.type, (session, { textDocument, positions }) =>
    session.on(textDocument.uri, [], async (s) => {
      const { selectionAt } = await session.writing();
      return positions.map((p) => selectionAt(s, s.lines.offset(p)));
    }),
  ),
  row(LinkedEditingRangeRequest.type, (session, { textDocument, position }) =>
    session.on(textDocument.uri, null, async (s) => (await session.writing()).linkedAt(s, s.lines.offset(position))),
  ),
  row(SemanticTokensRequest.type, (session, { textDocument }) => wholeTokens(session, textDocument.uri)),
  row(SemanticTokensDeltaRequest.type, changedTokens),
  row(SemanticTokensRangeRequest.type, someTokens),
  row(DocumentFormattingRequest.type, formatted),
  row(DocumentRangeFormattingRequest.type, formatted),
  row(DocumentRangesFormattingRequest.type, formattedRanges),
  row(DocumentOnTypeFormattingRequest.type, formattedTyped),
  row(WorkspaceSymbolRequest.type, async (session, { query }) =>
    (await session.writing()).foundInWorkspace(session.workspace, query ?? ''),
  ),
  row(PrepareRenameRequest.type, (session, { textDocument, position }) =>
    session.on(textDocument.uri, null, async (s) =>
      (await session.writing()).prepareRename(s, s.lines.offset(position)),
    ),
  ),
  row(RenameRequest.type, (session, { textDocument, position, newName }) =>
    session.on(textDocument.uri, null, async (s) => {
      const { renameAt } = await session.writing();
      const renamed = await renameAt(session.workspace, s, s.lines.offset(position), newName);
      if (typeof renamed === 'string') throw new ResponseError(ErrorCodes.InvalidParams, renamed);
      return renamed;
    }),
  ),
  [PICTURE, picture],
  [MEASURE, measure],
  [SIZES, sizes],
  [TYPED, typed],
  [FORMATS, async ({ host }) => formatsOf((await host.writers?.()) ?? [])],
  [EXPORT, exported],
  [FACTS, facts],
  [PLAN, planned],
  [SHEET, sheet],
  [JOB, job],
  [RECORD, record],
  [AT_HAND, atHand],
  [STARTER, starter],
  [
    COMPARE,
    async (session, asked, onGone) =>
      (await import('../service/compare')).compareAnswer(session, compareParams(asked), onGone),
  ],
  [IMPORT, importTools],
  [REVISIONS, ({ host }, asked) => revisionsAnswer(host, revisionsParams(asked))],
];

/** Has every request of the table answered, each with its token: one that is called off is refused at once. */
export function answerAll(session: Session, connection: Connection): void {
  for (const [request, answer] of REQUESTS)
    connection.onRequest(request, (asked: unknown, token) =>
      session.unlessCancelled(token, (onGone) =>
        inProgress(session, request, asked, () => answer(session, asked, onGone)),
      ),
    );
}

function picture(session: Session, asked: unknown, onGone: OnGone): Promise<unknown> {
  const { uri, held, ...wanted } = pictureRequest(asked);
  const version = session.versionOf(uri) ?? 0;
  return session.on<unknown>(uri, null, async (read) => {
    if (read.kind !== 'part') return null;
    if (wanted.planned) await session.soon.planned(session.soFar(read));
    const { pictures } = session;
    const asking = { onGone, soFar: (part: PartSnapshot) => session.soFar(part) };
    if (held === undefined) return pictures?.picture(read, version, wanted, asking) ?? null;
    return pictures?.told(read, version, wanted, held, asking) ?? null;
  });
}

function measure({ pictures }: Session, asked: unknown): unknown {
  const { uri, ...request } = measureRequest(asked);
  return pictures?.measure(uri, request) ?? null;
}

function sizes(session: Session, asked: unknown): Promise<unknown> {
  const { uri, feature } = sizesRequest(asked);
  const version = session.versionOf(uri) ?? 0;
  return session.on<unknown>(uri, null, async (s) =>
    s.kind === 'part' ? sizesAnswer(s, feature, version, await session.workspace.jobsOf(s.path)) : null,
  );
}

function typed(session: Session, asked: unknown): Promise<unknown> {
  const { uri, ...request } = typedRequest(asked);
  const version = session.versionOf(uri);
  return session.on<unknown>(uri, null, (s) =>
    s.kind === 'part' ? typedAnswer(s, { uri, ...request }, version) : null,
  );
}

async function exported({ workspace, host, judge, version }: Session, asked: unknown): Promise<unknown> {
  const wanted = exportParams(asked);
  let snapshot = await workspace.snapshot(wanted.uri);
  // What stands against it is told with the file: judged in slices, so that keys are answered meanwhile, and anew after each.
  while (snapshot?.kind === 'part' && !(await judge.whole(snapshot))) snapshot = await workspace.snapshot(wanted.uri);
  return exportOf(snapshot, wanted, (await host.writers?.()) ?? [], `Scribeline ${version}`);
}

async function sheet({ workspace, asker, host, version }: Session, asked: unknown, onGone: OnGone): Promise<unknown> {
  const wanted = sheetParams(asked);
  const part = await workspace.snapshot(wanted.uri);
  if (part?.kind !== 'part') return null;
  const when = new Date();
  const told = {
    file: fileName(part.path),
    mark: host.mark?.([version, ...(await textsOf(part.checked, workspace))]) ?? '',
    creator: `Scribeline ${version}`,
    when: when.getTime(),
    language: wanted.language,
  };
  const reply = await asker.answer('sheet', part, told, onGone);
  return sheetAnswer(reply, wanted, when, host.print?.bind(host));
}

function facts(session: Session, asked: unknown, onGone: OnGone): Promise<unknown> {
  return session.on<unknown>(uriOf(asked), null, (s) =>
    s.kind === 'part' ? session.asker.answer('figures', s, {}, onGone) : null,
  );
}

async function planned(session: Session, asked: unknown, onGone: OnGone): Promise<unknown> {
  const { uri, workDoneToken: token } = planParams(asked);
  const version = session.versionOf(uri);
  const answer = await session.on<object | null>(uri, null, (read) => {
    const s = session.soFar(read);
    if (s.kind !== 'part') return null;
    const shopless = withoutItsShop(s.checked.shop);
    if (shopless)
      throw new ResponseError(LSPErrorCodes.RequestFailed, `${s.checked.part.name} was not planned: ${shopless}.`);
    return plannedFor(session, s, token, onGone);
  });
  return answer && version !== undefined ? { ...answer, version } : answer;
}

/** The set-ups first; then what would spare one, which takes as long again. */
async function plannedFor({ soon, connection }: Session, part: PartSnapshot, token: Token, onGone: OnGone) {
  let isGone = false;
  onGone(() => {
    isGone = true;
  });
  const tell = (progress: PlanProgress) => {
    if (token !== undefined && !isGone) void connection.sendProgress(PROGRESS, token, progress);
  };
  tell({ done: 0, of: 2, what: 'the fewest set-ups' });
  if (token !== undefined) await soon.answerable(part, onGone);
  if (isGone) return null;
  tell({ done: 1, of: 2, what: 'what would save one, and other ways' });
  return soon.answer(part, onGone);
}
type Token = PlanParams['workDoneToken'];

async function job(session: Session, asked: unknown, onGone: OnGone): Promise<unknown> {
  const wanted = jobParams(asked);
  const { workDoneToken: token } = wanted;
  let isGone = false;
  onGone(() => {
    isGone = true;
  });
  return session.on<unknown>(wanted.uri, null, (s) =>
    s.kind === 'job'
      ? jobAnswer(session, s, wanted, {
          onGone,
          isGone: () => isGone,
          tell: (progress) => {
            if (token !== undefined && !isGone)
              void session.connection.sendProgress(PROGRESS, token, forEditor(progress));
          },
        })
      : null,
  );
}
const PROGRESS = new ProgressType<JobProgress>();

/** By the shop that would judge a file, with the texts as they are in the editor. */
function toBe({ workspace, host, options, roots }: Session, uri: string) {
  const read = (path: string) => workspace.read(path);
  const near = { read, list: (folder: string) => host.list(folder), log: (message: string) => host.log(message) };
  return partToBe(uri, near, { roots, ...(options.shop !== undefined && { shop: options.shop }) });
}

async function atHand(session: Session, asked: unknown): Promise<unknown> {
  const part = await toBe(session, uriOf(asked));
  return part ? atHandAnswer(part) : null;
}

async function starter(session: Session, asked: unknown, onGone: OnGone): Promise<StarterAnswer | null> {
  const wanted = starterParams(asked);
  const part = await toBe(session, wanted.uri);
  const told = part && starterTold(wanted, part);
  return part && told ? session.asker.answer('starter', part, told, onGone) : null;
}

async function importTools(session: Session, asked: unknown): Promise<unknown> {
  const { uri, text } = importParams(asked);
  const { importAnswer } = await import('../service/import-tools');
  const version = session.versionOf(uri);
  const answer = await session.on<object | null>(uri, null, (s) => importAnswer(s, text));
  return answer && version !== undefined ? { ...answer, version } : answer;
}

/** A record to begin with, of the part as it is now. */
function record(session: Session, asked: unknown): Promise<unknown> {
  return session.on<unknown>(uriOf(asked), null, async (s): Promise<RecordStarter | null> => {
    if (s.kind !== 'part' || !s.checked.part.body) return null;
    const { host, version, workspace } = session;
    const mark = host.mark?.([version, ...(await textsOf(s.checked, workspace))]) ?? '';
    return { newText: starterRecord(s, fileName(s.path), mark) };
  });
}
