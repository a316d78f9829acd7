/** Node's side of the service's host: reads files and folders of this machine. Paths may be `file:` URIs or plain paths. */
import { readdir } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { glob } from 'tinyglobby';
import type { Host } from '../service/host';
import { SKIPPED, WANTED } from './files';
import { readDocument } from './read-file';

export function nodeHost(log: (message: string) => void): Host {
  return {
    log,
    later(ms, work) {
      const timer = setTimeout(work, ms);
      // What is left to do later keeps no process alive.
      timer.unref();
      return () => clearTimeout(timer);
    },
    pause: () => new Promise((resolve) => setImmediate(resolve)),
    async read(path) {
      const file = toPath(path);
      return file === undefined ? undefined : readDocument(file);
    },
    async list(folder) {
      const path = toPath(folder === '' ? '/' : folder);
      if (path === undefined) return [];
      try {
        const entries = await readdir(path, { withFileTypes: true });
        return entries.filter((e) => !e.isDirectory()).map((e) => e.name);
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

function toPath(uriOrPath: string): string | undefined {
  if (!/^[a-z][a-z0-9+.-]+:\/\//i.test(uriOrPath)) return uriOrPath;
  if (!uriOrPath.startsWith('file:')) return undefined;
  try {
    return fileURLToPath(uriOrPath);
  } catch {
    return undefined;
  }
}
