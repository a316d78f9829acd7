/** Starting a part: asks for its name, writes a file that is already a whole, makeable part, and opens it. */
import type { Uri } from 'vscode';
import { starterPart } from '../../server/src/service/starter';
import { askName, begin } from './new-document';

export async function newPart(folder?: Uri): Promise<void> {
  const name = await askName('New part', 'Name of the part', 'bearing-block');
  if (name !== undefined) await begin(folder, `${name}.part.yaml`, starterPart(name));
}
