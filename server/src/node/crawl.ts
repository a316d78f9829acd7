/**
 * A look through folders for documents. Links are followed only inside what was named or opened, each folder is entered
 * through links once, and a folder that cannot be looked into is said. What stands under a document's name counts as one,
 * whatever it is: reading it tells.
 */
import { type Dirent, realpath } from 'node:fs';
import { readdir, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { promisify } from 'node:util';
import type { FileSystemAdapter } from 'tinyglobby';
import type { Gate } from './gate';
import { whyNot } from './read-file';

export const WANTED = '**/*.{part,shop,job}.{yaml,yml}';
/** Records too. */
export const EVERY = '**/*.{part,shop,job,record}.{yaml,yml}';
const SKIPPED = ['**/node_modules/**', '**/.*/**'];

interface Crawled {
  /** Absolute, in a steady order, each file once. */
  readonly paths: readonly string[];
  /** Folders that could not be looked into: the folder and why, without a full stop. */
  readonly closed: readonly { readonly folder: string; readonly why: string }[];
}

/**
 * What matches patterns takes no end of line inside a name, though a file may have one: in its place stands, until it has
 * matched, a number of Unicode's that is no character (FDD0 and on).
 */
const LINE_ENDS = ['\n', '\r', '\u2028', '\u2029'];
const STAND_INS = ['\ufdd0', '\ufdd1', '\ufdd2', '\ufdd3'];
const onOneLine = (name: string) => name.replace(/[\n\r\u2028\u2029]/g, (c) => STAND_INS[LINE_ENDS.indexOf(c)]!);
const asNamed = (path: string) => path.replace(/[\ufdd0-\ufdd3]/g, (c) => LINE_ENDS[STAND_INS.indexOf(c)]!);

export async function crawl(pattern: string, cwd: string, gate: Gate): Promise<Crawled> {
  // A file of its own: most runs look through no folder.
  const { glob } = await import('tinyglobby');
  const looking = new Looking(gate);
  const fs = { readdir: looking.readdir } as unknown as FileSystemAdapter;
  const options = { cwd: onOneLine(cwd), absolute: true, ignore: SKIPPED, followSymbolicLinks: false, fs };
  const paths = (await glob(onOneLine(pattern), options)).map((p) => asNamed(resolve(p)));
  return { paths: (await looking.once(paths)).sort(), closed: looking.closed };
}

type Entry = Pick<Dirent, 'name' | 'isFile' | 'isDirectory' | 'isSymbolicLink'>;

class Looking {
  readonly closed: { folder: string; why: string }[] = [];
  readonly #gate: Gate;
  /** Where each folder really is. */
  readonly #real = new Map<string, string>();
  /** Folders that were reached through a link. */
  readonly #linked = new Set<string>();
  readonly #entered = new Set<string>();

  constructor(gate: Gate) {
    this.#gate = gate;
  }

  /** In the place of the system's own. */
  readonly readdir = (path: string, _options: object, done: (error: null, entries: readonly Entry[]) => void): void => {
    void this.#list(asNamed(resolve(path))).then((entries) => done(null, entries));
  };

  async #list(folder: string): Promise<readonly Entry[]> {
    const passage = await this.#gate.pass(folder);
    if (passage.reason) return this.#closed(folder, passage.why.replace(/\.$/, ''));
    const { real } = passage;
    const above = this.#real.get(dirname(folder));
    this.#real.set(folder, real);
    if (this.#linked.has(dirname(folder)) || (above !== undefined && real !== join(above, basename(folder))))
      this.#linked.add(folder);
    if (this.#linked.has(folder) && this.#entered.has(real)) return [];
    this.#entered.add(real);
    try {
      return await Promise.all((await readdir(real, { withFileTypes: true })).map((e) => entryOf(real, e)));
    } catch (error) {
      return this.#closed(folder, whyNot(error as NodeJS.ErrnoException));
    }
  }

  #closed(folder: string, why: string): readonly Entry[] {
    this.closed.push({ folder, why });
    return [];
  }

  /** Files that were found both in their folder and through a link to it, under their own name. */
  async once(paths: readonly string[]): Promise<string[]> {
    const linked = paths.filter((p) => this.#linked.has(dirname(p)));
    if (linked.length === 0) return [...paths];
    const own = paths.filter((p) => !this.#linked.has(dirname(p)));
    const seen = new Set(await Promise.all(own.map(whereIs)));
    for (const path of linked.sort()) {
      const real = await whereIs(path);
      if (!seen.has(real)) own.push(path);
      seen.add(real);
    }
    return own;
  }
}

const whereIs = (path: string) => promisify(realpath)(path).catch(() => path);

async function entryOf(folder: string, entry: Dirent): Promise<Entry> {
  const isFolder = entry.isSymbolicLink()
    ? await stat(join(folder, entry.name)).then(
        (info) => info.isDirectory(),
        () => false,
      )
    : entry.isDirectory();
  return {
    name: onOneLine(entry.name),
    isDirectory: () => isFolder,
    isFile: () => !isFolder,
    isSymbolicLink: () => false,
  };
}
