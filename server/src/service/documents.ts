/** Which of the four documents a file is, by its name, and where its neighbours are. Paths are URIs or plain paths: both use `/`. */

import { keyOf } from './file-key';

export type DocumentKind = 'part' | 'shop' | 'job' | 'record';

/** Which kind of document a path is, by its ending; undefined for none of ours. */
export function kindOf(path: string): DocumentKind | undefined {
  const match = /\.(part|shop|job|record)\.ya?ml$/i.exec(path);
  return match ? (match[1]!.toLowerCase() as DocumentKind) : undefined;
}

/** What an editor's language id says: `scribeline-part` and its kin. */
export function kindOfLanguage(languageId: string): DocumentKind | undefined {
  const match = /^scribeline-(part|shop|job|record)$/.exec(languageId);
  return match ? (match[1] as DocumentKind) : undefined;
}

/** The folder of a file, without the closing slash. */
function folderOf(path: string): string {
  return path.slice(0, Math.max(0, path.lastIndexOf('/')));
}

/** Where a relative path written in `from` leads: `../campus.shop.yaml` beside `parts/yoke.part.yaml`. Answers its key. */
export function resolvePath(from: string, relative: string): string {
  const clean = relative.replaceAll('\\', '/');
  const scheme = /^[a-z][a-z0-9+.-]*:\/\/[^/]*/i.exec(from)?.[0] ?? '';
  const steps = clean.startsWith('/') ? [] : folderOf(from).slice(scheme.length).split('/');
  for (const step of clean.split('/')) {
    if (step === '..') steps.pop();
    else if (step !== '.' && step !== '') steps.push(scheme ? encodeURIComponent(step) : step);
  }
  const path = steps.filter((step, i) => i === 0 || step !== '').join('/');
  const isRelative = !scheme && !from.startsWith('/') && !clean.startsWith('/');
  return keyOf(scheme + (path.startsWith('/') || isRelative ? path : `/${path}`));
}

/** The folders from a file's own up to (and with) the root that holds it; all the way up where no root does. */
export function foldersUp(path: string, roots: readonly string[]): string[] {
  const root = rootOf(path, roots);
  const found: string[] = [];
  let folder = folderOf(path);
  for (;;) {
    found.push(folder);
    if (folder === root || !folder.includes('/') || /^[a-z][a-z0-9+.-]*:\/\/[^/]*$/i.test(folder)) return found;
    folder = folderOf(folder);
  }
}

/** The innermost root a path lies in. */
export function rootOf(path: string, roots: readonly string[]): string | undefined {
  const trimmed = roots.map((r) => r.replace(/\/$/, ''));
  return trimmed.filter((r) => path === r || path.startsWith(`${r}/`)).sort((a, b) => b.length - a.length)[0];
}
