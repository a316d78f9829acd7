/**
 * A job worked out for somebody who looks at it: part after part in the thread beside, so that others are answered meanwhile,
 * and left as soon as nobody waits for it any more.
 */
import { type BarNeed, provenBars } from '../../planning/bars';
import { sawn } from '../../planning/cost';
import { jobBars } from '../../planning/job';
import { knownPlan } from '../../planning/plan-cache';
import { dayAskOf, type JobPaper, type PartOfJob, paperFrom } from '../../sheet/job/data';
import type { Asker, OnGone } from '../asker';
import type { Host } from '../host';
import { takePlan } from '../questions';
import type { JobSnapshot, PieceSnapshot } from '../snapshot';
import type { Workspace } from '../workspace';
import type { JobProgress } from './protocol';

/** What it is worked out with. */
export interface JobBench {
  readonly workspace: Workspace;
  readonly asker: Asker;
  readonly host: Host;
}

/** Who waits for it. */
export interface Waiting {
  readonly onGone: OnGone;
  readonly isGone: () => boolean;
  readonly tell: (progress: JobProgress) => void;
}

export interface WorkedJob {
  readonly paper: JobPaper;
  readonly pieces: readonly PieceSnapshot[];
}

/** For all cut lists of one job together, ms: a panel is looked at, a paper can wait longer. */
const SOLVING_MS = 5_000;

/** Undefined where it was left on the way. */
export async function workOut(bench: JobBench, job: JobSnapshot, waiting: Waiting): Promise<WorkedJob | undefined> {
  const { workspace, asker } = bench;
  const { onGone, isGone, tell } = waiting;
  const { job: read } = job.checked;
  const pieces = await workspace.piecesOf(job.path, read);
  const of = pieces.length + 1;
  const parts: PartOfJob[] = [];
  for (const [done, piece] of pieces.entries()) {
    if (isGone()) return undefined;
    tell({ done, of, what: piece.entry.name });
    parts.push(await partOf(piece, bench, onGone));
  }
  if (isGone()) return undefined;
  tell({ done: pieces.length, of, what: 'cut list and order of the day' });
  const bars = await barsOf(job, pieces, bench.host, waiting);
  const [first] = pieces;
  const tool = first && (await asker.answer('toBuy', first.snapshot, othersOf(first, pieces), onGone));
  const ask = dayAskOf(read, parts);
  const days = first ? await asker.answer('days', first.snapshot, { ask }, onGone) : NO_DAYS;
  if (isGone()) return undefined;
  const found = { bars, ...days, ...(tool && { toolToBuy: tool }) };
  return { paper: paperFrom(read, pieces, parts, found), pieces };
}

const NOTHING = { steps: [], evenings: 0, minutes: [0, 0], changes: 0, proven: true, tooLong: [] } as const;
const NO_DAYS = { day: NOTHING, plain: NOTHING };

/** Times are those of the plan: where the text has none, and none is known, it is looked for first. */
async function partOf(piece: PieceSnapshot, { asker, workspace }: JobBench, onGone: OnGone): Promise<PartOfJob> {
  const { entry, quantity, checked, snapshot } = piece;
  if (!checked.part.setups && knownPlan(checked) === undefined)
    takePlan(checked, await asker.answer('plan', snapshot, { want: 'plan' }, onGone));
  const part = await asker.answer('ofJob', snapshot, { entry, quantity }, onGone);
  await workspace.price(checked);
  return part;
}

async function barsOf(
  { checked: { job } }: JobSnapshot,
  pieces: readonly PieceSnapshot[],
  { solver }: Host,
  { onGone }: Waiting,
): Promise<readonly BarNeed[]> {
  if (!solver) return jobBars(job, pieces);
  const { solve, end } = solver(SOLVING_MS);
  onGone(() => void end());
  try {
    return await provenBars(pieces.map(sawn), job.saw, solve);
  } finally {
    await end();
  }
}

function othersOf({ entry, checked }: PieceSnapshot, pieces: readonly PieceSnapshot[]) {
  const others = pieces.slice(1).filter((p) => p.checked.shop === checked.shop);
  return {
    name: entry.name,
    otherParts: others.map(({ entry: { name }, checked: { tree } }) => ({
      name,
      text: tree.text,
      others: tree.others,
    })),
  };
}
