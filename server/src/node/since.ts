/** Of the documents found, those that a revision has otherwise: parts, and parts whose shop or job is not what it was. */
import { existsSync, realpathSync } from 'node:fs';
import { resolvePath } from '../service/documents';
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
  const others = [...changed].some((path) => /\.(shop|job)\.ya?ml$/i.test(path));
  const touched = others ? await partsOfChanged(files, isChanged, terminal) : new Set<string>();
  return files.filter(({ path }) => isChanged(path) || touched.has(slashed(path)));
}

/** Paths of parts whose shop changed, or that a changed job lists. */
async function partsOfChanged(
  files: readonly Found[],
  isChanged: (path: string) => boolean,
  terminal: Terminal,
): Promise<ReadonlySet<string>> {
  const workspace = new Workspace(nodeHost((line) => terminal.say(line), [terminal.cwd]));
  const touched = new Set<string>();
  for (const { path } of files) {
    const snapshot = await workspace.snapshot(path);
    if (snapshot?.kind === 'part' && snapshot.shopPath !== undefined && isChanged(snapshot.shopPath))
      touched.add(slashed(path));
    if (snapshot?.kind !== 'job') continue;
    const pieces = snapshot.checked.job.parts.map((p) => resolvePath(path, p.spec.name));
    if (isChanged(path)) for (const part of pieces) touched.add(part);
    else if (pieces.some(isChanged)) touched.add(slashed(path));
  }
  return touched;
}
