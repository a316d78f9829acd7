/**
 * What a finding says, in parts: the thing, what it has, what it needs, what to change. Made here once; the terminal, the
 * view, the hover and the JSON only lay the parts out.
 */
import { memberPhrase } from './message';
import type { Finding, RuleContext } from './rule';

interface Parts {
  /** `pocket left-cell`, `set-up first`. */
  readonly thing?: string;
  /** Whole sentences: what is there and what is needed. */
  readonly says: string;
  /** In figures, short: `0.4 mm`, `IT9`. */
  readonly has?: string;
  readonly needs?: string;
  /** Whole sentences, each beginning with a command. */
  readonly change?: string;
}

/** Words that a change begins with. A message ends with the sentences that begin with one of them. */
const COMMANDS: ReadonlySet<string> = new Set(
  'Accept Add Allow Ask Bore Borrow Break Bring Buy Check Choose Clamp Close Correct Count Counterbore Cut Deburr Delete Dimension Drill Engrave Face Follow Give Grip Have Hold Indent Indicate Keep Leave Locate Lower Machine Make Mask Measure Mill Move Name Open Order Put Quote Ream Rename Replace Rough Round Save Saw Screw Set Split Start Support Swap Tap Thread Tighten Turn Use Wait Widen Write'.split(
    ' ',
  ),
);

/** A machine and a thread are things, and to machine and to thread are commands: `Machine mill-1 has …`. */
const NAMES_A_THING =
  /^(?:Machine|Thread|Face) (?!(?:it|this|one|the|a)\b)\S+(?: \([^)]*\))?(?::|,| (?:has|needs|is|gives|leaves|carries|moves|turns|cannot)\b)/;

/** The sentences of a text: each with its full stop. A point between digits, or before a small letter, ends none. */
function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=[.!?][)"]?)\s+(?=["'`(]?[A-Z0-9])/);
}

/** A message taken apart where its change begins. */
export function partsOf({ message, thing, has, needs }: Pick<Finding, 'message' | 'thing' | 'has' | 'needs'>): Parts {
  const sentences = sentencesOf(message);
  const isCommand = (sentence: string, i: number) =>
    sentence.startsWith('Did you mean') ||
    (COMMANDS.has(/^[A-Z][a-z]+(?![\w-])/.exec(sentence)?.[0] ?? '') && !(i === 0 && NAMES_A_THING.test(sentence)));
  const from = sentences.findIndex(isCommand);
  const [says, change] = from < 0 ? [sentences, []] : [sentences.slice(0, from), sentences.slice(from)];
  // A set-up is where it happens: it comes before the feature.
  const setup = /^Set-up ([^\s:]+)/.exec(message)?.[1];
  const named = setup === undefined ? thing : `set-up ${setup}`;
  return {
    ...(named !== undefined && { thing: named }),
    says: says.join(' '),
    ...(has !== undefined && { has }),
    ...(needs !== undefined && { needs }),
    ...(change.length > 0 && { change: change.join(' ') }),
  };
}

/** `has 0.4 mm`, `needs 0.8 mm`: those of the two that are known. */
export function sidesOf({ has, needs }: Pick<Finding, 'has' | 'needs'>): readonly string[] {
  return [...(has === undefined ? [] : [`has ${has}`]), ...(needs === undefined ? [] : [`needs ${needs}`])];
}

/** What is wrong, in its one sentence, and the rest: for a list, where the first stands by itself. */
export function leading(message: string): { readonly says: string; readonly more: string } {
  const [says = '', ...more] = sentencesOf(message);
  return { says, more: more.join(' ') };
}

/** The features that a finding is about, with their kinds; undefined where it is about none. */
export function thingOf(of: readonly string[], { part }: Pick<RuleContext, 'part'>): string | undefined {
  if (of.length === 0) return undefined;
  const words = of.slice(0, 3).map((name) => memberPhrase(part, name));
  return `${words.join(', ')}${of.length > 3 ? ` and ${of.length - 3} more` : ''}`;
}
