/** A page, and the paper it is printed on. One layout serves both papers: its field fits into either. */
import type { Mark } from './draw/marks';

/** Of what is printed, mm. */
export const FIELD = { w: 180, h: 259 } as const;

export const PAPERS = ['a4', 'letter'] as const;
export type Paper = (typeof PAPERS)[number];
export const PAPER_SIZE: Readonly<Record<Paper, { readonly w: number; readonly h: number }>> = {
  a4: { w: 210, h: 297 },
  letter: { w: 215.9, h: 279.4 },
};

/** The next larger paper, lying: its field is as high as the smaller one's, and fits into either. */
const LARGE_FIELD = { w: 390, h: 259 } as const;
const LARGE_SIZE: typeof PAPER_SIZE = { a4: { w: 420, h: 297 }, letter: { w: 431.8, h: 279.4 } };

export function fieldOf({ large }: Pick<Page, 'large'>): { readonly w: number; readonly h: number } {
  return large ? LARGE_FIELD : FIELD;
}

export function paperSize({ large }: Pick<Page, 'large'>, paper: Paper): { readonly w: number; readonly h: number } {
  return (large ? LARGE_SIZE : PAPER_SIZE)[paper];
}

/** Room for a binder on the left, and above: mm from the paper's corner to the field's. */
export const MARGIN = { left: 20, top: 10 } as const;

export interface Page {
  /** `1`, `2a`: as it stands at its foot. */
  readonly number: string;
  readonly marks: readonly Mark[];
  /** On A3 or Tabloid, lying, where the sheet is of A4 or Letter. */
  readonly large?: true;
}

export interface Sheet {
  readonly title: string;
  readonly language: string;
  readonly pages: readonly Page[];
  /** What the user should know of it: a sentence each. */
  readonly notes: readonly string[];
}
