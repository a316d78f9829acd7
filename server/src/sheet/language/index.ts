/** The sheet's words in each language. */
import { BENCH_DE } from './bench-de';
import { BENCH_EN, type BenchWords } from './bench-en';
import { DE } from './de';
import { DRAWING_DE } from './drawing-de';
import { DRAWING_EN, type DrawingWords } from './drawing-en';
import { EN, type SheetWords } from './en';
import { HOLD_DE } from './hold-de';
import { HOLD_EN, type HoldWords } from './hold-en';
import { JOB_DE } from './job-de';
import { JOB_EN, type JobWords } from './job-en';
import { MARKDOWN_DE } from './markdown-de';
import { MARKDOWN_EN, type MarkdownWords } from './markdown-en';
import type { Language } from './names';
import { SETUP_DE } from './setup-de';
import { SETUP_EN, type SetupWords } from './setup-en';

export type { Language } from './names';

export interface Words {
  readonly part: SheetWords;
  readonly setup: SetupWords;
  readonly hold: HoldWords;
  readonly job: JobWords;
  readonly markdown: MarkdownWords;
  readonly drawing: DrawingWords;
  readonly bench: BenchWords;
}

const WORDS: Readonly<Record<Language, Words>> = {
  en: {
    part: EN,
    setup: SETUP_EN,
    hold: HOLD_EN,
    job: JOB_EN,
    markdown: MARKDOWN_EN,
    drawing: DRAWING_EN,
    bench: BENCH_EN,
  },
  de: {
    part: DE,
    setup: SETUP_DE,
    hold: HOLD_DE,
    job: JOB_DE,
    markdown: MARKDOWN_DE,
    drawing: DRAWING_DE,
    bench: BENCH_DE,
  },
};

export function wordsOf(language: Language): Words {
  return WORDS[language];
}
