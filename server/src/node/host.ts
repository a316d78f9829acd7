/** Node's side of the service's host: reads files and folders of this machine. Paths may be `file:` URIs or plain paths. */
import { readdir, realpath } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { kindOf } from '../service/documents';
import type { FileText, Host } from '../service/host';
import { crawl, WANTED } from './crawl';
import { Gate } from './gate';
import { readDocument, whyNot } from './read-file';

/**
 * So many turns of the event loop a message takes at most from one hand to the next: read, handed on behind the one before
 * it, its answer lined up, head and body written. After fewer, an answer that is ready would wait for a slice of work in each.
 */
const TURNS = 5;

/** `folders`: what a command line named; without them, what is opened is told with each question. */
export function nodeHost(log: (message: string) => void, folders?: readonly string[]): Host {
  const gateOf = gates(folders);
  return {
    log,
    later(ms, work) {
      const timer = setTimeout(work, ms);
      // What is left to do later keeps no process alive.
      timer.unref();
      return () => clearTimeout(timer);
    },
    pause: async () => {
      for (let turn = 0; turn < TURNS; turn++) await new Promise((resolve) => setImmediate(resolve));
    },
    async read(path, opened = []) {
      const file = toPath(path);
      return file === undefined ? undefined : readThrough(gateOf(opened), file, folders !== undefined);
    },
    async list(folder) {
      const path = toPath(folder === '' ? '/' : folder);
      if (path === undefined) return [];
      try {
        const entries = await readdir(path, { withFileTypes: true });
        return entries.filter((e) => !e.isDirectory()).map((e) => e.name);
      } catch (error) {
        const { code } = error as NodeJS.ErrnoException;
        return code === 'ENOENT' || code === 'ENOTDIR' ? [] : { why: whyNot(error as NodeJS.ErrnoException) };
      }
    },
    async documents(folder) {
      const path = toPath(folder);
      if (path === undefined) return [];
      const { paths, closed } = await crawl(WANTED, path, gateOf([folder]));
      for (const c of closed) log(`${c.folder} ${c.why}: nothing in it was looked at`);
      return paths.map((f) => (folder.startsWith('file:') ? pathToFileURL(f).href : f)).sort();
    },
  };
}

/** The gate of the folders that are open: the same as long as they are. */
function gates(named: readonly string[] | undefined): (opened: readonly string[]) => Gate {
  let last = named && { key: '', gate: new Gate(named) };
  return (opened) => {
    const key = named ? '' : opened.join('\n');
    if (last?.key !== key) last = { key, gate: new Gate(opened.flatMap((o) => toPath(o) ?? [])) };
    return last.gate;
  };
}

/**
 * Inside the folders, what a path leads to once links are followed must be inside too. Beyond them a shop or a part is read
 * only where a text names it so, and only while what it leads to is called a shop or a part as well.
 */
async function readThrough(gate: Gate, file: string, named: boolean): Promise<FileText> {
  const passage = await gate.pass(file);
  if (passage.reason === undefined) return readDocument(passage.real);
  if (passage.reason !== 'outside') return readDocument(file);
  const real = await realpath(file).catch(() => file);
  if (!gate.names(file) && kindOf(real) !== undefined && kindOf(real) === kindOf(file)) return readDocument(real);
  return { why: named ? passage.why.replace(/\.$/, '') : `leads to ${real}, outside the open folder` };
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
