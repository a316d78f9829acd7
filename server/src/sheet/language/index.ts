/** The sheet's words in each language. */
import { DE } from './de';
import { EN, type SheetWords } from './en';
import { JOB_DE } from './job-de';
import { JOB_EN, type JobWords } from './job-en';
import type { Language } from './names';
import { SETUP_DE } from './setup-de';
import { SETUP_EN, type SetupWords } from './setup-en';

export type { Language } from './names';

interface Words {
  readonly part: SheetWords;
  readonly setup: SetupWords;
  readonly job: JobWords;
}

const WORDS: Readonly<Record<Language, Words>> = {
  en: { part: EN, setup: SETUP_EN, job: JOB_EN },
  de: { part: DE, setup: SETUP_DE, job: JOB_DE },
};

export function wordsOf(language: Language): Words {
  return WORDS[language];
}
