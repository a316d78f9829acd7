/**
 * Text of an ISO 10303-21 exchange file, as far as our own files need it: strings, and an entity found, replaced or added.
 * Entities stay text; nothing here knows what they mean.
 */

import { line } from '../text/shown';

/** A string as the file writes it: quotes doubled, and what is not plain ASCII by its code points (ISO 10303-21, 6.4.3). */
export function quoted(text: string): string {
  let out = '';
  for (const character of line(text)) {
    const code = character.codePointAt(0)!;
    if (character === "'" || character === '\\') out += character + character;
    else if (code >= 0x20 && code < 0x7f) out += character;
    else if (code > 0xffff) out += `\\X4\\${hex(code, 8)}\\X0\\`;
    else out += `\\X2\\${hex(code, 4)}\\X0\\`;
  }
  return `'${out}'`;
}

function hex(code: number, digits: number): string {
  return code.toString(16).toUpperCase().padStart(digits, '0');
}

/** A real as the file writes it: always with a point. */
export function real(value: number): string {
  const text = String(value).toUpperCase();
  if (text.includes('.')) return text;
  const [digits, exponent] = text.split('E');
  return exponent === undefined ? `${digits}.` : `${digits}.E${exponent}`;
}

/**
 * The first entity of a kind: its name (`#12`) and where its text stands, from `#` to `;`. It begins a line, which no string
 * can: what looks like an entity within a name is none.
 */
export function entityOf(file: string, kind: string): { id: string; start: number; end: number } | undefined {
  const found = new RegExp(`^(#\\d+)\\s*=\\s*${kind}\\s*\\(`, 'm').exec(file);
  if (!found) return undefined;
  return { id: found[1]!, start: found.index, end: endOf(file, found.index) };
}

/** After the `;` that ends the statement; one inside a string does not. */
function endOf(file: string, start: number): number {
  let inside = false;
  for (let i = start; i < file.length; i++) {
    if (file[i] === "'") inside = !inside;
    else if (file[i] === ';' && !inside) return i + 1;
  }
  return file.length;
}

function highestId(file: string): number {
  let most = 0;
  for (const [, id] of file.matchAll(/^#(\d+)\s*=/gm)) most = Math.max(most, Number(id));
  return most;
}

/** The same file with further entities at the end of its data. `make` is given a namer for the new ones. */
export function withEntities(file: string, make: (add: (text: string) => string) => void): string {
  const lines: string[] = [];
  let next = highestId(file);
  make((text) => {
    next++;
    lines.push(`#${next} = ${text};`);
    return `#${next}`;
  });
  const data = file.indexOf('\nDATA;');
  const end = file.indexOf('\nENDSEC;', data);
  return `${file.slice(0, end + 1)}${lines.join('\n')}\n${file.slice(end + 1)}`;
}
