/** The sheet's words in each language. */
import { EN, type SheetWords } from './en';
import { JOB_EN, type JobWords } from './job-en';
import type { Language } from './names';
import { SETUP_EN, type SetupWords } from './setup-en';

export type { Language } from './names';

interface Words {
  readonly part: SheetWords;
  readonly setup: SetupWords;
  readonly job: JobWords;
}

const WORDS: Readonly<Record<Language, Words>> = { en: { part: EN, setup: SETUP_EN, job: JOB_EN } };

export function wordsOf(language: Language): Words {
  return WORDS[language];
}
