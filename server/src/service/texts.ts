/**
 * Texts, as an editor holds them or as they are on disk, each under one key (`file-key.ts`). What was read is kept only
 * where somebody tells when it changes; else it is read again whenever it is asked for.
 */
import { kindOf, rootOf } from './documents';
import { keyOf, nameOf } from './file-key';
import type { FileText, Host, Unread } from './host';

/**
 * Whether files change: not while a command runs (`still`); where an editor tells of those in its folders (`watched`); or
 * without anybody telling (`unwatched`).
 */
export type Disk = 'still' | 'watched' | 'unwatched';

/** What an editor is asked to tell of: documents; and since of a folder only that it came or went (1 + 4), whatever does. */
export const WATCHED: { readonly globPattern: string; readonly kind?: 5 }[] = [
  { globPattern: '**/*.{part,shop,job,record}.{yaml,yml}' },
  { globPattern: '**', kind: 5 },
];

export interface Listed {
  readonly names: readonly string[];
  /** Why the folder itself could not be listed. */
  readonly unlisted?: string;
}

export class Texts {
  readonly #host: Host;
  readonly #disk: Disk;
  #roots: readonly string[] = [];
  #given: readonly string[] = [];
  /** By key: the name that the editor gave, and the text. */
  readonly #open = new Map<string, { readonly name: string; readonly text: string }>();
  readonly #read = new Map<string, Promise<FileText>>();
  readonly #lists = new Map<string, Promise<readonly string[] | Unread>>();

  constructor(host: Host, roots: readonly string[], disk: Disk) {
    this.#host = host;
    this.#disk = disk;
    this.setRoots(roots);
  }

  /** Keys of the open folders. */
  get roots(): readonly string[] {
    return this.#roots;
  }

  setRoots(roots: readonly string[]): void {
    this.#given = roots;
    this.#roots = roots.map(keyOf);
    this.#read.clear();
    this.#lists.clear();
  }

  open(name: string, text: string): void {
    this.#open.set(keyOf(name), { name, text });
  }

  /** From now on its text is the file's, or it is not there. */
  close(name: string): void {
    this.#open.delete(keyOf(name));
    this.#read.delete(keyOf(name));
  }

  /** What an editor holds under this key. */
  held(key: string): string | undefined {
    return this.#open.get(key)?.text;
  }

  /** Its name as the editor gave it; that of a file is its key. */
  name(key: string): string {
    return this.#open.get(key)?.name ?? key;
  }

  /** A file or a folder was made, changed or removed: forgets what was read of it. Answers whether anything was. */
  changed(key: string): boolean {
    const gone = [this.#read, this.#lists].flatMap((kept) =>
      [...kept.keys()].filter((k) => (k === key || k.startsWith(`${key}/`)) && kept.delete(k)),
    );
    return this.#lists.delete(key.slice(0, key.lastIndexOf('/'))) || gone.length > 0;
  }

  /** The text as the editor has it, or as the file has it; else why there is none. */
  async read(key: string): Promise<FileText> {
    const held = this.held(key);
    return held ?? this.#kept(this.#read, key, () => this.#host.read(key, this.#given));
  }

  /** Names of the files in a folder, those among them that are only open; and why there may be more. */
  async list(folder: string): Promise<Listed> {
    const below = [...this.#open.keys()].filter((key) => key.slice(0, key.lastIndexOf('/')) === folder);
    const names = await this.#kept(this.#lists, folder, () => this.#host.list(folder));
    const open = below.map(nameOf);
    return 'why' in names ? { names: open, unlisted: names.why } : { names: [...new Set([...names, ...open])] };
  }

  /** Keys of all documents there are: below the open folders, and in editors. */
  async all(): Promise<readonly string[]> {
    const below = await Promise.all(this.#given.map((root) => this.#host.documents(root)));
    return [...new Set([...below.flat().map(keyOf), ...this.#open.keys()])].filter((p) => kindOf(p)).sort();
  }

  #kept<T>(known: Map<string, Promise<T>>, key: string, ask: () => Promise<T>): Promise<T> {
    if (!this.#isTold(key)) return ask();
    const made = known.get(key) ?? ask();
    known.set(key, made);
    return made;
  }

  /** Whether somebody tells when it changes: an editor watches its own folders only. */
  #isTold(key: string): boolean {
    return this.#disk === 'still' || (this.#disk === 'watched' && rootOf(key, this.#roots) !== undefined);
  }
}
