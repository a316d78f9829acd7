/** What an editor and the server say to each other about sheets. Types and names of messages only. */
import type { Language } from '../sheet/language/names';
import type { Paper } from '../sheet/page';

/** Request: `SheetParams` → `SheetAnswer`. */
export const SHEET = 'scribeline/sheet';

export interface SheetParams {
  readonly uri: string;
  /** Pages to look at, or a file to print. */
  readonly as: 'svg' | 'pdf';
  readonly paper: Paper;
  readonly language: Language;
}

/** Pages as SVG (`data`), or a PDF; or why there is neither: a sentence for the user. */
export type SheetAnswer =
  | {
      readonly title: string;
      readonly notes: readonly string[];
      readonly data?: readonly string[];
      readonly base64?: string;
    }
  | { readonly trouble: string };
