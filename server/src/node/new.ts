/** `scribeline new`: a commented part, a shop or a job to start from, in the working folder; never over what is there. */
import { readFile } from 'node:fs/promises';
import { dirname, join, relative } from 'node:path';
import { starterJob, starterPart } from '../service/starter';
import { starterShop } from '../service/starter-shop';
import { findDocuments, slashed } from './files';
import { Gate } from './gate';
import { save } from './save';
import type { Terminal } from './terminal';

export async function runNew(name: string, terminal: Terminal): Promise<0 | 2> {
  const { cwd, print, say, disk } = terminal;
  const [, plain = '', kind = 'part'] = /^(.*?)(?:\.(part|shop|job)(?:\.ya?ml)?)?$/.exec(name) ?? [];
  if (!/^[a-z][a-z0-9-]*$/.test(plain)) {
    say(
      `\`${name}\` is no name: small letters, digits and dashes, a letter first (yoke, bearing-block-2; campus.shop, flight-set.job).`,
    );
    return 2;
  }
  const file = `${plain}.${kind}.yaml`;
  const bytes = Buffer.from(await textOf(kind, plain, terminal), 'utf8');
  const why = await save({ path: join(cwd, file), bytes, over: 'nothing' }, new Gate([cwd], disk), disk);
  if (why) {
    say(`${file} ${why}`);
    return 2;
  }
  print(file);
  return 0;
}

async function textOf(kind: string, name: string, { cwd, script }: Terminal): Promise<string> {
  if (kind === 'shop') {
    // Beside the folder that the program is built into.
    const everyday = await readFile(join(dirname(script), '../schemas/everyday.shop.yaml'), 'utf8');
    return starterShop(everyday, name);
  }
  if (kind === 'part') return starterPart(name);
  const { files } = await findDocuments(['.'], cwd);
  const parts = files.filter((f) => /\.part\.ya?ml$/i.test(f.path));
  return starterJob(name, parts.map((f) => slashed(relative(cwd, f.path))).sort());
}
