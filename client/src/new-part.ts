/** Starting a part: asks for its name, writes a file that is already a whole, makeable part, and opens it. */
import { Position, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { starterPart } from '../../server/src/service/starter';
import { warn } from './notices';

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
    await showUnsaved(name);
    return;
  }
  const file = Uri.joinPath(where, `${name}.part.yaml`);
  const isMade = await made(file, starterPart(name));
  if (!isMade && !(await exists(file))) {
    void warn(`${name}.part.yaml could not be made: the editor may not write there.`);
    return;
  }
  if (!isMade) void warn(`${name}.part.yaml is there already; it was left as it is.`);
  await window.showTextDocument(await workspace.openTextDocument(file));
}

/** Makes the file in one operation of the editor's, which refuses where one is there: looking first would leave a gap. */
async function made(file: Uri, text: string): Promise<boolean> {
  const edit = new WorkspaceEdit();
  edit.createFile(file, { overwrite: false, ignoreIfExists: false, contents: new TextEncoder().encode(text) });
  return workspace.applyEdit(edit).then(
    (done) => done,
    () => false,
  );
}

/** Says what is wrong with a part's name, or nothing. */
function nameTrouble(name: string): string | undefined {
  if (name === '') return 'A part needs a name.';
  if (!/^[a-z][a-z0-9-]*$/.test(name)) return 'Small letters, digits and “-”, beginning with a letter: bearing-block.';
  return name.length > 60 ? 'Sixty characters will do.' : undefined;
}

/** No folder is open: a document whose name says what it is, and whose place the editor asks for when it is saved. */
async function showUnsaved(name: string): Promise<void> {
  const document = await workspace.openTextDocument(Uri.from({ scheme: 'untitled', path: `${name}.part.yaml` }));
  const editor = await window.showTextDocument(document);
  if (document.getText() === '') await editor.edit((edit) => edit.insert(new Position(0, 0), starterPart(name)));
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
