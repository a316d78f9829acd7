/**
 * Files for the server in its worker, through the editor: parts, shops, jobs and records, and the names in a folder. What is
 * of another kind is never read for it.
 */
import { FileSystemError, FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient/browser';
import { kindOf } from '../../server/src/service/documents';
import {
  FILE_LIMIT,
  FIND_DOCUMENTS,
  type FileAsked,
  type FileRead,
  LIST_FOLDER,
  OWN_FILE,
  OWN_FILES,
  type OwnFileAsked,
  READ_FILE,
} from '../../server/src/service/files-protocol';
import { type Around, whyClosed } from './gate';

/** Folders that hold nobody's parts, and a bound for a tree without end. */
const PASSED_BY = /^(?:\.|node_modules$)/;
const MOST_FOLDERS = 5000;

/** `extension`: its folder. */
export function answerFiles(client: BaseLanguageClient, extension: Uri): void {
  client.onRequest<FileRead, Error>(READ_FILE, ({ uri }: FileAsked) => textOf(uri));
  client.onRequest(LIST_FOLDER, ({ uri }: FileAsked) => filesIn(uri));
  client.onRequest(OWN_FILE, ({ name }: OwnFileAsked) => ownFile(extension, name));
  client.onRequest(FIND_DOCUMENTS, ({ uri }: FileAsked) => documentsBelow(uri));
}

/** One that came with the extension, and no other. */
async function ownFile(extension: Uri, name: OwnFileAsked['name']): Promise<Uint8Array | null> {
  if (!OWN_FILES.includes(name)) return null;
  try {
    // A copy: what an editor hands out may be a piece of something larger.
    return (await workspace.fs.readFile(Uri.joinPath(extension, 'dist', name))).slice();
  } catch {
    return null;
  }
}

async function textOf(name: string): Promise<FileRead> {
  const uri = Uri.parse(name);
  if (kindOf(uri.path) === undefined) return { why: 'is no part, shop, job or record' };
  // One side of a difference may be no file at all.
  const open = workspace.textDocuments.find((d) => d.uri.toString() === uri.toString());
  if (open) return { text: open.getText() };
  try {
    const why = await whyClosed(uri.path, pathsAround(uri), (path) => workspace.fs.stat(uri.with({ path })));
    if (why) return { why };
    const { type, size } = await workspace.fs.stat(uri);
    if (type & FileType.Directory) return { why: 'is a folder, not a file' };
    if (size > FILE_LIMIT)
      return { why: `is too large: ${(size / 1e6).toFixed(1)} MB, where at most ${FILE_LIMIT / 1e6} MB are read` };
    const bytes = await workspace.fs.readFile(uri);
    return { text: new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes) };
  } catch (error) {
    if (error instanceof TypeError) return { why: 'is not UTF-8: save it as UTF-8' };
    return isMissing(error) ? null : { why: `could not be read (${codeOf(error)})` };
  }
}

/** The open folder that a file is in, by its path; and whether its scheme is one of what is open. */
function pathsAround(uri: Uri): Around {
  const folder = workspace.getWorkspaceFolder(uri)?.uri;
  const known = [...(workspace.workspaceFolders ?? []), ...workspace.textDocuments].map((f) => f.uri);
  const isKnown = known.some((k) => k.scheme === uri.scheme && k.authority === uri.authority);
  return { isKnown, ...(folder && { folder: folder.path }) };
}

async function filesIn(folder: string): Promise<readonly string[]> {
  return (await entriesOf(Uri.parse(folder))).filter(([, type]) => type & FileType.File).map(([name]) => name);
}

/** Searching is not offered everywhere: the folders are walked. */
async function documentsBelow(folder: string): Promise<readonly string[]> {
  const found: string[] = [];
  const waiting = [Uri.parse(folder)];
  for (let looked = 0; waiting.length > 0 && looked < MOST_FOLDERS; looked++) {
    const here = waiting.shift()!;
    for (const [name, type] of await entriesOf(here)) {
      const uri = Uri.joinPath(here, name);
      if (type === FileType.Directory && !PASSED_BY.test(name)) waiting.push(uri);
      else if (type & FileType.File && !['record', undefined].includes(kindOf(name))) found.push(uri.toString());
    }
  }
  return found.sort();
}

async function entriesOf(folder: Uri): Promise<readonly [string, FileType][]> {
  try {
    return await workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}

const codeOf = (error: unknown) => (error instanceof FileSystemError ? error.code : String(error));
const isMissing = (error: unknown) => ['FileNotFound', 'FileNotADirectory'].includes(codeOf(error));
