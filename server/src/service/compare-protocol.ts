/** What an editor and the server say to each other about comparing. Types and names of messages only. */
import type { ComparedPicture, CompareSide } from './view/protocol';

/** Request: `CompareParams` → `CompareAnswer`. */
export const COMPARE = 'scribeline/compare';
/** Request: `RevisionsParams` → `RevisionsAnswer`: the revisions that changed a file, the latest first. */
export const REVISIONS = 'scribeline/revisions';

export type { CompareSide } from './view/protocol';

export interface CompareParams {
  readonly before: CompareSide;
  readonly after: CompareSide;
  /** The folder is trusted: git may be asked. Left out: it is not. */
  readonly trusted?: boolean;
}

/** As it stood there. */
interface OldText {
  readonly newText: string;
}

/** The picture, and the texts of sides that are revisions; or why there is none: a sentence for the user. */
export type CompareAnswer =
  | { readonly compared: ComparedPicture; readonly texts: { readonly before?: OldText; readonly after?: OldText } }
  | { readonly trouble: string };

export interface RevisionsParams {
  readonly uri: string;
  readonly trusted?: boolean;
}

export interface FileRevision {
  readonly id: string;
  /** The first line of what was said of it. */
  readonly title: string;
  /** As ISO 8601 writes it. */
  readonly when: string;
}

export type RevisionsAnswer = { readonly revisions: readonly FileRevision[] } | { readonly trouble: string };
