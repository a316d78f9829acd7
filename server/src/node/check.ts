/** `scribeline check`: finds the documents, has them judged, prints the answer. */
import { resolve } from 'node:path';
import { reportJson } from '../report/json';
import { countOf } from '../report/reported';
import { reportSarif } from '../report/sarif';
import { reportLines } from '../report/text';
import type { Command } from './arguments';
import { judgeAll } from './crew';
import { findDocuments, slashed } from './files';
import type { Judged } from './judge';
import type { Terminal } from './terminal';

type Check = Extract<Command, { name: 'check' }>;

export async function runCheck(command: Check, terminal: Terminal): Promise<0 | 1 | 2> {
  const { files, troubles } = await findDocuments(command.paths, terminal.cwd);
  for (const trouble of troubles) terminal.say(trouble);
  const shop = command.shop === undefined ? {} : { shop: slashed(resolve(terminal.cwd, command.shop)) };
  const facts = command.facts && command.format === 'text';
  const judged = await judgeAll(files, { fix: command.fix, facts, ...shop }, terminal.script);
  for (const note of judged.notes) terminal.say(note);
  print(command, judged, terminal);
  if (judged.lost || troubles.length > 0) return 2;
  const counts = countOf(judged.reported);
  return counts.error > 0 || counts.warning > (command.maxWarnings ?? Number.POSITIVE_INFINITY) ? 1 : 0;
}

function print(command: Check, judged: Judged, terminal: Terminal): void {
  const { reported, facts } = judged;
  if (command.format === 'json') terminal.data(reportJson(reported));
  else if (command.format === 'sarif') terminal.data(reportSarif(reported, terminal.version));
  else (command.color ? terminal : terminal.plain()).print(...facts, ...reportLines(reported));
}
