/** The figures a part's author wants in sight: what it weighs, where it balances, what it is cut from; for a job, the sum. */

import { knownPlan } from '../planning/plan-cache';
import type { Figure } from '../report/at-hand';
import { moneyText } from '../report/costs';
import { figuresOf } from '../report/figures';
import { hoursText, jobFigures, withoutText } from '../report/job-figures';
import type { CheckedPart } from '../rules/checked-part';
import { entry } from '../text/tree';
import { rangeOf } from './lsp';
import type { CodeLens } from './shapes';
import type { JobSnapshot, PartSnapshot, Snapshot } from './snapshot';
import type { Workspace } from './workspace';

/** `figures`: of a part, however long they take. */
export async function lensesOf(
  workspace: Workspace,
  snapshot: Snapshot,
  figures: (part: PartSnapshot) => Promise<readonly Figure[]>,
): Promise<CodeLens[]> {
  const head = entry(snapshot.checked.tree.root, snapshot.kind);
  if (!head) return [];
  const title =
    snapshot.kind === 'part'
      ? partTitle(snapshot.checked, await figures(snapshot))
      : snapshot.kind === 'job'
        ? await jobTitle(workspace, snapshot)
        : undefined;
  // A command without a name is shown as text that cannot be pressed.
  return title ? [{ range: rangeOf(snapshot, head.key.span), command: { title, command: '' } }] : [];
}

/** `90 g  ·  balances at …`: words for a line, not a table. */
function partTitle(checked: CheckedPart, figures: readonly Figure[]): string | undefined {
  const words: Readonly<Record<string, (value: string) => string>> = {
    balance: (v) => `balances at ${v}`,
    stock: (v) => `cut from ${v}`,
    'to chips': (v) => `${v} to chips`,
    'least wall': (v) => `least wall ${v}`,
    time: (v) => `${v} at the machine`,
    without: (v) => `without ${v}`,
  };
  const said = figures.map(({ name, value }) => words[name]?.(value) ?? value);
  // Without set-ups in the text: how many a plan takes, once it was worked out in a quiet moment.
  const plan = checked.part.setups ? undefined : knownPlan(checked);
  if (plan && plan.left.length === 0 && plan.setups.length > 0)
    said.push(`${plan.setups.length} set-up${plan.setups.length === 1 ? '' : 's'} as planned`);
  return said.length > 0 ? said.join('  ·  ') : undefined;
}

/** The mass of all the job's parts, their hours and, by the shop's rates, their cost, where every one of them is known. */
async function jobTitle(workspace: Workspace, snapshot: JobSnapshot): Promise<string | undefined> {
  const { job } = snapshot.checked;
  const pieces = await workspace.piecesOf(snapshot.path, job);
  if (pieces.length === 0) return undefined;
  const figures = jobFigures(job, pieces);
  const { mass_g: grams, machine_h, cost } = figures;
  if (grams === null) return undefined;
  const lacks = withoutText(figures);
  const about = pieces.every((p) => figuresOf(p.checked).exact) ? '' : 'about ';
  const limit = job.massLimitG;
  const left = (limit?.value ?? 0) - grams;
  const mass = limit
    ? `${about}${grams.toFixed(1)} g of ${limit.text}: ${about}${Math.abs(left).toFixed(1)} g ${left >= 0 ? 'to spare' : 'too much'}`
    : `${about}${grams.toFixed(1)} g in all`;
  const hours = machine_h && machine_h[1] > 0 ? [`${hoursText(machine_h)} at the machine`] : [];
  const without = cost && cost.unpriced.length > 0 ? ' without all its material' : '';
  const money = cost && cost.total[1] > 0 ? [moneyText(cost.total, cost.currency) + without] : [];
  return [mass, ...hours, ...money, ...(lacks === undefined ? [] : [`without ${lacks}`])].join('  ·  ');
}
