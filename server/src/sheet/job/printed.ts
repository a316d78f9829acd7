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

export function jobSheet({ paper, parts, ...request }: JobRequest, language: Language): Sheet {
  const { part: words, job: said } = wordsOf(language);
  const cover = coverPages({ paper, ...request, words, said });
  const sheets = partsInOrder(paper, parts).map(([, part]) => sheetOf({ ...request, ...part }, { language }));
  return {
    title: paper.job.name,
    language: words.code,
    pages: [...cover, ...sheets.flatMap((s) => s.pages)],
    notes: sheets.flatMap((s) => s.notes.map((note) => `${s.title}: ${note}`)),
  };
}

/** Those with a body, each once, in the order of the day; then those that it does not come to. */
export function partsInOrder({ day }: JobPaper, parts: JobRequest['parts']): readonly (readonly [string, PartOfJob])[] {
  const names = [...new Set([...day.steps.map((s) => s.setup.part), ...parts.keys()])];
  return names.flatMap((name) => {
    const part = parts.get(name);
    return part?.checked.part.body ? [[name, part] as const] : [];
  });
}
