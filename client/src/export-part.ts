/** Exporting a part: asks for a format and a place, has the language server make the file, writes it there. */
import { type QuickPickItem, Uri, window, workspace } from 'vscode';
import { bytesOf } from '../../server/src/geometry/mesh/base64';
import { FACES, type Face } from '../../server/src/model/faces';
import {
  EXPORT,
  type ExportAnswer,
  type ExportParams,
  FORMATS,
  type Format,
} from '../../server/src/service/export-protocol';
import { busy, fail, failed, inform } from './notices';
import type { ServerLink } from './server-link';

/** `drawing`: the dimensioned drawing, not its shape. `part`: from a menu; else the document in view. `target`: where to, in the format of its ending; else the user is asked. */
export async function exportPart(link: ServerLink, part?: Uri, target?: Uri, drawing = false): Promise<void> {
  const uri = part ?? partInView();
  if (!uri) {
    void inform('Open a part file first.');
    return;
  }
  try {
    if (target) await write(link, uri, { target, drawing });
    else await ask(link, uri, drawing);
  } catch (error) {
    failed('The part was not exported', error);
  }
}

async function ask(link: ServerLink, uri: Uri, drawing: boolean): Promise<void> {
  const formats = await link.request<readonly Format[]>(FORMATS);
  const format = await chosenFormat(formats.filter((f) => f.drawing === drawing));
  if (!format) return;
  const face = format.perFace ? await chosenFace() : undefined;
  if (format.perFace && !face) return;
  const target = await window.showSaveDialog({
    title: 'Export part',
    defaultUri: beside(uri, face ? `-${face}` : drawing ? '-drawing' : '', format.extensions[0]!),
    filters: { [format.title]: [...format.extensions] },
    saveLabel: 'Export',
  });
  if (target) await write(link, uri, { target, drawing, ...(face && { face }) });
}

interface Asked {
  readonly target: Uri;
  readonly drawing: boolean;
  readonly face?: Face;
}

async function write(link: ServerLink, uri: Uri, { target, drawing, face }: Asked): Promise<void> {
  const name = target.path.slice(target.path.lastIndexOf('/') + 1);
  const params: ExportParams = { uri: uri.toString(), name, ...(face && { face }), ...(drawing && { drawing }) };
  const answer = await busy(`Exporting ${name}…`, () => link.request<ExportAnswer>(EXPORT, params));
  if ('trouble' in answer) {
    fail(answer.trouble);
    return;
  }
  await workspace.fs.writeFile(target, new Uint8Array(bytesOf(answer.base64)));
  const notes = answer.notes.map((note) => ` Note: ${note}`).join('');
  void inform(`${name} is written.${notes}`);
}

/** One format needs no question. */
async function chosenFormat(formats: readonly Format[]): Promise<Format | undefined> {
  if (formats.length < 2) return formats[0];
  const items = formats.map((format): QuickPickItem & { format: Format } => {
    const [name = format.title, use = ''] = format.title.split(': ');
    return { label: name, description: format.extensions.map((e) => `.${e}`).join(', '), detail: use, format };
  });
  const picked = await window.showQuickPick(items, { title: 'Export part', placeHolder: 'As which kind of file?' });
  return picked?.format;
}

async function chosenFace(): Promise<Face | undefined> {
  const order: readonly Face[] = ['top', ...FACES.filter((f) => f !== 'top')];
  const picked = await window.showQuickPick(order, { title: 'Export part', placeHolder: 'Which face is drawn?' });
  return order.find((f) => f === picked);
}

function partInView(): Uri | undefined {
  const document = window.activeTextEditor?.document;
  return document?.languageId === 'scribeline-part' ? document.uri : undefined;
}

/** `yoke.part.yaml` → `yoke.step` in the same folder. */
function beside(part: Uri, suffix: string, extension: string): Uri {
  const cut = part.path.lastIndexOf('/') + 1;
  const stem = part.path.slice(cut).replace(/\.part\.ya?ml$/i, '');
  const folder = part.scheme === 'untitled' ? workspace.workspaceFolders?.[0]?.uri : Uri.joinPath(part, '..');
  const name = `${stem}${suffix}.${extension}`;
  return folder ? Uri.joinPath(folder, name) : Uri.file(name);
}
