/** A part's sheet: page 1 for the part, then a page for each set-up. Pages only; `write/` makes files of them. */
import { bold } from './draw/text';
import { foot } from './furniture';
import { jobOf, type SheetJob } from './job-of';
import { type Language, wordsOf } from './language';
import type { Sheet } from './page';
import { type Draft, partPages } from './part-page';
import { setupPages } from './setup-page';
import type { SheetRequest } from './writer';

interface SheetOptions {
  readonly language?: Language;
  /** Whether to look for a plan where the text has no set-ups and none is known. */
  readonly plan?: boolean;
}

export function sheetOf(request: SheetRequest, options: SheetOptions = {}): Sheet {
  const { checked, file, mark, when } = request;
  const { part } = checked;
  const language = options.language ?? 'en';
  const { part: words, setup } = wordsOf(language);
  const job: SheetJob = jobOf(checked, options.plan);
  const date = words.date(when);
  const drafts: readonly Draft[] = [...partPages({ job, words }), ...setupPages(job, words, setup)];
  const revision = part.revision ? ` · ${words.revision(part.revision)}` : '';
  const last = drafts.at(-1)!.number;
  return {
    title: part.title ?? part.name,
    language: words.code,
    notes: notesOn(job),
    pages: drafts.map(({ number, marks }) => ({
      number,
      marks: [
        ...marks(words.sheetOf(number, last)),
        ...foot(file, `${revision} · ${date}, ${mark}`, words.voidIf, bold(`${number} / ${last}`)),
      ],
    })),
  };
}

function notesOn({ source }: SheetJob): readonly string[] {
  if (source === 'planned') return ['its set-ups are not written in the part: the sheet goes by those planned.'];
  if (source === 'none') return ['it has no set-ups, and no whole plan was found: the sheet shows the part alone.'];
  return [];
}
