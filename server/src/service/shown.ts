/**
 * The editor's door: every answer passes here on its way out, and every word in it is gated as what it is: Markdown, the
 * lines of a plan, or one line. What writes, finds or addresses something is left as it is, and named here; a field that
 * nobody thought of is gated.
 */
import { label, lines } from '../text/shown';

/** Texts to be written into documents, what an editor searches or sorts by, addresses, and data for ourselves. */
const AS_IT_IS: ReadonlySet<string> = new Set([
  ...['newText', 'placeholder', 'filterText', 'sortText', 'uri', 'href', 'data', 'resultId', 'base64', 'mesh'],
]);
/** Whole texts of several lines, which were made of gated ones. */
const SEVERAL_LINES: ReadonlySet<string> = new Set(['text']);

/** The same answer, fit to be shown; what is fit already stays the same object. */
export function forEditor<T>(answer: T): T {
  return gated(answer, '') as T;
}

function gated(value: unknown, key: string): unknown {
  if (typeof value === 'string') return SEVERAL_LINES.has(key) ? lines(value) : label(value);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) {
    const items = value.map((item) => gated(item, key));
    return items.some((item, i) => item !== value[i]) ? items : value;
  }
  const markdown = (value as { kind?: unknown }).kind === 'markdown';
  let changed = false;
  const entries = Object.entries(value).map(([name, inner]) => {
    if (AS_IT_IS.has(name)) return [name, inner] as const;
    const shown = markdown && name === 'value' && typeof inner === 'string' ? lines(inner) : gated(inner, name);
    changed ||= shown !== inner;
    return [name, shown] as const;
  });
  return changed ? Object.fromEntries(entries) : value;
}
