/** Rows of a table in `data/`, by column name. Quotes hold commas; a doubled quote is a quote. */
import { readFileSync } from 'node:fs';

export type Row = Readonly<Record<string, string>>;

export function rowsOf(file: string): readonly Row[] {
  const lines = readFileSync(new URL(`./data/${file}`, import.meta.url), 'utf8')
    .trim()
    .split(/\r?\n/);
  const columns = cells(lines[0] ?? '');
  return lines.slice(1).map((line) => {
    const values = cells(line);
    return Object.fromEntries(columns.map((column, i) => [column, values[i] ?? '']));
  });
}

/** A cell as a number; throws for one that is missing, so that no check passes for want of data. */
export function num(row: Row, column: string): number {
  const cell = row[column];
  const value = Number(cell);
  if (cell === undefined || cell === '' || Number.isNaN(value)) throw new Error(`No number under ${column}: ${cell}`);
  return value;
}

function cells(line: string): string[] {
  const out: string[] = [];
  for (const match of line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)) {
    out.push(match[1] === undefined ? (match[2] ?? '') : match[1].replaceAll('""', '"'));
  }
  return out;
}
