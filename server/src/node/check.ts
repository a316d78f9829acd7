/** `scribeline check`: finds the documents, judges them, writes safe fixes where asked, prints the answer. */
import { readFile, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { factsText } from '../report/facts';
import { figuresOf } from '../report/figures';
import { reportJson } from '../report/json';
import { countOf, type Reported, reportedOf } from '../report/reported';
import { reportSarif } from '../report/sarif';
import { plainInk, reportText, terminalInk } from '../report/text';
import { fixAllSafe, fixesFor } from '../rules/check';
import { offeredFixes } from '../rules/run';
import { type Snapshot, Workspace } from '../service/workspace';
import { applyEdits } from '../text/edit';
import type { Command } from './arguments';
import { type Found, findDocuments } from './files';
import { nodeHost } from './host';

export interface Terminal {
  readonly cwd: string;
  readonly version: string;
  /** Whether the answer goes to a terminal that shows colours. */
  readonly colours: boolean;
  out(text: string): void;
  err(text: string): void;
}

export async function runCheck(command: Extract<Command, { name: 'check' }>, terminal: Terminal): Promise<0 | 1 | 2> {
  const { files, troubles } = await findDocuments(command.paths, terminal.cwd);
  for (const trouble of troubles) terminal.err(`scribeline: ${trouble}\n`);
  const shop = command.shop === undefined ? undefined : resolve(terminal.cwd, command.shop);
  const workspace = new Workspace(
    nodeHost((message) => terminal.err(`scribeline: ${message}\n`)),
    shop === undefined ? {} : { shop },
  );
  const reported: Reported[] = [];
  let lost = troubles.length > 0;
  for (const file of files) {
    if (command.fix) await writeFixes(workspace, file, terminal);
    const snapshot = await workspace.snapshot(file.path);
    if (snapshot) {
      if (command.facts && command.format === 'text' && snapshot.kind === 'part')
        terminal.out(`${factsText(file.shown, snapshot.checked)}\n`);
      reported.push(reportOn(file.shown, snapshot));
    } else {
      terminal.err(`scribeline: ${file.shown} could not be read.\n`);
      lost = true;
    }
    if (snapshot?.kind !== 'shop') workspace.close(file.path);
  }
  print(command, reported, terminal);
  if (lost) return 2;
  const counts = countOf(reported);
  return counts.error > 0 || counts.warning > (command.maxWarnings ?? Number.POSITIVE_INFINITY) ? 1 : 0;
}

function print(command: Extract<Command, { name: 'check' }>, reported: readonly Reported[], terminal: Terminal): void {
  if (command.format === 'json') terminal.out(reportJson(reported));
  else if (command.format === 'sarif') terminal.out(reportSarif(reported, terminal.version));
  else terminal.out(reportText(reported, command.color && terminal.colours ? terminalInk : plainInk));
}

function reportOn(path: string, snapshot: Snapshot): Reported {
  const file = { tree: snapshot.checked.tree, lines: snapshot.lines, findings: snapshot.findings };
  if (snapshot.kind !== 'part') return reportedOf(path, file, offeredFixes);
  const { checked } = snapshot;
  return reportedOf(path, file, (finding) => fixesFor(checked, finding), figuresOf(checked));
}

/** Writes only what was asked, only where the file is still what was read, and only what can be written back byte for byte. */
async function writeFixes(workspace: Workspace, file: Found, terminal: Terminal): Promise<void> {
  const snapshot = await workspace.snapshot(file.path);
  if (snapshot?.kind !== 'part') return;
  const edits = fixAllSafe(snapshot.checked);
  if (edits.length === 0) return;
  const bytes = await readFile(file.path);
  if (!bytes.equals(Buffer.from(snapshot.text, 'utf8'))) {
    terminal.err(`scribeline: ${file.shown} is not plain UTF-8, or changed meanwhile: nothing was written.\n`);
    return;
  }
  await writeFile(file.path, applyEdits(snapshot.text, edits), 'utf8');
  terminal.err(
    `scribeline: ${file.shown}: ${edits.length} safe ${edits.length === 1 ? 'change' : 'changes'} written.\n`,
  );
  workspace.close(file.path);
}
