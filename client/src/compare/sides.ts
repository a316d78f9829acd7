/** Which two texts are meant: by the difference that is in view, two files, a row of a file's history. */
import { TabInputTextDiff, Uri, window } from 'vscode';
import type { CompareSide } from '../../../server/src/service/compare-protocol';

export interface Sides {
  readonly before: CompareSide;
  readonly after: CompareSide;
}

const NAMES_PART = /\.part\.ya?ml$/i;
export const isPart = (uri: Uri) => NAMES_PART.test(uri.path);
export const nameOf = ({ path }: Uri) => path.slice(path.lastIndexOf('/') + 1);

/** What a command is called with from a menu, else what is in view; or why there are no two. */
export function sidesFrom(given: unknown, others: unknown): Sides | string {
  const row = rowOfHistory(given, others);
  if (row) return row;
  const two = Array.isArray(others) ? others.filter((o): o is Uri => o instanceof Uri && isPart(o)) : [];
  if (two.length === 2) return sidesOf(two[0]!, two[1]!);
  const input = window.tabGroups.activeTabGroup.activeTab?.input;
  if (input instanceof TabInputTextDiff) return sidesOf(input.original, input.modified);
  const seen = [...new Map(window.visibleTextEditors.map((e) => [e.document.uri.toString(), e.document.uri])).values()];
  const parts = seen.filter(isPart);
  if (parts.length === 2) return sidesOf(parts[0]!, parts[1]!);
  return 'Open a difference of a part, or two parts side by side, or choose two files.';
}

export function sidesOf(before: Uri, after: Uri): Sides | string {
  const [a, b] = [sideOf(before), sideOf(after)];
  if (typeof a === 'string') return a;
  return typeof b === 'string' ? b : { before: a, after: b };
}

/** What the editor's git support calls a file of a revision: its path and the revision stand in the query. */
function sideOf(uri: Uri): CompareSide | string {
  if (!isPart(uri)) return `${nameOf(uri)} is no part.`;
  if (uri.scheme !== 'git') return { uri: uri.toString(), title: nameOf(uri) };
  const { path, ref } = queryOf(uri);
  // `~1` to `~3` are the sides of a merge that is not done.
  if (path === undefined || ref === undefined || /^~\d/.test(ref))
    return `${nameOf(uri)}: this side is neither a file nor a revision.`;
  return sideAt(Uri.file(path), ref === '~' ? '' : ref);
}

/** A file as a revision has it; an empty name: as it is put forward for the next commit. */
export function sideAt(file: Uri, revision: string): CompareSide {
  const short = /^[0-9a-f]{40}$/.test(revision) ? revision.slice(0, 8) : revision;
  return { uri: file.toString(), revision, title: `${nameOf(file)} (${short === '' ? 'as staged' : short})` };
}

function queryOf({ query }: Uri): { readonly path?: string; readonly ref?: string } {
  try {
    const { path, ref } = JSON.parse(query) as { path?: unknown; ref?: unknown };
    return { ...(typeof path === 'string' && { path }), ...(typeof ref === 'string' && { ref }) };
  } catch {
    return {};
  }
}

/** A row of the history beside a file: with what that revision changed. */
function rowOfHistory(row: unknown, file: unknown): Sides | undefined {
  if (typeof row !== 'object' || row === null || !(file instanceof Uri) || !isPart(file)) return undefined;
  const { ref, previousRef } = row as { ref?: unknown; previousRef?: unknown };
  if (typeof ref !== 'string' || ref === '') return undefined;
  const of = Uri.file(file.scheme === 'git' ? (queryOf(file).path ?? file.path) : file.path);
  const before = typeof previousRef === 'string' && previousRef !== '' ? previousRef : `${ref}^`;
  return { before: sideAt(of, before === '~' ? '' : before), after: sideAt(of, ref === '~' ? '' : ref) };
}
