/**
 * Complaints of the `yaml` package in plain words, each at the place where it can be mended: an unclosed bracket is told
 * at the bracket, not where the parser gave up. Known by their codes; their wording only tells variants apart.
 */
import type { TextProblem } from './tree';
import { aboutMissingColon, MESSAGES } from './wording';

/** What is said of the syntax error `code` at `at`. */
export function aboutSyntax(block: string, text: string, code: string, at: number, original: string): TextProblem {
  const { message, from, to } = explain(text, code, at, original);
  return { code: 'syntax', message, span: { block, from, to: Math.max(from + 1, to) } };
}

interface Explained {
  readonly message: string;
  readonly from: number;
  readonly to: number;
}

function explain(text: string, code: string, at: number, original: string): Explained {
  const open = openBracketBefore(text, at);
  if (code === 'BAD_INDENT' && /^Flow/.test(original) && open !== undefined) {
    return { message: MESSAGES.unclosed(text[open]!), from: open, to: open + 1 };
  }
  if (code === 'MISSING_CHAR' && /quote/.test(original)) {
    const quote = text.lastIndexOf(/'quote/.test(original) ? "'" : '"', at - 1);
    return { message: MESSAGES.unclosedQuote, from: quote, to: quote + 1 };
  }
  const from = Math.min(at + (/^\s*/.exec(text.slice(at))?.[0].length ?? 0), Math.max(0, text.length - 1));
  const here = { from, to: lineEnd(text, from) };
  if (code === 'BAD_INDENT') return { message: MESSAGES.indent(shown(text, here)), ...here };
  if (/IMPLICIT_KEY$/.test(code) && open === undefined) return aboutKey(text, here, original);
  return { message: sentence(code, original, open !== undefined, shown(text, here)), ...here };
}

/** Something that stands where a key should, and is none. */
function aboutKey(text: string, here: { from: number; to: number }, original: string): Explained {
  if (/block sequence/.test(original)) return { message: MESSAGES.itemAmongKeys, ...here };
  const line = shown(text, here);
  const beginsLine = /(?:^|\n)[ \t]*$/.test(text.slice(Math.max(0, here.from - 200), here.from));
  if (beginsLine && !/:(?:\s|$)/.test(line)) return { message: aboutMissingColon(line), ...here };
  if (/:(?:\s|$)/.test(line)) return { message: MESSAGES.twoColons, ...here };
  // A value here, and an entry on the line below that is indented deeper: the parser took both for one key.
  const next = /\S/.exec(text.slice(here.to));
  if (!next) return { message: MESSAGES.misfit, ...here };
  const from = here.to + next.index;
  const below = { from, to: lineEnd(text, from) };
  return { message: MESSAGES.deeper(shown(text, below)), ...below };
}

function sentence(code: string, original: string, inBrackets: boolean, line: string): string {
  if (inBrackets && /IMPLICIT_KEY$/.test(code)) return MESSAGES.comma;
  switch (code) {
    case 'MISSING_CHAR':
      if (/map keys|map values/.test(original)) return aboutMissingColon(line);
      return /,/.test(original) ? MESSAGES.comma : MESSAGES.missing;
    case 'BAD_SCALAR_START':
      return MESSAGES.scalarStart;
    case 'BAD_DQ_ESCAPE':
      return MESSAGES.escape;
    case 'BLOCK_IN_FLOW':
      return /^-\s/.test(line) ? MESSAGES.notInFlow : MESSAGES.comma;
    case 'KEY_OVER_1024_CHARS':
      return MESSAGES.longKey;
  }
  if (/block-seq-ind/.test(original)) return MESSAGES.itemOnKeyLine;
  if (/Unexpected ,/.test(original)) return MESSAGES.commaTooMany;
  return /flow-(map|seq)-end/.test(original) ? MESSAGES.closingTooMany : MESSAGES.misfit;
}

/** A line's text for a message, cut where it gets long. */
function shown(text: string, { from, to }: { readonly from: number; readonly to: number }): string {
  const line = text.slice(from, to).trim();
  return line.length > 40 ? `${line.slice(0, 39)}…` : line;
}

/** The innermost bracket that is open at `at`; brackets in quotes and comments do not count. */
function openBracketBefore(text: string, at: number): number | undefined {
  const open: number[] = [];
  for (let i = 0; i < at; i++) {
    const c = text[i]!;
    if (c === '{' || c === '[') open.push(i);
    else if (c === '}' || c === ']') open.pop();
    else if (c === '#' && /\s/.test(text[i - 1] ?? ' ')) i = lineEnd(text, i);
    else if ((c === '"' || c === "'") && /[\s{[,:]/.test(text[i - 1] ?? ' ')) {
      const close = text.indexOf(c, i + 1);
      i = close < 0 || close > at ? i : close;
    }
  }
  return open.at(-1);
}

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  const stop = end < 0 ? text.length : end;
  return stop > at && text[stop - 1] === '\r' ? stop - 1 : stop;
}
