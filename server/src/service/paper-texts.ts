/** What a paper is tied to, besides the program's version: change one of these, and it is void. */
import type { PartSnapshot } from './snapshot';
import type { Workspace } from './workspace';

export async function textsOf(part: PartSnapshot, workspace: Workspace): Promise<readonly string[]> {
  const shop = part.shopPath === undefined ? undefined : await workspace.snapshot(part.shopPath);
  return [part.text, shop?.text ?? ''];
}
