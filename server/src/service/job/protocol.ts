/** What an editor and the server say to each other about jobs. Types and names of messages only. */
import type { Language } from '../../sheet/language/names';
import type { Paper } from '../../sheet/page';

/** Request: `JobParams` → `JobAnswer`; on the way `JobProgress` under `$/progress`, where a token was told. */
export const JOB = 'scribeline/job';

export interface JobParams {
  readonly uri: string;
  /** To look at, or a file to print: the cover and every part's sheet. */
  readonly as: 'view' | 'pdf';
  readonly paper: Paper;
  readonly language: Language;
  readonly workDoneToken?: string | number;
}

/** So much is done, and what is worked out now. */
export interface JobProgress {
  readonly done: number;
  readonly of: number;
  readonly what: string;
}

export type JobAnswer =
  | { readonly view: JobView }
  | { readonly title: string; readonly base64: string; readonly notes: readonly string[] }
  | { readonly trouble: string };

/** A job in words and a few figures to draw by. */
export interface JobView {
  readonly title: string;
  readonly sums: string;
  /** What could not be read, and what else is missing from the figures. */
  readonly lacks: readonly string[];
  readonly mass?: Against;
  readonly hours?: Against;
  readonly cost?: string;
  /** The heaviest first. */
  readonly parts: readonly ViewPart[];
  readonly savings: readonly { readonly part: string; readonly minutes: string; readonly message: string }[];
  readonly saw: string;
  readonly bars: readonly ViewBars[];
  readonly tools: readonly { readonly said: string; readonly parts: string }[];
  readonly day: {
    readonly said: readonly string[];
    readonly steps: readonly ViewStep[];
    readonly evenings: boolean;
  };
}

/** `766.9 g of 900 g, 133.1 g to spare`; `share` of the limit, 1 where it is met; absent where there is none. */
export interface Against {
  readonly said: string;
  readonly share?: number;
  readonly isOver: boolean;
}

export interface ViewPart {
  readonly name: string;
  readonly uri: string;
  readonly pieces: number;
  readonly one: string;
  readonly all: string;
  /** Of the job's mass. */
  readonly share: number;
  readonly setups: string;
  readonly machine: string;
}

export interface ViewBars {
  readonly title: string;
  /** What to buy, and whether less would do. */
  readonly said: readonly string[];
  readonly bars: readonly ViewBar[];
}

export interface ViewBar {
  readonly said: string;
  /** From the bar's end, as shares of its length. */
  readonly pieces: readonly { readonly from: number; readonly to: number; readonly said: string }[];
}

interface ViewStep {
  readonly evening: number;
  readonly part: string;
  readonly setup: string;
  readonly pieces: number;
  readonly change: string;
  readonly minutes: string;
}
