/** Node's side of the service's host: reads files and folders of this machine. Paths may be `file:` URIs or plain paths. */
import { open, readdir, stat } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { glob } from 'tinyglobby';
import type { Host } from '../service/host';
import { FILE_LIMIT } from '../service/workspace';
import { SKIPPED, WANTED } from './files';

export function nodeHost(log: (message: string) => void): Host {
  return {
    log,
    later(ms, work) {
      const timer = setTimeout(work, ms);
      // What is left to do later keeps no process alive.
      timer.unref();
      return () => clearTimeout(timer);
    },
    async read(path) {
      const file = toPath(path);
      if (file === undefined) return undefined;
      try {
        return await readLimited(file);
      } catch (error) {
        if (!isAbsence(error)) log(`cannot read ${path}: ${String(error)}`);
        return undefined;
      }
    },
    async list(folder) {
      const path = toPath(folder === '' ? '/' : folder);
      if (path === undefined) return [];
      try {
        return await readdir(path);
      } catch {
        return [];
      }
    },
    async documents(folder) {
      const path = toPath(folder);
      if (path === undefined) return [];
      const found = await glob(WANTED, { cwd: path, absolute: true, ignore: SKIPPED });
      return found.map((f) => (folder.startsWith('file:') ? pathToFileURL(f).href : f)).sort();
    },
  };
}

/** Reads at most `FILE_LIMIT` characters' worth of bytes: a device or an endless file must not hang the caller. */
export async function readLimited(path: string): Promise<string> {
  if (!(await stat(path)).isFile()) throw Object.assign(new Error('not a file'), { code: 'ENOENT' });
  const handle = await open(path);
  try {
    const { size } = await handle.stat();
    const buffer = Buffer.alloc(Math.min(size, FILE_LIMIT));
    const { bytesRead } = await handle.read(buffer, 0, buffer.length, 0);
    return buffer.toString('utf8', 0, bytesRead);
  } finally {
    await handle.close();
  }
}

function toPath(uriOrPath: string): string | undefined {
  if (!/^[a-z][a-z0-9+.-]+:\/\//i.test(uriOrPath)) return uriOrPath;
  if (!uriOrPath.startsWith('file:')) return undefined;
  try {
    return fileURLToPath(uriOrPath);
  } catch {
    return undefined;
  }
}

function isAbsence(error: unknown): boolean {
  const code = (error as { code?: string }).code;
  return code === 'ENOENT' || code === 'ENOTDIR';
}
