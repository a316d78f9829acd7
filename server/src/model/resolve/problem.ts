/** Messages about a text: lists of words, quoted words, and the problem itself. */
import type { Span } from '../../text/tree';
import type { SpecProblem } from '../base';

export { nearest } from '../../tables/nearest';

export type ProblemRule = SpecProblem['rule'];
export type ProblemFix = NonNullable<SpecProblem['fixes']>[number];

export function problem(rule: ProblemRule, message: string, span: Span, more: Partial<SpecProblem> = {}): SpecProblem {
  return { rule, message, span, ...more };
}

export function replace(span: Span, newText: string): ProblemFix {
  return { title: `Write \`${newText}\``, edits: [{ span, newText }] };
}

/** What an item of a list calls its own name. */
export const NAME_KEY = /^(?:name|id|label)$/i;

export function code(words: Iterable<string>): string[] {
  return [...words].map((w) => `\`${w}\``);
}

/** `a`, `a or b`, `a, b or c`. */
export function listed(words: readonly string[], joint = 'or'): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} ${joint} ${words.at(-1)}`;
}

const MOST_LISTED = 6;

/** The same, of which only the first few are named. */
export function fewOf(words: readonly string[], joint = 'or'): string {
  if (words.length <= MOST_LISTED) return listed(words, joint);
  return `${words.slice(0, MOST_LISTED - 1).join(', ')} ${joint} another of ${words.length}`;
}

/** A word of the text in a message: never longer than a line. */
export function quote(word: unknown): string {
  const text = String(word).replace(/\s+/g, ' ').replaceAll('`', '’');
  return `\`${text.length > 40 ? `${text.slice(0, 39)}…` : text}\``;
}
