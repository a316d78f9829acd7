/** `scribeline tables`: every table behind the answers, each row with its source. Nothing is read or written. */
import { ruleLimits } from '../report/rule-limits';
import { tableNames, tablesJson, tablesText } from '../report/tables';
import { nearest } from '../tables/nearest';
import type { Command } from './arguments';
import type { Terminal } from './terminal';

export function runTables({ table, format }: Extract<Command, { name: 'tables' }>, terminal: Terminal): 0 | 2 {
  const names = tableNames();
  if (table !== undefined && !names.includes(table)) {
    const near = nearest(table, names);
    terminal.say(
      `there is no table \`${table}\`.${near ? ` Did you mean ${near}?` : ` The tables are ${names.join(', ')}.`}`,
    );
    return 2;
  }
  const limits = ruleLimits();
  terminal.print(
    ...(format === 'json' ? tablesJson(terminal.version, limits, table).split('\n') : tablesText(limits, table)),
  );
  return 0;
}
