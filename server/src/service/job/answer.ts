/** What the panel of a job is answered: words to look at, or every sheet behind one cover as a PDF. */
import { base64Of } from '../../geometry/mesh/base64';
import { boundSheet, partsInOrder } from '../../sheet/job/printed';
import type { Sheet } from '../../sheet/page';
import { pdfOf } from '../../sheet/write/pdf';
import { resolvePath } from '../documents';
import { keyOf } from '../file-key';
import { textsOf } from '../paper-texts';
import { fileName } from '../sheet';
import type { JobSnapshot } from '../snapshot';
import type { JobAnswer, JobParams } from './protocol';
import { viewOf } from './view';
import { type JobBench, type Waiting, type WorkedJob, workOut } from './work';

/** Null where nobody waits for it any more. */
export async function jobAnswer(
  bench: JobBench & { readonly version: string },
  job: JobSnapshot,
  params: JobParams,
  waiting: Waiting,
): Promise<JobAnswer | null> {
  const { host, workspace } = bench;
  if (job.checked.job.parts.length === 0) return { trouble: 'The job names no part: list one under `parts:`.' };
  if (params.as === 'pdf' && !host.print)
    return { trouble: 'No PDF can be written here: this server runs without its printing files.' };
  const worked = await workOut(bench, job, waiting);
  if (!worked) return null;
  if (worked.pieces.length === 0) return { trouble: 'None of the job’s parts can be read.' };
  if (params.as === 'view')
    return { view: viewOf(worked.paper, (spec) => workspace.name(resolvePath(keyOf(job.path), spec))) };
  const when = new Date();
  const sheet = await printed(bench, job, { worked, when, language: params.language }, waiting);
  if (!sheet) return null;
  const bytes = await pdfOf(sheet, params.paper, await host.print!(), when);
  return { title: sheet.title, notes: sheet.notes, base64: base64Of(bytes) };
}

interface ToPrint {
  readonly worked: WorkedJob;
  readonly when: Date;
  readonly language: JobParams['language'];
}

async function printed(
  { host, asker, workspace, version }: JobBench & { readonly version: string },
  job: JobSnapshot,
  { worked: { paper, pieces }, when, language }: ToPrint,
  { onGone, isGone, tell }: Waiting,
): Promise<Sheet | undefined> {
  const mark = (texts: readonly string[]) => host.mark?.([version, ...texts]) ?? '';
  const creator = `Scribeline ${version}`;
  const texts = await Promise.all(pieces.map(({ checked }) => textsOf(checked, workspace)));
  const parts = new Map(pieces.map((piece, i) => [piece.entry.name, { ...piece, texts: texts[i]! }]));
  const sheets: Sheet[] = [];
  for (const [name, { snapshot, quantity, entry, texts: own }] of partsInOrder(paper, parts)) {
    if (isGone()) return undefined;
    tell({ done: sheets.length, of: parts.size, what: `the sheet of ${name}` });
    const told = {
      file: fileName(entry.spec.name),
      mark: mark(own),
      creator,
      when: when.getTime(),
      language,
      quantity,
    };
    const reply = await asker.answer('sheet', snapshot, told, onGone);
    if ('sheet' in reply) sheets.push(reply.sheet);
  }
  const request = { paper, file: fileName(job.path), mark: mark([job.text, ...texts.flat()]), creator, when };
  return boundSheet(request, sheets, language);
}
