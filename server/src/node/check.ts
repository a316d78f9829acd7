/** `scribeline check`: finds the documents, has them judged, prints the answer. */
import { reportJson } from '../report/json';
import { countOf } from '../report/reported';
import { reportSarif } from '../report/sarif';
import { reportLines } from '../report/text';
import type { Command } from './arguments';
import type { Judged } from './check-files';
import { judgeAll } from './check-pool';
import { findDocuments } from './files';
import { judgeFor } from './shop-option';
import type { Terminal } from './terminal';

type Check = Extract<Command, { name: 'check' }>;

export async function runCheck(command: Check, terminal: Terminal): Promise<0 | 1 | 2> {
  const { files, troubles, folders } = await findDocuments(command.paths, terminal.cwd);
  const judge = await judgeFor(command.shop, folders, terminal);
  if (!judge) return 2;
  const facts = command.facts && command.format === 'text';
  const judged = await judgeAll(
    files,
    { fix: command.fix, folders, facts, ...judge.set },
    terminal.script,
    terminal.disk,
  );
  const unread = [...troubles, ...judged.unread, ...without(judged.lacking)];
  for (const sentence of [...judged.notes, ...unread]) terminal.say(sentence);
  print(command, judged, unread, terminal);
  if (judged.lost || unread.length > 0) return 2;
  const counts = countOf(judged.reported);
  return counts.error > 0 || counts.warning > (command.maxWarnings ?? Number.POSITIVE_INFINITY) ? 1 : 0;
}

/** A sentence for each shop or part that could not be had; the findings say it where it is named. */
function without(lacking: readonly string[]): readonly string[] {
  return [...new Set(lacking)].map((what) => {
    const count = lacking.filter((w) => w === what).length;
    return `${what}; ${count === 1 ? 'a file was' : `${count} files were`} judged without it.`;
  });
}

function print(command: Check, judged: Judged, unread: readonly string[], terminal: Terminal): void {
  const { reported, facts } = judged;
  if (command.format === 'json') terminal.data(reportJson(reported, unread));
  else if (command.format === 'sarif') terminal.data(reportSarif(reported, terminal.version, unread));
  else (command.color ? terminal : terminal.plain()).print(...facts, ...reportLines(reported, unread.length === 0));
}
