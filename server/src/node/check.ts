/** `scribeline check`: finds the documents, has them judged, prints the answer. */
import { resolve } from 'node:path';
import { reportJson } from '../report/json';
import { countOf } from '../report/reported';
import { reportSarif } from '../report/sarif';
import { plainInk, reportText, terminalInk } from '../report/text';
import type { Command } from './arguments';
import { judgeAll } from './crew';
import { findDocuments, slashed } from './files';
import type { Judged } from './judge';

export interface Terminal {
  readonly cwd: string;
  readonly version: string;
  /** Whether the answer goes to a terminal that shows colours. */
  readonly colours: boolean;
  /** The program's own file, for further threads. */
  readonly script: string;
  out(text: string): void;
  err(text: string): void;
}

type Check = Extract<Command, { name: 'check' }>;

export async function runCheck(command: Check, terminal: Terminal): Promise<0 | 1 | 2> {
  const { files, troubles } = await findDocuments(command.paths, terminal.cwd);
  for (const trouble of troubles) terminal.err(`scribeline: ${trouble}\n`);
  const shop = command.shop === undefined ? {} : { shop: slashed(resolve(terminal.cwd, command.shop)) };
  const facts = command.facts && command.format === 'text';
  const judged = await judgeAll(files, { fix: command.fix, facts, ...shop }, terminal.script);
  for (const note of judged.notes) terminal.err(`scribeline: ${note}\n`);
  print(command, judged, terminal);
  if (judged.lost || troubles.length > 0) return 2;
  const counts = countOf(judged.reported);
  return counts.error > 0 || counts.warning > (command.maxWarnings ?? Number.POSITIVE_INFINITY) ? 1 : 0;
}

function print(command: Check, judged: Judged, terminal: Terminal): void {
  const { reported, facts } = judged;
  if (command.format === 'json') terminal.out(reportJson(reported));
  else if (command.format === 'sarif') terminal.out(reportSarif(reported, terminal.version));
  else {
    for (const text of facts) terminal.out(`${text}\n`);
    terminal.out(reportText(reported, command.color && terminal.colours ? terminalInk : plainInk));
  }
}
