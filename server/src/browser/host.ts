/** The service's host in a browser: files of the open folders through the editor, time from the worker itself. */
import { kindOf, rootOf } from '../service/documents';
import { FIND_DOCUMENTS, type FileAsked, type FileRead, LIST_FOLDER, READ_FILE } from '../service/files-protocol';
import type { FileText, Host } from '../service/host';
import { later } from './threads';

/** So many turns a message takes at most from one hand to the next, as on Node. */
const TURNS = 5;

/** Who is asked. */
export interface Editor {
  sendRequest<T>(method: string, params: object): Promise<T>;
}

export function browserHost({ sendRequest }: Editor, log: (message: string) => void): Host {
  const ask = <T>(method: string, uri: string) => sendRequest<T>(method, { uri } satisfies FileAsked);
  return {
    log,
    later,
    pause: async () => {
      for (let turn = 0; turn < TURNS; turn++) await nextTurn();
    },
    /** The gate: a part, shop, job or record that a text names, or anything of that kind in the folders that are open. */
    async read(path, opened = []): Promise<FileText> {
      if (kindOf(path) === undefined && rootOf(path, opened) === undefined)
        return { why: 'is no part, shop, job or record, and lies outside the open folder' };
      const answer = await ask<FileRead>(READ_FILE, path);
      if (answer === null) return undefined;
      return 'text' in answer ? answer.text : { why: answer.why };
    },
    list: (folder) => ask<readonly string[]>(LIST_FOLDER, folder),
    documents: (folder) => ask<readonly string[]>(FIND_DOCUMENTS, folder),
  };
}

/** A message to itself: a timer would wait four milliseconds. */
function nextTurn(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    const hears = port1 as unknown as { onmessage: () => void };
    hears.onmessage = () => {
      port1.close();
      resolve();
    };
    port2.postMessage(undefined);
  });
}
