/** A job as it is printed: its cover, then every part's own sheet, in the order in which the day comes to them. */
import type { Language } from '../language';
import { wordsOf } from '../language';
import type { Sheet } from '../page';
import { sheetOf } from '../sheet';
import type { SheetRequest } from '../writer';
import type { JobPaper } from './data';
import { coverPages } from './pages';

export interface JobRequest extends Omit<SheetRequest, 'checked' | 'quantity'> {
  readonly paper: JobPaper;
  /** By the name in the job; `mark` ties each to its text. */
  readonly parts: ReadonlyMap<string, Pick<SheetRequest, 'checked' | 'quantity' | 'file' | 'mark'>>;
}

export function jobSheet({ paper, parts, ...request }: JobRequest, language: Language): Sheet {
  const { part: words, job: said } = wordsOf(language);
  const cover = coverPages({ paper, ...request, words, said });
  const first = [...new Set([...paper.day.steps.map((s) => s.setup.part), ...parts.keys()])];
  const sheets = first.flatMap((name) => {
    const part = parts.get(name);
    return part?.checked.part.body ? [sheetOf({ ...request, ...part }, { language })] : [];
  });
  return {
    title: paper.job.name,
    language: words.code,
    pages: [...cover, ...sheets.flatMap((s) => s.pages)],
    notes: sheets.flatMap((s) => s.notes.map((note) => `${s.title}: ${note}`)),
  };
}
