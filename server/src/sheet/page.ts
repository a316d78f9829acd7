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

/** Room for a binder on the left, and above: mm from the paper's corner to the field's. */
export const MARGIN = { left: 20, top: 10 } as const;

export interface Page {
  /** `1`, `2a`: as it stands at its foot. */
  readonly number: string;
  readonly marks: readonly Mark[];
}

export interface Sheet {
  readonly title: string;
  readonly language: string;
  readonly pages: readonly Page[];
  /** What the user should know of it: a sentence each. */
  readonly notes: readonly string[];
}
