/** `scribeline export`: a part as a file for what comes next. The format is what the file's name ends in. */
import { writerFor } from '../export/writer';
import type { Command } from './arguments';
import type { Terminal } from './terminal';
import { writeParts } from './write-parts';
import { WRITERS } from './writers';

type Export = Extract<Command, { name: 'export' }>;

/** 0: every part was written; 2: something was not. */
export async function runExport(command: Export, terminal: Terminal): Promise<0 | 2> {
  const writer = writerFor(command.to, WRITERS);
  if (!writer) {
    terminal.say(`\`${command.to}\` is no format that can be written. The name ends in one of ${known()}.`);
    return 2;
  }
  return writeParts(command, writer, terminal, ({ checked }) => {
    const request = { checked, creator: `Scribeline ${terminal.version}`, when: new Date() };
    const { face } = command;
    return writer.write(face === undefined ? request : { ...request, face });
  });
}

function known(): string {
  return WRITERS.flatMap((w) => w.extensions).join(', ');
}
