/** What a page says in words: headings, tables, lists, and a text with its lines numbered. Every word goes through `markup`. */
import { markup } from '../text/shown';

/** Already markup: it is put in as it is. */
interface Made {
  readonly html: string;
}
type Cell = string | Made;

const cellOf = (cell: Cell) => (typeof cell === 'string' ? markup(cell) : cell.html);

export function heading(level: 1 | 2 | 3, text: string): string {
  return `<h${level}>${markup(text)}</h${level}>`;
}

export function paragraph(text: string): string {
  return `<p>${markup(text)}</p>`;
}

/** Nothing without rows. */
export function table(heads: readonly string[], rows: readonly (readonly Cell[])[]): string {
  if (rows.length === 0) return '';
  const head = heads.map((h) => `<th scope="col">${markup(h)}</th>`).join('');
  const body = rows.map((row) => `<tr>${row.map((c) => `<td>${cellOf(c)}</td>`).join('')}</tr>`).join('\n');
  return `<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${body}\n</tbody>\n</table>`;
}

/** Something under its own heading; nothing where it is empty. */
export function section(title: string, ...inner: readonly string[]): string {
  const said = inner.filter((text) => text !== '');
  return said.length === 0 ? '' : `${heading(2, title)}\n${said.join('\n')}`;
}

/** A word that says what kind it is, by more than its colour. */
export function tag(word: string): Made {
  const kind = /\b(error|warning|hint|new|gone|cured)\b/.exec(word)?.[1] ?? 'other';
  return { html: `<strong class="tag ${kind}">${markup(word)}</strong>` };
}

/** Which text of the page: the part's place in it, and the side of two. */
interface TextName {
  readonly part: number;
  readonly side: 'before' | 'after';
}

const idOf = ({ part, side }: TextName) => `p${part}-${side}-L`;

export function lineLink(name: TextName, line: number): Made {
  return { html: `<a href="#${idOf(name)}${line + 1}">line ${line + 1}</a>` };
}

/** Each line can be linked to. */
export function listing(name: TextName, text: string): string {
  const lines = text.replace(/\r?\n$/, '').split(/\r\n|\r|\n/);
  const items = lines.map((line, i) => `<li id="${idOf(name)}${i + 1}">${markup(line)}</li>`);
  return `<ol class="text">\n${items.join('\n')}\n</ol>`;
}
