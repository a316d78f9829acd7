/** `scribeline job`: a whole job on paper: mass, hours, what to buy and bring, the cut list, the order of the day. */
import { dirname, resolve } from 'node:path';
import { type BarNeed, provenBars } from '../planning/bars';
import { sawn } from '../planning/cost';
import type { JobPiece } from '../planning/job';
import { planFor } from '../planning/plan-cache';
import { toolToBuy } from '../report/job-figures';
import { textsOf } from '../service/paper-texts';
import type { JobSnapshot } from '../service/snapshot';
import { Workspace } from '../service/workspace';
import { jobCsv } from '../sheet/job/csv';
import { type JobPaper, jobPaper } from '../sheet/job/data';
import { jobJson } from '../sheet/job/json';
import { jobMarkdown } from '../sheet/job/markdown';
import { type JobRequest, jobSheet } from '../sheet/job/printed';
import type { Printing } from '../sheet/printed';
import { htmlOf } from '../sheet/write/html';
import { pdfOf } from '../sheet/write/pdf';
import type { Command } from './arguments';
import { type Found, findDocuments, whyGone } from './files';
import { Gate } from './gate';
import { markOf } from './mark';
import { pdfKit } from './print';
import { save } from './save';
import { judgeFor } from './shop-option';
import { solverWithin } from './solver';
import type { Terminal } from './terminal';

type JobCommand = Extract<Command, { name: 'job' }>;

interface Written {
  readonly request: JobRequest;
  readonly printing: Printing;
}
const text =
  (of: (paper: JobPaper) => string) =>
  async ({ request }: Written) =>
    new TextEncoder().encode(of(request.paper));

/** A new format is an entry here. */
const FORMATS: Readonly<Record<string, (job: Written) => Promise<Uint8Array>>> = {
  '.md': text(jobMarkdown),
  '.json': text(jobJson),
  '.csv': text(jobCsv),
  '.html': async ({ request, printing }) =>
    new TextEncoder().encode(htmlOf(jobSheet(request, printing.language), printing.paper)),
  '.pdf': async ({ request, printing }) =>
    pdfOf(jobSheet(request, printing.language), printing.paper, await pdfKit(), request.when),
};
/** For all cut lists of one job together, ms. */
const SOLVING_MS = 20_000;

/** 0: all of it was written; 1: some of its parts could not be read, and it says so; 2: nothing was written. */
export async function runJob(command: JobCommand, terminal: Terminal): Promise<0 | 1 | 2> {
  const { to } = command;
  const format = FORMATS[to === undefined ? '.md' : endingOf(to)];
  if (!format) {
    terminal.say(
      `\`${to}\` is no format that a job is written in. The name ends in one of ${Object.keys(FORMATS).join(', ')}.`,
    );
    return 2;
  }
  const { files, troubles, folders } = await findDocuments([command.path], terminal.cwd);
  for (const trouble of troubles) terminal.say(trouble);
  const jobs = files.filter(({ path }) => /\.job\.ya?ml$/i.test(path));
  const [file] = jobs;
  if (!file || jobs.length > 1) {
    if (troubles.length === 0)
      terminal.say(
        jobs.length > 1
          ? `${command.path} holds ${jobs.length} jobs: name one.`
          : `${command.path} holds no job (NAME.job.yaml).`,
      );
    return 2;
  }
  const judge = await judgeFor(command.shop, folders, terminal);
  if (!judge) return 2;
  const workspace = new Workspace(judge.host, judge.set);
  const snapshot = await workspace.snapshot(file.path);
  if (snapshot?.kind !== 'job') {
    terminal.say(`${file.shown} ${whyGone(await workspace.unread(file.path))}.`);
    return 2;
  }
  const { pieces, paper, whole } = await paperOf(file.path, snapshot, workspace);
  for (const lack of await workspace.lacking(snapshot)) terminal.say(`${file.shown}: ${lack}.`);
  for (const name of paper.figures.unread ?? [])
    terminal.say(`${file.shown}: ${name} could not be read: the job is told without it.`);
  const request = await requestOf({ file, snapshot, paper, pieces }, workspace, terminal);
  const bytes = await format({ request, printing: command });
  if (to === undefined) terminal.print(...new TextDecoder().decode(bytes).trimEnd().split('\n'));
  else if (!(await written(to, bytes, folders, terminal))) return 2;
  return whole ? 0 : 1;
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

async function written(
  to: string,
  bytes: Uint8Array,
  folders: readonly string[],
  terminal: Terminal,
): Promise<boolean> {
  const path = resolve(terminal.cwd, to);
  const gate = new Gate([...folders, dirname(path)], terminal.disk);
  const why = await save({ path, bytes, over: 'anything' }, gate, terminal.disk);
  if (why) terminal.say(`${to} ${why}`);
  else terminal.print(to);
  return why === undefined;
}

function endingOf(name: string): string {
  return name.slice(name.lastIndexOf('.')).toLowerCase();
}
