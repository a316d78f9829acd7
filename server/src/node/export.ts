/** `scribeline export`: parts as files for what comes next. The format is what the file's name ends in. */
import { ExportError, writerFor } from '../export/writer';
import { drawingWriters } from '../sheet/drawing/printed';
import type { Command } from './arguments';
import { pdfKit } from './print';
import type { Terminal } from './terminal';
import { writeParts, writeTogether } from './write-parts';
import { WRITERS } from './writers';

type Export = Extract<Command, { name: 'export' }>;

/** 0: every part was written; 2: something was not. */
export async function runExport(command: Export, terminal: Terminal): Promise<0 | 2> {
  const shape = command.drawing ? undefined : writerFor(command.to, WRITERS);
  if (shape && !shape.drawing) return writeShapes(command, shape, terminal);
  const drawings = drawingWriters(pdfKit, command.print);
  const writer = writerFor(command.to, drawings, true);
  if (!writer) {
    const known = (command.drawing ? drawings : WRITERS).flatMap((w) => w.extensions);
    const what = command.drawing ? 'that a drawing is written in' : 'that can be written';
    terminal.say(`\`${command.to}\` is no format ${what}. The name ends in one of ${[...new Set(known)].join(', ')}.`);
    return 2;
  }
  if (command.face !== undefined) {
    terminal.say('--face is for an outline; a drawing has all faces with features. Delete it.');
    return 2;
  }
  const common = { creator: `Scribeline ${terminal.version}`, when: new Date() };
  return writeTogether(command, writer, terminal, (parts) => {
    if (parts.length === 0) throw new ExportError('none of its parts could be read');
    return writer.together(parts.map((part) => ({ ...part, ...common })));
  });
}

function writeShapes(command: Export, writer: (typeof WRITERS)[number], terminal: Terminal): Promise<0 | 2> {
  return writeParts(command, writer, terminal, ({ checked }) => {
    const request = { checked, creator: `Scribeline ${terminal.version}`, when: new Date() };
    const { face } = command;
    return writer.write(face === undefined ? request : { ...request, face });
  });
}
