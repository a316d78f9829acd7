/**
 * The documents being worked on and what is known of them. Keeps one checked snapshot a document, so that an edit costs
 * what changed; finds the shop each part is judged by; tells which documents a changed file touches.
 */
import { type JobPiece, jobFindings } from '../planning/job';
import { type CheckedJob, type CheckedPart, type CheckedShop, checkJob, checkPart, checkShop } from '../rules/check';
import type { Finding } from '../rules/rule';
import { builtinShop } from '../spec/builtin-shop';
import type { Job } from '../spec/job-model';
import type { Shop } from '../spec/shop-model';
import { type Lines, linesOf } from '../text/lines';
import { at } from '../text/tree';
import { type DocumentKind, foldersUp, kindOf, resolvePath, rootOf } from './documents';
import type { Host } from './host';

interface SnapshotBase {
  readonly path: string;
  readonly text: string;
  readonly lines: Lines;
  readonly findings: readonly Finding[];
}
export interface PartSnapshot extends SnapshotBase {
  readonly kind: 'part';
  readonly checked: CheckedPart;
  /** The shop file it is judged by; undefined for the built-in shop. */
  readonly shopPath: string | undefined;
}
export interface ShopSnapshot extends SnapshotBase {
  readonly kind: 'shop';
  readonly checked: CheckedShop;
}
export interface JobSnapshot extends SnapshotBase {
  readonly kind: 'job';
  readonly checked: CheckedJob;
}
export type Snapshot = PartSnapshot | ShopSnapshot | JobSnapshot;

interface FoundShop {
  readonly shop: Shop;
  readonly path: string | undefined;
  /** What is wrong with the way the part names it. */
  readonly trouble?: string;
  readonly known?: ShopSnapshot;
}

/** Larger files are not read at all: nobody writes them by hand. Characters. */
export const FILE_LIMIT = 8_000_000;

export class Workspace {
  readonly #host: Host;
  #roots: readonly string[];
  readonly #shopOverride: string | undefined;
  readonly #open = new Map<string, string>();
  /** What an editor says a document is, where its name does not tell (a new one, not saved yet). */
  readonly #told = new Map<string, DocumentKind>();
  readonly #snapshots = new Map<string, Snapshot>();
  /** Read from disk; dropped when told that the file changed. */
  readonly #files = new Map<string, Promise<string | undefined>>();
  readonly #folders = new Map<string, Promise<readonly string[]>>();

  constructor(host: Host, options: { roots?: readonly string[]; shop?: string } = {}) {
    this.#host = host;
    this.#roots = options.roots ?? [];
    this.#shopOverride = options.shop;
  }

  setRoots(roots: readonly string[]): void {
    this.#roots = roots;
  }

  /** Takes (or replaces) the text of a document that an editor holds. */
  open(path: string, text: string, told?: DocumentKind): void {
    this.#open.set(path, text);
    if (told) this.#told.set(path, told);
    if (kindOf(path) === 'shop') this.#folders.clear();
  }

  close(path: string): void {
    this.#open.delete(path);
    this.#told.delete(path);
    this.#snapshots.delete(path);
    this.#files.delete(path);
  }

  isOpen(path: string): boolean {
    return this.#open.has(path);
  }

  /** Every part there is: below the roots, and open. */
  async partPaths(): Promise<readonly string[]> {
    const below = await Promise.all(this.#roots.map((root) => this.#host.documents(root)));
    return [...new Set([...below.flat(), ...this.#open.keys()])].filter((p) => kindOf(p) === 'part').sort();
  }

  /** A file was made, changed or removed outside the editor. */
  fileChanged(path: string): void {
    this.#files.delete(path);
    this.#folders.clear();
    if (!this.#open.has(path)) this.#snapshots.delete(path);
  }

  /** The text as the editor has it, or as the file has it. */
  async text(path: string): Promise<string | undefined> {
    const open = this.#open.get(path);
    if (open !== undefined) return open;
    let file = this.#files.get(path);
    if (!file) {
      file = this.#host.read(path);
      this.#files.set(path, file);
    }
    return file;
  }

  /** What is known of a document, now. Undefined when there is no such document. */
  async snapshot(path: string): Promise<Snapshot | undefined> {
    const kind = kindOf(path) ?? this.#told.get(path);
    const text = kind && (await this.text(path));
    if (!kind || text === undefined) return undefined;
    const before = this.#snapshots.get(path);
    const made = await this.#make(path, kind, text, before?.kind === kind ? before : undefined);
    // Only the newest text may be remembered: an older answer can arrive late.
    if ((this.#open.get(path) ?? text) === text) this.#snapshots.set(path, made);
    return made;
  }

  async #make(path: string, kind: DocumentKind, text: string, before: Snapshot | undefined): Promise<Snapshot> {
    const lines = before?.text === text ? before.lines : linesOf(text);
    if (kind === 'part') {
      const last = before?.kind === 'part' ? before : undefined;
      const found = await this.#shopOf(path, text);
      if (last && last.text === text && last.checked.shop === found.shop && last.shopPath === found.path) return last;
      const checked = checkPart(text, found.shop, last?.checked);
      return { path, kind, text, lines, checked, shopPath: found.path, findings: withShopTrouble(checked, found) };
    }
    if (before?.text === text && kind !== 'job') return before;
    if (kind === 'shop') {
      const checked = checkShop(text, path, before?.kind === 'shop' ? before.checked : undefined);
      return { path, kind, text, lines, checked, findings: checked.findings };
    }
    const checked = checkJob(text, before?.kind === 'job' ? before.checked : undefined);
    return {
      path,
      kind,
      text,
      lines,
      checked,
      findings: [
        ...checked.findings,
        ...(await this.#missingSpecs(path, checked)),
        ...(await this.#jobFindings(path, checked)),
      ],
    };
  }

  async #shopOf(path: string, text: string): Promise<FoundShop> {
    if (this.#shopOverride !== undefined) return this.#loadShop(this.#shopOverride);
    // The line is looked for before the text is read: which shop judges a part must be known to judge it.
    const named = /^shop:[ \t]+(['"]?)([^'"#\r\n]+?)\1[ \t]*(?:#.*)?$/m.exec(text)?.[2];
    if (named !== undefined) {
      const target = resolvePath(path, named);
      const outside = rootOf(path, this.#roots) !== undefined && rootOf(target, this.#roots) === undefined;
      return this.#loadShop(target, named, outside);
    }
    for (const folder of foldersUp(path, this.#roots)) {
      const name = (await this.#list(folder)).filter((f) => kindOf(f) === 'shop').sort()[0];
      if (name !== undefined) return this.#loadShop(`${folder}/${name}`);
    }
    return { shop: builtinShop(), path: undefined };
  }

  /** `outside`: the part names a file beyond the open folder. One that the user set is read wherever it is. */
  async #loadShop(shopPath: string, written = shopPath, outside = false): Promise<FoundShop> {
    const none = (trouble: string): FoundShop => ({ shop: builtinShop(), path: undefined, trouble });
    if (kindOf(shopPath) !== 'shop')
      return none(`\`${written}\` is not a shop file: its name must end in \`.shop.yaml\`. The built-in shop is used.`);
    if (outside)
      return none(
        `\`${written}\` lies outside the open folder, where nothing is read. Open the folder that holds both, or copy the shop file. The built-in shop is used.`,
      );
    const known = await this.snapshot(shopPath);
    if (known?.kind !== 'shop')
      return none(
        `There is no shop file \`${written}\` (looked for ${shopPath}). Correct the path, or leave \`shop\` out. The built-in shop is used.`,
      );
    return { shop: known.checked.shop, path: shopPath, known };
  }

  async #list(folder: string): Promise<readonly string[]> {
    let listed = this.#folders.get(folder);
    if (!listed) {
      const opened = [...this.#open.keys()].filter(
        (p) => p.startsWith(`${folder}/`) && !p.slice(folder.length + 1).includes('/'),
      );
      listed = this.#host
        .list(folder)
        .then((names) => [...new Set([...names, ...opened.map((p) => p.slice(folder.length + 1))])]);
      this.#folders.set(folder, listed);
    }
    return listed;
  }

  /** What the job's parts come to, as far as they can be read. */
  async #jobFindings(path: string, { job }: CheckedJob): Promise<readonly Finding[]> {
    const pieces = await this.piecesOf(path, job);
    return jobFindings(job, pieces, pieces.length === job.parts.length);
  }

  /** Those of a job's parts that can be read, each as it is now. */
  async piecesOf(path: string, job: Job): Promise<readonly JobPiece[]> {
    const pieces: JobPiece[] = [];
    for (const entry of job.parts) {
      const part = await this.snapshot(resolvePath(path, entry.spec.name));
      if (part?.kind !== 'part') continue;
      pieces.push({ entry, checked: part.checked, quantity: entry.quantity?.value ?? part.checked.part.quantity });
    }
    return pieces;
  }

  async #missingSpecs(path: string, checked: CheckedJob): Promise<Finding[]> {
    const found: Finding[] = [];
    for (const part of checked.job.parts) {
      const target = resolvePath(path, part.spec.name);
      const readable = rootOf(path, this.#roots) === undefined || rootOf(target, this.#roots) !== undefined;
      if (kindOf(target) === 'part' && readable && (await this.text(target)) !== undefined) continue;
      found.push({
        rule: 'form/unknown-name',
        severity: 'error',
        message: `There is no part file \`${part.spec.name}\` (looked for ${target}). Correct the path.`,
        of: [part.name],
        span: part.spec.span,
        related: [],
        facts: { path: target },
      });
    }
    return found;
  }
}

function withShopTrouble(checked: CheckedPart, found: FoundShop): readonly Finding[] {
  const span = checked.part.shopPath?.span ?? at(checked.tree.root, 'part')?.span ?? { block: '', from: 0, to: 0 };
  const finding = (severity: 'error' | 'hint', message: string): Finding => ({
    rule: 'form/unknown-name',
    severity,
    message,
    of: [],
    span,
    related: [],
    facts: {},
  });
  if (found.trouble) return [finding('error', found.trouble), ...checked.findings];
  const errors = found.known?.findings.filter((f) => f.severity === 'error').length ?? 0;
  if (errors === 0) return checked.findings;
  const count = errors === 1 ? 'an error' : `${errors} errors`;
  return [
    finding('hint', `The shop file ${found.path} has ${count} of its own: what it could not say is missing here.`),
    ...checked.findings,
  ];
}
