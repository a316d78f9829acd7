import { commentsOf } from '../../text/comments';
import { hiddenIn } from '../../text/shown';
import type { TextTree } from '../../text/tree';
import { change, tidying } from '../kit/changes';
import { defineRule, said, type Told } from '../kit/define';
import type { Finding, Rule } from '../kit/rule';

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
  readonly lineAt: number;
  readonly hidden: readonly { readonly from: number; readonly to: number; readonly code: string }[];
  readonly turns: boolean;
}

/** Hidden characters, line by line. */
function* hiddenLines({ text }: TextTree): Generator<HiddenOnLine> {
  // Most texts have none but a few letters of their own; this one look tells.
  if (!/[^\t\n\r\x20-\x7e]/.test(text)) return;
  let [at, lines] = [0, 0];
  for (const line of text.split('\n')) {
    const found = [...hiddenIn(line)].filter(({ from, to }) => {
      const character = line.slice(from, to);
      if (NAMED.test(character) || (character === '\ufeff' && at + from === 0)) return false;
      return !(MARKS.test(character) && RIGHT_TO_LEFT.test(line));
    });
    if (found.length > 0) {
      const hidden = found.map(({ from, to, code }) => ({ from: at + from, to: at + to, code }));
      yield { lineAt: at, hidden, turns: TURNS.test(line) };
      if (++lines === MOST_LINES) return;
    }
    at += line.length + 1;
  }
}

function tellHidden({ hidden, turns }: HiddenOnLine): Told {
  const { from, to, code } = hidden[0]!;
  const what = turns ? 'turns the following letters around' : 'does not show';
  return {
    message: `A character on this line (${code}) ${what}. What you read is not what is checked. Delete it, or write its escape in double quotes.`,
    of: [],
    span: { block: '', from, to },
    facts: { characters: [...new Set(hidden.map((h) => h.code))].join(' '), count: hidden.length },
  };
}

/** Of any of the three documents. */
export function hiddenCharacters(tree: TextTree): readonly Finding[] {
  return [...hiddenLines(tree)].map((hit) => said(hiddenCharacter, tellHidden(hit)));
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

export const hiddenCharacter: Rule = defineRule({
  name: 'form/hidden-character',
  severity: 'warning',
  summary: 'The text holds a character that does not show, or that turns others around.',
  why: 'Who reviews the text reads something else than what is milled. A control that reverses letters makes a comment look like a value. A zero-width letter makes two names out of one. They come with pasted text, or were put there.',
  formula:
    'What Unicode calls control, format and default-ignorable characters. Allowed are joiners within words whose script needs them, pictures, and marks of direction beside right-to-left letters.',
  limits: [],
  bad: BAD(' \u202e6\u202c'),
  good: BAD(' 6'),
  when: 'text',
  find: ({ tree }) => hiddenLines(tree),
  tell: tellHidden,
  mends: 'Delete the characters that do not show. In a comment nothing of the part changes.',
  keep: ({ lineAt, hidden }) => ({ lineAt, hidden }),
  *mend({ lineAt, hidden }, { tree: { text } }) {
    const end = text.indexOf('\n', lineAt);
    const line = text.slice(lineAt, end < 0 ? text.length : end);
    const comment = commentsOf(line)[0];
    const commentAt = lineAt + (comment === undefined ? line.length : line.lastIndexOf(comment));
    const n = hidden.length;
    const title =
      n === 1 ? `Delete the hidden character ${hidden[0]!.code}` : `Delete the ${n} hidden characters of this line`;
    const edits = hidden.map(({ from, to }) => ({ span: { block: '', from, to }, newText: '' }));
    yield hidden.every((h) => h.from >= commentAt) ? tidying(title, edits) : change(title, edits);
  },
});
