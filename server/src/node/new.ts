/** `scribeline new`: a commented part to start from, in the working folder; never over what is there. */
import { join } from 'node:path';
import { starterPart } from '../service/starter';
import { Gate } from './gate';
import { save } from './save';
import type { Terminal } from './terminal';

export async function runNew(name: string, { cwd, print, say, disk }: Terminal): Promise<0 | 2> {
  const plain = name.replace(/\.part\.ya?ml$/, '');
  if (!/^[a-z][a-z0-9-]*$/.test(plain)) {
    say(`\`${name}\` is no name for a part: small letters, digits and dashes, a letter first (yoke, bearing-block-2).`);
    return 2;
  }
  const file = `${plain}.part.yaml`;
  const bytes = Buffer.from(starterPart(plain), 'utf8');
  const why = await save({ path: join(cwd, file), bytes, over: 'nothing' }, new Gate([cwd], disk), disk);
  if (why) {
    say(`${file} ${why}`);
    return 2;
  }
  print(file);
  return 0;
}
