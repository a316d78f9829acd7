/** Beginning a record beside its part: a line for each size that the sheet has measured. */
import { Uri, window, workspace } from 'vscode';
import { RECORD, type RecordStarter } from '../../server/src/service/record-protocol';
import { inView } from './beside/single';
import { made } from './new-document';
import { fail, failed, inform } from './notices';
import type { ServerLink } from './server-link';

export async function newRecord(link: ServerLink, part: Uri | undefined): Promise<void> {
  const of = part ?? inView();
  if (!of || of.scheme === 'untitled') {
    void inform(of ? 'Save the part first: a record lies beside it.' : 'Open a part file first.');
    return;
  }
  try {
    const answer = await link.request<RecordStarter | null>(RECORD, { uri: of.toString() });
    if (!answer) {
      fail('The text makes no part just now: no record was begun.');
      return;
    }
    const name = of.path.slice(of.path.lastIndexOf('/') + 1).replace(/\.part\.ya?ml$/i, '');
    const file = Uri.joinPath(of, '..', `${name}.record.yaml`);
    // One that is there is opened as it is: it holds what was measured.
    await made(file, answer.newText);
    await window.showTextDocument(await workspace.openTextDocument(file));
  } catch (error) {
    failed('No record was begun', error);
  }
}
