/** Every table and every limit of a rule, with where each row is from: for anyone who wants to audit them. */
import { cuttingTables } from './cutting';
import { limitTables } from './limits';
import { screwTables } from './screws';
import { SECOND } from './second';
import { basisOf, type Counts, checkedOf, countsOf, type PublishedTable, type TableRow } from './source';

/** `beside`: what the rules and the shop's hands go by, which this file does not know. */
type Beside = readonly PublishedTable[];

function tables(beside: Beside): readonly PublishedTable[] {
  return [...screwTables(), ...limitTables(), ...cuttingTables(), ...beside];
}

const withBasis = (row: TableRow) => {
  const checked = checkedOf(row.source);
  return { ...row, basis: basisOf(row.source), ...(checked !== undefined && { checked }) };
};

/** Said of a table that nothing independent was found for. */
export const NONE_FOUND = 'none found';

export function tablesJson(version: string, beside: Beside, only?: string): string {
  const shown = tables(beside).filter((t) => only === undefined || t.name === only);
  return JSON.stringify(
    {
      program: 'scribeline',
      version,
      counts: countsOf(shown.flatMap((t) => t.rows)),
      tables: shown.map(({ name, what, unit, rows }) => ({
        name,
        what,
        ...(unit && { unit }),
        counts: countsOf(rows),
        second: SECOND[name] ?? NONE_FOUND,
        rows: rows.map(withBasis),
      })),
    },
    null,
    2,
  );
}

/** Each table in a line; of one that is named each row. */
export function tablesText(beside: Beside, only?: string): readonly string[] {
  const all = tables(beside);
  const one = all.find((t) => t.name === only);
  if (one) return [`${one.name}: ${one.what}`, `  ${secondText(one)}`, ...one.rows.map((row) => `  ${lineOf(row)}`)];
  return [
    ...all.map(({ name, what, rows }) => `  ${name.padEnd(20)} ${countText(countsOf(rows))}  ${what}`),
    `  ${'all'.padEnd(20)} ${countText(countsOf(all.flatMap((t) => t.rows)))}`,
  ];
}

export function tableNames(beside: Beside): readonly string[] {
  return tables(beside).map((t) => t.name);
}

function secondText({ name, rows }: PublishedTable): string {
  const second = SECOND[name];
  if (!second) return `second source: ${NONE_FOUND}`;
  return `second source, of ${second.rows} of ${rows.length} rows: ${second.source}`;
}

function countText({ published, memory, practice }: Counts): string {
  return `${String(published).padStart(5)} published ${String(memory).padStart(5)} from memory ${String(practice).padStart(4)} rule of thumb`;
}

function lineOf({ source, ...columns }: TableRow): string {
  const said = Object.entries(columns).filter(([, value]) => value !== null && value !== false);
  const text = said.map(([key, value]) => `${key} ${Array.isArray(value) ? value.join(' to ') : value}`).join(', ');
  return `${text} (${source})`;
}
