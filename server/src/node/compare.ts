/** `scribeline compare`: two parts, two folders, two jobs, or one of them at two revisions: what changed as parts. */
import { existsSync, statSync } from 'node:fs';
import { dirname, posix, relative, resolve } from 'node:path';
import { findingChanges } from '../compare/findings';
import { jobChange, renamesOf } from '../compare/job';
import type { ComparedPart } from '../compare/json';
import { partChange } from '../compare/part';
import type { Held } from '../page/compared';
import { checkPart } from '../rules/check';
import { resolvePath } from '../service/documents';
import { keyOf } from '../service/file-key';
import type { JobSnapshot, PartSnapshot } from '../service/snapshot';
import { touchesOf } from '../service/touches';
import { Workspace } from '../service/workspace';
import type { Command } from './arguments';
import { textOf } from './compare-text';
import { findDocuments, slashed } from './files';
import { revisionAt } from './git';
import { existingFolder, truly } from './git-door';
import { nodeHost } from './host';
import type { Terminal } from './terminal';

type Compare = Extract<Command, { name: 'compare' }>;

/** One side: its parts by a name that both sides share, and where each is read. */
interface Side {
  readonly workspace: Workspace;
  /** By the path below what was named; of a single part, an empty name. */
  readonly parts: ReadonlyMap<string, string>;
  /** The jobs, by the name that both sides share. */
  readonly jobs: ReadonlyMap<string, string>;
  /** Not as it is on disk. */
  readonly isRevision?: boolean;
  /** Whether a file lies in a repository of its own, of which this revision knows only which. */
  isInModule?(path: string): boolean;
}

class Refusal extends Error {}

/** 0: compared, whatever came of it; 2: a side could not be had. */
export async function runCompare(command: Compare, terminal: Terminal): Promise<0 | 2> {
  try {
    const [before, after] = [await sideOf(command.before, terminal), await sideOf(command.after, terminal)];
    const held = await comparedOf(before, after, command, terminal);
    if (command.to !== undefined || command.format === 'html') {
      const { writeComparison } = await import('./compare-paper');
      return await writeComparison(held, { ...command, titles: titlesOf(command, terminal) }, terminal);
    }
    terminal.print(...textOf(held, command.format));
    return 0;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    terminal.say(error.message);
    return 2;
  }
}

/** `REV:PATH` by its revision, files by their names; as it is on disk. */
function titlesOf({ before, after }: Compare, { cwd }: Terminal) {
  const isFile = (named: string) => existsSync(resolve(cwd, named)) || named.indexOf(':') < 1;
  const title = (named: string, other: string) => {
    if (isFile(named)) return isFile(other) ? named : 'as it is';
    return named.slice(0, named.indexOf(':'));
  };
  return { before: title(before, after), after: title(after, before) };
}

async function comparedOf(before: Side, after: Side, command: Compare, terminal: Terminal): Promise<readonly Held[]> {
  const names = [...new Set([...before.parts.keys(), ...after.parts.keys()])].sort();
  const compared: Held[] = [];
  const at = new Map<string, number>();
  for (const name of names) {
    const [a, b] = [before.parts.get(name), after.parts.get(name)];
    const path = name || shown(command.after);
    if ((a === undefined && before.isInModule?.(b!)) || (b === undefined && after.isInModule?.(a!)))
      terminal.say(`${path} lies in a submodule, a repository of its own: compare it there.`);
    else if (a === undefined || b === undefined)
      compared.push({ compared: { path, only: a === undefined ? 'new' : 'old' } });
    else {
      const sides = { before: await partOf(before, a), after: await partOf(after, b) };
      const today = after.isRevision || before.isRevision ? await byTodaysShop(sides.after, terminal) : undefined;
      const change = partChange(sides.before.checked, sides.after.checked);
      compared.push({ compared: { path, change, ...(today && { today }) }, sides });
      at.set(keyOf(sides.after.path), compared.length - 1);
    }
  }
  const parts = await touchingOf({ before, after, compared, at });
  const jobs = await jobsCompared(before, after, parts, command);
  // A job that cannot be read names no parts: those of the other have neither come nor gone.
  const isUnread =
    before.jobs.has('') && jobs.some(({ compared: c }) => 'jobChange' in c && c.jobChange.unread?.some((u) => u.whole));
  return [...jobs, ...(isUnread ? parts.filter((p) => !('only' in p.compared)) : parts)];
}

/** Each job that is in both, with what its parts call their features now; and those that are in one. */
async function jobsCompared(
  before: Side,
  after: Side,
  parts: readonly Held[],
  command: Compare,
): Promise<readonly Held[]> {
  const made: Held[] = [];
  for (const name of [...new Set([...before.jobs.keys(), ...after.jobs.keys()])].sort()) {
    const [a, b] = [before.jobs.get(name), after.jobs.get(name)];
    const path = name || shown(command.after);
    if (a === undefined || b === undefined) {
      made.push({ compared: { path, only: a === undefined ? 'new' : 'old' } });
      continue;
    }
    const [old, now] = [await jobOf(before, a), await jobOf(after, b)];
    const renamed = now.pieces.flatMap(({ entry }) => {
      const file = keyOf(resolvePath(keyOf(b), entry.spec.name));
      const held = parts.find((h) => h.sides && keyOf(h.sides.after.path) === file)?.compared;
      return held && 'change' in held ? [{ piece: entry.name, change: held.change }] : [];
    });
    made.push({ compared: { path, jobChange: jobChange(sideOfJob(old), sideOfJob(now), renamesOf(renamed)) } });
  }
  return made;
}

function sideOfJob({ text, checked: { job, tree }, pieces, findings }: JobSnapshot) {
  return { text, tree, job, pieces, findings };
}

async function jobOf({ workspace }: Pick<Side, 'workspace'>, path: string): Promise<JobSnapshot> {
  const snapshot = await workspace.snapshot(path);
  if (snapshot?.kind !== 'job') throw new Refusal(`${path} ${(await workspace.unread(path)) ?? 'is no job'}.`);
  return snapshot;
}

interface Comparing {
  readonly before: Side;
  readonly after: Side;
  readonly compared: readonly Held[];
  /** Which of them is which file of the new side. */
  readonly at: ReadonlyMap<string, number>;
}

/** With the joints that each change reaches, by the jobs of the new side. */
async function touchingOf(all: Comparing): Promise<readonly Held[]> {
  const paths = new Map([...all.at].map(([path, i]) => [i, path]));
  const made: Held[] = [];
  for (const [i, held] of all.compared.entries()) {
    const { compared: one } = held;
    const path = paths.get(i);
    const touches =
      'change' in one && !one.change.same && path !== undefined
        ? await touchesOf(one.change, path, all.after.workspace, (other) => isChanged(other, all))
        : [];
    made.push(touches.length > 0 ? { ...held, compared: { ...(one as ComparedPart), touches } } : held);
  }
  return made;
}

/** Whether a part that is met was changed as well; undefined where only the new side has it. */
async function isChanged(path: string, { before, after, compared, at }: Comparing): Promise<boolean | undefined> {
  const one = compared[at.get(path) ?? -1]?.compared;
  if (one) return !('change' in one) || !one.change.same;
  if (!before.isRevision && !after.isRevision) return undefined;
  return (await before.workspace.text(path)) !== (await after.workspace.text(path));
}

async function partOf({ workspace }: Side, path: string): Promise<PartSnapshot> {
  const snapshot = await workspace.snapshot(path);
  if (snapshot?.kind !== 'part') throw new Refusal(`${path} ${(await workspace.unread(path)) ?? 'is no part'}.`);
  return snapshot;
}

/** What the shop as it is now on disk says of the new part, where that is not what its own shop said. */
async function byTodaysShop({ checked, shopPath }: PartSnapshot, terminal: Terminal) {
  if (shopPath === undefined) return undefined;
  const workspace = new Workspace(nodeHost((line) => terminal.say(line), [dirname(shopPath)]));
  const shop = await workspace.snapshot(shopPath);
  if (shop?.kind !== 'shop') return undefined;
  const again = checkPart(checked.tree.text, shop.checked.shop, undefined, checked.tree.others);
  const { raised, cured } = findingChanges(checked, again, (name) => name);
  return raised.length + cured.length > 0 ? { raised, cured } : undefined;
}

/** The part of `REV:path` that a user knows it by. */
function shown(named: string): string {
  return existsSync(named) ? named : named.slice(named.indexOf(':') + 1);
}

async function sideOf(named: string, terminal: Terminal): Promise<Side> {
  const path = resolve(terminal.cwd, named);
  const colon = named.indexOf(':');
  if (existsSync(path) || colon < 1) return diskSide(named, terminal);
  return revisionSide(named.slice(0, colon), named.slice(colon + 1), terminal);
}

async function diskSide(named: string, terminal: Terminal): Promise<Side> {
  const { files, troubles, folders } = await findDocuments([named], terminal.cwd);
  if (troubles.length > 0) throw new Refusal(troubles.join(' '));
  const workspace = new Workspace(nodeHost((line) => terminal.say(line), folders));
  const path = resolve(terminal.cwd, named);
  if (isJob(named)) return jobSide(path, workspace);
  const parts = files.map((f) => f.path).filter(isPart);
  const isFolder = statSync(path).isDirectory();
  const jobs = files.map((f) => f.path).filter(isJob);
  return { workspace, parts: byName(path, parts, isFolder), jobs: byName(path, jobs, isFolder) };
}

async function revisionSide(name: string, file: string, terminal: Terminal): Promise<Side> {
  const path = truly(resolve(terminal.cwd, file));
  const found = await revisionAt(existingFolder(path), name);
  if ('why' in found) throw new Refusal(`${name}:${file}: ${found.why}.`);
  const workspace = new Workspace(found.host);
  const all = await found.files(path);
  if (all.length === 0) throw new Refusal(`${name}:${file}: that revision has no such file.`);
  if (isJob(file)) return { ...(await jobSide(path, workspace)), isRevision: true };
  const isFolder = all[0] !== slashed(path);
  const named = (is: (path: string) => boolean) => byName(path, all.filter(is), isFolder);
  const isInModule = (of: string) => all.some((f) => slashed(of).startsWith(`${f}/`));
  return { workspace, parts: named(isPart), jobs: named(isJob), isRevision: true, isInModule };
}

function byName(root: string, parts: readonly string[], isFolder: boolean): ReadonlyMap<string, string> {
  if (!isFolder) return new Map(parts.map((path) => ['', path]));
  return new Map(parts.map((path) => [slashed(relative(root, path)), path]));
}

/** A job, and the parts that it lists, by the names it gives them. */
async function jobSide(path: string, workspace: Workspace): Promise<Side> {
  const { checked } = await jobOf({ workspace }, path);
  const folder = posix.dirname(slashed(path));
  const parts = new Map(checked.job.parts.map((p) => [p.name, posix.join(folder, p.spec.name)]));
  return { workspace, parts, jobs: new Map([['', path]]) };
}

function isPart(path: string): boolean {
  return /\.part\.ya?ml$/i.test(path);
}
function isJob(path: string): boolean {
  return /\.job\.ya?ml$/i.test(path);
}
