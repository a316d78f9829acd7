/** The shop that `--shop` names: it is there and can be read, or nothing is done at all. */
import { resolve } from 'node:path';
import { kindOf } from '../service/documents';
import type { Host } from '../service/host';
import { NOT_THERE } from '../service/shop-of';
import { slashed } from './files';
import type { Terminal } from './terminal';

/** For a workspace; undefined where the shop cannot be had, which has been said then. */
export async function shopOption(
  named: string | undefined,
  host: Host,
  terminal: Terminal,
): Promise<{ readonly shop?: string } | undefined> {
  if (named === undefined) return {};
  const shop = slashed(resolve(terminal.cwd, named));
  const read =
    kindOf(shop) === 'shop' ? await host.read(shop) : { why: 'is no shop file: its name ends in .shop.yaml' };
  if (typeof read === 'string') return { shop };
  terminal.say(`the shop ${named} ${read?.why ?? NOT_THERE}. Correct --shop; nothing was judged by another shop.`);
  return undefined;
}
