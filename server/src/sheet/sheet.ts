/** A part's sheet: page 1 for the part, then a page for each set-up. Pages only; `write/` makes files of them. */
import { benchPages } from './bench-page';
import { bold } from './draw/text';
import { foot } from './furniture';
import { type Language, wordsOf } from './language';
import type { Sheet } from './page';
import { type Draft, partPages } from './part-page';
import { setupPages } from './setup-page';
import { notesOn, sheetPartOf } from './sheet-part';
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
  const all = wordsOf(language);
  const { part: words, setup } = all;
  const made = sheetPartOf(checked, {
    ...(options.plan !== undefined && { plan: options.plan }),
    ...(request.quantity !== undefined && { quantity: request.quantity }),
  });
  const date = words.date(when);
  const drafts: readonly Draft[] = [
    ...partPages({ made, words, said: setup }),
    ...setupPages(made, all),
    ...benchPages(made, all),
  ];
  const revision = part.revision ? ` · ${words.revision(part.revision)}` : '';
  const last = drafts.at(-1)!.number.replace(/[a-z]+$/, '');
  return {
    title: part.title ?? part.name,
    language: words.code,
    notes: notesOn(made),
    pages: drafts.map(({ number, marks }) => ({
      number,
      marks: [
        ...marks(words.sheetOf(number, last)),
        ...foot(file, `${revision} · ${date}, ${mark}`, words.voidIf, bold(`${number} / ${last}`)),
      ],
    })),
  };
}
