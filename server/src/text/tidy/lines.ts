/** Lines without a word of their own: comments go where they belong, of empty ones one is enough, and no line ends in blanks. */
import { lineAt, type Plan } from './plan';

/** Columns of the entries that a line stands in, outermost first: as they were, and as they will be. */
type Stack = (readonly [was: number, is: number])[];

/** Comment lines: as far in as what they stand before, or as the entry they stand in. */
export function trailing(plan: Plan): void {
  const { text } = plan.tree;
  const stack: Stack = [];
  const places = [...plan.columns].sort((a, b) => a[0] - b[0]);
  let next = 0;
  for (const line of linesOf(text)) {
    for (; next < places.length && places[next]![0] <= line.end; next++)
      if (!plan.taken.has(line.start)) enter(stack, places[next]![1]);
    if (plan.taken.has(line.start)) continue;
    const words = text.slice(line.start, line.end);
    const blanks = /^[ \t]*/.exec(words)![0].length;
    if (words[blanks] !== '#') continue;
    const column = belongs(stack, nextColumn(plan, line.end), blanks, plan.layout.step);
    plan.edits.push({ start: line.start, end: line.start + blanks, newText: ' '.repeat(column) });
  }
}

function enter(stack: Stack, column: readonly [number, number]): void {
  while (stack.length > 0 && stack.at(-1)![0] >= column[0]) stack.pop();
  stack.push(column);
}

function belongs(stack: Stack, next: readonly [number, number] | undefined, blanks: number, step: number): number {
  if (next && next[0] === blanks) return next[1];
  if (blanks === 0 && (next?.[1] ?? 0) === 0) return 0;
  const own = stack.find(([was]) => was === blanks);
  if (own) return own[1];
  const last = stack.at(-1);
  if (last && blanks > last[0] && !(next && next[0] > last[0])) return last[1] + step;
  return next?.[1] ?? stack.findLast(([was]) => was <= blanks)?.[1] ?? 0;
}

/** Columns of the next line that begins something. */
function nextColumn({ tree: { text }, columns, taken }: Plan, from: number): readonly [number, number] | undefined {
  for (let at = from; at < text.length; ) {
    const line = text.indexOf('\n', at) + 1;
    if (line === 0) return undefined;
    const found = taken.has(line) ? undefined : columns.get(line);
    if (found) return found;
    at = line;
  }
  return undefined;
}

interface Line {
  readonly start: number;
  /** Before its line end. */
  readonly end: number;
}

function linesOf(text: string): readonly Line[] {
  const lines: Line[] = [];
  for (let start = lineAt(text, 0); ; ) {
    const stop = text.indexOf('\n', start);
    if (stop < 0) {
      lines.push({ start, end: text.length });
      return lines;
    }
    lines.push({ start, end: text[stop - 1] === '\r' ? stop - 1 : stop });
    start = stop + 1;
  }
}

/** No blanks at a line's end, no two empty lines after each other, none at the beginning, and one line end at the last. */
export function emptyLines({ tree: { text }, edits, kept }: Plan): void {
  const isKept = (at: number) => kept.some(([from, to]) => from < at && at < to);
  const lines = linesOf(text);
  const eol = text.includes('\r\n') ? '\r\n' : '\n';
  let empty = true;
  let lastEnd = lineAt(text, 0);
  for (const { start, end } of lines) {
    if (isKept(start) || isKept(end)) {
      empty = false;
      lastEnd = end;
      continue;
    }
    const blanks = /[ \t]*$/.exec(text.slice(start, end))![0].length;
    if (blanks === end - start) {
      const next = text.startsWith('\r\n', end) ? end + 2 : Math.min(text.length, end + 1);
      const gone = empty ? next : end;
      if (gone > start) edits.push({ start, end: gone, newText: '' });
      empty = true;
      continue;
    }
    if (blanks > 0) edits.push({ start: end - blanks, end, newText: '' });
    empty = false;
    lastEnd = end;
  }
  // What was emptied above may overlap with the last lines: these are one edit.
  const tail = text.slice(lastEnd);
  if (text.trim() === '' || /^\r?\n$/.test(tail)) return;
  for (let i = edits.length - 1; i >= 0; i--) if (edits[i]!.start >= lastEnd) edits.splice(i, 1);
  if (!isKept(text.length - 1)) edits.push({ start: lastEnd, end: text.length, newText: eol });
}
