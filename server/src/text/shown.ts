/**
 * The gate for every line that is shown: whatever a text says is made into something that only shows. Characters that
 * hide, rearrange what stands beside them, or speak to the reader's machine are written by their code, `‹U+202E›`: not
 * left out, so that whoever reads sees that something is there. One function a target; each door of the house goes
 * through its own (the terminal, the editor's answers, the writers of files, the client's windows).
 */

/**
 * Control and format characters, line and paragraph separators, halves of characters, what is no character, and all that
 * Unicode wants left out where it cannot be shown (tags, fillers, joiners, the mark of byte order).
 */
const HIDDEN = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}\p{Noncharacter_Code_Point}]/gu;

/** Scripts in whose words a joiner or non-joiner changes the letters: there it is spelling (Unicode, UAX #31, 2.3). */
const JOINED =
  '\\p{sc=Arab}\\p{sc=Syrc}\\p{sc=Mong}\\p{sc=Nkoo}\\p{sc=Deva}\\p{sc=Beng}\\p{sc=Guru}\\p{sc=Gujr}\\p{sc=Orya}\\p{sc=Taml}\\p{sc=Telu}\\p{sc=Knda}\\p{sc=Mlym}\\p{sc=Sinh}\\p{sc=Khmr}\\p{sc=Mymr}';
/** A joiner within such a word; a joiner between pictures, and what chooses their look (Unicode, UTS #51). */
const SPELLING = new RegExp(
  `(?<=[${JOINED}])[\\u200c\\u200d](?=[${JOINED}])` +
    `|(?<=\\p{Extended_Pictographic}[\\ufe0f\\p{EMod}]?)\\u200d(?=\\p{Extended_Pictographic})` +
    `|(?<=\\p{Extended_Pictographic})[\\ufe0e\\ufe0f]|(?<=[0-9#*])\\ufe0f(?=\\u20e3)`,
  'uy',
);

interface HiddenCharacter {
  /** Where it stands, and after it. */
  readonly from: number;
  readonly to: number;
  /** `U+202E` */
  readonly code: string;
}

/** Every character of a text that does not show, tabs and line ends among them; spelling and pictures are left alone. */
export function* hiddenIn(text: string): Generator<HiddenCharacter> {
  for (const { 0: character, index } of text.matchAll(HIDDEN)) {
    SPELLING.lastIndex = index;
    if (SPELLING.test(text)) continue;
    yield { from: index, to: index + character.length, code: codeOf(character) };
  }
}

function codeOf(character: string): string {
  return `U+${character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0')}`;
}

/** What is left of a line when nothing in it hides. */
export function withoutHidden(text: string): string {
  return [...hiddenIn(text)].reverse().reduce((left, { from, to }) => left.slice(0, from) + left.slice(to), text);
}

/** The character that would act, by its code. */
function byCode(character: string): string {
  return `‹${codeOf(character)}›`;
}

/** Most texts have none; this one look tells. */
const PLAIN = /^[\x20-\x7e]*$/;

/** One line of plain words: nothing in it hides, turns round, or begins another line. Tabs only where they may stay. */
export function line(text: string, keep = ''): string {
  if (PLAIN.test(text)) return text;
  let out = '';
  let last = 0;
  for (const { from, to } of hiddenIn(text)) {
    const character = text.slice(from, to);
    if (keep.includes(character)) continue;
    out += text.slice(last, from) + byCode(character);
    last = to;
  }
  return last === 0 ? text : out + text.slice(last);
}

/** Words of several lines, each shown as one: only line feeds stay. */
export function lines(text: string): string {
  return line(text.replace(/\r\n/g, '\n'), '\n\t');
}

/**
 * A line of a terminal or a log. A build server that reads the log takes `::word` at the start of a line, and `##word[`
 * anywhere, for an order to itself.
 */
export function terminalLine(text: string): string {
  const shown = line(text, '\t');
  if (!shown.includes('::') && !shown.includes('##')) return shown;
  return shown.replace(/^(\s*):(?=:)/, `$1${byCode(':')}`).replace(/##(?=\w*\[)/g, (c) => `#${byCode(c[1]!)}`);
}

/**
 * A path at the start of a line of an answer. One that begins with a number, as the verdict does (`3 files checked`), is
 * told from the folder it is in: the same file, and no other line.
 */
export function leadingPath(path: string): string {
  return /^\d+ /.test(path) ? `./${path}` : path;
}

/** A word beside the text, in a list, in the status bar: an editor turns `$(name)` into a picture there. */
export function label(text: string): string {
  const shown = line(text);
  return shown.includes('$(') ? shown.replace(/\$\((?=[\w~-]+\))/g, () => `$${byCode('(')}`) : shown;
}

/** A window's message: an editor makes `[words](target)` a link there, which may run a command. */
export function notice(text: string): string {
  const shown = line(text);
  return shown.includes('](') ? shown.replace(/\]\(/g, () => `]${byCode('(')}`) : shown;
}

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&apos;',
};

/** Text or an attribute's value in XML, SVG or HTML; what XML cannot carry at all is hidden, so it stands there by its code. */
export function markup(text: string): string {
  return line(text).replace(/[&<>"']/g, (c) => ENTITIES[c] ?? c);
}

/**
 * A message in SARIF 2.1.0: there `[words](target)` is a link (3.11.6), and a bracket that is none has a backslash before
 * it, which is doubled where it is only itself.
 */
export function sarifMessage(text: string): string {
  const shown = line(text);
  return shown.includes('](') ? shown.replace(/[\\[\]]/g, (c) => `\\${c}`) : shown;
}

/** The same JSON, with all that hides written as `\u` and four digits: a program reads what was there, a reader sees it. */
export function json(value: unknown, indent = 2): string {
  return JSON.stringify(value, null, indent).replace(HIDDEN, (c) =>
    c === '\n'
      ? c
      : [...Array(c.length).keys()].map((i) => `\\u${c.charCodeAt(i).toString(16).padStart(4, '0')}`).join(''),
  );
}
