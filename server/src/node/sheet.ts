/** `scribeline sheet`: set-ups as a paper that is carried to the machine, of parts or of a whole job. The format is what the file's name ends in. */
import { dirname, join, resolve } from 'node:path';
import { cautionOn } from '../export/writer';
import { textsOf } from '../service/paper-texts';
import type { JobRequest } from '../sheet/job/printed';
import { jobSheets } from '../sheet/job/sheets';
import { markdownSheet } from '../sheet/markdown';
import { htmlSheet, type Printing, pdfSheet } from '../sheet/printed';
import type { SheetWriter } from '../sheet/writer';
import type { Command } from './arguments';
import { Gate } from './gate';
import { drawnJob, isJob, readJob } from './job-paper';
import { markOf } from './mark';
import { pdfKit } from './print';
import { save } from './save';
import type { Terminal } from './terminal';
import { namesFile, stem, writeParts } from './write-parts';

type Sheet = Extract<Command, { name: 'sheet' }>;

/** A new format is a `SheetWriter` in sheet/, and an entry here. */
const sheets = (printing: Printing): readonly SheetWriter[] => [
  pdfSheet(printing, pdfKit),
  htmlSheet(printing),
  markdownSheet(printing.language),
];

/** 0: every sheet was written; 1: a job's, without parts of it that could not be read; 2: one was not. */
export async function runSheet(command: Sheet, terminal: Terminal): Promise<0 | 1 | 2> {
  const ending = command.to.slice(command.to.lastIndexOf('.') + 1).toLowerCase();
  const writers = sheets(command);
  const writer = writers.find((w) => w.extensions.includes(`.${ending}`));
  if (!writer) {
    const known = writers.flatMap((w) => w.extensions).join(', ');
    terminal.say(`\`${command.to}\` is no format that a sheet is written in. The name ends in one of ${known}.`);
    return 2;
  }
  const [path = '', more] = command.paths;
  if (command.paths.some(isJob)) {
    if (more === undefined) return sheetsOfJob(path, writer.extensions[0], command, terminal);
    terminal.say('The sheets of a job go into one file: name it alone, without other parts or jobs.');
    return 2;
  }
  return writeParts(command, writer, terminal, async (part, workspace) =>
    writer.write({
      checked: part.checked,
      file: part.path.slice(part.path.lastIndexOf('/') + 1),
      mark: markOf([terminal.version, ...(await textsOf(part.checked, workspace))]),
      creator: `Scribeline ${terminal.version}`,
      when: new Date(),
    }),
  );
}

/** Behind one cover. A file that `--to` names is replaced; one whose name is made from the job's is never written over. */
async function sheetsOfJob(job: string, ending: string, command: Sheet, terminal: Terminal): Promise<0 | 1 | 2> {
  const named = namesFile(command.to);
  const shown = named ? command.to : join(dirname(job), `${stem(job)}${ending}`);
  const path = resolve(terminal.cwd, shown);
  const read = await readJob(job, command.shop, terminal);
  if (!read) return 2;
  const { bytes, notes } = await written(read.request, ending, command);
  const gate = new Gate([...read.folders, dirname(path)], terminal.disk);
  const why = await save({ path, bytes, over: named ? 'anything' : 'nothing' }, gate, terminal.disk);
  if (why) {
    terminal.say(`${shown} ${why}`);
    return 2;
  }
  terminal.print(shown);
  const cautions = [...read.request.parts].flatMap(([name, p]) => cautionOn(p.checked).map((c) => `${name}: ${c}`));
  for (const note of [...notes, ...cautions]) terminal.say(`${shown}: ${note}`);
  return read.whole ? 0 : 1;
}

async function written(request: JobRequest, ending: string, printing: Printing) {
  if (ending !== '.md') return drawnJob(request, ending === '.pdf' ? 'pdf' : 'html', printing);
  const { text, notes } = jobSheets(request, printing.language);
  return { bytes: new TextEncoder().encode(text), notes };
}
