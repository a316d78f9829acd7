/** What the service in a web worker asks of the editor it works for: files of the folders that are open, and nothing else. */

/** The text of a file; null where nothing is there by that name. */
export const READ_FILE = 'scribeline/files/read';
/** Names of the files in a folder. */
export const LIST_FOLDER = 'scribeline/files/list';
/** The parts, shops, jobs and records below a folder, as URIs. */
export const FIND_DOCUMENTS = 'scribeline/files/documents';

export interface FileAsked {
  readonly uri: string;
}
/** To follow the name: `is a folder, not a file`. */
export type FileRead = { readonly text: string } | { readonly why: string } | null;

/** Larger files are not read at all: nobody writes them by hand. Bytes. */
export const FILE_LIMIT = 8_000_000;

/** A file that came with the extension, one of `OWN_FILES`: its bytes, or null where it is not there. */
export const OWN_FILE = 'scribeline/files/own';
export const OWN_FILES = [
  'view.js',
  'view.css',
  'page.css',
  'web-pdf.js',
  'web-exact.js',
  'fonts/DejaVuSansCondensed.ttf',
  'fonts/DejaVuSansCondensed-Bold.ttf',
  'kernel/replicad_single.mjs',
  'kernel/replicad_single.wasm',
  'kernel/replicad_single.wasm.br',
] as const;
export type OwnFile = (typeof OWN_FILES)[number];
export interface OwnFileAsked {
  readonly name: OwnFile;
}

/** What the worker is told first: the bytes of the library for meshes. All after that is the protocol's. */
export interface WorkerStart {
  readonly manifold: ArrayBuffer;
}
