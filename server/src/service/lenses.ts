/** The figures a part's author wants in sight: what it weighs, where it balances, what it is cut from; for a job, the sum. */
import type { CodeLens } from 'vscode-languageserver-types';
import { figuresOf, type PartFigures } from '../report/figures';
import type { Part } from '../spec/model';
import { stockVolumeMm3 } from '../spec/stock';
import { formatLength } from '../text/format';
import { entry } from '../text/tree';
import { resolvePath } from './documents';
import { rangeOf } from './lsp';
import type { JobSnapshot, Snapshot, Workspace } from './workspace';

export async function lensesOf(workspace: Workspace, snapshot: Snapshot): Promise<CodeLens[]> {
  const head = entry(snapshot.checked.tree.root, snapshot.kind);
  if (!head) return [];
  const title =
    snapshot.kind === 'part'
      ? partTitle(figuresOf(snapshot.checked), snapshot.checked.part)
      : snapshot.kind === 'job'
        ? await jobTitle(workspace, snapshot)
        : undefined;
  // A command without a name is shown as text that cannot be pressed.
  return title ? [{ range: rangeOf(snapshot, head.key.span), command: { title, command: '' } }] : [];
}

function partTitle(figures: PartFigures, part: Part): string | undefined {
  const { units } = part;
  const { mass_g, volume_mm3, centroid_mm, stock_mm, exact } = figures;
  if (volume_mm3 === null) return undefined;
  const about = exact ? '' : 'about ';
  const size = (mm: readonly number[], between: string) =>
    mm.map((v) => formatLength(v, units).replace(/ \w+$/, '')).join(between);
  const words = [mass_g === null ? `${about}${(volume_mm3 / 1000).toFixed(2)} cm³` : `${about}${mass_g.toFixed(1)} g`];
  if (centroid_mm)
    words.push(
      `balances at ${size(
        centroid_mm.map((v) => Number(v.toFixed(2))),
        ', ',
      )} ${units}`,
    );
  if (stock_mm) {
    words.push(`cut from ${size(stock_mm, ' × ')} ${units}`);
    const bought = stockVolumeMm3(part);
    if (bought > 0) words.push(`${Math.round((1 - volume_mm3 / bought) * 100)} % to chips`);
  }
  return words.join('  ·  ');
}

/** The mass of all the job's parts, where every one of them is known. */
async function jobTitle(workspace: Workspace, snapshot: JobSnapshot): Promise<string | undefined> {
  const { job } = snapshot.checked;
  let grams = 0;
  for (const { spec, quantity } of job.parts) {
    const part = await workspace.snapshot(resolvePath(snapshot.path, spec.name));
    if (part?.kind !== 'part') return undefined;
    const { mass_g } = figuresOf(part.checked);
    if (mass_g === null) return undefined;
    grams += mass_g * (quantity?.value ?? part.checked.part.quantity);
  }
  if (job.parts.length === 0) return undefined;
  const limit = job.massLimitG;
  if (!limit) return `${grams.toFixed(1)} g in all`;
  const left = limit.value - grams;
  return `${grams.toFixed(1)} g of ${limit.text}: ${Math.abs(left).toFixed(1)} g ${left >= 0 ? 'to spare' : 'too much'}`;
}
