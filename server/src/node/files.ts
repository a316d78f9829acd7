/** Finds the documents a command line asks for: files, folders and globs, each once, in a steady order. */
import { stat } from 'node:fs/promises';
import { isAbsolute, relative, resolve, sep } from 'node:path';
import { glob } from 'tinyglobby';
import { kindOf } from '../service/documents';

export const WANTED = '**/*.{part,shop,job}.{yaml,yml}';
export const SKIPPED = ['**/node_modules/**', '**/.*/**'];

export interface Found {
  /** As shown: relative to `cwd` where it lies below it. */
  readonly shown: string;
  readonly path: string;
}

export interface Search {
  readonly files: readonly Found[];
  /** One sentence for each word that led to nothing. */
  readonly troubles: readonly string[];
}

export async function findDocuments(words: readonly string[], cwd: string): Promise<Search> {
  const paths = new Set<string>();
  const troubles: string[] = [];
  for (const word of words) {
    const found = await search(word, cwd);
    if (typeof found === 'string') troubles.push(found);
    else for (const path of found) paths.add(path);
  }
  return { files: [...paths].map((path) => ({ path, shown: shownPath(path, cwd) })), troubles };
}

async function search(word: string, cwd: string): Promise<readonly string[] | string> {
  const path = resolve(cwd, word);
  const info = await stat(path).catch(() => undefined);
  if (info?.isFile()) {
    if (kindOf(path)) return [slashed(path)];
    return `${word} is none of the documents: names end in .part.yaml, .shop.yaml or .job.yaml.`;
  }
  if (info?.isDirectory()) {
    const found = await glob(WANTED, { cwd: path, absolute: true, ignore: SKIPPED });
    return found.length > 0 ? found.sort() : `${word} holds no .part.yaml, .shop.yaml or .job.yaml.`;
  }
  if (/[*?[\]{}!]/.test(word)) {
    const matched = (await glob(word.replaceAll('\\', '/'), { cwd, absolute: true, ignore: SKIPPED })).filter((p) =>
      kindOf(p),
    );
    return matched.length > 0 ? matched.sort() : `${word} matches no .part.yaml, .shop.yaml or .job.yaml.`;
  }
  return `${word} is not there.`;
}

/** The service counts folders by `/`; Windows takes it as well as its own. */
export function slashed(path: string): string {
  return sep === '/' ? path : path.replaceAll(sep, '/');
}

function shownPath(path: string, cwd: string): string {
  const near = slashed(relative(cwd, path));
  return near.startsWith('..') || isAbsolute(near) ? path : near;
}
