/** Showing a job beside its text, and printing all its sheets. */
import { commands, type Disposable, type ExtensionContext, type LogOutputChannel, Uri } from 'vscode';
import { inView, singlePanel } from '../beside/single';
import type { ServerLink } from '../server-link';
import { JOB_VIEW, JobPanel } from './panel';
import { printJob } from './print';

export function registerJob(context: ExtensionContext, link: ServerLink, log: LogOutputChannel): Disposable[] {
  const single = singlePanel({
    type: JOB_VIEW,
    title: 'Job',
    language: 'scribeline-job',
    make: (panel) => new JobPanel({ panel, context, link, log }),
  });
  return [
    commands.registerCommand('scribeline.showJob', single.open),
    commands.registerCommand('scribeline.printJob', (job?: unknown, to?: unknown) => {
      const of =
        job instanceof Uri && job.path.includes('.job.') ? job : (inView('scribeline-job') ?? single.current?.uri);
      return printJob(link, of, to instanceof Uri ? to : undefined);
    }),
    single.serializer,
  ];
}
