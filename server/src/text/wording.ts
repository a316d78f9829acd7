/**
 * What is said of a document that cannot be read: each message names the thing, and the way to mend it. No parser's
 * vocabulary: the reader writes part specs, not YAML grammars.
 */
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
  unclosed: (open: string) =>
    `This \`${open}\` has no closing \`${open === '{' ? '}' : ']'}\`. Add it before the next entry begins.`,
  unclosedQuote: 'This quotation mark is not closed. Add the closing one.',
  indent: (line: string) =>
    `\`${line}\` is indented differently from its neighbours. Give entries that belong together the same number of spaces.`,
  deeper: (line: string) =>
    `\`${line}\` is indented as if it belonged to the line above, which has a value already. Give both the same number of spaces.`,
  comma: 'A comma is missing here: inside brackets, entries are separated by commas.',
  commaTooMany: 'There is a comma too many here.',
  notInFlow:
    'Inside `{ }` or `[ ]`, entries are separated by commas, not by dashes or lines. Rewrite this in one style.',
  missing: 'Something is missing here: a space, a colon or a bracket.',
  twoColons: 'There are two colons on this line. Put the value in quotes, or the inner entry on a line of its own.',
  itemAmongKeys: 'A list item (`- `) stands among keys here. Put it under a key of its own.',
  itemOnKeyLine: 'A list item (`- `) needs a line of its own.',
  scalarStart: 'A value cannot begin with this sign. Put it in quotes.',
  escape: 'This backslash does not begin a known escape. Write `\\\\` for a backslash, or use single quotes.',
  longKey: 'This key is far too long. Is a line break or a quotation mark missing?',
  closingTooMany: 'This closing bracket has no opening one. Remove it.',
  misfit: 'This does not fit what stands before it. Check the indentation, brackets and quotation marks around it.',
} as const;

/** For a line or word that a key was expected in. */
export function aboutMissingColon(line: string): string {
  const colon = line.indexOf(':');
  const key = line.slice(0, colon);
  return colon > 0 && /^\S+$/.test(key)
    ? MESSAGES.unspacedColon(key, line.slice(colon + 1).trim())
    : MESSAGES.noColon(line);
}
