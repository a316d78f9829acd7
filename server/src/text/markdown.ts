/** Markdown for hovers. Whatever comes from the document is escaped: a name or a message is text, never markup. */
import { line } from './shown';

const ENTITY: Readonly<Record<string, string>> = { '<': '&lt;', '>': '&gt;', '&': '&amp;' };

export function escapeMarkdown(text: string): string {
  return (
    line(text)
      .replace(/[\\`*_{}[\]#|<>~&]/g, (c) => ENTITY[c] ?? `\\${c}`)
      // an address would become a link by itself, and a number or a dash at the start a list
      .replace(/:(?=\/\/)|@|(?<=www)\./gi, (c) => `\\${c}`)
      .replace(/^(\s*\d*)([-+=.)])/, '$1\\$2')
  );
}

/** Inline code that no backtick can end. */
export function code(text: string): string {
  const shown = line(text);
  const longest = Math.max(0, ...[...shown.matchAll(/`+/g)].map((m) => m[0].length));
  const fence = '`'.repeat(longest + 1);
  const pad = shown.startsWith('`') || shown.endsWith('`') ? ' ' : '';
  return `${fence}${pad}${shown}${pad}${fence}`;
}

/**
 * Messages use backticks round names: those stay code, the rest is escaped. Where backticks do not come in such pairs,
 * some are the document's own, and all are letters.
 */
export function messageMarkdown(message: string): string {
  const pieces = message.split('`');
  if (pieces.length % 2 === 0 || message.includes('``')) return escapeMarkdown(message);
  return pieces.map((piece, i) => (i % 2 === 1 ? code(piece) : escapeMarkdown(piece))).join('');
}
