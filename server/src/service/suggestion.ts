import type { CompletionItemKind } from './shapes';

/** So many letters of a reason stand beside its word in a list; an editor cuts off what is longer. */
const LISTED = 60;
/** Where a sentence may end early: what follows is more of the same. */
const CLAUSE = /(?=[,:;] | \()/g;

/** A reason as it stands in a list: its first sentence, or as much of it as has room and says something. */
export function listed(reason: string): string {
  const sentence = /^.*?[.](?= |$)/.exec(reason)?.[0] ?? reason;
  if (sentence.length <= LISTED) return sentence;
  const heads = [...sentence.matchAll(CLAUSE)].map((m) => sentence.slice(0, m.index)).filter((h) => h.length <= LISTED);
  const whole = heads.findLast(isWhole);
  if (whole !== undefined) return whole;
  return `${sentence.slice(0, sentence.lastIndexOf(' ', LISTED - 1))}…`;
}

/** No bracket and no mark of code is left open. */
const isWhole = (text: string) =>
  [...text].filter((c) => '({['.includes(c)).length === [...text].filter((c) => ')}]'.includes(c)).length &&
  text.split('`').length % 2 === 1;

/** Several reasons beside one word take no more room than this. */
const TOGETHER = 90;

/** Every word once: what has several reasons has them side by side, as far as there is room. */
export function eachOnce(all: readonly Suggestion[]): Suggestion[] {
  const once = new Map<string, Suggestion>();
  for (const one of all) {
    const there = once.get(one.label);
    if (!there) once.set(one.label, one);
    else if (there.detail !== one.detail) once.set(one.label, { ...there, detail: both(there.detail, one.detail) });
  }
  return [...once.values()];
}

/** What both begin with (up to a colon) is said once. */
function both(first: string, second: string): string {
  const head = first.slice(0, first.indexOf(': ') + 2);
  const together = `${first}; ${second.startsWith(head) ? second.slice(head.length) : second}`;
  return together.length <= TOGETHER ? together : first;
}

/** A name or value that a document's author may pick. */
export interface Suggestion {
  readonly label: string;
  readonly detail: string;
  /** All of the reason, where the detail is only its beginning. */
  readonly whole?: string;
  readonly kind: CompletionItemKind;
}
