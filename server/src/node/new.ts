/** `scribeline new`: a part, a shop or a job to start from, in the working folder; never over what is there. Who sits at a terminal is asked. */
import { readFile } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import { withoutItsShop } from '../model/unread-shop';
import { partToBe } from '../service/starter/answer';
import { type AtHand, likelyPiece, meantBy, stockAtHand } from '../service/starter/at-hand';
import { starterJob } from '../service/starter/job';
import { startedPart } from '../service/starter/part';
import { TEMPLATES, type Template } from '../service/starter/protocol';
import { shopEntries, starterShop } from '../service/starter/shop';
import { askOne, askWithout, Refused } from './ask';
import { findDocuments, slashed } from './files';
import { Gate } from './gate';
import type { NewCommand } from './new-options';
import { save } from './save';
import { judgeFor } from './shop-option';
import type { Terminal } from './terminal';

export async function runNew(command: NewCommand, terminal: Terminal): Promise<0 | 2> {
  const { cwd, print, say, disk } = terminal;
  const name = command.part;
  const [, plain = '', kind = 'part'] = /^(.*?)(?:\.(part|shop|job)(?:\.ya?ml)?)?$/.exec(name) ?? [];
  if (!/^[a-z][a-z0-9-]*$/.test(plain)) {
    say(
      `\`${name}\` is no name: small letters, digits and dashes, a letter first (yoke, bearing-block-2; campus.shop, flight-set.job).`,
    );
    return 2;
  }
  const file = `${plain}.${kind}.yaml`;
  const gate = new Gate([cwd], disk);
  try {
    // Nobody is asked for what would not be written.
    if ((await gate.pass(join(cwd, file))).reason !== 'absent')
      throw new Refused('is already there; it was left as it is.');
    const bytes = Buffer.from(await textOf(kind, plain, command, terminal), 'utf8');
    const why = await save({ path: join(cwd, file), bytes, over: 'nothing' }, gate, disk);
    if (why) throw new Refused(why);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    say(`${file} ${error.message}`);
    return 2;
  }
  print(file);
  return 0;
}

function textOf(kind: string, name: string, command: NewCommand, terminal: Terminal): Promise<string> {
  if (kind === 'shop') return shopText(name, command, terminal);
  return kind === 'job' ? jobText(name, command, terminal) : partText(name, command, terminal);
}

async function shopText(name: string, { without }: NewCommand, terminal: Terminal): Promise<string> {
  // Beside the folder that the program is built into.
  const everyday = await readFile(join(dirname(terminal.script), '../schemas/everyday.shop.yaml'), 'utf8');
  const entries = shopEntries(everyday);
  const strange = (without ?? []).filter((word) => !entries.some((e) => e.label === word));
  if (strange.length > 0) throw new Refused(`was not written: the everyday shop has no ${strange.join(', ')}.`);
  const gone = without
    ? entries.filter((e) => without.includes(e.label))
    : await askWithout(terminal, 'What is there?', entries, (e) => e.section);
  return starterShop(everyday, name, gone);
}

async function jobText(name: string, { parts }: NewCommand, terminal: Terminal): Promise<string> {
  const { files } = await findDocuments(['.'], terminal.cwd);
  const all = files
    .filter((f) => /\.part\.ya?ml$/i.test(f.path))
    .map((f) => slashed(relative(terminal.cwd, f.path)))
    .sort();
  const strange = (parts ?? []).filter((path) => !all.includes(path.replace(/^\.\//, '')));
  if (strange.length > 0)
    throw new Refused(`was not written: there is no part ${strange.join(', ')} below this folder.`);
  if (parts)
    return starterJob(
      name,
      parts.map((path) => path.replace(/^\.\//, '')),
    );
  const rows = all.map((label) => ({ label, detail: '' }));
  const gone = await askWithout(terminal, 'Which parts are made together?', rows);
  return starterJob(
    name,
    rows.filter((row) => !gone.includes(row)).map(({ label }) => label),
  );
}

async function partText(name: string, command: NewCommand, terminal: Terminal): Promise<string> {
  const { cwd } = terminal;
  const judge = await judgeFor(command.shop, [cwd], terminal);
  const part = judge && (await partToBe(slashed(join(cwd, `${name}.part.yaml`)), judge.host, judge.set));
  if (!part) throw new Refused('was not written.');
  const { shop } = part.checked;
  const shopless = withoutItsShop(shop);
  if (shopless) throw new Refused(`was not written: ${shopless}.`);
  const piece = await pieceOf(command.stock, stockAtHand(shop), terminal);
  const template = command.like ?? (await likeOf(terminal));
  const { newText, left } = startedPart({ name, template, ...(piece && { piece }) }, shop);
  if (left.length > 0) terminal.say(`left out, as ${shop.name} cannot make it of this piece: ${left.join(', ')}.`);
  return newText;
}

async function pieceOf(words: string | undefined, all: readonly AtHand[], terminal: Terminal) {
  if (words !== undefined) {
    const [found, ...others] = meantBy(words, all);
    const near = others.length > 0 ? [found!, ...others] : likeIt(words, all);
    const like = near.slice(0, MOST_TOLD).map((p) => `${p.label} (${p.detail})`);
    if (!found) throw new Refused(`was not written: the shop has no ${words}. It has ${like.join('; ')} …`);
    if (others.length > 0) throw new Refused(`was not written: which ${words}? ${like.join('; ')}.`);
    return found;
  }
  const likely = likelyPiece(all);
  if (!likely || !terminal.ask) return likely;
  const none = { label: 'another block', detail: 'of exactly the part’s own size' };
  const rows = [...all, none];
  const at = await askOne(terminal, 'What is it cut from?', rows, rows.indexOf(likely));
  return all[at];
}

/** Those that some of the words mean, by the first that means any. */
function likeIt(words: string, all: readonly AtHand[]): readonly AtHand[] {
  return (
    words
      .split(/[\s,]+/)
      .map((word) => meantBy(word, all))
      .find((some) => some.length > 0) ?? all
  );
}

/** Of many pieces so many are told. */
const MOST_TOLD = 6;

async function likeOf(terminal: Terminal): Promise<Template> {
  const all = Object.entries(TEMPLATES).map(([label, detail]) => ({ label, detail }));
  const at = terminal.ask ? await askOne(terminal, 'What is it like?', all, 0) : 0;
  return all[at]!.label as Template;
}
