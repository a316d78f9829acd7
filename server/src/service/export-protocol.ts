/** What an editor and the server say to each other about exporting. Types and names of messages only. */
import type { Face } from '../model/faces';

/** Request without parameters: `Format[]`. */
export const FORMATS = 'scribeline/formats';
/** Request: `ExportParams` → `ExportAnswer`. */
export const EXPORT = 'scribeline/export';

export interface Format {
  /** Without the dot; the first is the one offered. */
  readonly extensions: readonly string[];
  readonly title: string;
  /** One face of the part is drawn. */
  readonly perFace: boolean;
  /** A dimensioned drawing to print. */
  readonly drawing: boolean;
}

export interface ExportParams {
  readonly uri: string;
  /** A file's name, for its ending. */
  readonly name: string;
  readonly face?: Face;
  /** The drawing, where the format has something else under the same name. */
  readonly drawing?: boolean;
}

/** Either what is to be written, or why not: a sentence for the user. */
export type ExportAnswer =
  | { readonly base64: string; readonly notes: readonly string[] }
  | { readonly trouble: string };
