/** Judges a list of files one after the other: reads, fixes where asked, answers plain data that can cross to another thread. */

import { plannerFindings } from '../planning/findings';
import { writePlan } from '../planning/keep';
import { planFor } from '../planning/plan-cache';
import { factsLines } from '../report/facts';
import { factsJson } from '../report/facts-json';
import { figuresOf, spentFigures } from '../report/figures';
import { jobFactsLines } from '../report/job';
import { jobFigures, toolToBuy } from '../report/job-figures';
import { headline } from '../report/plan';
import { type Reported, reportedOf } from '../report/reported';
import { checkJob, fixAllSafe, fixesInTurn } from '../rules/check';
import type { CheckedPart } from '../rules/checked-part';
import { allSafeOfJob, jointFixes } from '../rules/joint-fixes';
import type { Finding, Fix } from '../rules/kit/rule';
import { inTextOrder } from '../rules/order';
import { findingsOfVariant, variantFindings, variantOf } from '../rules/variants';
import type { JobSnapshot, Snapshot } from '../service/snapshot';
import { namesOf, withoutVariant } from '../service/variants';
import { Workspace } from '../service/workspace';
import { applyEdits, locateEdits } from '../text/edit';
import { lineEdits } from '../text/line-edits';
import type { TextEdit, TextTree } from '../text/tree';
import type { Disk } from './disk';
import { type Found, whyGone } from './files';
import { Gate } from './gate';
import { nodeHost } from './host';
import { save } from './save';
import { readable } from './shop-option';

export interface JudgeOptions {
  /** Absolute path of the shop that judges every part. */
  readonly shop?: string;
  readonly fix: boolean;
  /** Fixes are written below these, and nowhere else; nothing outside is read through a link. */
  readonly folders: readonly string[];
  /** What each answer rests on: as lines, or as data beside the findings. */
  readonly facts?: 'text' | 'json';
  /** What would do is shown: else it is not tried, which is a third of the work. */
  readonly fixes: boolean;
  /** Of a part in many sizes only this row of its table. */
  readonly variant?: string;
}

/** What is asked of each file. */
type Asked = Pick<JudgeOptions, 'facts' | 'fixes' | 'variant'>;

export interface Judged {
  readonly reported: readonly Reported[];
  /** The facts of each part, where asked for, a line each. */
  readonly facts: readonly string[];
  /** For standard error, a line each. */
  readonly notes: readonly string[];
  /** Some file could not be written. */
  readonly lost: boolean;
  /** A sentence for each file that could not be read. */
  readonly unread: readonly string[];
  /** What each file names and could not be had. */
  readonly lacking: readonly string[];
}

/** A judge that remembers the shops it has read. */
export function makeJudge(options: JudgeOptions, disk?: Disk): (files: readonly Found[]) => Promise<Judged> {
  const notes: string[] = [];
  const workspace = new Workspace(
    nodeHost((message) => notes.push(message), readable(options.folders, options.shop)),
    options.shop === undefined ? {} : { shop: options.shop },
  );
  const gate = new Gate(options.folders, disk);
  return async (files) => {
    notes.length = 0;
    const made: Collected = { reported: [], facts: [], unread: [], lacking: [], lost: false };
    for (const file of files) {
      const fixed = options.fix ? await writeFixes(workspace, file, gate, disk) : undefined;
      if (fixed) notes.push(fixed.note);
      if (fixed?.lost) made.lost = true;
      const kind = await collect(workspace, file, options, made);
      if (kind !== 'shop') workspace.close(file.path);
    }
    return { ...made, notes: [...notes] };
  };
}

/** What is told of files, as it comes together. */
interface Collected {
  readonly reported: Reported[];
  readonly facts: string[];
  readonly unread: string[];
  readonly lacking: string[];
  lost: boolean;
}

/** Of one file; its kind, where it could be read. */
async function collect(
  workspace: Workspace,
  file: Found,
  asked: Asked,
  made: Collected,
): Promise<Snapshot['kind'] | undefined> {
  const { facts, variant } = asked;
  let snapshot = await workspace.snapshot(file.path);
  if (!snapshot) {
    made.unread.push(`${file.shown} ${whyGone(await workspace.unread(file.path))}.`);
    return undefined;
  }
  if (variant !== undefined && snapshot.kind === 'part' && !variantOf(snapshot.checked, variant)) {
    made.unread.push(`${file.shown} ${withoutVariant(namesOf(snapshot), variant)}`);
    return snapshot.kind;
  }
  if (facts === 'text' && snapshot.kind === 'part') {
    // Planned first: its times are those of the plan.
    const checked = meant(snapshot.checked, variant);
    const planned = planFacts(checked);
    made.facts.push(...factsLines(file.shown, checked), ...planned);
  }
  if (facts === 'text' && snapshot.kind === 'job') {
    made.facts.push(...(await jobFacts(workspace, file, snapshot)));
    // Its findings again, with the plans that are known now.
    snapshot = (await workspace.snapshot(file.path)) ?? snapshot;
  }
  made.reported.push(await reportOn(file, snapshot, workspace, asked));
  made.lacking.push(...(await workspace.lacking(snapshot)));
  return snapshot.kind;
}

async function jobFacts(
  workspace: Workspace,
  file: Found,
  { checked: { job } }: JobSnapshot,
): Promise<readonly string[]> {
  const pieces = await workspace.piecesOf(file.path, job);
  for (const { checked } of pieces) if (!checked.part.setups) planFor(checked);
  return jobFactsLines(file.shown, job, pieces, pieces.length === job.parts.length);
}

/** Without set-ups: what plan there is. */
function planFacts(checked: CheckedPart): readonly string[] {
  const plan = checked.part.setups ? undefined : planFor(checked);
  if (!plan) return [];
  const offer = writePlan(plan, checked).kept ? '' : ' `scribeline plan` shows it, `--write` writes it.';
  return [`  planned  ${headline(plan, checked)}${offer}`];
}

/** Of a shop or a record: nothing is tried there. */
const offered = ({ fixes = [] }: Finding) => fixes;
const none = (): readonly Fix[] => [];

async function reportOn(
  { shown, path }: Found,
  snapshot: Snapshot,
  workspace: Workspace,
  { facts, variant, fixes: areShown }: Asked,
): Promise<Reported> {
  const file = { tree: snapshot.checked.tree, lines: snapshot.lines, findings: snapshot.findings };
  if (snapshot.kind === 'job') {
    const { job } = snapshot.checked;
    const pieces = await workspace.piecesOf(path, job);
    if (pieces.length === 0) return reportedOf(shown, file, offered);
    const fixes = areShown ? (finding: Finding) => jointFixes(snapshot.checked, pieces, finding) : none;
    const tool = toolToBuy(pieces);
    return reportedOf(shown, file, fixes, {
      job: { ...jobFigures(job, pieces), ...(tool && { tool_to_buy: tool }) },
    });
  }
  if (snapshot.kind === 'shop' || snapshot.kind === 'record') return reportedOf(shown, file, offered);
  const { checked } = snapshot;
  if (variant === undefined) {
    const more = [...variantFindings(checked), ...plannerFindings(checked)];
    if (more.length > 0) file.findings = inTextOrder([...file.findings, ...more], checked.tree);
  } else file.findings = findingsOfVariant(checked, variant);
  const of = meant(checked, variant);
  const rows = variant === undefined ? checked.part.variants : [];
  const variants = rows.flatMap(({ name }) => {
    const row = variantOf(checked, name);
    return row ? [{ variant: name, ...figuresOf(row), ...spentFigures(row) }] : [];
  });
  return reportedOf(shown, file, areShown ? fixesInTurn(checked) : none, {
    part: {
      ...figuresOf(of),
      ...spentFigures(of),
      ...(variants.length > 0 && { variants }),
      ...(facts === 'json' && { facts: factsJson(of) }),
    },
  });
}

/** The row that is asked for, or the part as its parameters say. */
function meant(checked: CheckedPart, variant: string | undefined): CheckedPart {
  return (variant === undefined ? undefined : variantOf(checked, variant)) ?? checked;
}

/** What keeps every part as it is: of a shop and a record, words that have a new name. */
async function safeEdits(workspace: Workspace, snapshot: Snapshot): Promise<readonly TextEdit[]> {
  const { kind, checked } = snapshot;
  if (kind === 'part') return fixAllSafe(checked);
  const words = newWords(checked.tree);
  if (kind !== 'job') return words;
  const pieces = await workspace.piecesOf(snapshot.path, checked.job);
  const renamed = words.length > 0 ? checkJob(applyEdits(snapshot.text, words)) : checked;
  const mended = applyEdits(renamed.tree.text, allSafeOfJob(renamed, pieces));
  return lineEdits(snapshot.text, mended);
}

function newWords(tree: TextTree): readonly TextEdit[] {
  return locateEdits(
    tree,
    tree.old.map(({ span, now }) => ({ span, newText: now })),
  ).sort((a, b) => a.start - b.start);
}

/** Writes only where the file is still what was read, and only what can be written back byte for byte. Answers what to say. */
async function writeFixes(
  workspace: Workspace,
  { path, shown }: Found,
  gate: Gate,
  disk?: Disk,
): Promise<{ readonly note: string; readonly lost: boolean } | undefined> {
  const snapshot = await workspace.snapshot(path);
  if (!snapshot) return undefined;
  const edits = await safeEdits(workspace, snapshot);
  if (edits.length === 0) return undefined;
  const bytes = Buffer.from(applyEdits(snapshot.text, edits), 'utf8');
  const why = await save({ path, bytes, over: Buffer.from(snapshot.text, 'utf8') }, gate, disk);
  workspace.close(path);
  if (why) return { note: `${shown} ${why}`, lost: true };
  return {
    note: `${shown}: ${edits.length} ${edits.length === 1 ? 'change that keeps' : 'changes that keep'} the shape written.`,
    lost: false,
  };
}
