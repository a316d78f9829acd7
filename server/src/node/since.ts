/** Of the documents found, those that a revision has otherwise: parts, and parts whose shop or job is not what it was. */
import { existsSync, realpathSync } from 'node:fs';
import { kindOf, resolvePath } from '../service/documents';
import { includedKeys, mayInclude } from '../service/included';
import type { PartSnapshot } from '../service/snapshot';
import { Workspace } from '../service/workspace';
import { type Found, slashed } from './files';
import { changedSince } from './git';
import { nodeHost } from './host';
import type { Terminal } from './terminal';

/** A sentence where there is no such revision. */
export async function onlyChanged(
  files: readonly Found[],
  since: string,
  terminal: Terminal,
): Promise<readonly Found[] | { readonly why: string }> {
  const changed = await changedSince(terminal.cwd, since);
  if ('why' in changed) return changed;
  const isChanged = (path: string) => changed.has(slashed(existsSync(path) ? realpathSync(path) : path));
  const kinds = new Set([...changed].map(kindOf));
  const reach = kinds.has('shop') || kinds.has('job') ? 'all' : kinds.has('part') ? 'including' : undefined;
  const touched = reach ? await partsOfChanged(files, isChanged, { reach, terminal }) : new Set<string>();
  return files.filter(({ path }) => isChanged(path) || touched.has(slashed(path)));
}

/** Paths of parts whose shop changed, or a file that they include, or that a changed job lists. */
async function partsOfChanged(
  files: readonly Found[],
  isChanged: (path: string) => boolean,
  { reach, terminal }: { readonly reach: 'all' | 'including'; readonly terminal: Terminal },
): Promise<ReadonlySet<string>> {
  const workspace = new Workspace(nodeHost((line) => terminal.say(line), [terminal.cwd]));
  const touched = new Set<string>();
  for (const { path } of files) {
    // Most parts include nothing, and need not be worked out to know it.
    if (reach === 'including' && !mayInclude((await workspace.text(path)) ?? '')) continue;
    const snapshot = await workspace.snapshot(path);
    if (snapshot?.kind === 'part' && [...turnsOn(snapshot)].some(isChanged)) touched.add(slashed(path));
    if (snapshot?.kind !== 'job') continue;
    const pieces = snapshot.checked.job.parts.map((p) => resolvePath(path, p.spec.name));
    if (isChanged(path)) for (const part of pieces) touched.add(part);
    else if (await reaches(workspace, pieces, isChanged)) touched.add(slashed(path));
  }
  return touched;
}

/** The other documents that a part is checked with. */
function* turnsOn({ path, shopPath, checked }: PartSnapshot): Generator<string> {
  if (shopPath !== undefined) yield shopPath;
  yield* includedKeys(path, checked.tree.others);
}

/** Whether one of a job's parts changed, or a file that it includes. */
async function reaches(
  workspace: Workspace,
  pieces: readonly string[],
  isChanged: (path: string) => boolean,
): Promise<boolean> {
  if (pieces.some(isChanged)) return true;
  for (const piece of pieces) {
    const part = await workspace.snapshot(piece);
    if (part?.kind === 'part' && [...includedKeys(piece, part.checked.tree.others)].some(isChanged)) return true;
  }
  return false;
}
