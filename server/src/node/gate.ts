/**
 * One gate for every file that is read or written by its name: where a path leads once every link is followed, and
 * whether that is inside the folders that the user named or opened. What it lets through is the real path: open that
 * one, not the one that was asked for.
 */
import { lstat, readlink, realpath, stat } from 'node:fs/promises';
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';

/** What following links takes; tests hand in another. */
interface LinkReader {
  realpath(path: string): Promise<string>;
  lstat(path: string): Promise<{ isSymbolicLink(): boolean }>;
  readlink(path: string): Promise<string>;
}

/** `reason` tells them apart for a program, `why` goes on after the file's name: `yoke.part.yaml leads to …`. */
interface Refused {
  readonly reason: 'absent' | 'dangling' | 'loop' | 'outside' | 'closed';
  readonly why: string;
}
type Passage = { readonly real: string; readonly reason?: undefined } | Refused;

export class Gate {
  readonly #files: LinkReader;
  readonly #named: readonly string[];
  #roots: Promise<readonly string[]> | undefined;

  /** `folders`: absolute; what lies below one of them, links followed, may be read and written. */
  constructor(folders: readonly string[], files: LinkReader = { lstat, readlink, realpath }) {
    this.#named = [...new Set(folders)];
    this.#files = files;
  }

  /** Of a file or folder that is there. */
  async pass(path: string): Promise<Passage> {
    try {
      return await this.#inside(await this.#files.realpath(path));
    } catch (error) {
      return this.#whyNot(path, error);
    }
  }

  /** Of a file that may not be there yet: then its folder must be. A link that leads nowhere is not followed. */
  async passNew(path: string): Promise<Passage> {
    const there = await this.pass(path);
    if (there.reason !== 'absent') return there;
    const folder = await this.pass(dirname(path));
    if (folder.reason === 'absent')
      return { reason: 'absent', why: `is not made: the folder of ${path} is not there.` };
    if (folder.reason) return folder;
    return { real: join(folder.real, basename(path)) };
  }

  /** Whether a path as it is written lies in one of the folders, wherever its links lead. */
  names(path: string): boolean {
    return this.#named.some((folder) => isBelow(resolve(path), folder));
  }

  async #inside(real: string): Promise<Passage> {
    this.#roots ??= Promise.all(this.#named.map((f) => this.#files.realpath(f).catch(() => resolve(f))));
    const roots = await this.#roots;
    if (roots.some((root) => isBelow(real, root))) return { real };
    return { reason: 'outside', why: `leads to ${real}, outside the folders that were named. Name that file itself.` };
  }

  async #whyNot(path: string, error: unknown): Promise<Refused> {
    const code = (error as NodeJS.ErrnoException).code ?? String(error);
    if (code === 'ELOOP') return { reason: 'loop', why: 'is a link that leads back to itself.' };
    if (code !== 'ENOENT' && code !== 'ENOTDIR') return { reason: 'closed', why: `could not be reached (${code}).` };
    const link = await this.#files.lstat(path).catch(() => undefined);
    if (!link?.isSymbolicLink()) return { reason: 'absent', why: 'is not there.' };
    const target = await this.#files.readlink(path).catch(() => 'another file');
    return { reason: 'dangling', why: `is a link to ${target}, which is not there.` };
  }
}

/** Whether a path is a folder or lies in it; both real and absolute. */
export function isBelow(path: string, folder: string): boolean {
  const way = relative(folder, path);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

/**
 * The folders that a command line opens: its working folder, every folder it names, the folder of every file it names,
 * and of a glob the folder before its first wildcard.
 */
export async function foldersNamed(words: readonly string[], cwd: string): Promise<readonly string[]> {
  const named = words.map(async (word) => {
    const path = resolve(cwd, word);
    const info = await stat(path).catch(() => undefined);
    if (info) return info.isDirectory() ? path : dirname(path);
    const parts = word.replaceAll('\\', '/').split('/');
    const wild = parts.findIndex((p) => /[*?[\]{}!]/.test(p));
    return wild < 0
      ? dirname(path)
      : resolve(cwd, parts.slice(0, wild).join('/') || (word.startsWith('/') ? '/' : '.'));
  });
  return [...new Set([cwd, ...(await Promise.all(named))])];
}
