/** Cutters of a list as an edit of an open shop. */
import { imported, isNew } from '../cutters/into-shop';
import { sentences } from '../cutters/told';
import { withTools } from '../cutters/write';
import { Unanswered } from './asked';
import type { ImportAnswer } from './import-protocol';
import type { Snapshot } from './snapshot';

export function importAnswer(snapshot: Snapshot, text: string): ImportAnswer | null {
  if (snapshot.kind !== 'shop') return null;
  const { units, tools, names } = snapshot.checked.shop;
  const taken = new Set(names.filter((n) => n.of === 'tool').map((n) => n.name));
  const { rows, told } = imported(text, { units, tools, names: taken });
  const next = withTools(snapshot.text, rows);
  if ('why' in next) throw new Unanswered(`The shop ${next.why}.`);
  const count = (some: typeof rows) => some.length;
  return {
    edits: next.text === snapshot.text ? [] : [editOf(snapshot, next.text)],
    added: count(rows.filter(isNew)),
    there: count(rows.filter(({ entry, why }) => entry === undefined && why === undefined)),
    left: count(rows.filter(({ why }) => why !== undefined)),
    told: [...told, ...rows.flatMap((row) => sentences(row).map((line) => `Line ${row.line}: ${line}`))],
  };
}

/** The one stretch in which two texts differ. */
function editOf({ text, lines }: Snapshot, next: string) {
  let start = 0;
  while (start < text.length && text[start] === next[start]) start++;
  let same = 0;
  while (same < text.length - start && text.at(-1 - same) === next.at(-1 - same)) same++;
  const range = { start: lines.position(start), end: lines.position(text.length - same) };
  return { range, newText: next.slice(start, next.length - same) };
}
