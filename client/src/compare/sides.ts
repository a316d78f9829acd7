/** Which two texts are meant: by the difference that is in view, two files, a row of a file's history. */
import { TabInputTextDiff, Uri, window } from 'vscode';
import type { CompareSide } from '../../../server/src/service/compare-protocol';

export interface Sides {
  readonly before: CompareSide;
  readonly after: CompareSide;
}

/** What can be compared, and with what of its kind: parts and jobs. */
export function kindOf({ path }: Uri): string | undefined {
  return /\.(part|job)\.ya?ml$/i.exec(path)?.[1]?.toLowerCase();
}
export const nameOf = ({ path }: Uri) => path.slice(path.lastIndexOf('/') + 1);

/** What a command is called with from a menu, else what is in view; or why there are no two. */
export function sidesFrom(given: unknown, others: unknown): Sides | string {
  const row = rowOfHistory(given, others);
  if (row) return row;
  const two = Array.isArray(others) ? others.filter((o): o is Uri => o instanceof Uri && kindOf(o) !== undefined) : [];
  if (two.length === 2) return sidesOf(two[0]!, two[1]!);
  const input = window.tabGroups.activeTabGroup.activeTab?.input;
  if (input instanceof TabInputTextDiff) return sidesOf(input.original, input.modified);
  const seen = [...new Map(window.visibleTextEditors.map((e) => [e.document.uri.toString(), e.document.uri])).values()];
  for (const kind of ['part', 'job']) {
    const [first, second, ...more] = seen.filter((uri) => kindOf(uri) === kind);
    if (first && second && more.length === 0) return sidesOf(first, second);
  }
  return 'Open a difference of a part or a job, or two of them side by side, or choose two files.';
}

export function sidesOf(before: Uri, after: Uri): Sides | string {
  if (kindOf(before) && kindOf(after) && kindOf(before) !== kindOf(after))
    return `${nameOf(before)} and ${nameOf(after)} are a part and a job: compare two of a kind.`;
  const [a, b] = [sideOf(before), sideOf(after)];
  if (typeof a === 'string') return a;
  return typeof b === 'string' ? b : { before: a, after: b };
}

/** What the editor's git support calls a file of a revision: its path and the revision stand in the query. */
function sideOf(uri: Uri): CompareSide | string {
  if (!kindOf(uri)) return `${nameOf(uri)} is neither a part nor a job.`;
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
  if (typeof row !== 'object' || row === null || !(file instanceof Uri) || !kindOf(file)) return undefined;
  const { ref, previousRef } = row as { ref?: unknown; previousRef?: unknown };
  if (typeof ref !== 'string' || ref === '') return undefined;
  const of = Uri.file(file.scheme === 'git' ? (queryOf(file).path ?? file.path) : file.path);
  const before = typeof previousRef === 'string' && previousRef !== '' ? previousRef : `${ref}^`;
  return { before: sideAt(of, before === '~' ? '' : before), after: sideAt(of, ref === '~' ? '' : ref) };
}
