/** `scribeline sheet`: a part's set-ups as a paper that is carried to the machine. The format is what the file's name ends in. */
import { textsOf } from '../service/paper-texts';
import { markdownSheet } from '../sheet/markdown';
import { htmlSheet, type Printing, pdfSheet } from '../sheet/printed';
import type { SheetWriter } from '../sheet/writer';
import type { Command } from './arguments';
import { markOf } from './mark';
import { pdfKit } from './print';
import type { Terminal } from './terminal';
import { writeParts } from './write-parts';

type Sheet = Extract<Command, { name: 'sheet' }>;

/** A new format is a `SheetWriter` in sheet/, and an entry here. */
const sheets = (printing: Printing): readonly SheetWriter[] => [
  pdfSheet(printing, pdfKit),
  htmlSheet(printing),
  markdownSheet,
];

/** 0: every sheet was written; 2: one was not. */
export async function runSheet(command: Sheet, terminal: Terminal): Promise<0 | 2> {
  const ending = command.to.slice(command.to.lastIndexOf('.') + 1).toLowerCase();
  const writers = sheets(command);
  const writer = writers.find((w) => w.extensions.includes(`.${ending}`));
  if (!writer) {
    const known = writers.flatMap((w) => w.extensions).join(', ');
    terminal.say(`\`${command.to}\` is no format that a sheet is written in. The name ends in one of ${known}.`);
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
