/** Cutters of a list into the shop in view: asks for the list, has the language server read it, puts them into the text. */
import { Range, Uri, WorkspaceEdit, window, workspace } from 'vscode';
import { IMPORT, type ImportAnswer, type ImportParams } from '../../server/src/service/import-protocol';
import { fail, failed, inform, warn } from './notices';
import type { ServerLink } from './server-link';

/** More than any list of cutters; the server would only be kept busy. Bytes. */
const MOST = 8_000_000;

/** `shop`: from a menu; else the document in view. `list`: a file; else the user is asked. */
export async function importTools(link: ServerLink, shop?: Uri, list?: Uri): Promise<void> {
  const of = shop ?? window.activeTextEditor?.document.uri;
  if (!of || !/\.shop\.ya?ml$/i.test(of.path)) {
    void inform('Open a shop file first: the cutters go into it.');
    return;
  }
  const from = list ?? (await chosen(of));
  if (!from) return;
  try {
    const bytes = await workspace.fs.readFile(from);
    if (bytes.length > MOST) fail(`The list is too large: at most ${MOST / 1e6} MB are read.`);
    else await put(link, of, textOf(bytes));
  } catch (error) {
    failed('No cutter was imported', error);
  }
}

async function chosen(shop: Uri): Promise<Uri | undefined> {
  const found = await window.showOpenDialog({
    title: 'List of cutters (ISO 13399 or a table)',
    defaultUri: Uri.joinPath(shop, '..'),
    filters: { 'Lists of cutters': ['p21', 'csv', 'tsv', 'txt', 'stp'] },
    openLabel: 'Import',
  });
  return found?.[0];
}

/** As a spreadsheet or an older program writes it. */
function textOf(bytes: Uint8Array): string {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (a === 0xfe && b === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

async function put(link: ServerLink, shop: Uri, text: string): Promise<void> {
  const document = await workspace.openTextDocument(shop);
  const params: ImportParams = { uri: shop.toString(), text };
  const answer = await link.request<ImportAnswer | null>(IMPORT, params);
  if (!answer) {
    fail('This is no shop: no cutter was imported.');
    return;
  }
  if (answer.version !== undefined && answer.version !== document.version) {
    fail('The shop changed meanwhile: no cutter was imported. Try again.');
    return;
  }
  const edit = new WorkspaceEdit();
  for (const { range, newText } of answer.edits)
    edit.replace(
      shop,
      new Range(range.start.line, range.start.character, range.end.line, range.end.character),
      newText,
    );
  if (!(await workspace.applyEdit(edit))) fail('The shop could not be changed: no cutter was imported.');
  else await tell(answer);
}

async function tell({ added, there, left, told }: ImportAnswer): Promise<void> {
  const said = `${added} added, ${there} there already, ${left} left out.`;
  const show = 'Show What Was Said';
  const asked = await (left > 0 || told.length > 0 ? warn(said, show) : inform(said, show));
  if (asked !== show) return;
  const content = [said, ...told].join('\n');
  await window.showTextDocument(await workspace.openTextDocument({ content, language: 'plaintext' }), {
    preview: true,
  });
}
