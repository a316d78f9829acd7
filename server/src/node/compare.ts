/** `scribeline compare`: two parts, two folders, two jobs, or one of them at two revisions: what changed as parts. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { dirname, join, posix, relative, resolve } from 'node:path';
import { findingChanges } from '../compare/findings';
import { type Compared, type ComparedPart, compareJson } from '../compare/json';
import { changeLines } from '../compare/lines';
import { changeMarkdown } from '../compare/markdown';
import { type PartChange, partChange } from '../compare/part';
import { type Touched, touchedBy } from '../compare/touches';
import { checkPart } from '../rules/check';
import { resolvePath } from '../service/documents';
import { keyOf } from '../service/file-key';
import type { PartSnapshot } from '../service/snapshot';
import { Workspace } from '../service/workspace';
import { escapeMarkdown } from '../text/markdown';
import type { Command } from './arguments';
import { findDocuments, slashed } from './files';
import { revisionAt } from './git';
import { nodeHost } from './host';
import type { Terminal } from './terminal';

type Compare = Extract<Command, { name: 'compare' }>;

/** One side: its parts by a name that both sides share, and where each is read. */
interface Side {
  readonly workspace: Workspace;
  /** By the path below what was named; of a single part, an empty name. */
  readonly parts: ReadonlyMap<string, string>;
  /** Not as it is on disk. */
  readonly isRevision?: boolean;
}

class Refusal extends Error {}

/** 0: compared, whatever came of it; 2: a side could not be had. */
export async function runCompare(command: Compare, terminal: Terminal): Promise<0 | 2> {
  try {
    const [before, after] = [await sideOf(command.before, terminal), await sideOf(command.after, terminal)];
    const compared = await comparedOf(before, after, command, terminal);
    terminal.print(...textOf(compared, command.format));
    return 0;
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    terminal.say(error.message);
    return 2;
  }
}

function textOf(compared: readonly Compared[], format: Compare['format']): readonly string[] {
  if (format === 'json') return compareJson(compared).trimEnd().split('\n');
  const lines = compared.flatMap((one) => {
    if ('only' in one) {
      const words = one.only === 'old' ? 'gone' : 'new';
      return format === 'md' ? [`## ${escapeMarkdown(one.path)}: ${words}`, ''] : [`${one.path}: ${words}`];
    }
    return format === 'md' ? changeMarkdown(one) : changeLines(one);
  });
  return lines.length > 0 ? lines : ['there is no part on either side.'];
}

async function comparedOf(
  before: Side,
  after: Side,
  command: Compare,
  terminal: Terminal,
): Promise<readonly Compared[]> {
  const names = [...new Set([...before.parts.keys(), ...after.parts.keys()])].sort();
  const compared: Compared[] = [];
  const at = new Map<string, number>();
  for (const name of names) {
    const [a, b] = [before.parts.get(name), after.parts.get(name)];
    const path = name || shown(command.after);
    if (a === undefined || b === undefined) compared.push({ path, only: a === undefined ? 'new' : 'old' });
    else {
      const [old, now] = [await partOf(before, a), await partOf(after, b)];
      const today = after.isRevision || before.isRevision ? await byTodaysShop(now, terminal) : undefined;
      compared.push({ path, change: partChange(old.checked, now.checked), ...(today && { today }) });
      at.set(keyOf(now.path), compared.length - 1);
    }
  }
  return touchingOf({ before, after, compared, at });
}

interface Comparing {
  readonly before: Side;
  readonly after: Side;
  readonly compared: readonly Compared[];
  /** Which of them is which file of the new side. */
  readonly at: ReadonlyMap<string, number>;
}

/** With the joints that each change reaches, by the jobs of the new side. */
async function touchingOf(all: Comparing): Promise<readonly Compared[]> {
  const paths = new Map([...all.at].map(([path, i]) => [i, path]));
  const made: Compared[] = [];
  for (const [i, one] of all.compared.entries()) {
    const path = paths.get(i);
    const touches =
      'change' in one && !one.change.same && path !== undefined ? await touchesOf(one.change, path, all) : [];
    made.push(touches.length > 0 ? { ...(one as ComparedPart), touches } : one);
  }
  return made;
}

async function touchesOf(change: PartChange, path: string, all: Comparing): Promise<readonly Touched[]> {
  const found: Touched[] = [];
  for (const { path: home, checked, pieces } of await all.after.workspace.jobsOf(path)) {
    const { job } = checked;
    const as = job.parts.filter((p) => resolvePath(home, p.spec.name) === path).map((p) => p.name);
    const changed = new Map<string, boolean | undefined>();
    for (const { name, spec } of job.parts) changed.set(name, await isChanged(resolvePath(home, spec.name), all));
    found.push(...touchedBy(change, { job, pieces, as }, (name) => changed.get(name)));
  }
  return found;
}

/** Whether a part that is met was changed as well; undefined where only the new side has it. */
async function isChanged(path: string, { before, after, compared, at }: Comparing): Promise<boolean | undefined> {
  const one = compared[at.get(path) ?? -1];
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
  const again = checkPart(checked.tree.text, shop.checked.shop);
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
  return { workspace, parts: byName(path, parts, statSync(path).isDirectory()) };
}

async function revisionSide(name: string, file: string, terminal: Terminal): Promise<Side> {
  const path = truly(resolve(terminal.cwd, file));
  const found = await revisionAt(existingFolder(path), name);
  if ('why' in found) throw new Refusal(`${name}:${file}: ${found.why}.`);
  const workspace = new Workspace(found.host);
  const all = await found.files(path);
  if (all.length === 0) throw new Refusal(`${name}:${file}: that revision has no such file.`);
  if (isJob(file)) return { ...(await jobSide(path, workspace)), isRevision: true };
  return { workspace, parts: byName(path, all.filter(isPart), all[0] !== slashed(path)), isRevision: true };
}

/** A folder that was there then may be gone: git is asked from the nearest one that is still there. */
function existingFolder(path: string): string {
  if (dirname(path) === path || (existsSync(path) && statSync(path).isDirectory())) return path;
  return existingFolder(dirname(path));
}

/** Git says where its files are once links are followed. */
function truly(path: string): string {
  const folder = existingFolder(path);
  return join(realpathSync(folder), relative(folder, path));
}

function byName(root: string, parts: readonly string[], isFolder: boolean): ReadonlyMap<string, string> {
  if (!isFolder) return new Map(parts.map((path) => ['', path]));
  return new Map(parts.map((path) => [slashed(relative(root, path)), path]));
}

/** The parts that a job lists, by the names it gives them. */
async function jobSide(path: string, workspace: Workspace): Promise<Side> {
  const snapshot = await workspace.snapshot(path);
  if (snapshot?.kind !== 'job') throw new Refusal(`${path} ${(await workspace.unread(path)) ?? 'is no job'}.`);
  const folder = posix.dirname(slashed(path));
  const { parts } = snapshot.checked.job;
  return { workspace, parts: new Map(parts.map((p) => [p.name, posix.join(folder, p.spec.name)])) };
}

function isPart(path: string): boolean {
  return /\.part\.ya?ml$/i.test(path);
}
function isJob(path: string): boolean {
  return /\.job\.ya?ml$/i.test(path);
}
