/** Markdown for hovers. Whatever comes from the document is escaped: a name or a message is text, never markup. */

const ENTITY: Readonly<Record<string, string>> = { '<': '&lt;', '>': '&gt;', '&': '&amp;' };

export function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_{}[\]#|<>~&]/g, (c) => ENTITY[c] ?? `\\${c}`).replace(/\r?\n/g, '  \n');
}

/** Inline code that no backtick can end. */
export function code(text: string): string {
  const longest = Math.max(0, ...[...text.matchAll(/`+/g)].map((m) => m[0].length));
  const fence = '`'.repeat(longest + 1);
  const pad = text.startsWith('`') || text.endsWith('`') ? ' ' : '';
  return `${fence}${pad}${text.replace(/\r?\n/g, ' ')}${pad}${fence}`;
}

/** Messages use backticks round names: those stay code, the rest is escaped. */
export function messageMarkdown(message: string): string {
  return message
    .split(/(`[^`]*`)/)
    .map((piece) => (/^`[^`]*`$/.test(piece) ? piece : escapeMarkdown(piece)))
    .join('');
}
