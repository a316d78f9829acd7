/** `schemas/TABLES.md`: which tables there are, where their rows are from, and what was compared with a second source. */
import { NONE_FOUND, tablesJson } from '../src/report/tables';
import type { Counts, SecondSource } from '../src/report/tables/source';
import { tablesBeside } from '../src/report/tables-beside';

interface Table {
  readonly name: string;
  readonly what: string;
  readonly counts: Counts;
  readonly second: SecondSource | typeof NONE_FOUND;
  readonly rows: readonly unknown[];
}

export function tablesPage(): string {
  const tables: readonly Table[] = JSON.parse(tablesJson('', tablesBeside())).tables;
  const [without, withSecond] = [true, false].map((none) => tables.filter((t) => (t.second === NONE_FOUND) === none));
  return `# Tables

\`scribeline tables NAME\` shows each row of a table with its source. This page is generated.

## With a second source

Tests compare these rows with something that is independent of what they were written from.

| table | rows | from memory | compared | second source |
| --- | ---: | ---: | ---: | --- |
${withSecond!.map((t) => `| \`${t.name}\` | ${t.rows.length} | ${t.counts.memory} | ${secondOf(t)} |`).join('\n')}

## Without a second source

| table | rows | from memory | rule of thumb | what it holds |
| --- | ---: | ---: | ---: | --- |
${without!.map((t) => `| \`${t.name}\` | ${t.rows.length} | ${t.counts.memory} | ${t.counts.practice} | ${t.what} |`).join('\n')}
`;
}

function secondOf({ second }: Table): string {
  return typeof second === 'string' ? second : `${second.rows} | ${second.source}`;
}
