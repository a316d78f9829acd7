/** Values as YAML text on one line, for edits: scalars quoted only where they must be, maps in braces. */

import { LONE_SURROGATE } from './outlawed';

/**
 * A value to write: a scalar as it should read back (`22 H7`), a list (always in brackets), or a map in the order given.
 */
export type Writing = string | number | readonly Writing[] | { readonly [key: string]: Writing };

const SAFE_START = /^(?:[A-Za-z0-9_./±+°µ(~]|-(?=[^\s-]))/;
const UNSAFE = /[\u0000-\u001f\u007f-\u009f\ufeff\u2028\u2029]|: |:$| #|[[\]{},]|^\s|\s$|^$/;

/** A scalar that reads back with `text` as its source (or value, where it has to be quoted), inside braces too. */
export function scalarText(text: string): string {
  const plain =
    SAFE_START.test(text) && !UNSAFE.test(text) && !/^(?:---|\.\.\.)/.test(text) && !LONE_SURROGATE.test(text);
  // JSON's strings are double-quoted YAML; it escapes lone surrogates and control characters.
  return plain ? text : JSON.stringify(text).replace(/[\u007f-\u009f\ufeff\u2028\u2029]/g, escaped);
}

function escaped(c: string): string {
  return `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** A value on one line: `{ x: 20, y: center }`. */
export function flowText(value: Writing): string {
  if (typeof value !== 'object') return scalarText(String(value));
  if (isList(value)) return `[${value.map(flowText).join(', ')}]`;
  const entries = Object.entries(value).map(([key, inner]) => `${scalarText(key)}: ${flowText(inner)}`);
  return entries.length > 0 ? `{ ${entries.join(', ')} }` : '{}';
}

function isList(value: Writing): value is readonly Writing[] {
  return Array.isArray(value);
}
