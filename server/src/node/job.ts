/** `scribeline job`: a whole job on paper: mass, hours, what to buy and bring, the cut list, the order of the day. */
import { dirname, resolve } from 'node:path';
import { jobCsv } from '../sheet/job/csv';
import { jobJson } from '../sheet/job/json';
import { jobMarkdown } from '../sheet/job/markdown';
import type { JobRequest } from '../sheet/job/printed';
import type { Printing } from '../sheet/printed';
import type { Command } from './arguments';
import { Gate } from './gate';
import { drawnJob, readJob } from './job-paper';
import { save } from './save';
import type { Terminal } from './terminal';

type JobCommand = Extract<Command, { name: 'job' }>;

type Write = (request: JobRequest, printing: Printing) => Uint8Array | Promise<Uint8Array>;
const bytes = (text: string) => new TextEncoder().encode(text);

/** A new format is an entry here. */
const FORMATS: Readonly<Record<string, Write>> = {
  '.md': ({ paper }, { language }) => bytes(jobMarkdown(paper, language)),
  '.json': ({ paper }) => bytes(jobJson(paper)),
  '.csv': ({ paper }) => bytes(jobCsv(paper)),
  '.html': async (request, printing) => (await drawnJob(request, 'html', printing)).bytes,
  '.pdf': async (request, printing) => (await drawnJob(request, 'pdf', printing)).bytes,
};

/** 0: all of it was written; 1: some of its parts could not be read, and it says so; 2: nothing was written. */
export async function runJob(command: JobCommand, terminal: Terminal): Promise<0 | 1 | 2> {
  const { to } = command;
  const format = FORMATS[to === undefined ? '.md' : to.slice(to.lastIndexOf('.')).toLowerCase()];
  if (!format) {
    terminal.say(
      `\`${to}\` is no format that a job is written in. The name ends in one of ${Object.keys(FORMATS).join(', ')}.`,
    );
    return 2;
  }
  const read = await readJob(command.path, command.shop, terminal);
  if (!read) return 2;
  const written = await format(read.request, command);
  if (to === undefined) terminal.print(...new TextDecoder().decode(written).trimEnd().split('\n'));
  else {
    const path = resolve(terminal.cwd, to);
    const gate = new Gate([...read.folders, dirname(path)], terminal.disk);
    const why = await save({ path, bytes: written, over: 'anything' }, gate, terminal.disk);
    if (why) terminal.say(`${to} ${why}`);
    else terminal.print(to);
    if (why) return 2;
  }
  return read.whole ? 0 : 1;
}
