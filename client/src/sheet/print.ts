/** Printing a sheet: a panel cannot, so the PDF is written beside the part and opened by whatever opens PDFs. */
import { env, Uri, window, workspace } from 'vscode';
import { busy, fail, failed, inform } from '../notices';
import type { ServerLink } from '../server-link';
import { sheetRequest } from './request';

/** `target`: where to; else beside the part, over an earlier sheet of ours only. */
export async function printSheet(link: ServerLink, part: Uri | undefined, target?: Uri): Promise<void> {
  if (!part) {
    void inform('Open a part file first.');
    return;
  }
  try {
    const answer = await busy('Printing the sheet…', () => sheetRequest(link, part, 'pdf'));
    if (!answer || 'trouble' in answer || answer.base64 === undefined) {
      fail(answer && 'trouble' in answer ? answer.trouble : 'The text makes no part just now: nothing was printed.');
      return;
    }
    const to = target ?? (await placeFor(part));
    if (!to) return;
    await workspace.fs.writeFile(to, Buffer.from(answer.base64, 'base64'));
    if (!target) await env.openExternal(to);
    const notes = answer.notes.map((note) => ` Note: ${note}`).join('');
    if (target || notes !== '') void inform(`${nameOf(to)} is written.${notes}`);
  } catch (error) {
    failed('The sheet was not printed', error);
  }
}

async function placeFor(part: Uri): Promise<Uri | undefined> {
  const name = `${nameOf(part).replace(/\.part\.ya?ml$/i, '')}.sheet.pdf`;
  const folder = part.scheme === 'untitled' ? workspace.workspaceFolders?.[0]?.uri : Uri.joinPath(part, '..');
  const beside = folder ? Uri.joinPath(folder, name) : Uri.file(name);
  if (part.scheme === 'file' && (await isOurs(beside))) return beside;
  return window.showSaveDialog({ title: 'Print sheet', defaultUri: beside, filters: { PDF: ['pdf'] } });
}

/** Nothing is there, or a sheet that was written from here. */
async function isOurs(file: Uri): Promise<boolean> {
  try {
    const bytes = Buffer.from(await workspace.fs.readFile(file));
    return bytes.subarray(0, 5).toString('latin1') === '%PDF-' && bytes.includes('(Scribeline)');
  } catch {
    return true;
  }
}

function nameOf({ path }: Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
