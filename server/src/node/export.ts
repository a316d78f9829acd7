/** `scribeline export`: a part as a file for what comes next. The format is what the file's name ends in. */
import { rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { cautionOn, ExportError, unwritable, type Writer, writerFor } from '../exchange/writer';
import { Workspace } from '../service/workspace';
import type { Command } from './arguments';
import { type Found, findDocuments } from './files';
import { nodeHost } from './host';
import { shopOption } from './shop-option';
import type { Terminal } from './terminal';
import { WRITERS } from './writers';

type Export = Extract<Command, { name: 'export' }>;

/**
 * 0: every part was written; 2: something was not. A file that `--to` names is the user's own choice and is replaced;
 * one whose name was made from the part's is never written over what is there.
 */
export async function runExport(command: Export, terminal: Terminal): Promise<0 | 2> {
  const say = (text: string) => terminal.say(text);
  const writer = writerFor(command.to, WRITERS);
  if (!writer) {
    say(`\`${command.to}\` is no format that can be written. The name ends in one of ${known()}.`);
    return 2;
  }
  const { files, troubles } = await findDocuments(command.paths, terminal.cwd);
  const parts = files.filter((f) => /\.part\.ya?ml$/i.test(f.path));
  for (const trouble of troubles) say(trouble);
  if (parts.length === 0) {
    if (troubles.length === 0) say(`${command.paths.join(' ')} holds no part (NAME.part.yaml).`);
    return 2;
  }
  if (parts.length > 1 && namesFile(command.to)) {
    say(`${parts.length} parts do not go into one file. Name only the format: --to ${writer.extensions[0].slice(1)}`);
    return 2;
  }
  let status: 0 | 2 = troubles.length > 0 ? 2 : 0;
  const host = nodeHost(say);
  const shop = await shopOption(command.shop, host, terminal);
  if (!shop) return 2;
  const workspace = new Workspace(host, shop);
  for (const part of parts) {
    try {
      const path = await exportOne(part, command, writer, workspace, terminal);
      terminal.print(path);
    } catch (error) {
      say(`${part.shown}: ${error instanceof Refusal || error instanceof ExportError ? error.message : String(error)}`);
      status = 2;
    }
  }
  return status;
}

class Refusal extends Error {}

async function exportOne(
  part: Found,
  command: Export,
  writer: Writer,
  workspace: Workspace,
  terminal: Terminal,
): Promise<string> {
  const named = namesFile(command.to);
  const shown = named ? command.to : join(dirname(part.shown), `${stem(part.path)}${writer.extensions[0]}`);
  const target = resolve(terminal.cwd, shown);
  if (!named && (await exists(target)))
    throw new Refusal(`${shown} is already there; name the file to write over it: --to ${shown}`);
  if (resolve(part.path) === target) throw new Refusal('a part is not written over its own text');
  const snapshot = await workspace.snapshot(part.path);
  if (snapshot?.kind !== 'part') throw new Refusal(`${(await workspace.unread(part.path)) ?? 'could not be read'}.`);
  const { checked } = snapshot;
  const why = unwritable(checked);
  if (why) throw new Refusal(`cannot be written: ${why}.`);
  const { face } = command;
  const request = { checked, creator: `Scribeline ${terminal.version}`, when: new Date() };
  const { bytes, notes } = await writer.write(face === undefined ? request : { ...request, face });
  await replace(target, bytes);
  for (const note of [...notes, ...cautionOn(checked)]) terminal.say(`${shown}: ${note}`);
  return shown;
}

/** Whole or not at all: a reader never sees half a file, and a full disk does not cost the one that was there. */
async function replace(target: string, bytes: Uint8Array): Promise<void> {
  const half = join(dirname(target), `.${basename(target)}.${process.pid}.part`);
  try {
    await writeFile(half, bytes, { flag: 'wx' });
    await rename(half, target);
  } catch (error) {
    await rm(half, { force: true });
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') throw new Refusal(`the folder of ${target} is not there.`);
    throw new Refusal(`${target} could not be written (${code ?? String(error)}).`);
  }
}

/** `out/part.step` names a file; `step` and `.step` only the format. */
function namesFile(to: string): boolean {
  return /[^.\\/]\.[^.\\/]+$/.test(to);
}

function stem(path: string): string {
  return basename(path).replace(/\.part\.ya?ml$/i, '');
}

function known(): string {
  return WRITERS.flatMap((w) => w.extensions).join(', ');
}

async function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
