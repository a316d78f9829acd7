/** What an editor and the server say to each other about lists of cutters. */
import type { Range } from './shapes';

/** Request: `ImportParams` → `ImportAnswer`, or null where there is no such shop. */
export const IMPORT = 'scribeline/importTools';

export interface ImportParams {
  /** Of the shop that gets them. */
  readonly uri: string;
  /** The list’s own text. */
  readonly text: string;
}

export interface ImportAnswer {
  /** What is put into the shop’s text. */
  readonly edits: readonly { readonly range: Range; readonly newText: string }[];
  readonly added: number;
  readonly there: number;
  readonly left: number;
  /** What there is to say, with the list’s own lines. */
  readonly told: readonly string[];
  /** Of the shop’s text that the edits are for. */
  readonly version?: number;
}
