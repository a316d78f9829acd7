/** One cutter as a list has it, whatever the list is written in: its properties by the codes of ISO 13399, and words about it. */
import type { Code } from './properties';

export type Unit = 'mm' | 'in' | '°';

/** A number with the unit that it was written in (a count has none), or words. */
export type Value = { readonly n: number; readonly unit?: Unit } | { readonly text: string };

export interface Row {
  /** In the file, from 1. */
  readonly line: number;
  /** What the list calls it: an order number, a name. */
  readonly id?: string;
  /** What is said of it, its kind first where there is a place for that: class, description. */
  readonly words: readonly string[];
  readonly values: ReadonlyMap<Code, Value>;
  /** Sentences about what of it could not be read. */
  readonly odd: readonly string[];
}

export interface Listing {
  readonly rows: readonly Row[];
  /** Sentences about the file: places that could not be read, columns that no cutter has. */
  readonly told: readonly string[];
}

/** A word of a file in a sentence: never longer than a line. */
export function cited(word: string): string {
  const plain = word.replace(/\s+/g, ' ').replaceAll('`', '’').trim();
  return `\`${plain.length > 40 ? `${plain.slice(0, 39)}…` : plain}\``;
}
