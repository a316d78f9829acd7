/**
 * Files as a revision of a git repository has them. Nothing of the repository is run: hooks, watchers, pagers and fetching
 * are off, and nothing is written.
 */
import { execFile } from 'node:child_process';
import { realpath } from 'node:fs/promises';
import { dirname, posix, relative, resolve } from 'node:path';
import { promisify } from 'node:util';
import type { FileRevision } from '../service/compare-protocol';
import type { FileText, Host } from '../service/host';
import { slashed } from './files';
import { decoded } from './read-file';

const run = promisify(execFile);
const OFF = ['-c', 'core.hooksPath=/dev/null', '-c', 'core.fsmonitor=false', '-c', 'core.pager=cat', '--no-pager'];
const ENV = {
  GIT_OPTIONAL_LOCKS: '0',
  GIT_TERMINAL_PROMPT: '0',
  GIT_NO_LAZY_FETCH: '1',
  LC_ALL: 'C',
  GIT_LITERAL_PATHSPECS: '1',
};
const MOST_BYTES = 32 * 2 ** 20;

async function git(folder: string, ...words: readonly string[]): Promise<string> {
  const { stdout } = await run('git', ['-C', folder, ...OFF, ...words], {
    env: { ...process.env, ...ENV },
    maxBuffer: MOST_BYTES,
  });
  return stdout;
}

/** A revision of the repository that a folder is in. */
interface Revision {
  readonly host: Host;
  /** Absolute, with `/`. */
  readonly root: string;
  /** Every file below a folder of it, absolute. */
  files(folder: string): Promise<readonly string[]>;
}

/** A sentence where there is no such revision. */
export async function revisionAt(folder: string, name: string): Promise<Revision | { readonly why: string }> {
  const found = await commitAt(folder, name);
  return 'why' in found ? found : revision(found.root, found.commit);
}

/** What is put forward for the next commit. */
export async function indexAt(folder: string): Promise<Revision | { readonly why: string }> {
  const found = await rootAt(folder);
  return 'why' in found ? found : revision(found.root, '');
}

/** The revisions that changed a file, the latest first, under whatever name it had. */
export async function revisionsOf(path: string): Promise<readonly FileRevision[] | { readonly why: string }> {
  const found = await rootAt(dirname(path));
  if ('why' in found) return found;
  const { root } = found;
  const words = ['log', `--max-count=${MOST_REVISIONS}`, '--follow', '--no-show-signature', '--no-ext-diff'];
  const format = ['--no-textconv', '--no-color', '-z', '--format=%H%x1f%cI%x1f%s'];
  const name = slashed(relative(root, await realpath(path)));
  // Where nothing was committed yet there is no history to be told.
  const listed = await git(root, ...words, ...format, '--', name).catch(() => '');
  return listed.split('\0').flatMap((row) => {
    const [id = '', when = '', title = ''] = row.replace(/^\n/, '').split('\x1f');
    return id === '' ? [] : [{ id, when, title }];
  });
}
/** More are not chosen from. */
const MOST_REVISIONS = 200;

/** Files that are not as the revision has them, those that it has not among them: absolute, links followed. */
export async function changedSince(
  folder: string,
  name: string,
): Promise<ReadonlySet<string> | { readonly why: string }> {
  const found = await commitAt(folder, name);
  if ('why' in found) return found;
  const { root, commit } = found;
  const listed = await Promise.all([
    git(root, 'diff', '--name-only', '--no-ext-diff', '--no-textconv', '-z', commit, '--'),
    git(root, 'ls-files', '--others', '--exclude-standard', '-z'),
  ]);
  return new Set(listed.flatMap((names) => names.split('\0').flatMap((n) => (n ? [posix.join(root, n)] : []))));
}

/** Lines of files that are not as a revision has them, counted from 0. */
interface ChangedLines {
  /** The file's name from the repository's root; its lines undefined where the revision has no such file. */
  of(path: string): Promise<{ readonly name: string; readonly changed?: readonly (readonly [number, number])[] }>;
}

export async function changedLines(folder: string, revision: string): Promise<ChangedLines | { readonly why: string }> {
  const found = await commitAt(folder, revision);
  if ('why' in found) return found;
  const { root, commit } = found;
  return {
    async of(path) {
      const name = slashed(relative(root, await realpath(path)));
      const isThere = await git(root, 'cat-file', '-e', `${commit}:${name}`).then(
        () => true,
        () => false,
      );
      if (!isThere) return { name };
      const words = ['diff', '--unified=0', '--no-color', '--no-ext-diff', '--no-textconv', commit, '--', name];
      const hunks = (await git(root, ...words)).matchAll(/^@@ -\S+ \+(\d+)(?:,(\d+))? @@/gm);
      const changed = [...hunks].flatMap(([, from, count = '1']) =>
        count === '0' ? [] : [[Number(from) - 1, Number(from) + Number(count) - 2] as const],
      );
      return { name, changed };
    },
  };
}

type Commit = { readonly root: string; readonly commit: string };

async function rootAt(folder: string): Promise<{ readonly root: string } | { readonly why: string }> {
  try {
    return { root: slashed((await git(folder, 'rev-parse', '--show-toplevel')).trim()) };
  } catch (error) {
    return {
      why: missing(error) ? 'needs git, which is not installed here' : `${slashed(folder)} is in no git repository`,
    };
  }
}

async function commitAt(folder: string, name: string): Promise<Commit | { readonly why: string }> {
  const found = await rootAt(folder);
  if ('why' in found) return found;
  const { root } = found;
  // Never an option, whatever it is called.
  const commit = name.startsWith('-')
    ? ''
    : await git(root, 'rev-parse', '--verify', '--quiet', '--end-of-options', `${name}^{commit}`).catch(() => '');
  if (commit.trim() !== '') return { root, commit: commit.trim() };
  const shallow = (await git(root, 'rev-parse', '--is-shallow-repository').catch(() => '')).trim() === 'true';
  return {
    why: shallow
      ? `the revision \`${name}\` is not here: this clone is shallow; fetch its history (git fetch --unshallow)`
      : `there is no revision \`${name}\` in ${root}`,
  };
}

function missing(error: unknown): boolean {
  return (error as NodeJS.ErrnoException).code === 'ENOENT';
}

/** An empty `commit` is the index. */
function revision(root: string, commit: string): Revision {
  const inside = (path: string) => slashed(relative(root, resolve(path)));
  const files = async (folder: string) => {
    const below = inside(folder);
    // Above the repository that revision has nothing.
    if (below.startsWith('..')) return [];
    const list = commit === '' ? ['ls-files', '-z'] : ['ls-tree', '-r', '-z', '--name-only', commit];
    const listed = await git(root, ...list, ...(below ? ['--', below] : []));
    return listed.split('\0').flatMap((name) => (name ? [posix.join(root, name)] : []));
  };
  const read = async (path: string): Promise<FileText> => {
    const name = inside(path);
    if (name.startsWith('..')) return { why: 'lies outside the repository' };
    const words = ['-C', root, ...OFF, 'cat-file', 'blob', `${commit}:${name}`];
    const options = { env: { ...process.env, ...ENV }, maxBuffer: MOST_BYTES, encoding: 'buffer' } as const;
    return run('git', words, options).then(
      ({ stdout }) => decoded(stdout),
      () => undefined,
    );
  };
  const host: Host = {
    log: () => {},
    read,
    list: async (folder) =>
      (await files(folder)).flatMap((f) => (dirname(f) === slashed(resolve(folder)) ? [posix.basename(f)] : [])),
    documents: files,
  };
  return { host, root, files };
}

/** Where git looks for attributes that no clone gets, absolute: work trees of one repository share it. */
export async function attributesFile(folder: string): Promise<string | { readonly why: string }> {
  try {
    return resolve(folder, (await git(folder, 'rev-parse', '--git-path', 'info/attributes')).trim());
  } catch (error) {
    return {
      why: missing(error) ? 'needs git, which is not installed here' : `${slashed(folder)} is in no git repository`,
    };
  }
}

/** Settings of this repository alone. */
export async function setConfig(folder: string, settings: Readonly<Record<string, string>>): Promise<void> {
  for (const [name, value] of Object.entries(settings)) await git(folder, 'config', '--local', name, value);
}

export async function unsetConfig(folder: string, sections: readonly string[]): Promise<void> {
  for (const name of sections) await git(folder, 'config', '--local', '--remove-section', name).catch(() => '');
}
