/** Parts written as files, one each: what `export` and `sheet` have in common. The format is what the file's name ends in. */
import { basename, dirname, join, resolve } from 'node:path';
import { cautionOn, ExportError, type Exported, type ExportRequest, unwritable } from '../export/writer';
import { kindOf } from '../service/documents';
import type { PartSnapshot } from '../service/snapshot';
import { namesOf, sizesIn, withoutVariant } from '../service/variants';
import { Workspace } from '../service/workspace';
import { type Found, findDocuments, slashed, whyGone } from './files';
import { Gate } from './gate';
import { save } from './save';
import { judgeFor } from './shop-option';
import type { Terminal } from './terminal';

/** What both commands are told. */
interface Asked {
  readonly paths: readonly string[];
  readonly to: string;
  readonly shop?: string;
  /** One row of a table of variants; left out: each row that there is. */
  readonly variant?: string;
}

/** A format, and how a part is made into one. */
interface Kind {
  readonly extensions: readonly [string, ...string[]];
}
type Make = (part: PartSnapshot, workspace: Workspace) => Promise<Exported>;

/**
 * 0: every part was written; 2: something was not. A file that `--to` names is the user's own choice and is replaced;
 * one whose name was made from the part's is never written over what is there.
 */
export async function writeParts(command: Asked, kind: Kind, terminal: Terminal, make: Make): Promise<0 | 2> {
  const say = (text: string) => terminal.say(text);
  const { files, troubles, folders } = await findDocuments(command.paths, terminal.cwd);
  const parts = files.filter((f) => /\.part\.ya?ml$/i.test(f.path));
  for (const trouble of troubles) say(trouble);
  if (parts.length === 0) {
    if (troubles.length === 0) say(`${command.paths.join(' ')} holds no part (NAME.part.yaml).`);
    return 2;
  }
  if (parts.length > 1 && namesFile(command.to)) {
    say(`${parts.length} parts do not go into one file. Name only the format: --to ${kind.extensions[0].slice(1)}`);
    return 2;
  }
  let status: 0 | 2 = troubles.length > 0 ? 2 : 0;
  const judge = await judgeFor(command.shop, folders, terminal);
  if (!judge) return 2;
  const target = namesFile(command.to) ? [dirname(resolve(terminal.cwd, command.to))] : [];
  const gate = new Gate([...folders, ...target], terminal.disk);
  const { to, variant } = command;
  const run = { to, kind, make, workspace: new Workspace(judge.host, judge.set), terminal, gate };
  const failed = (part: Found, error: unknown) => {
    say(`${part.shown}: ${error instanceof Refusal || error instanceof ExportError ? error.message : String(error)}`);
    status = 2;
  };
  for (const part of parts) {
    const sizes = await sizesOf(part, variant, run).catch((error: unknown) => {
      failed(part, error);
      return [];
    });
    for (const size of sizes)
      await writeOne(part, size, run).then(
        (path) => terminal.print(path),
        (error: unknown) => failed(part, error),
      );
  }
  return status;
}

/** What a part file means: itself, or each row of its table of variants. */
async function sizesOf(part: Found, variant: string | undefined, { to, workspace }: Run): Promise<readonly Size[]> {
  const snapshot = await workspace.snapshot(part.path);
  if (snapshot?.kind !== 'part') throw new Refusal(`${whyGone(await workspace.unread(part.path))}.`);
  const sizes = sizesIn(snapshot, variant);
  if (sizes.length === 0) throw new Refusal(withoutVariant(namesOf(snapshot), variant ?? ''));
  if (sizes.length > 1 && namesFile(to))
    throw new Refusal(
      `it has ${sizes.length} variants, which do not go into one file. Name one: --variant ${namesOf(snapshot)[0]}`,
    );
  const names = variant === undefined ? namesOf(snapshot) : [variant];
  return sizes.map((size, i) => ({ size, ending: names[i] === undefined ? '' : `-${names[i]}` }));
}

/** A part to be written, and what its file's name ends in besides. */
interface Size {
  readonly size: PartSnapshot;
  readonly ending: string;
}

class Refusal extends Error {}

interface Run {
  readonly to: string;
  readonly kind: Kind;
  readonly make: Make;
  readonly workspace: Workspace;
  readonly terminal: Terminal;
  readonly gate: Gate;
}

async function writeOne(
  part: Found,
  { size, ending }: Size,
  { to, kind, make, workspace, terminal, gate }: Run,
): Promise<string> {
  const named = namesFile(to);
  const shown = named ? to : join(dirname(part.shown), `${stem(part.path)}${ending}${kind.extensions[0]}`);
  const target = await passedPlace(shown, terminal, gate);
  if (!named && (await gate.pass(target)).reason !== 'absent')
    throw new Refusal(`${shown} is already there; name the file to write over it: --to ${shown}`);
  const { checked } = size;
  const why = unwritable(checked);
  if (why) throw new Refusal(`${ending ? `${checked.part.name} ` : ''}cannot be written: ${why}.`);
  const { bytes, notes } = await make(size, workspace);
  const left = await save({ path: target, bytes, over: named ? 'anything' : 'nothing' }, gate, terminal.disk);
  if (left) throw new Refusal(`${shown} ${left}`);
  for (const note of [...notes, ...cautionOn(checked)]) terminal.say(`${shown}: ${note}`);
  return shown;
}

/** Asked before the work is done, and once more when it is written. */
async function passedPlace(shown: string, terminal: Terminal, gate: Gate): Promise<string> {
  const target = resolve(terminal.cwd, shown);
  const passed = await gate.passNew(target);
  if (passed.reason) throw new Refusal(`${shown} ${passed.why}`);
  if (kindOf(slashed(passed.real))) throw new Refusal(`${shown} leads to ${passed.real}, which is no place for it`);
  return target;
}

/** A part, and how many of it a job wants. */
type Wanted = Pick<ExportRequest, 'checked' | 'quantity'>;
type MakeTogether = (parts: readonly Wanted[]) => Promise<Exported>;

/** Parts, and those of jobs, in one file where `--to` names one; else each part in a file of its own. */
export async function writeTogether(
  command: Asked,
  kind: Kind,
  terminal: Terminal,
  make: MakeTogether,
): Promise<0 | 2> {
  if (!namesFile(command.to)) return writeParts(command, kind, terminal, ({ checked }) => make([{ checked }]));
  const { files, troubles, folders } = await findDocuments(command.paths, terminal.cwd);
  for (const trouble of troubles) terminal.say(trouble);
  const wanted = files.filter((f) => /\.(?:part|job)\.ya?ml$/i.test(f.path));
  if (wanted.length === 0) {
    if (troubles.length === 0)
      terminal.say(`${command.paths.join(' ')} holds no part and no job (NAME.part.yaml, NAME.job.yaml).`);
    return 2;
  }
  const judge = await judgeFor(command.shop, folders, terminal);
  if (!judge) return 2;
  const workspace = new Workspace(judge.host, judge.set);
  const gate = new Gate([...folders, dirname(resolve(terminal.cwd, command.to))], terminal.disk);
  try {
    const target = await passedPlace(command.to, terminal, gate);
    const { parts, whole } = await partsIn(wanted, command.variant, workspace, terminal);
    const { bytes, notes } = await make(parts);
    const left = await save({ path: target, bytes, over: 'anything' }, gate, terminal.disk);
    if (left) throw new Refusal(`${command.to} ${left}`);
    const cautions = parts.flatMap(({ checked }) =>
      cautionOn(checked).map((note) => (parts.length > 1 ? `${checked.part.name}: ${note}` : note)),
    );
    for (const note of [...notes, ...cautions]) terminal.say(`${command.to}: ${note}`);
    terminal.print(command.to);
    return whole && troubles.length === 0 ? 0 : 2;
  } catch (error) {
    terminal.say(
      error instanceof Refusal || error instanceof ExportError ? `${command.to}: ${error.message}` : String(error),
    );
    return 2;
  }
}

/** Each once, a job's as many as it wants; what cannot be written is told and left out. */
async function partsIn(
  files: readonly Found[],
  variant: string | undefined,
  workspace: Workspace,
  terminal: Terminal,
): Promise<{ readonly parts: readonly Wanted[]; readonly whole: boolean }> {
  const parts = new Map<string, Wanted>();
  let whole = true;
  const lack = (text: string) => {
    terminal.say(text);
    whole = false;
  };
  const add = (wanted: Wanted, name: string) => {
    const { checked } = wanted;
    const why = unwritable(checked);
    if (why) lack(`${name}: cannot be written: ${why}.`);
    else if (!parts.has(checked.tree.text)) parts.set(checked.tree.text, wanted);
  };
  for (const file of files.toSorted((a, b) => Number(/\.part\./i.test(a.path)) - Number(/\.part\./i.test(b.path)))) {
    const snapshot = await workspace.snapshot(file.path);
    if (snapshot?.kind === 'part') {
      const sizes = sizesIn(snapshot, variant);
      if (sizes.length === 0) lack(`${file.shown} ${withoutVariant(namesOf(snapshot), variant ?? '')}`);
      for (const { checked } of sizes) add({ checked }, file.shown);
    } else if (snapshot?.kind === 'job') {
      for (const missing of await workspace.lacking(snapshot)) lack(`${file.shown}: ${missing}.`);
      const { job } = snapshot.checked;
      const pieces = await workspace.piecesOf(file.path, job);
      const unread = job.parts.filter(({ name }) => !pieces.some(({ entry }) => entry.name === name));
      for (const { spec } of unread) lack(`${file.shown}: the part ${spec.name} could not be read: it is left out.`);
      for (const { checked, quantity, entry } of pieces) add({ checked, quantity }, entry.name);
    } else lack(`${file.shown}: ${whyGone(await workspace.unread(file.path))}.`);
  }
  return { parts: [...parts.values()], whole };
}

/** `out/part.step` names a file; `step` and `.step` only the format. */
export function namesFile(to: string): boolean {
  return /[^.\\/]\.[^.\\/]+$/.test(to);
}

export function stem(path: string): string {
  return basename(path).replace(/\.(?:part|job)\.ya?ml$/i, '');
}
