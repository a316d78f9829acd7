/** Changes to the text that a rule offers, and examples that differ by a line. */
import type { Fix, SpanEdit } from './rule';

type Edits = SpanEdit | readonly SpanEdit[] | undefined;

/** A change that makes another part of it; its title says how. Undefined where it cannot be written. */
export function change(title: string, edits: Edits): Fix | undefined {
  return fix(title, edits, false);
}

/** A change of the text after which the part is what its author meant. */
export function tidying(title: string, edits: Edits): Fix | undefined {
  return fix(title, edits, true);
}

function fix(title: string, edits: Edits, safe: boolean): Fix | undefined {
  if (!edits) return undefined;
  const all = 'span' in edits ? [edits] : edits;
  return all.length > 0 ? { title, safe, edits: all } : undefined;
}

/** An example with words replaced, pair by pair; each stands in it exactly once. */
export function edited(text: string, ...pairs: readonly (readonly [from: string, to: string])[]): string {
  return pairs.reduce((now, [from, to]) => {
    if (now.split(from).length !== 2) throw new Error(`'${from}' does not stand exactly once in the example`);
    return now.replace(from, () => to);
  }, text);
}
