/** `scribeline tables`: every table behind the answers, each row with its source. Nothing is read or written. */

import { tableNames, tablesJson, tablesText } from '../report/tables';
import { tablesBeside } from '../report/tables-beside';
import { nearest } from '../tables/nearest';
import type { Command } from './arguments';
import type { Terminal } from './terminal';

export function runTables({ table, format }: Extract<Command, { name: 'tables' }>, terminal: Terminal): 0 | 2 {
  const beside = tablesBeside();
  const names = tableNames(beside);
  if (table !== undefined && !names.includes(table)) {
    const near = nearest(table, names);
    terminal.say(
      `there is no table \`${table}\`.${near ? ` Did you mean ${near}?` : ` The tables are ${names.join(', ')}.`}`,
    );
    return 2;
  }
  terminal.print(
    ...(format === 'json' ? tablesJson(terminal.version, beside, table).split('\n') : tablesText(beside, table)),
  );
  return 0;
}
