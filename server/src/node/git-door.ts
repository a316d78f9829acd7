/** Revisions for the editor: its names are URIs, git's are paths. */
import { existsSync, realpathSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Host } from '../service/host';
import { indexAt, revisionAt, revisionsOf } from './git';

export const gitDoor: Required<Pick<Host, 'revision' | 'revisions'>> = {
  async revision(uri, name) {
    const path = pathOf(uri);
    if (path === undefined) return undefined;
    const folder = existingFolder(path);
    const found = await (name === '' ? indexAt(folder) : revisionAt(folder, name));
    return 'why' in found ? found : { host: found.host, pathOf };
  },
  async revisions(uri) {
    const path = pathOf(uri);
    return path === undefined ? undefined : revisionsOf(path);
  },
};

/** As git says it, once links are followed. */
function pathOf(uri: string): string | undefined {
  if (uri.startsWith('/')) return truly(uri);
  try {
    return truly(fileURLToPath(uri));
  } catch {
    return undefined;
  }
}

/** A folder that was there then may be gone: git is asked from the nearest one that is still there. */
export function existingFolder(path: string): string {
  if (dirname(path) === path || (existsSync(path) && statSync(path).isDirectory())) return path;
  return existingFolder(dirname(path));
}

/** Git says where its files are once links are followed. */
export function truly(path: string): string {
  const folder = existingFolder(path);
  return join(realpathSync(folder), relative(folder, path));
}
