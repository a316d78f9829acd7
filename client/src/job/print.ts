/** Printing a job: its cover and every part's sheet in one PDF, which whatever opens PDFs is given. */
import type { Uri } from 'vscode';
import { busyAlong, fail, failed, inform } from '../notices';
import type { ServerLink } from '../server-link';
import { putPdf } from '../sheet/print';
import { jobRequest } from './request';

/** `target`: where to; else beside the job, over an earlier paper of ours only. */
export async function printJob(link: ServerLink, job: Uri | undefined, target?: Uri): Promise<void> {
  if (!job) {
    void inform('Open a job file first.');
    return;
  }
  try {
    // It is worked out first, then drawn: half of the whole each.
    const answer = await busyAlong('Printing the sheets of the job…', async (tell, token) => {
      const heard = ({ what, of }: { readonly what: string; readonly of: number }) => tell(what, 0.5 / of);
      return jobRequest(link, { uri: job, as: 'pdf', token, heard }).catch((failure: unknown) => {
        // One that was called off is refused.
        if (token.isCancellationRequested) return 'left' as const;
        throw failure;
      });
    });
    if (answer === 'left') return;
    if (answer && 'base64' in answer) await putPdf(job, answer, target);
    else fail(answer && 'trouble' in answer ? answer.trouble : 'The text makes no job just now: nothing was printed.');
  } catch (error) {
    failed('The job was not printed', error);
  }
}
