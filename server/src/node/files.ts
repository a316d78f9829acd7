/** Finds the documents a command line asks for: files, folders and globs, each once, in a steady order. */
import { lstat, stat } from 'node:fs/promises';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import { kindOf } from '../service/documents';
import { NOT_THERE } from '../service/shop-of';
import { crawl, EVERY } from './crawl';
import { foldersNamed, Gate } from './gate';
import { whyNot } from './read-file';

export interface Found {
  /** As shown: relative to `cwd` where it lies below it. */
  readonly shown: string;
  readonly path: string;
}

interface Search {
  readonly files: readonly Found[];
  /** One sentence for each word that led to nothing, and for each folder that could not be looked into. */
  readonly troubles: readonly string[];
  /** What may be read by name: see `Gate`. */
  readonly folders: readonly string[];
}

const DOCUMENTS = '.part.yaml, .shop.yaml or .job.yaml';

/** `records`: those too. Only what judges looks at them. */
export async function findDocuments(words: readonly string[], cwd: string, records = false): Promise<Search> {
  const wanted = (path: string) => isJudged(path, records);
  const folders = await foldersNamed(words, cwd);
  const gate = new Gate(folders);
  const paths = new Set<string>();
  const troubles = new Set<string>();
  for (const word of words) {
    const found = await search(word, cwd, { gate, wanted });
    for (const path of found.paths) paths.add(slashed(path));
    for (const trouble of found.troubles) troubles.add(trouble);
  }
  return { files: [...paths].map((path) => ({ path, shown: shownPath(path, cwd) })), troubles: [...troubles], folders };
}

interface Searched {
  readonly paths: readonly string[];
  readonly troubles: readonly string[];
}

const nothing = (trouble: string): Searched => ({ paths: [], troubles: [trouble] });

interface Looking {
  readonly gate: Gate;
  readonly wanted: (path: string) => boolean;
}

async function search(word: string, cwd: string, { gate, wanted }: Looking): Promise<Searched> {
  const path = resolve(cwd, word);
  const there = await lstat(path).catch((error: NodeJS.ErrnoException) => error);
  if (!(there instanceof Error)) {
    if (await stat(path).then((s) => s.isDirectory(), no))
      return below(EVERY, path, `${word} holds no`, cwd, { gate, wanted });
    // Whatever else stands under a document's name: reading it tells.
    if (wanted(path)) return { paths: [path], troubles: [] };
    return nothing(`${word} is none of the documents: names end in ${DOCUMENTS}.`);
  }
  if (there.code !== 'ENOENT' && there.code !== 'ENOTDIR') return nothing(`${word} ${whyNot(there)}.`);
  if (/[*?[\]{}!]/.test(word))
    return below(word.replaceAll('\\', '/'), cwd, `${word} matches no`, cwd, { gate, wanted });
  return nothing(`${word} is not there.`);
}

const no = () => false;

function isJudged(path: string, records: boolean): boolean {
  const kind = kindOf(path);
  return kind !== undefined && (records || kind !== 'record');
}

async function below(pattern: string, folder: string, none: string, cwd: string, looking: Looking): Promise<Searched> {
  const found = await crawl(pattern, folder, looking.gate);
  const paths = found.paths.filter(looking.wanted);
  const troubles = found.closed.map((c) => `${shownPath(c.folder, cwd)} ${c.why}: nothing in it was looked at.`);
  return { paths, troubles: paths.length + troubles.length > 0 ? troubles : [`${none} ${DOCUMENTS}.`] };
}

/** Why a file that the search found cannot be had, to follow its name. */
export function whyGone(why: string | undefined): string {
  return why === NOT_THERE ? 'is gone: it was there when its folder was looked through' : (why ?? 'could not be read');
}

/** The service counts folders by `/`; Windows takes it as well as its own. */
export function slashed(path: string): string {
  return sep === '/' ? path : path.replaceAll(sep, '/');
}

function shownPath(path: string, cwd: string): string {
  const near = slashed(relative(cwd, path));
  return near.startsWith('..') || isAbsolute(near) ? path : near || '.';
}
