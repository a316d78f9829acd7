/** Every table and every limit of a rule, with where each row is from: for anyone who wants to audit them. */
import { cuttingTables } from './cutting';
import { limitTables } from './limits';
import { screwTables } from './screws';
import { basisOf, type Counts, checkedOf, countsOf, type PublishedTable, type TableRow } from './source';

function tables(): readonly PublishedTable[] {
  return [...screwTables(), ...limitTables(), ...cuttingTables()];
}

const withBasis = (row: TableRow) => {
  const checked = checkedOf(row.source);
  return { ...row, basis: basisOf(row.source), ...(checked !== undefined && { checked }) };
};

/** `ruleLimits`: the settings of the rules, which stand beside the tables. */
export function tablesJson(version: string, ruleLimits: readonly TableRow[], only?: string): string {
  const shown = tables().filter((t) => only === undefined || t.name === only);
  const limits = only === undefined || only === 'limits' ? ruleLimits : undefined;
  const all = [...shown.flatMap((t) => t.rows), ...(limits ?? [])];
  return JSON.stringify(
    {
      program: 'scribeline',
      version,
      counts: countsOf(all),
      tables: shown.map(({ name, what, unit, rows }) => ({
        name,
        what,
        ...(unit && { unit }),
        counts: countsOf(rows),
        rows: rows.map(withBasis),
      })),
      ...(limits && { limits: limits.map(withBasis) }),
    },
    null,
    2,
  );
}

/** Each table in a line; of one that is named each row. */
export function tablesText(ruleLimits: readonly TableRow[], only?: string): readonly string[] {
  const limits: PublishedTable = {
    name: 'limits',
    what: 'Settings of the rules (`why RULE` tells more).',
    rows: ruleLimits,
  };
  const all = [...tables(), limits];
  const one = all.find((t) => t.name === only);
  if (one) return [`${one.name}: ${one.what}`, ...one.rows.map((row) => `  ${lineOf(row)}`)];
  return [
    ...all.map(({ name, what, rows }) => `  ${name.padEnd(20)} ${countText(countsOf(rows))}  ${what}`),
    `  ${'all'.padEnd(20)} ${countText(countsOf(all.flatMap((t) => t.rows)))}`,
  ];
}

export function tableNames(): readonly string[] {
  return [...tables().map((t) => t.name), 'limits'];
}

function countText({ published, memory, practice }: Counts): string {
  return `${String(published).padStart(5)} published ${String(memory).padStart(5)} from memory ${String(practice).padStart(4)} practice`;
}

function lineOf({ source, ...columns }: TableRow): string {
  const said = Object.entries(columns).filter(([, value]) => value !== null && value !== false);
  const text = said.map(([key, value]) => `${key} ${Array.isArray(value) ? value.join(' to ') : value}`).join(', ');
  return `${text} (${source})`;
}
