/** Questions at a terminal, by number. Where nobody sits at one, nothing is asked. */
import type { Terminal } from './terminal';

interface Row {
  readonly label: string;
  readonly detail: string;
}

/** Nothing is done; the message says why, to follow the file's name. */
export class Refused extends Error {}

/** The place of the one that is chosen; `likely` where only Enter is pressed. */
export async function askOne(terminal: Terminal, title: string, rows: readonly Row[], likely: number): Promise<number> {
  list(terminal, title, rows);
  for (;;) {
    const words = await answered(terminal, `Number (Enter: ${likely + 1}) `);
    if (words === '') return likely;
    const at = Number(words) - 1;
    if (Number.isInteger(at) && rows[at]) return at;
    terminal.aside(`A number from 1 to ${rows.length}.`);
  }
}

/** Those that are not there, as far as somebody says so. */
export async function askWithout<R extends Row>(
  terminal: Terminal,
  title: string,
  rows: readonly R[],
  sectionOf?: (row: R) => string,
): Promise<readonly R[]> {
  if (!terminal.ask || rows.length === 0) return [];
  list(terminal, title, rows, sectionOf);
  for (;;) {
    const words = await answered(terminal, 'Numbers of what is not (4 7-9; Enter: all is) ');
    const places = numbersIn(words, rows.length);
    if (places) return rows.filter((_, at) => places.has(at + 1));
    terminal.aside(`Numbers from 1 to ${rows.length}, set apart: 4 7-9`);
  }
}

function list<R extends Row>(
  terminal: Terminal,
  title: string,
  rows: readonly R[],
  sectionOf?: (row: R) => string,
): void {
  terminal.aside(title);
  let section = '';
  for (const [at, row] of rows.entries()) {
    const now = sectionOf?.(row) ?? '';
    if (now !== section) terminal.aside(`  ${now}`);
    section = now;
    terminal.aside(`  ${String(at + 1).padStart(4)}  ${row.label}${row.detail && `  ${row.detail}`}`);
  }
}

async function answered({ ask }: Terminal, question: string): Promise<string> {
  const words = await ask?.(question);
  if (words === undefined) throw new Refused('was not written: the question was left.');
  return words.trim();
}

/** `4 7-9` as 4, 7, 8, 9; undefined where something else stands there. */
function numbersIn(words: string, most: number): ReadonlySet<number> | undefined {
  const found = new Set<number>();
  for (const word of words.split(/[\s,]+/).filter((w) => w !== '')) {
    const [, from, to = from] = /^(\d+)(?:-(\d+))?$/.exec(word) ?? [];
    const [first, last] = [Number(from), Number(to)];
    if (!(first >= 1 && first <= last && last <= most)) return undefined;
    for (let n = first; n <= last; n++) found.add(n);
  }
  return found;
}
