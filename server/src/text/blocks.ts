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
  readonly text: string;
}
export interface TopBlock extends Block {
  /** The entries of its map, where it is cut further; the block's own text then ends where the first begins. */
  readonly entries: readonly Block[];
  /** Whether it could be cut; then the column of its entries. */
  readonly cut: boolean;
  readonly indent: number;
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

/**
 * The blocks of `text` from `start` on (after a byte order mark), or undefined when it must be read as a whole.
 * `before` are the blocks of an earlier version: where one of them stands unchanged, its lines are not looked at again.
 */
export function blocksOf(text: string, start: number, before: readonly TopBlock[] = []): TopBlock[] | undefined {
  const cutter = new Cutter(text, before);
  for (let at = start; at < text.length; ) {
    const known = cutter.known(at);
    if (known > at) {
      at = known;
      continue;
    }
    const end = text.indexOf('\n', at);
    const next = end < 0 ? text.length : end + 1;
    if (!cutter.line(at, next)) return undefined;
    at = next;
  }
  return cutter.finish();
}

/** A block whose end is not found yet, with what it was before where it stands unchanged. */
interface Open {
  readonly name: string;
  readonly from: number;
  readonly known: string | undefined;
}

class Cutter {
  private readonly tops: TopBlock[] = [];
  /** Names given so far, with the number of the last one of its kind. */
  private readonly names = new Map([['', 1]]);
  private top: (Open & { cut: boolean; indent: number }) | undefined;
  private entries: Block[] = [];
  private entry: Open | undefined;
  /** The earlier block that is expected next: a top-level one, or (from 0) one of its entries. */
  private topAt = 0;
  private entryAt = -1;

  constructor(
    private readonly text: string,
    private readonly before: readonly TopBlock[],
  ) {}

  /** Takes an earlier block that stands at `at` unchanged; answers where it ends, or `at`. */
  known(at: number): number {
    const old = this.before[this.topAt];
    if (!old) return at;
    const entry = this.entryAt < 0 ? undefined : old.entries[this.entryAt];
    const block = entry ?? old;
    const to = at + block.text.length;
    if (this.names.has(block.name) || block.name.includes('#') || this.text.slice(at, to) !== block.text) return at;
    if (to < this.text.length && this.text.charCodeAt(to - 1) !== LF) return at;
    const open = { name: block.name, from: at, known: block.text };
    if (entry) {
      const { top } = this;
      if (top?.name !== old.name || !top.cut || (this.entry && top.indent !== old.indent)) return at;
      top.indent = old.indent;
      this.close(at);
      this.entry = open;
    } else {
      // A head without entries may get some now: its lines are few, and looked at again.
      if (old.cut && old.entries.length === 0) return at;
      this.end(at);
      this.top = { ...open, cut: old.cut, indent: 0 };
    }
    this.names.set(block.name, 1);
    this.expectAfter(this.topAt, this.entryAt);
    return to;
  }

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
        this.entry = { name: this.unique(`${top.name}/${key}`), from: at, known: undefined };
        this.expectEntryAfter(top.name, this.entry.name);
      }
    }
    return true;
  }

  private begin(at: number, key: string): void {
    HEAD_END.lastIndex = KEY.lastIndex;
    const cut = KEY.lastIndex > at && HEAD_END.test(this.text);
    this.end(at);
    this.top = { name: this.unique(key), from: at, known: undefined, cut, indent: 0 };
    const old = this.before.findIndex((block) => block.name === this.top?.name);
    if (old >= 0) this.expectAfter(old, -1);
  }

  private end(at: number): void {
    this.close(at);
    if (this.top) {
      const { name, from, known, cut, indent } = this.top;
      const entries = cut ? this.entries : [];
      const text = this.textOf(from, entries[0]?.from ?? at, known);
      this.tops.push({ name, from, text, entries, cut, indent });
    }
    this.entries = [];
  }

  private close(at: number): void {
    if (!this.entry) return;
    const { name, from, known } = this.entry;
    this.entries.push({ name, from, text: this.textOf(from, at, known) });
    this.entry = undefined;
  }

  /** The same string as before where it is the same text, so that comparing it later is free. */
  private textOf(from: number, to: number, known: string | undefined): string {
    return known?.length === to - from ? known : this.text.slice(from, to);
  }

  private expectAfter(top: number, entry: number): void {
    const more = entry + 1 < (this.before[top]?.entries.length ?? 0);
    this.topAt = more ? top : top + 1;
    this.entryAt = more ? entry + 1 : -1;
  }

  private expectEntryAfter(top: string, name: string): void {
    const expected = this.before[this.topAt]?.entries[this.entryAt];
    if (expected?.name === name) {
      this.expectAfter(this.topAt, this.entryAt);
      return;
    }
    const topAt = this.before.findIndex((block) => block.name === top);
    const entryAt = this.before[topAt]?.entries.findIndex((block) => block.name === name) ?? -1;
    if (entryAt >= 0) this.expectAfter(topAt, entryAt);
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
