/** Starting a part: asks for its name, writes a file that is already a whole, makeable part, and opens it. */
import { Uri, window, workspace } from 'vscode';
import { nameTrouble, starterPart } from './starter';

export async function newPart(folder?: Uri): Promise<void> {
  const name = await window.showInputBox({
    title: 'New part',
    prompt: 'Name of the part',
    placeHolder: 'bearing-block',
    validateInput: nameTrouble,
  });
  if (name === undefined) return;
  const where = folder ?? folderInView();
  if (!where) {
    // No folder is open: an unsaved document that the editor asks a place for when it is saved.
    const document = await workspace.openTextDocument({ language: 'scribeline-part', content: starterPart(name) });
    await window.showTextDocument(document);
    return;
  }
  const file = Uri.joinPath(where, `${name}.part.yaml`);
  if (await exists(file)) {
    void window.showWarningMessage(`${name}.part.yaml is there already; it was left as it is.`);
  } else {
    await workspace.fs.writeFile(file, new TextEncoder().encode(starterPart(name)));
  }
  await window.showTextDocument(await workspace.openTextDocument(file));
}

/** Beside the file in view, else the workspace's first folder. */
function folderInView(): Uri | undefined {
  const document = window.activeTextEditor?.document;
  if (document && document.uri.scheme !== 'untitled' && workspace.getWorkspaceFolder(document.uri)) {
    return Uri.joinPath(document.uri, '..');
  }
  return workspace.workspaceFolders?.[0]?.uri;
}

async function exists(file: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
}
