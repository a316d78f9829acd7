/**
 * What is being typed at an offset: a key or a value, and under which keys. Read from the lines themselves, not from the
 * tree: while somebody types, the text is seldom sound YAML.
 */

export interface Typing {
  /** Keys (and `0` for a list item) from the root to the map or list that is being typed in; for a value, ends with its key. */
  readonly path: readonly string[];
  readonly what: 'key' | 'value';
  /** What is typed already, to be replaced: from here to the offset. */
  readonly from: number;
  readonly prefix: string;
  /** In braces or brackets. */
  readonly flow: boolean;
  /** Blanks before the line's first character. */
  readonly indent: string;
}

interface Open {
  readonly type: 'map' | 'list';
  key: string | undefined;
}

/** How far up a flow collection is followed, in lines. */
const FLOW_LINES = 60;

/** What is being typed at an offset, told from the text alone: it need not parse. */
export function typingAt(text: string, offset: number): Typing | undefined {
  const lineStart = text.lastIndexOf('\n', offset - 1) + 1;
  const begin = flowStart(text, lineStart);
  const head = text.slice(begin, offset).replace(/\r?\n/g, ' ');
  if (inComment(head)) return undefined;
  const [, indent = '', dashes = ''] = /^([ \t]*)((?:- +)*)/.exec(head) ?? [];
  const column = indent.length + dashes.length;
  const block = /^("[^"]*"|'[^']*'|[^\s{[,:#][^:#]*?):(?:[ \t]+|$)/.exec(head.slice(column));
  const path = parentsOf(text, begin, indent.length, dashes !== '');
  if (dashes) path.push('0');
  const rest = head.slice(column);
  const layout = ' '.repeat(column);
  if (block) {
    path.push(unquote(block[1]!));
    return inValue(rest.slice(block[0].length), path, offset, layout);
  }
  if (/^[{[]/.test(rest)) return inValue(rest, path, offset, layout);
  return { path, what: 'key', prefix: rest, from: offset - rest.length, flow: false, indent: layout };
}

/** A value as far as it is read: what is open in it, and the word at its end. */
interface Reading {
  readonly open: Open[];
  word: string;
  quote: string;
}

/** Follows braces, brackets and commas through the value of a block key. */
function inValue(value: string, path: string[], offset: number, indent: string): Typing | undefined {
  const reading: Reading = { open: [], word: '', quote: '' };
  for (const [i, c] of [...value].entries()) {
    if (takeQuoted(reading, c)) continue;
    if (takeMark(reading, c, value[i + 1] ?? '')) reading.word = '';
    else reading.word += c;
  }
  const { open } = reading;
  for (const level of open) {
    if (level.type === 'list') path.push('0');
    else if (level.key !== undefined) path.push(level.key);
  }
  const prefix = reading.word.trimStart();
  const last = open.at(-1);
  const what = last?.type === 'map' && last.key === undefined ? 'key' : 'value';
  return { path, what, prefix, from: offset - prefix.length, flow: open.length > 0, indent };
}

/** A character that begins, continues or ends a quoted text. */
function takeQuoted(reading: Reading, c: string): boolean {
  if (reading.quote) {
    if (c === reading.quote) reading.quote = '';
  } else if ((c === '"' || c === "'") && reading.word.trim() === '') reading.quote = c;
  else return false;
  reading.word += c;
  return true;
}

/** A brace, bracket, comma or colon that means something here: the word before it is done. */
function takeMark({ open, word }: Reading, c: string, next: string): boolean {
  if (c === '{' || (c === '[' && word.trim() === '')) {
    open.push({ type: c === '{' ? 'map' : 'list', key: undefined });
    return true;
  }
  const inner = open.at(-1);
  if (!inner) return false;
  if (c === '}' || c === ']') open.pop();
  else if (c === ',') inner.key = undefined;
  else if (inner.type === 'map' && c === ':' && /[\s]|^$/.test(next)) inner.key = unquote(word.trim());
  else return false;
  return true;
}

/** The keys above that the line at `begin` stands under, outermost first. */
function parentsOf(text: string, begin: number, indent: number, isItem: boolean): string[] {
  const path: string[] = [];
  // A list's dashes may stand as far in as its key.
  let deepest = isItem ? indent + 1 : indent;
  // Items beside each other are not in each other.
  let beside = isItem ? indent : Number.POSITIVE_INFINITY;
  for (let at = begin; at > 0 && deepest > 0; ) {
    at = previousLine(text, at);
    const line = text.slice(at, lineEnd(text, at)).trimEnd();
    const [, blanks = '', dashes = '', rest = ''] = /^([ \t]*)((?:- +)*)(.*)$/.exec(line) ?? [];
    const key = /^("[^"]*"|'[^']*'|[^\s{[,:#][^:#]*?):(?:\s|$)/.exec(rest)?.[1];
    const depth = blanks.length + dashes.length;
    if (rest === '' || rest.startsWith('#')) continue;
    if (depth < deepest && key !== undefined) {
      path.unshift(unquote(key));
      deepest = depth;
    }
    if (dashes && blanks.length < Math.min(deepest, beside)) {
      path.unshift('0');
      deepest = blanks.length + 1;
      beside = blanks.length;
    }
  }
  return path;
}

/** Where the outermost brace or bracket that is still open at a line's start was opened: the start of that line. */
function flowStart(text: string, lineStart: number): number {
  let begin = lineStart;
  let at = lineStart;
  const openedBelow: number[] = [];
  for (let up = 0; up < FLOW_LINES && at > 0; up++) {
    const line = previousLine(text, at);
    openedBelow.unshift(depthOf(text.slice(line, at)));
    at = line;
    if (staysOpen(openedBelow)) begin = line;
  }
  return begin;
}

/** Whether what the first line opens is open to the end of the last. */
function staysOpen(openedByLine: readonly number[]): boolean {
  let depth = 0;
  for (const opened of openedByLine) {
    depth += opened;
    if (depth <= 0) return false;
  }
  return true;
}

function depthOf(piece: string): number {
  let depth = 0;
  for (const c of piece.replace(/(^|\s)#.*$/gm, '').replace(/"[^"\n]*"|'[^'\n]*'/g, '')) {
    if (c === '{' || c === '[') depth++;
    else if (c === '}' || c === ']') depth--;
  }
  return depth;
}

function inComment(head: string): boolean {
  return /(^|\s)#/.test(head.replace(/(^|[\s:[{,])("[^"]*(?:"|$)|'[^']*(?:'|$))/g, (q) => '_'.repeat(q.length)));
}

function previousLine(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 2) + 1;
}

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end;
}

function unquote(key: string): string {
  return /^(["']).*\1$/.test(key) ? key.slice(1, -1) : key;
}
