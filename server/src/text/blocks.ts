/**
 * Cuts a document into blocks that can be read on their own: one for each top-level key, and where such a key holds a
 * map in block style, one for its head and one for each of its entries. A line of comment, or an empty one, belongs to
 * the block above it.
 *
 * One pass over the lines, looking at their first characters only. What makes this safe: in a map in block style,
 * whatever belongs to an entry is indented deeper than its key (lists may start at the key's own column), so a shallower
 * line always begins something new. Where a line is not clearly a key, the answer is `undefined` (read the document as
 * a whole) or a top-level block that is not cut further: slower, never wrong.
 */

export interface Block {
  /** `body`, `features/mount`; the second of the same name is `mount#2`. */
  readonly name: string;
  readonly from: number;
  readonly to: number;
}
export interface TopBlock extends Block {
  /** The entries of its map, where it is cut further; the block's own text then ends where the first begins. */
  readonly entries: readonly Block[];
}

const SPACE = 32;
const LF = 10;
const CR = 13;
const TAB = 9;
const HASH = 35;
const DASH = 45;

/** A plain or simply quoted key with its colon. Groups: quoted, plain. */
const KEY = /(?:["']([^"'\\\n]*)["']|([^\s\-?:,[\]{}#&*!|>'"%@`](?:[^:#\n]|:(?=[^\s]))*?))[ \t]*:(?=[ \t\r\n]|$)/y;
/** A line that is no key yet: a word being typed. */
const STRAY = /[A-Za-z0-9_.](?:[^:#\n]|:(?=[^\s]))*(?=\n|$)/y;
/** Nothing after a key's colon but a comment that cannot be mistaken for a value. */
const HEAD_END = /:[ \t]*(?:#[ \t][^\n]*)?\r?(?=\n|$)/y;

/** The blocks of `text` from `start` on (after a byte order mark), or undefined when it must be read as a whole. */
export function blocksOf(text: string, start: number): TopBlock[] | undefined {
  const cutter = new Cutter(text);
  for (let at = start; at < text.length; ) {
    const end = text.indexOf('\n', at);
    const next = end < 0 ? text.length : end + 1;
    if (!cutter.line(at, next)) return undefined;
    at = next;
  }
  return cutter.finish();
}

class Cutter {
  private readonly tops: TopBlock[] = [];
  /** Names given so far, with the number of the last one of its kind. */
  private readonly names = new Map([['', 1]]);
  private top: { name: string; from: number; cut: boolean; indent: number } | undefined;
  private entries: Block[] = [];
  private entry: { name: string; from: number } | undefined;

  constructor(private readonly text: string) {}

  /** Takes one line; false when the document cannot be cut. */
  line(at: number, next: number): boolean {
    const first = this.text.charCodeAt(at);
    if (first === LF || first === HASH || (first === CR && at + 2 >= next)) return true;
    if (first === SPACE || first === TAB) return this.indented(at, next);
    const key = keyAt(this.text, at);
    if (key !== undefined) {
      this.begin(at, key);
      return true;
    }
    if (!this.top || first === DASH || first === 125 || first === 93) {
      // A list at the key's own column, or a closing bracket; but not `---`.
      if (!this.top || this.text.startsWith('---', at)) return false;
      this.top.cut = false;
      return true;
    }
    const stray = strayAt(this.text, at);
    if (stray === undefined) return false;
    this.begin(at, stray);
    return true;
  }

  finish(): TopBlock[] {
    this.end(this.text.length);
    return this.tops;
  }

  private indented(at: number, next: number): boolean {
    let column = at;
    const { top } = this;
    while (this.text.charCodeAt(column) === SPACE) column++;
    const c = column >= next ? LF : this.text.charCodeAt(column);
    if (c === LF || c === HASH || (c === CR && column + 2 >= next)) return true;
    if (!top) return false;
    if (!top.cut) return true;
    const indent = column - at;
    if (this.entry && indent > top.indent) return true;
    if (this.entry && indent === top.indent && (c === 125 || c === 93)) return true;
    if (this.entry && indent < top.indent) top.cut = false;
    else if (c !== DASH || !this.entry) {
      const key = keyAt(this.text, column) ?? (this.entry && strayAt(this.text, column));
      if (key === undefined) top.cut = false;
      else {
        top.indent = indent;
        this.close(at);
        this.entry = { name: this.unique(`${top.name}/${key}`), from: at };
      }
    }
    return true;
  }

  private begin(at: number, key: string): void {
    this.end(at);
    HEAD_END.lastIndex = KEY.lastIndex;
    this.top = { name: this.unique(key), from: at, cut: KEY.lastIndex > at && HEAD_END.test(this.text), indent: 0 };
  }

  private end(at: number): void {
    this.close(at);
    if (this.top) {
      const { name, from, cut } = this.top;
      this.tops.push({ name, from, to: at, entries: cut ? this.entries : [] });
    }
    this.entries = [];
  }

  private close(at: number): void {
    if (this.entry) this.entries.push({ ...this.entry, to: at });
    this.entry = undefined;
  }

  private unique(name: string): string {
    let free = name;
    let n = this.names.get(name) ?? 1;
    while (this.names.has(free)) free = `${name}#${++n}`;
    this.names.set(name, n);
    if (free !== name) this.names.set(free, 1);
    return free;
  }
}

/** The key that a line begins with at `at`; leaves `KEY.lastIndex` at its colon. */
function keyAt(text: string, at: number): string | undefined {
  KEY.lastIndex = at;
  const match = KEY.exec(text);
  if (!match) return undefined;
  KEY.lastIndex--;
  return match[1] ?? match[2];
}

function strayAt(text: string, at: number): string | undefined {
  STRAY.lastIndex = at;
  const found = STRAY.exec(text)?.[0].trim();
  return found === '...' || found?.startsWith('... ') ? undefined : found;
}
