/** The job's page: takes a job in words from the extension and shows it; what is pressed goes back. */
import type { JobView } from '../../server/src/service/job/protocol';
import { type FromJob, toJob } from './job-messages';
import { jobSections } from './job-sections';

declare function acquireVsCodeApi(): { postMessage(message: FromJob): void };
const host = acquireVsCodeApi();
const tell = (message: FromJob) => host.postMessage(message);

const byId = (id: string) => document.getElementById(id)!;
const main = document.querySelector('main')!;
const status = byId('status');
const underWay = byId('under-way');
const progress = byId('progress') as HTMLProgressElement;
const print = byId('print') as HTMLButtonElement;
const again = byId('again');

byId('cancel').addEventListener('click', () => tell({ type: 'cancel' }));
again.addEventListener('click', () => tell({ type: 'again' }));
print.addEventListener('click', () => tell({ type: 'print' }));
main.addEventListener('click', ({ target }) => {
  const { act, uri } = (target as HTMLElement).dataset;
  if ((act === 'sheet' || act === 'open') && uri !== undefined) tell({ type: act, uri });
});

function show(view: JobView): void {
  const top = document.documentElement.scrollTop;
  main.replaceChildren(...jobSections(view));
  // What one looks at stays where it is.
  document.documentElement.scrollTop = top;
  status.textContent = '';
  again.hidden = true;
}

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = toJob(data);
  switch (message?.type) {
    case 'job':
      show(message.view);
      return;
    case 'progress':
      underWay.hidden = false;
      progress.max = message.of;
      progress.value = message.done;
      byId('what').textContent = message.what;
      return;
    case 'rests':
      underWay.hidden = true;
      return;
    case 'left':
      status.textContent = message.why;
      again.hidden = false;
      underWay.hidden = true;
      return;
    case 'older':
      status.textContent = message.why;
      return;
    case 'empty':
      main.replaceChildren();
      status.textContent = '';
      return;
    default:
      message satisfies undefined;
  }
});

tell({ type: 'ready' });
