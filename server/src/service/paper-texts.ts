/** What a paper is tied to, besides the program's version: change one of these, and it is void. */
import type { CheckedPart } from '../rules/checked-part';
import type { Workspace } from './workspace';

/** The part's, and that of the shop it is judged by, its own or a job's: one mark for one paper, whoever prints it. */
export async function textsOf({ tree, shop }: CheckedPart, workspace: Workspace): Promise<readonly string[]> {
  const text = shop.uri === undefined ? undefined : await workspace.text(shop.uri);
  return [tree.text, text ?? ''];
}
