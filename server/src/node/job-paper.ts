/** A job's paper made from its file: what both `job` and `sheet` write. */
import { type BarNeed, provenBars } from '../planning/bars';
import { sawn } from '../planning/cost';
import type { JobPiece } from '../planning/job';
import { planFor } from '../planning/plan-cache';
import { toolToBuy } from '../report/job-figures';
import { textsOf } from '../service/paper-texts';
import type { JobSnapshot } from '../service/snapshot';
import { Workspace } from '../service/workspace';
import { type JobPaper, jobPaper } from '../sheet/job/data';
import { type JobRequest, jobSheet } from '../sheet/job/printed';
import type { Sheet } from '../sheet/page';
import type { Printing } from '../sheet/printed';
import { htmlOf } from '../sheet/write/html';
import { pdfOf } from '../sheet/write/pdf';
import { type Found, findDocuments, whyGone } from './files';
import { markOf } from './mark';
import { pdfKit } from './print';
import { judgeFor } from './shop-option';
import { solverWithin } from './solver';
import type { Terminal } from './terminal';

/** For all cut lists of one job together, ms. */
const SOLVING_MS = 20_000;

interface ReadJob {
  readonly file: Found;
  readonly request: JobRequest;
  /** Every part of it could be read. */
  readonly whole: boolean;
  /** What may be written to. */
  readonly folders: readonly string[];
}

/** Undefined where there is no one job to be had, which has been said then; what it lacks is said too. */
export async function readJob(
  path: string,
  shop: string | undefined,
  terminal: Terminal,
): Promise<ReadJob | undefined> {
  const { files, troubles, folders } = await findDocuments([path], terminal.cwd);
  for (const trouble of troubles) terminal.say(trouble);
  const jobs = files.filter((f) => isJob(f.path));
  const [file] = jobs;
  if (!file || jobs.length > 1) {
    const why = jobs.length > 1 ? `${jobs.length} jobs: name one` : 'no job (NAME.job.yaml)';
    if (troubles.length === 0) terminal.say(`${path} holds ${why}.`);
    return undefined;
  }
  const judge = await judgeFor(shop, folders, terminal);
  if (!judge) return undefined;
  const workspace = new Workspace(judge.host, judge.set);
  const snapshot = await workspace.snapshot(file.path);
  if (snapshot?.kind !== 'job') {
    terminal.say(`${file.shown} ${whyGone(await workspace.unread(file.path))}.`);
    return undefined;
  }
  const broken = faultsOf(snapshot);
  sayFirst(broken, file, terminal);
  // Of a text that could not be understood nothing is left to tell.
  if (broken.length > 0 && snapshot.checked.job.parts.length === 0) return undefined;
  const { pieces, paper, whole } = await paperOf(file.path, snapshot, workspace);
  sayFirst(
    (await workspace.lacking(snapshot)).map((lack) => `: ${lack}.`),
    file,
    terminal,
  );
  const unread = paper.figures.unread ?? [];
  sayFirst(
    unread.map((name) => `: ${name} could not be read: the job is reported without it.`),
    file,
    terminal,
  );
  const request = await requestOf({ file, snapshot, paper, pieces }, workspace, terminal);
  return { file, request, whole: whole && broken.length === 0, folders };
}

/** What is wrong in the job's own text, each with its place. */
function faultsOf({ checked: { findings, tree }, lines }: JobSnapshot): readonly string[] {
  return findings
    .filter((f) => f.severity === 'error')
    .map(({ message, span }) => {
      const { line, character } = lines.position(tree.locate(span).start);
      return `:${line + 1}:${character + 1}: ${message}`;
    });
}

/** So many sentences of one kind are said; nobody reads the next thousand. */
const MOST_SAID = 20;

function sayFirst(sentences: readonly string[], { shown }: Found, terminal: Terminal): void {
  for (const sentence of sentences.slice(0, MOST_SAID)) terminal.say(`${shown}${sentence}`);
  if (sentences.length > MOST_SAID) terminal.say(`${shown}: and ${sentences.length - MOST_SAID} more of these.`);
}

export function isJob(path: string): boolean {
  return /\.job\.ya?ml$/i.test(path);
}

interface Drawn {
  readonly bytes: Uint8Array;
  readonly notes: Sheet['notes'];
}

/** The cover and every part's sheet as pages. */
export async function drawnJob(request: JobRequest, as: 'html' | 'pdf', printing: Printing): Promise<Drawn> {
  const sheet = jobSheet(request, printing.language);
  const bytes =
    as === 'html'
      ? new TextEncoder().encode(htmlOf(sheet, printing.paper))
      : await pdfOf(sheet, printing.paper, await pdfKit(), request.when);
  return { bytes, notes: sheet.notes };
}

interface Told {
  readonly file: Found;
  readonly snapshot: JobSnapshot;
  readonly paper: JobPaper;
  readonly pieces: readonly JobPiece[];
}

/** The cover is tied to the job and all in it; each part's sheet to what that part's own paper is tied to. */
async function requestOf(
  { file, snapshot, paper, pieces }: Told,
  workspace: Workspace,
  { version }: Terminal,
): Promise<JobRequest> {
  const texts = await Promise.all(pieces.map(({ checked }) => textsOf(checked, workspace)));
  const nameOf = (path: string) => path.slice(path.lastIndexOf('/') + 1);
  return {
    paper,
    file: nameOf(file.path),
    mark: markOf([version, snapshot.text, ...texts.flat()]),
    creator: `Scribeline ${version}`,
    when: new Date(),
    parts: new Map(
      pieces.map(({ entry, checked, quantity }, i) => [
        entry.name,
        { checked, quantity, file: nameOf(entry.spec.name), mark: markOf([version, ...texts[i]!]) },
      ]),
    ),
  };
}

async function paperOf(
  path: string,
  { checked: { job } }: JobSnapshot,
  workspace: Workspace,
): Promise<Pick<Told, 'paper' | 'pieces'> & { readonly whole: boolean }> {
  const pieces = await workspace.piecesOf(path, job);
  // Planned first: times are those of the plan.
  for (const { checked } of pieces) if (!checked.part.setups) planFor(checked);
  const tool = toolToBuy(pieces);
  const found = { bars: await barsOf(pieces, job.saw), ...(tool && { toolToBuy: tool }) };
  return { pieces, paper: jobPaper(job, pieces, found), whole: pieces.length === job.parts.length };
}

async function barsOf(pieces: readonly JobPiece[], saw: JobPaper['job']['saw']): Promise<readonly BarNeed[]> {
  const solver = solverWithin(SOLVING_MS);
  try {
    return await provenBars(pieces.map(sawn), saw, solver.solve);
  } finally {
    await solver.end();
  }
}
