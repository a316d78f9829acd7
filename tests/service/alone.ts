/** One part's text, open in a workspace that has nothing else. */
import type { Snapshot } from '../../server/src/service/snapshot';
import { Workspace } from '../../server/src/service/workspace';

const PATH = 'mem:///w/a.part.yaml';
export const ALL = { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } };

export async function snapshotOf(text: string): Promise<Snapshot> {
  const workspace = new Workspace({
    log: () => undefined,
    read: async () => undefined,
    list: async () => [],
    documents: async () => [],
  });
  workspace.open(PATH, text);
  return (await workspace.snapshot(PATH))!;
}
