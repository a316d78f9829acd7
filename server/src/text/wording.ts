/**
 * What is said of a document that cannot be read: each message names the thing, and the way to mend it. No parser's
 * vocabulary: the reader writes part specs, not YAML grammars.
 */
import type { TextProblem } from './tree';

export const MESSAGES = {
  unreadable: 'This text could not be read. Check its indentation and its brackets.',
  tooDeep: 'Maps and lists are nested too deep here. A spec needs only a few levels: look for a bracket too many.',
  tooLarge: (bytes: number, limit: number) =>
    `This document has ${(bytes / 1e6).toFixed(1)} million characters; a spec may have ${limit / 1e6} million. Split it, or check that it is the right file.`,
  duplicate: (key: string) => `\`${key}\` stands here twice. Rename or remove one of the two: only the first counts.`,
  noMap: 'A spec is a map: lines of `key: value`, each key at the start of its line.',
  noColon: (word: string) => `\`${word}\` has no colon. Write it as \`key: value\`.`,
  anchor: (name: string) =>
    `Anchors (\`&${name}\`) are not used in these documents. Write the value where it is needed, or make it a parameter.`,
  alias: (name: string) =>
    `\`*${name}\` would copy a value from elsewhere, which these documents do not do. Write the value here, or make it a parameter.`,
  merge: '`<<` would merge another map in, which these documents do not do. Write the entries here.',
  tag: (tag: string) => `Type tags (\`${tag}\`) are not used in these documents. Write the plain value without it.`,
  tab: 'A tab indents this line. Indent with spaces: YAML does not allow tabs here.',
  key: 'A key must be a plain word followed by a colon, like `depth: 3`.',
  documents: 'A file holds one document. Move what follows into a file of its own, or remove this line.',
  directive: (line: string) => `YAML directives (\`${line}\`) are not used in these documents. Remove this line.`,
  surrogate: 'Half a character stands here (a lone surrogate, usually the remains of an emoji). Delete it.',
  control: (code: string) => `An invisible control character (${code}) stands here. Delete it.`,
  swallowed: (written: string) =>
    `\`#\` after a space begins a comment, so nothing is read here. Put the value in quotes: "${written}".`,
  unspacedColon: (key: string, value: string) =>
    `A space is missing after the colon: write \`${key}: ${value || '…'}\`.`,
} as const;

/** Plain words for a complaint of the `yaml` package, known by its code; `message` helps only to tell variants apart. */
export function aboutSyntax(block: string, text: string, code: string, at: number, message: string): TextProblem {
  const from = Math.max(0, Math.min(at, text.length - 1));
  const line = text.slice(text.lastIndexOf('\n', from - 1) + 1, lineEnd(text, from)).trim();
  return {
    code: 'syntax',
    message: sentence(code, message, line),
    span: { block, from, to: Math.max(from + 1, lineEnd(text, from)) },
  };
}

function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  const stop = end < 0 ? text.length : end;
  return text[stop - 1] === '\r' ? stop - 1 : stop;
}

function sentence(code: string, message: string, line: string): string {
  switch (code) {
    case 'BAD_INDENT':
      if (/^Flow map/.test(message)) return 'The `{` before this has no closing `}`. Close it before this line.';
      if (/^Flow seq/.test(message)) return 'The `[` before this has no closing `]`. Close it before this line.';
      return 'This line is indented differently from its neighbours. Give entries that belong together the same number of spaces.';
    case 'MISSING_CHAR':
      if (/quote/.test(message)) return 'A quotation mark is opened but not closed. Add the closing one.';
      if (/map keys|map values/.test(message)) return `\`${line}\` has no colon. Write it as \`key: value\`.`;
      if (/,/.test(message)) return 'A comma is missing between two entries.';
      return 'Something is missing here: a space, a colon or a bracket.';
    case 'BLOCK_AS_IMPLICIT_KEY':
      return 'There are two colons on this line. Put the value in quotes, or the inner entry on a line of its own.';
    case 'MULTILINE_IMPLICIT_KEY':
      return `A line before this one has no colon after its key. Write it as \`key: value\`.`;
    case 'BAD_SCALAR_START':
      return 'A value cannot begin with this sign. Put it in quotes.';
    case 'BAD_DQ_ESCAPE':
      return 'This backslash does not begin a known escape. Write `\\\\` for a backslash, or use single quotes.';
    case 'BLOCK_IN_FLOW':
      return 'Inside `{ }` or `[ ]`, entries are separated by commas, not by dashes or lines. Rewrite this in one style.';
    case 'KEY_OVER_1024_CHARS':
      return 'This key is far too long. Is a line break or a quotation mark missing?';
    default:
      if (/block-seq-ind/.test(message)) return 'A list item (`- `) needs a line of its own.';
      if (/Unexpected ,/.test(message)) return 'There is a comma too many here.';
      if (/flow-(map|seq)-end/.test(message)) return 'This closing bracket has no opening one. Remove it.';
      return 'This does not fit what stands before it. Check the indentation, brackets and quotation marks around it.';
  }
}
