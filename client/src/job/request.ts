/** What the server is asked for a job, with what it says on the way. */
import type { CancellationToken, Uri } from 'vscode';
import { JOB, type JobAnswer, type JobParams, type JobProgress } from '../../../server/src/service/job/protocol';
import { nonce } from '../nonce';
import type { ServerLink } from '../server-link';
import { printing } from '../sheet/request';

interface Asked {
  readonly uri: Uri;
  readonly as: JobParams['as'];
  readonly token: CancellationToken;
  readonly heard: (progress: JobProgress) => void;
}

export async function jobRequest(link: ServerLink, { uri, as, token, heard }: Asked): Promise<JobAnswer | null> {
  const workDoneToken = nonce();
  const listening = link.onProgress(workDoneToken, heard);
  const params: JobParams = {
    uri: uri.toString(),
    as,
    ...printing(uri),
    workDoneToken,
  };
  try {
    return await link.request<JobAnswer | null>(JOB, params, token);
  } finally {
    listening.dispose();
  }
}
