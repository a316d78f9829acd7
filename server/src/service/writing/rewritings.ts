/**
 * A part said otherwise, offered beside its fixes. What comes out is read before it is handed on: it is the same part
 * (or, of what is moved or mirrored, everything else is), with every comment, and nothing in it that was not understood.
 */
import { inShop } from '../../model/material-of';
import type { Part } from '../../model/model';
import { resolvePart } from '../../model/part';
import { sameMembers, samePart } from '../../model/same-part';
import { commentsOf } from '../../text/comments';
import { lineEdits } from '../../text/line-edits';
import { readText } from '../../text/read';
import { rangeBetween } from '../lsp';
import type { CodeAction, Range, WorkspaceEdit } from '../shapes';
import type { PartSnapshot, Snapshot } from '../snapshot';
import { rewritings } from './all';
import type { Rewriting } from './subject';

export function rewritingsOf(snapshot: Snapshot, range: Range, only: readonly string[] | undefined): CodeAction[] {
  return found(snapshot, range)
    .filter(({ kind }) => !only || only.some((o) => o === '' || kind === o || kind.startsWith(`${o}.`)))
    .map(({ id, title, kind }) => ({ title, kind, data: { uri: snapshot.path, id, range } }));
}

function found(snapshot: Snapshot, range: Range): readonly Rewriting[] {
  if (snapshot.kind !== 'part' || snapshot.checked.tree.problems.length > 0) return [];
  const { tree, part } = snapshot.checked;
  const { lines } = snapshot;
  return rewritings({ tree, part, start: lines.offset(range.start), end: lines.offset(range.end) });
}

/** The edit, or one sentence that says why there is none. */
export function rewrittenAs(snapshot: Snapshot, { data }: { data?: unknown }): WorkspaceEdit | string {
  const { id, range } = (data ?? {}) as { id?: string; range?: Range };
  if (snapshot.kind !== 'part' || !id || !range) return GONE;
  const rewriting = found(snapshot, range).find((r) => r.id === id);
  if (!rewriting) return GONE;
  const made = rewriting.make();
  if (typeof made !== 'string') return made.refused;
  const why = whyNot(snapshot, made, rewriting);
  if (why !== undefined) return `The text was left as it is: ${why}.`;
  const edits = lineEdits(snapshot.text, made);
  const changes = edits.map((e) => ({ range: rangeBetween(snapshot, e.start, e.end), newText: e.newText }));
  return { changes: { [snapshot.path]: changes } };
}

const GONE = 'The text was changed meanwhile. Ask again where the cursor is now.';

function whyNot(snapshot: PartSnapshot, text: string, { keeps, of }: Rewriting): string | undefined {
  const { tree, part, reading, shop } = snapshot.checked;
  const now = readText(text, tree);
  if (now.problems.length > 0) return 'what would be written could not be read';
  const is = commentsOf(text);
  if (!commentsOf(snapshot.text).every((c) => is.includes(c))) return 'a comment would be lost';
  const after = inShop(resolvePart(now, reading.part), shop);
  if (after.broken.size > part.broken.size || after.problems.length > part.problems.length)
    return `something would not be understood any more: ${after.problems.at(-1)?.message ?? 'a feature'}`;
  if (KEEPS[keeps](part, after, of ?? [])) return undefined;
  return 'another part would come of it';
}

const KEEPS: Readonly<Record<Rewriting['keeps'], (a: Part, b: Part, of: readonly string[]) => boolean>> = {
  part: (a, b) => samePart(a, b),
  members: sameMembers,
  others: (a, b, of) => samePart(without(a, of), without(b, of)),
  nothing: (a, b) => a.features.length === b.features.length,
};

function without(part: Part, names: readonly string[]): Part {
  return { ...part, features: part.features.filter((f) => !names.includes(f.name)) };
}
