/** `scribeline plan`: the fewest setups for a part, told or written into its file. */

import { withoutItsShop } from '../model/unread-shop';
import { hiddenIn, writePlan } from '../planning/keep';
import { type Plan, planOf } from '../planning/plan';
import { alternativesLines, planLines } from '../report/plan';
import { planJson, plansJson } from '../report/plan-json';
import type { PartSnapshot } from '../service/snapshot';
import { namesOf, sizesIn, withoutVariant } from '../service/variants';
import { Workspace } from '../service/workspace';
import type { Command } from './arguments';
import type { Disk } from './disk';
import { type Found, findDocuments, whyGone } from './files';
import { Gate } from './gate';
import { save } from './save';
import { judgeFor } from './shop-option';
import type { Terminal } from './terminal';

type PlanCommand = Extract<Command, { name: 'plan' }>;

/**
 * 0: every part has a whole plan, and has it written where asked; 1: something of one cannot be cut by any, or could not
 * be read; 2: a part could not be planned, or its plan not be written.
 */
export async function runPlan(command: PlanCommand, terminal: Terminal): Promise<0 | 1 | 2> {
  const { files, troubles, folders } = await findDocuments(command.paths, terminal.cwd);
  for (const trouble of troubles) terminal.say(trouble);
  const parts = files.filter(({ path }) => /\.part\.ya?ml$/i.test(path));
  if (parts.length === 0 && troubles.length === 0)
    terminal.say(`there is no part (NAME.part.yaml) among ${command.paths.join(', ')}.`);
  const judge = await judgeFor(command.shop, folders, terminal);
  if (!judge) return 2;
  const workspace = new Workspace(judge.host, judge.set);
  const gate = command.write ? new Gate(folders, terminal.disk) : undefined;
  const run: Run = {
    workspace,
    terminal,
    ...(gate && { gate }),
    ...(command.format === 'json' && { told: { plans: [], unread: [...troubles] } }),
  };
  let status: 0 | 1 | 2 = troubles.length > 0 || parts.length === 0 ? 2 : 0;
  for (const [i, part] of parts.entries()) {
    if (i > 0 && !run.told) terminal.print('');
    const planned = await planFile(part, command.variant, run);
    if (planned > status) status = planned;
  }
  if (run.told) terminal.data(plansJson(run.told.plans, run.told.unread));
  return status;
}

interface Run {
  readonly workspace: Workspace;
  readonly terminal: Terminal;
  /** Where the plan is to be written, too. */
  readonly gate?: Gate;
  /** For a program, all at the end: the plans, and what could not be planned. */
  readonly told?: { readonly plans: unknown[]; readonly unread: string[] };
}

/** A sentence about a file that was not planned. */
function lacking(file: Found, why: string, { terminal, told }: Run): 2 {
  const sentence = `${file.shown} ${why}`;
  terminal.say(sentence);
  told?.unread.push(sentence);
  return 2;
}

/** Each row of its table of variants; the set-ups that are written hold for all of them. */
async function planFile(file: Found, variant: string | undefined, run: Run): Promise<0 | 1 | 2> {
  const { workspace, terminal, gate, told } = run;
  const snapshot = await workspace.snapshot(file.path);
  const refused = (why: string): 2 => lacking(file, why, run);
  if (snapshot?.kind !== 'part') return refused(`${whyGone(await workspace.unread(file.path))}.`);
  if (gate) {
    if (variant === undefined) return planOne(file, snapshot, run);
    return refused(
      'was left as it is: set-ups are written for the size in `parameters`. Leave out --variant or --write.',
    );
  }
  const sizes = sizesIn(snapshot, variant);
  if (sizes.length === 0) return refused(withoutVariant(namesOf(snapshot), variant ?? ''));
  let status: 0 | 1 | 2 = 0;
  for (const [i, size] of sizes.entries()) {
    if (i > 0 && !told) terminal.print('');
    const planned = planOne(file, size, run);
    status = Math.max(status, await planned) as typeof status;
  }
  return status;
}

async function planOne(file: Found, snapshot: PartSnapshot, run: Run): Promise<0 | 1 | 2> {
  const { terminal, gate, told } = run;
  const say = (text: string) => terminal.say(`${file.shown} ${text}`);
  const { checked } = snapshot;
  const shopless = withoutItsShop(checked.shop);
  if (shopless) return lacking(file, `was not planned: ${shopless}.`, run);
  const plan = planOf(checked);
  if (!plan) {
    const why = checked.part.body
      ? `cannot be planned: ${checked.shop.name} has no vise.`
      : 'cannot be planned: its body could not be understood (scribeline check shows why).';
    return lacking(file, why, run);
  }
  if (told) told.plans.push(planJson(file.shown, plan, checked));
  else {
    terminal.print(...planLines(plan, checked));
    const beside = alternativesLines(checked, plan);
    if (beside.length > 0) terminal.print('', ...beside);
  }
  const hidden = hiddenIn(checked, snapshot.findings);
  if (plan.uncut.length > 0 && (!gate || hidden.length === 0)) {
    if (gate) say('was left as it is: the plan does not cut all of it.');
    return 1;
  }
  if (!gate) return hidden.length > 0 ? 1 : 0;
  const { said, status } = await writeOut(snapshot, plan, gate, terminal.disk);
  say(said);
  // The first is told already.
  const others = hidden.slice(1, MOST_TOLD);
  if (status === 2) terminal.aside(...others.map((line) => `  ${line}`));
  return status;
}

const MOST_TOLD = 8;

async function writeOut(
  { path, text, checked, findings }: PartSnapshot,
  plan: Plan,
  gate: Gate,
  disk?: Disk,
): Promise<{ readonly said: string; readonly status: 0 | 2 }> {
  const written = writePlan(plan, checked, findings);
  if (written.kept === 'same') return { said: 'has this plan already.', status: 0 };
  if (written.kept === 'nothing') return { said: 'has nothing to cut: nothing was written.', status: 0 };
  if (written.kept) return { said: `was not written. ${written.why}`, status: 2 };
  const over = Buffer.from(text, 'utf8');
  const why = await save({ path, bytes: Buffer.from(written.text, 'utf8'), over }, gate, disk);
  return why ? { said: why, status: 2 } : { said: 'has its set-ups written.', status: 0 };
}
