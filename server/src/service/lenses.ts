/** The figures a part's author wants in sight: what it weighs, where it balances, what it is cut from; for a job, the sum. */

import { knownPlan } from '../planning/plan-cache';
import type { Figure } from '../report/at-hand';
import { moneyText } from '../report/costs';
import { figuresOf } from '../report/figures';
import { hoursText, jobFigures, withoutText } from '../report/job-figures';
import type { CheckedPart } from '../rules/checked-part';
import { entry, type Span } from '../text/tree';
import { rangeOf } from './lsp';
import type { CodeLens } from './shapes';
import type { JobSnapshot, PartSnapshot, Snapshot } from './snapshot';
import { sizesIn } from './variants';
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
  return [
    ...(title ? [lens(snapshot, head.key.span, title)] : []),
    ...(snapshot.kind === 'part' ? await rowLenses(snapshot, figures) : []),
  ];
}

/** A command without a name is shown as text that cannot be pressed. */
function lens(snapshot: Snapshot, span: Span, title: string): CodeLens {
  return { range: rangeOf(snapshot, span), command: { title, command: '' } };
}

/** More rows than are in sight are not worked out. */
const MOST_ROWS = 12;

/** Above each row of its table of variants, what that part weighs and takes. */
async function rowLenses(
  part: PartSnapshot,
  figures: (part: PartSnapshot) => Promise<readonly Figure[]>,
): Promise<readonly CodeLens[]> {
  const lenses: CodeLens[] = [];
  for (const { name, span } of part.checked.part.variants.slice(0, MOST_ROWS)) {
    const [row] = sizesIn(part, name);
    const title = row && partTitle(row.checked, await figures(row));
    if (title) lenses.push(lens(part, span, title));
  }
  return lenses;
}

/** `90 g  ·  balances at …`: words for a line, not a table. */
function partTitle(checked: CheckedPart, figures: readonly Figure[]): string | undefined {
  const words: Readonly<Record<string, (value: string) => string>> = {
    'thinnest wall': (v) => `thinnest wall ${v}`,
    time: (v) => `${v} at the machine`,
    'cut away': (v) => `${v} cut away`,
    stock: (v) => `cut from ${v}`,
    balance: (v) => `balances at ${v}`,
    cost: (v) => v,
  };
  const always = figures.flatMap(({ name, value }) =>
    ALWAYS.includes(name) ? [name === 'without' ? `without ${value}` : value] : [],
  );
  const rest = Object.entries(words).flatMap(([name, say]) =>
    figures.filter((f) => f.name === name).map((f) => say(f.value)),
  );
  // Without set-ups in the text: how many a plan takes, once it was worked out in a quiet moment.
  const plan = checked.part.setups ? undefined : knownPlan(checked);
  if (plan && plan.uncut.length === 0 && plan.setups.length > 0)
    rest.unshift(`${plan.setups.length} set-up${plan.setups.length === 1 ? '' : 's'} as planned`);
  return always.length + rest.length > 0 ? withinWidth(always.join(BETWEEN), rest) : undefined;
}

/** As a line of a screen has room for beside the text; the hover on the part's name tells the rest. */
const MOST_COLUMNS = 60;
const BETWEEN = '  ·  ';

/** What the part weighs, and what is left out of that. */
const ALWAYS: readonly string[] = ['mass', 'volume', 'without'];

/** What there is in any case, then what still fits. */
function withinWidth(first: string, rest: readonly string[]): string {
  return rest.reduce((line, next) => {
    const longer = line === '' ? next : `${line}${BETWEEN}${next}`;
    return longer.length <= MOST_COLUMNS ? longer : line;
  }, first);
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
