import { commentsOf } from '../../text/comments';
import { hiddenIn } from '../../text/shown';
import type { TextTree } from '../../text/tree';
import type { Finding, Rule } from '../kit/rule';

const NAME = 'form/hidden-character';
/** More lines than these say nothing new. */
const MOST_LINES = 50;
/** Bidirectional controls: embeddings, overrides, isolates and their ends (Unicode, UAX #9). */
const TURNS = /[\u202a-\u202e\u2066-\u2069]/;
/** What reads right to left; a mark of direction beside it is spelling. */
const RIGHT_TO_LEFT = /[\p{sc=Hebr}\p{sc=Arab}\p{sc=Syrc}\p{sc=Thaa}\p{sc=Nkoo}]/u;
const MARKS = /[\u061c\u200e\u200f]/;
/** Named as wrong YAML already; tabs and line ends show; the mark of byte order begins a file. */
const NAMED = /[\u0000-\u001f\u007f]|\p{Cs}/u;

interface HiddenOnLine {
  readonly from: number;
  readonly to: number;
  readonly codes: readonly string[];
  readonly turns: boolean;
}

/** Hidden characters, line by line. */
function* hiddenLines(text: string): Generator<HiddenOnLine> {
  let at = 0;
  for (const line of text.split('\n')) {
    const found = [...hiddenIn(line)].filter(({ from, to }) => {
      const character = line.slice(from, to);
      if (NAMED.test(character) || (character === '\ufeff' && at + from === 0)) return false;
      return !(MARKS.test(character) && RIGHT_TO_LEFT.test(line));
    });
    const [first] = found;
    if (first)
      yield {
        from: at + first.from,
        to: at + first.to,
        codes: found.map((f) => f.code),
        turns: TURNS.test(line),
      };
    at += line.length + 1;
  }
}

/** Of any of the three documents. */
export function hiddenCharacters({ text }: TextTree): readonly Finding[] {
  // Most texts have none but a few letters of their own; this one look tells.
  if (!/[^\t\n\r\x20-\x7e]/.test(text)) return [];
  const found: Finding[] = [];
  for (const { from, to, codes, turns } of hiddenLines(text)) {
    const what = turns ? 'turns the letters round that follow: what is read is not what is meant' : 'does not show';
    found.push({
      rule: NAME,
      severity: 'warning',
      message: `A character stands on this line (${codes[0]}) that ${what}. Delete it; where it is wanted, write its escape in double quotes.`,
      of: [],
      span: { block: '', from, to },
      related: [],
      facts: { characters: [...new Set(codes)].join(' '), count: codes.length },
    });
    if (found.length === MOST_LINES) break;
  }
  return found;
}

const BAD = (end: string) => `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  mount: # as deep as it goes${end}
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`;

export const hiddenCharacter: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'The text holds a character that does not show, or that turns others round.',
  why: 'Whoever reviews the text reads something else than what is milled: a control that reverses the letters after it makes a comment look like a value, a zero-width letter makes two names out of one. They come with text that was pasted, or were put there.',
  formula:
    'What Unicode calls control, format and default-ignorable characters. Joiners within words whose script needs them, pictures, and marks of direction beside letters that read right to left are left alone.',
  limits: [],
  bad: BAD(' \u202e6\u202c'),
  good: BAD(' 6'),
  when: 'text',
  find: ({ tree }) => hiddenCharacters(tree),
  mends: 'The characters that do not show are deleted. Where they stand in a comment, nothing of the part changes.',
  *mend(finding, { tree }) {
    const { text } = tree;
    const { start } = tree.locate(finding.span);
    const from = text.lastIndexOf('\n', start - 1) + 1;
    const end = text.indexOf('\n', start);
    const line = text.slice(from, end < 0 ? text.length : end);
    const hidden = [...hiddenIn(line)].filter(({ from: f, to }) => !NAMED.test(line.slice(f, to)));
    const comment = commentsOf(line)[0];
    const commentAt = comment === undefined ? line.length : line.lastIndexOf(comment);
    const n = hidden.length;
    yield {
      title:
        n === 1 ? `Delete the hidden character ${hidden[0]!.code}` : `Delete the ${n} hidden characters of this line`,
      safe: hidden.every((h) => h.from >= commentAt),
      edits: hidden.map((h) => ({ span: { block: '', from: from + h.from, to: from + h.to }, newText: '' })),
    };
  },
};
