/** Starting a part: asks for its name, writes a file that is already a whole, makeable part, and opens it. */
import { commands, type Uri } from 'vscode';
import { starterPart } from '../../server/src/service/starter';
import { askName, begin } from './new-document';

export async function newPart(folder?: Uri): Promise<void> {
  const name = await askName('New part', 'Name of the part', 'bearing-block');
  if (name === undefined) return;
  await begin(folder, `${name}.part.yaml`, starterPart(name));
  // What was begun is seen: the picture beside the text, and above it the plan.
  await commands.executeCommand('scribeline.showPartView');
}
