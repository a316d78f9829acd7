/**
 * What the service needs of the world it runs in. `server.ts` and `cli.ts` hand in one made of Node's own; a browser
 * worker or a test hands in another. Paths are whatever the host uses (URIs in the editor, paths on the command line).
 */
import type { Writer } from '../export/writer';
import type { Solver } from '../planning/cut-list/program';
import type { PdfKit } from '../sheet/write/pdf';
import type { Aside } from './aside';
import type { FileRevision } from './compare-protocol';
import type { MeshMaker } from './view/mesh-maker';

/** Something is there by a name, and it cannot be read. */
export interface Unread {
  /** To follow the name: `is a folder, not a file`. What would do stands with it where that is not plain. */
  readonly why: string;
}

/** The files of a git repository as a revision has them, by the names that the host below uses. */
export interface OldFiles {
  readonly host: Host;
  /** What it calls the file that an editor calls so; undefined for none of this disk. */
  pathOf(uri: string): string | undefined;
}

/** What came of reading a file: its text, why there is none, or undefined where nothing is there by that name. */
export type FileText = string | Unread | undefined;

export interface Host {
  /** Makes the meshes that the part view shows; without one there is no picture. */
  readonly meshes?: MeshMaker;
  /** Answers what takes long beside the service's own thread; without one it is answered in it. */
  readonly aside?: Aside;
  /** The formats a part can be exported in; loaded when first asked for. */
  writers?(): Promise<readonly Writer[]>;
  /** What sheets are printed with; loaded when first asked for. */
  print?(): Promise<PdfKit>;
  /** Linear programs, all together in so many ms, in a thread that `end` lets go. */
  solver?(mostMs: number): { readonly solve: Solver; end(): Promise<void> };
  /** The repository that a file is in, as a revision has it (an empty name: what is put forward for the next commit). */
  revision?(uri: string, name: string): Promise<OldFiles | Unread | undefined>;
  /** The revisions that changed a file, the latest first. */
  revisions?(uri: string): Promise<readonly FileRevision[] | Unread | undefined>;
  /** What a paper is told by from an older one: the same for the same texts. */
  mark?(texts: readonly string[]): string;
  /** `opened`: the folders that are open; through a link in them nothing is read that lies outside them. */
  read(path: string, opened?: readonly string[]): Promise<FileText>;
  /** Names of the files in a folder (folders left out), empty when there is none; or why a folder that is there is not listed. */
  list(folder: string): Promise<readonly string[] | Unread>;
  /** Every part, shop and job file below a folder: for finding mentions of a name. */
  documents(folder: string): Promise<readonly string[]>;
  /** Does something after so many ms; answers what calls it off. Without one nothing is done later. */
  later?(ms: number, work: () => void): () => void;
  /** Resolves when others have had their turn; without it nothing is done in slices. */
  pause?(): Promise<void>;
  /** One line for the log. */
  log(message: string): void;
}
