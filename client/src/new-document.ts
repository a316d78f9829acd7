/** What beginning any document takes: its name is asked for, a file is made in one step or none, and opened. */
import { Position, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { warn } from './notices';

/** Asks for a name of small letters, digits and dashes; undefined where it was called off. */
export function askName(title: string, prompt: string, example: string): Thenable<string | undefined> {
  return window.showInputBox({
    title,
    prompt,
    placeHolder: example,
    validateInput: (name) => nameTrouble(name, example),
  });
}

/** Writes a new file and opens it; one that is there is opened as it is. */
export async function begin(folder: Uri | undefined, fileName: string, text: string): Promise<void> {
  const where = folder ?? folderInView();
  if (!where) {
    await showUnsaved(fileName, text);
    return;
  }
  const file = Uri.joinPath(where, fileName);
  const isMade = await made(file, text);
  if (!isMade && !(await isThere(file))) {
    void warn(`${fileName} could not be made: the editor may not write there.`);
    return;
  }
  if (!isMade) void warn(`${fileName} is there already; it was left as it is.`);
  await window.showTextDocument(await workspace.openTextDocument(file));
}

/** Makes the file in one operation of the editor's, which refuses where one is there: looking first would leave a gap. */
export async function made(file: Uri, text: string): Promise<boolean> {
  const edit = new WorkspaceEdit();
  edit.createFile(file, { overwrite: false, ignoreIfExists: false, contents: new TextEncoder().encode(text) });
  return workspace.applyEdit(edit).then(
    (done) => done,
    () => false,
  );
}

/** Says what is wrong with a name, or nothing. */
function nameTrouble(name: string, example: string): string | undefined {
  if (name === '') return 'It needs a name.';
  if (!/^[a-z][a-z0-9-]*$/.test(name)) return `Small letters, digits and “-”, beginning with a letter: ${example}.`;
  return name.length > 60 ? 'Sixty characters will do.' : undefined;
}

/** No folder is open: a document whose name says what it is, and whose place the editor asks for when it is saved. */
async function showUnsaved(fileName: string, text: string): Promise<void> {
  const document = await workspace.openTextDocument(Uri.from({ scheme: 'untitled', path: fileName }));
  const editor = await window.showTextDocument(document);
  if (document.getText() === '') await editor.edit((edit) => edit.insert(new Position(0, 0), text));
}

/** Beside the file in view, else the workspace's first folder. */
export function folderInView(): Uri | undefined {
  const document = window.activeTextEditor?.document;
  if (document && document.uri.scheme !== 'untitled' && workspace.getWorkspaceFolder(document.uri)) {
    return Uri.joinPath(document.uri, '..');
  }
  return workspace.workspaceFolders?.[0]?.uri;
}

export async function isThere(file: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(file);
    return true;
  } catch {
    return false;
  }
}
