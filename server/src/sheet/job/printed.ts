/** A job as it is printed: its cover, then every part's own sheet, in the order in which the day comes to them. */
import type { Language } from '../language';
import { wordsOf } from '../language';
import type { Sheet } from '../page';
import { sheetOf } from '../sheet';
import type { SheetRequest } from '../writer';
import type { JobPaper } from './data';
import { coverPages } from './pages';

type PartOfJob = Pick<SheetRequest, 'checked' | 'quantity' | 'file' | 'mark'>;

export interface JobRequest extends Omit<SheetRequest, 'checked' | 'quantity'> {
  readonly paper: JobPaper;
  /** By the name in the job; `mark` ties each to its text. */
  readonly parts: ReadonlyMap<string, PartOfJob>;
}

export function jobSheet(request: JobRequest, language: Language): Sheet {
  const { paper, parts, ...rest } = request;
  const sheets = partsInOrder(paper, parts).map(([, part]) => sheetOf({ ...rest, ...part }, { language }));
  return boundSheet(request, sheets, language);
}

/** The parts' sheets, in their order, behind the cover. */
export function boundSheet(request: Omit<JobRequest, 'parts'>, sheets: readonly Sheet[], language: Language): Sheet {
  const { part: words, job: said } = wordsOf(language);
  return {
    title: request.paper.job.name,
    language: words.code,
    pages: [...coverPages({ ...request, words, said }), ...sheets.flatMap((s) => s.pages)],
    notes: sheets.flatMap((s) => s.notes.map((note) => `${s.title}: ${note}`)),
  };
}

/** Those with a body, each once, in the order of the day; then those that it does not come to. */
export function partsInOrder<P extends Pick<SheetRequest, 'checked'>>(
  { day }: JobPaper,
  parts: ReadonlyMap<string, P>,
): readonly (readonly [string, P])[] {
  const names = [...new Set([...day.steps.map((s) => s.setup.part), ...parts.keys()])];
  return names.flatMap((name) => {
    const part = parts.get(name);
    return part?.checked.part.body ? [[name, part] as const] : [];
  });
}
