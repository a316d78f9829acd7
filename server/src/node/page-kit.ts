/** What pages of their own are put together from: the view's script and styles, which lie beside the bundle or in `dist`. */
import { createHash } from 'node:crypto';
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { COMPARE_BODY, PART_BODY } from '../../../client/view/body';
import type { PageKit } from '../page/frame';

let loaded: Promise<PageKit> | undefined;

/** Loaded once, when it is asked for. */
export function pageKit(): Promise<PageKit> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<PageKit> {
  const [script, view, page] = await Promise.all(['view.js', 'view.css', 'page.css'].map(read));
  return {
    script: script!,
    style: `${view}\n${page}`,
    bodies: { part: PART_BODY, compare: COMPARE_BODY },
    hash: (text) => createHash('sha256').update(text).digest('base64'),
  };
}

/** Where the sources run as they are, what was built last serves. */
function read(name: string): Promise<string> {
  const beside = join(__dirname, name);
  return readFile(existsSync(beside) ? beside : resolve(__dirname, '../../../dist', name), 'utf8');
}
