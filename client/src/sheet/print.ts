/** Printing a sheet: a panel cannot, so the PDF is written beside the part and opened by whatever opens PDFs. */
import { env, Uri, window, workspace } from 'vscode';
import { bytesOf } from '../../../server/src/geometry/mesh/base64';
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
    await putPdf(part, { base64: answer.base64, notes: answer.notes }, target);
  } catch (error) {
    failed('The sheet was not printed', error);
  }
}

/** Writes it and opens it; where `target` is told, writes it there. `of`: the document that it is beside. */
export async function putPdf(
  of: Uri,
  { base64, notes }: { readonly base64: string; readonly notes: readonly string[] },
  target?: Uri,
): Promise<void> {
  const to = target ?? (await placeFor(of));
  if (!to) return;
  await workspace.fs.writeFile(to, new Uint8Array(bytesOf(base64)));
  // What lies on no disk of this machine is opened by nothing here.
  const opens = !target && to.scheme === 'file';
  if (opens) await env.openExternal(to);
  const noted = notes.map((note) => ` Note: ${note}`).join('');
  if (!opens || noted !== '') void inform(`${nameOf(to)} is written.${noted}`);
}

async function placeFor(part: Uri): Promise<Uri | undefined> {
  const name = `${nameOf(part).replace(/\.(?:part|job)\.ya?ml$/i, '')}.sheet.pdf`;
  const folder = part.scheme === 'untitled' ? workspace.workspaceFolders?.[0]?.uri : Uri.joinPath(part, '..');
  const beside = folder ? Uri.joinPath(folder, name) : Uri.file(name);
  if (part.scheme === 'file' && (await isOurs(beside))) return beside;
  return window.showSaveDialog({ title: 'Print sheet', defaultUri: beside, filters: { PDF: ['pdf'] } });
}

/** Nothing is there, or a sheet that was written from here. */
async function isOurs(file: Uri): Promise<boolean> {
  try {
    const text = new TextDecoder('latin1').decode(await workspace.fs.readFile(file));
    return text.startsWith('%PDF-') && text.includes('(Scribeline)');
  } catch {
    return true;
  }
}

function nameOf({ path }: Uri): string {
  return path.slice(path.lastIndexOf('/') + 1);
}
