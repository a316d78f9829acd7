/**
 * What is said of a document that cannot be read: each message names the thing, and the way to mend it. No parser's
 * vocabulary: the reader writes part specs, not YAML grammars.
 */
export const MESSAGES = {
  unreadable: 'This text could not be read. Check its indentation and its brackets.',
  tooDeep:
    'Maps and lists are nested too deep here. A spec needs only a few levels. Delete the bracket that is too many.',
  tooLarge: (bytes: number, limit: number) =>
    `This document has ${(bytes / 1e6).toFixed(1)} million characters; a spec may have ${limit / 1e6} million. Split it, or check that it is the right file.`,
  duplicate: (key: string) =>
    `\`${key}\` stands here twice, and only the first counts. Rename or delete one of the two.`,
  noMap: 'A spec has lines of `key: value`, each key at the start of its line. Write it like `part: bracket`.',
  noColon: (word: string) => `\`${word}\` has no colon. Write it as \`key: value\`.`,
  anchor: (name: string) =>
    `Anchors (\`&${name}\`) are not used in these documents. Write the value where it is needed, or make it a parameter: \`name: value\`.`,
  alias: (name: string) =>
    `\`*${name}\` would copy a value from elsewhere, which these documents do not do. Write the value here, or make it a parameter: \`name: value\`.`,
  merge: '`<<` would merge another map in, which these documents do not do. Write the entries here, like `key: value`.',
  tag: (tag: string) =>
    `Type tags (\`${tag}\`) are not used in these documents. Delete the tag and keep the plain value.`,
  tab: 'A tab indents this line. Indent with spaces: YAML does not allow tabs here.',
  key: 'This cannot be a key. Write a plain word and a colon, like `depth: 3`.',
  documents: 'A file holds one document. Move what follows into a file of its own, or delete this line.',
  directive: (line: string) => `YAML directives (\`${line}\`) are not used in these documents. Delete this line.`,
  surrogate: 'Half a character is here (a lone surrogate, usually what is left of an emoji). Delete it.',
  control: (code: string) => `An invisible control character (${code}) is here. Delete it.`,
  swallowed: (written: string) =>
    `\`#\` after a space begins a comment, so nothing is read here. Put the value in quotes: \`"${written}"\`.`,
  unspacedColon: (key: string, value: string) =>
    `A space is missing after the colon. Write \`${key}: ${value || '…'}\`.`,
  unclosed: (open: string) =>
    `This \`${open}\` has no closing bracket. Add \`${open === '{' ? '}' : ']'}\` before the next entry begins.`,
  unclosedQuote: 'This quotation mark is not closed. Add the closing one, like `"text"`.',
  indent: (line: string) =>
    `\`${line}\` is indented differently from its neighbours. Give entries that belong together the same number of spaces.`,
  deeper: (line: string) =>
    `\`${line}\` is indented as if it belonged to the line above, which has a value already. Give both the same number of spaces.`,
  comma: 'A comma is missing here. Write `,` between the entries inside brackets.',
  commaTooMany: 'There is a comma too many here. Delete it.',
  notInFlow:
    'Inside `{ }` or `[ ]`, entries are separated by commas, not by dashes or lines. Write it in one of the two ways, like `{ x: 1, y: 2 }`.',
  missing: 'Something is missing here: a space, a colon or a bracket. Write it like `depth: 3`.',
  twoColons:
    'There are two colons on this line. Put the value in quotes, like `note: "a: b"`, or the inner entry on its own line.',
  itemAmongKeys: 'A list item (`- `) is among keys here. Put it under a key of its own, like `cuts:`.',
  itemOnKeyLine: 'A list item (`- `) is on the line of a key. Put it on a line of its own.',
  scalarStart: 'A value cannot begin with this sign. Put the value in quotes, like `"@home"`.',
  escape: 'This backslash does not begin a known escape. Write `\\\\` for a backslash, or use single quotes.',
  longKey: 'This key is far too long. Add the line break or quotation mark that is missing, like `key: value`.',
  closingTooMany: 'This closing bracket has no opening one. Delete it.',
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
