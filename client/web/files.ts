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
  READ_FILE,
} from '../../server/src/service/files-protocol';

/** Folders that hold nobody's parts, and a bound for a tree without end. */
const PASSED_BY = /^(?:\.|node_modules$)/;
const MOST_FOLDERS = 5000;

export function answerFiles(client: BaseLanguageClient): void {
  client.onRequest<FileRead, Error>(READ_FILE, ({ uri }: FileAsked) => textOf(uri));
  client.onRequest(LIST_FOLDER, ({ uri }: FileAsked) => filesIn(uri));
  client.onRequest(FIND_DOCUMENTS, ({ uri }: FileAsked) => documentsBelow(uri));
}

async function textOf(name: string): Promise<FileRead> {
  if (kindOf(name) === undefined) return { why: 'is no part, shop, job or record' };
  const uri = Uri.parse(name);
  try {
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
