/** The shop that `--shop` names: it is there and can be read, or nothing is done at all. */
import { dirname, resolve } from 'node:path';
import { kindOf } from '../service/documents';
import type { Host } from '../service/host';
import { NOT_THERE } from '../service/shop-of';
import { slashed } from './files';
import { nodeHost } from './host';
import type { Terminal } from './terminal';

/** What a command judges with: files are read through it, by this shop where one is set. */
interface Judge {
  readonly host: Host;
  readonly set: { readonly shop?: string };
}

/** `folders`: what the command names. Undefined where the shop cannot be had, which has been said then. */
export async function judgeFor(
  named: string | undefined,
  folders: readonly string[],
  terminal: Terminal,
): Promise<Judge | undefined> {
  const log = (message: string) => terminal.say(message);
  if (named === undefined) return { host: nodeHost(log, folders), set: {} };
  const shop = slashed(resolve(terminal.cwd, named));
  const host = nodeHost(log, readable(folders, shop));
  const read =
    kindOf(shop) === 'shop' ? await host.read(shop) : { why: 'is no shop file: its name ends in .shop.yaml' };
  if (typeof read === 'string') return { host, set: { shop } };
  terminal.say(`the shop ${named} ${read?.why ?? NOT_THERE}. Correct --shop; nothing was checked by another shop.`);
  return undefined;
}

/** The shop is named as well as the parts. */
export function readable(folders: readonly string[], shop: string | undefined): readonly string[] {
  return shop === undefined ? folders : [...folders, dirname(shop)];
}
