/** `scribeline plan`: the fewest setups for a part, told or written into its file. */
import { readFile, writeFile } from 'node:fs/promises';
import { planOf } from '../planning/plan';
import { writeSetups } from '../planning/write';
import { alternativesLines, planLines } from '../report/plan';
import { Workspace } from '../service/workspace';
import { withoutItsShop } from '../spec/unread-shop';
import { applyEdits, locateEdits } from '../text/edit';
import type { Command } from './arguments';
import { type Found, findDocuments } from './files';
import { nodeHost } from './host';
import { shopOption } from './shop-option';
import type { Terminal } from './terminal';

type PlanCommand = Extract<Command, { name: 'plan' }>;

/** 0: every part has a whole plan; 1: something of one cannot be cut by any; 2: a part could not be planned. */
export async function runPlan(command: PlanCommand, terminal: Terminal): Promise<0 | 1 | 2> {
  const { files, troubles } = await findDocuments(command.paths, terminal.cwd);
  for (const trouble of troubles) terminal.say(trouble);
  const parts = files.filter(({ path }) => /\.part\.ya?ml$/.test(path));
  if (parts.length === 0 && troubles.length === 0)
    terminal.say(`there is no part (NAME.part.yaml) among ${command.paths.join(', ')}.`);
  const host = nodeHost((message) => terminal.say(message));
  const shop = await shopOption(command.shop, host, terminal);
  if (!shop) return 2;
  const workspace = new Workspace(host, shop);
  let status: 0 | 1 | 2 = troubles.length > 0 || parts.length === 0 ? 2 : 0;
  for (const [i, part] of parts.entries()) {
    if (i > 0) terminal.print('');
    const planned = await planOne(part, command.write, workspace, terminal);
    if (planned > status) status = planned;
  }
  return status;
}

async function planOne(file: Found, write: boolean, workspace: Workspace, terminal: Terminal): Promise<0 | 1 | 2> {
  const say = (text: string) => terminal.say(`${file.shown} ${text}`);
  const snapshot = await workspace.snapshot(file.path);
  if (snapshot?.kind !== 'part') {
    say(`${(await workspace.unread(file.path)) ?? 'could not be read'}.`);
    return 2;
  }
  const { checked } = snapshot;
  const shopless = withoutItsShop(checked.shop);
  if (shopless) {
    say(`was not planned: ${shopless}.`);
    return 2;
  }
  const plan = planOf(checked);
  if (!plan) {
    say(
      checked.part.body
        ? `cannot be planned: ${checked.shop.name} has no vise.`
        : 'cannot be planned: its body could not be understood (scribeline check tells why).',
    );
    return 2;
  }
  terminal.print(...planLines(plan, checked));
  const others = alternativesLines(checked, plan);
  if (others.length > 0) terminal.print('', ...others);
  if (plan.left.length > 0) {
    if (write) say('was left as it is: the plan does not cut all of it.');
    return 1;
  }
  if (write) await writeOut(file, checked.tree.text, applied());
  return 0;

  function applied(): string {
    const edits = writeSetups(
      plan!.setups.map((s) => s.setup),
      checked.part,
      checked.tree,
    );
    return applyEdits(checked.tree.text, locateEdits(checked.tree, edits));
  }

  async function writeOut({ path }: Found, before: string, after: string): Promise<void> {
    if (after === before) return say('has this plan already.');
    const bytes = await readFile(path);
    if (!bytes.equals(Buffer.from(before, 'utf8')))
      return say('is not plain UTF-8, or changed meanwhile: nothing was written.');
    await writeFile(path, after, 'utf8');
    say('has its set-ups written.');
  }
}
