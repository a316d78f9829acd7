/** A whole job as it is carried to the workshop: what it weighs and takes, what to buy, how to saw it, what to bring, in which order. */
import type { Job } from '../../model/job-model';
import type { Tool } from '../../model/shop-model';
import type { BarNeed } from '../../planning/bars';
import { costOf } from '../../planning/cost';
import { dayPlan, partByPart } from '../../planning/day-plan/day-plan';
import { daySetupsOf } from '../../planning/day-plan/setups';
import type { DayAsk, DayPlan, DaySetup } from '../../planning/day-plan/types';
import { gramsOf, type JobPiece } from '../../planning/job';
import { type Order, pieceTime, spentOn } from '../../planning/piece-time';
import type { Range } from '../../planning/ranges';
import { type ReadyStock, readyStock } from '../../planning/ready';
import { costFindings } from '../../planning/savings';
import { type JobFigures, jobFigures, type ToolToBuy } from '../../report/job-figures';
import { boughtFor, type ToBuy } from '../../report/joints';
import { jointContext } from '../../rules/joints';

/** So many changes are told that would save. */
export const MOST_SAVINGS = 5;

/** One part of the job, all its pieces. */
interface JobRow {
  readonly name: string;
  readonly spec: string;
  readonly pieces: number;
  /** Of one piece; undefined where it cannot be weighed. */
  readonly grams?: number;
  readonly setups: number;
  readonly order?: Order;
  /** Minutes of all pieces. */
  readonly machine?: Range;
  readonly person?: Range;
}

/** What a small change to a part would save of the machine's minutes on all its pieces; the words of the finding. */
interface JobSaving {
  readonly part: string;
  readonly minutes: Range;
  readonly message: string;
}

interface JobTool {
  /** In the shop of one of the parts. */
  readonly tool: Tool | undefined;
  readonly name: string;
  readonly parts: readonly string[];
}

export interface JobPaper {
  readonly job: Job;
  readonly figures: JobFigures;
  /** The heaviest first. */
  readonly rows: readonly JobRow[];
  readonly savings: readonly JobSaving[];
  readonly bars: readonly BarNeed[];
  /** Blanks: nothing of them is sawn. */
  readonly ready: readonly ReadyStock[];
  /** For the joints: screws, nuts, washers, pins, bearings. */
  readonly bought: readonly ToBuy[];
  readonly currency?: string;
  readonly toolToBuy?: ToolToBuy;
  /** Every tool that is put in, and the parts it is for. */
  readonly tools: readonly JobTool[];
  readonly day: DayPlan;
  readonly plain: DayPlan;
}

interface Found {
  readonly bars: readonly BarNeed[];
  readonly toolToBuy?: ToolToBuy;
}

/** What one part brings to a job's paper; plain, for it may come from another thread. */
export interface PartOfJob {
  readonly row: JobRow;
  readonly savings: readonly JobSaving[];
  /** In the order of its text, its plan, or a rough one. */
  readonly setups: readonly DaySetup[];
}

export function partOfJob(piece: JobPiece): PartOfJob {
  return { row: rowOf(piece), savings: savingsOf(piece), setups: daySetupsOf(piece) };
}

interface Days {
  readonly day: DayPlan;
  /** Part by part, to be compared with. */
  readonly plain: DayPlan;
}

export function daysOf(ask: DayAsk): Days {
  return { day: dayPlan(ask), plain: partByPart(ask) };
}

export function dayAskOf({ evening }: Job, parts: readonly PartOfJob[]): DayAsk {
  return {
    parts: parts.map((p) => p.setups).filter((setups) => setups.length > 0),
    ...(evening && { eveningMin: evening.value * 60 }),
  };
}

/** `found`: what takes a solver, or other plans. */
export function jobPaper(job: Job, pieces: readonly JobPiece[], found: Found): JobPaper {
  const parts = pieces.map(partOfJob);
  return paperFrom(job, pieces, parts, { ...found, ...daysOf(dayAskOf(job, parts)) });
}

/** From what was worked out elsewhere. */
export function paperFrom(
  job: Job,
  pieces: readonly JobPiece[],
  parts: readonly PartOfJob[],
  found: Found & Days,
): JobPaper {
  const currency = costOf(pieces, job.saw)?.currency;
  const all = (row: JobRow) => (row.grams ?? 0) * row.pieces;
  return {
    job,
    figures: jobFigures(job, pieces),
    rows: parts.map((p) => p.row).sort((a, b) => all(b) - all(a)),
    savings: parts.flatMap((p) => p.savings).sort((a, b) => b.minutes[1] - a.minutes[1]),
    ready: readyStock(pieces),
    bought: boughtFor(jointContext(job, pieces)),
    ...(currency !== undefined && { currency }),
    tools: toolsOf(
      parts.flatMap((p) => p.setups),
      pieces,
    ),
    ...found,
  };
}

function rowOf({ entry, checked, quantity }: JobPiece): JobRow {
  const grams = gramsOf(checked);
  const time = pieceTime(checked);
  const spent = time && spentOn(time, quantity);
  return {
    name: entry.name,
    spec: entry.spec.name,
    pieces: quantity,
    ...(grams !== undefined && { grams }),
    setups: time?.machine.setups.length ?? 0,
    ...(time && { order: time.order }),
    ...(spent && { machine: spent.machine, person: spent.person }),
  };
}

function savingsOf({ entry, checked, quantity }: JobPiece): readonly JobSaving[] {
  return costFindings(checked).flatMap(({ message, facts }) => {
    const [low, high] = [facts.saved_low_min, facts.saved_high_min];
    if (typeof low !== 'number' || typeof high !== 'number') return [];
    return [{ part: entry.name, minutes: [low * quantity, high * quantity] as const, message }];
  });
}

function toolsOf(setups: readonly DaySetup[], pieces: readonly JobPiece[]): readonly JobTool[] {
  const by = new Map<string, Set<string>>();
  for (const { part, tools } of setups) for (const tool of tools) by.set(tool, (by.get(tool) ?? new Set()).add(part));
  const known = new Map(pieces.flatMap(({ checked }) => checked.shop.tools.map((t) => [t.name, t] as const)));
  return [...by]
    .map(([name, parts]) => ({ name, tool: known.get(name), parts: [...parts] }))
    .sort((a, b) => b.parts.length - a.parts.length || (a.name < b.name ? -1 : 1));
}
