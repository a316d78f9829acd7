/** Parts to begin, as an editor asks for them: by the shop that would judge a file that is not there yet. */
import type { Host } from '../host';
import type { PartSnapshot } from '../snapshot';
import { Workspace, type WorkspaceOptions } from '../workspace';
import { stockAtHand } from './at-hand';
import type { StarterTold } from './part';
import type { AtHandAnswer, StarterParams } from './protocol';

/** A part of nothing yet, at its place. `read`: files as they are now, in an editor or on disk. */
export async function partToBe(
  uri: string,
  host: Pick<Host, 'read' | 'list' | 'log'>,
  options: WorkspaceOptions = {},
): Promise<PartSnapshot | undefined> {
  const aside = {
    log: (message: string) => host.log(message),
    read: (path: string) => host.read(path),
    list: (folder: string) => host.list(folder),
    documents: async () => [],
  };
  const workspace = new Workspace(aside, options);
  workspace.open(uri, 'part: new\n');
  const snapshot = await workspace.snapshot(uri);
  return snapshot?.kind === 'part' ? snapshot : undefined;
}

export function atHandAnswer({ checked: { shop } }: PartSnapshot): AtHandAnswer {
  return { shop: shop.name, pieces: stockAtHand(shop).map(({ label, detail }) => ({ label, detail })) };
}

/** What is told to the thread that makes it; undefined where the shop has no such piece. */
export function starterTold({ name, template, piece }: StarterParams, part: PartSnapshot): StarterTold | undefined {
  if (piece === undefined) return { name, template };
  const chosen = stockAtHand(part.checked.shop)[piece];
  return chosen && { name, template, piece: chosen };
}
