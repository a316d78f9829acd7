/**
 * The documents being worked on and what is known of them. Keeps one checked snapshot a document, so that an edit costs
 * what changed; finds the shop each part is judged by; tells which documents a changed file touches.
 */
import { type JobPiece, jobFindings } from '../planning/job';
import { type CheckedJob, CheckedPart, checkJob, checkShop, workingOut } from '../rules/check';
import type { Finding } from '../rules/rule';
import type { Job } from '../spec/job-model';
import type { Shop } from '../spec/shop-model';
import { linesOf } from '../text/lines';
import { at } from '../text/tree';
import { type DocumentKind, kindOf, resolvePath, rootOf } from './documents';
import type { FileText, Host } from './host';
import { Pace } from './pace';
import { type FoundShop, NOT_THERE, namedShop, type Shelf, setShop, shopOf, shopTrouble } from './shop-of';
import { type PartSnapshot, type ShopSnapshot, type Snapshot, wholePart } from './snapshot';

/** Documents that are not open but were asked for, by a job or a rename: so many are kept. */
const MOST_CLOSED = 40;

export class Workspace {
  readonly #host: Host;
  #roots: readonly string[];
  readonly #shopOverride: string | undefined;
  readonly #open = new Map<string, string>();
  /** What an editor says a document is, where its name does not tell (a new one, not saved yet). */
  readonly #told = new Map<string, DocumentKind>();
  readonly #snapshots = new Map<string, Snapshot>();
  /** Read from disk; dropped when told that the file changed. */
  readonly #files = new Map<string, Promise<FileText>>();
  /** The parts of a job as its own shop judges them, where it names one: by the job's path, then the part's. */
  readonly #pieces = new Map<string, Map<string, CheckedPart>>();
  readonly #folders = new Map<string, Promise<readonly string[]>>();
  /** Parts being read, so that whoever asks meanwhile waits for the same reading. */
  readonly #reading = new Map<string, { readonly text: string; readonly part: Promise<PartSnapshot | undefined> }>();
  readonly #pace: Pace;

  constructor(host: Host, options: { roots?: readonly string[]; shop?: string; pace?: Pace } = {}) {
    this.#host = host;
    this.#pace = options.pace ?? new Pace();
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
    this.#pieces.delete(path);
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

  /** The text as the editor has it, or as the file has it; else why there is none. */
  async read(path: string): Promise<FileText> {
    const open = this.#open.get(path);
    if (open !== undefined) return open;
    let file = this.#files.get(path);
    if (!file) {
      file = this.#host.read(path, this.#roots);
      this.#files.set(path, file);
    }
    return file;
  }

  /** Why a document cannot be had, to follow its name; undefined where it can. */
  async unread(path: string): Promise<string | undefined> {
    const read = await this.read(path);
    return typeof read === 'string' ? undefined : (read?.why ?? NOT_THERE);
  }

  /** The text of a document, where it can be had. */
  async text(path: string): Promise<string | undefined> {
    const read = await this.read(path);
    return typeof read === 'string' ? read : undefined;
  }

  /** What is known of a document, now. Undefined when there is no such document. */
  async snapshot(path: string): Promise<Snapshot | undefined> {
    for (;;) {
      const kind = kindOf(path) ?? this.#told.get(path);
      const text = kind && (await this.text(path));
      if (!kind || text === undefined) return undefined;
      const before = this.#snapshots.get(path);
      const made = await this.#make(path, kind, text, before?.kind === kind ? before : undefined);
      // Only the newest text may be remembered: an older answer can arrive late.
      if (made && !this.#isGone(path, text)) this.#remember(made);
      if (made) return made;
    }
  }

  /** Whether an editor holds another text by now. */
  #isGone(path: string, text: string): boolean {
    return (this.#open.get(path) ?? text) !== text;
  }

  #remember(made: Snapshot): void {
    this.#snapshots.delete(made.path);
    this.#snapshots.set(made.path, made);
    const closed = [...this.#snapshots.values()].filter((s) => s.kind !== 'shop' && !this.#open.has(s.path));
    for (const { path } of closed.slice(0, Math.max(0, closed.length - MOST_CLOSED))) this.#snapshots.delete(path);
  }

  /** Undefined where the text was changed on the way. */
  async #make(
    path: string,
    kind: DocumentKind,
    text: string,
    before: Snapshot | undefined,
  ): Promise<Snapshot | undefined> {
    if (kind === 'part') return this.#part(path, text, before?.kind === 'part' ? before : undefined);
    const lines = before?.text === text ? before.lines : linesOf(text);
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
        ...(await this.#jobShopTrouble(path, checked)),
        ...(await this.#missingSpecs(path, checked)),
        ...(await this.#jobFindings(path, checked)),
      ],
    };
  }

  async #part(path: string, text: string, last: PartSnapshot | undefined): Promise<PartSnapshot | undefined> {
    const known = this.#reading.get(path);
    if (known?.text === text) return known.part;
    const reading = { text, part: this.#readPart(path, text, last) };
    this.#reading.set(path, reading);
    try {
      return await reading.part;
    } finally {
      if (this.#reading.get(path) === reading) this.#reading.delete(path);
    }
  }

  async #readPart(path: string, text: string, last: PartSnapshot | undefined): Promise<PartSnapshot | undefined> {
    const working = workingOut(text, last?.checked.reading);
    const read = await this.#pace.through(working, () => this.#isGone(path, text));
    if (!read) return undefined;
    const found = await shopOf(path, read, this.#shelf());
    const shop = asBefore(found.shop, last?.checked.shop);
    if (last && last.text === text && last.checked.shop === shop && last.shopPath === found.path) return last;
    const lines = last?.text === text ? last.lines : linesOf(text);
    const checked = new CheckedPart(read, shop);
    return wholePart({ path, text, lines, checked, shopPath: found.path, besides: shopTrouble(read, found) });
  }

  #shelf(): Shelf {
    return {
      roots: this.#roots,
      ...(this.#shopOverride !== undefined && { set: this.#shopOverride }),
      list: (folder) => this.#list(folder),
      shop: (path) => this.#shopAt(path),
    };
  }

  async #shopAt(path: string): Promise<ShopSnapshot | string> {
    const known = await this.snapshot(path);
    if (known?.kind === 'shop') return known;
    return (await this.unread(path)) ?? NOT_THERE;
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

  /** Those of a job's parts that can be read, each as it is now, judged by the job's shop where it names one. */
  async piecesOf(path: string, job: Job): Promise<readonly JobPiece[]> {
    const own = await this.#shopOfJob(path, job);
    const pieces: JobPiece[] = [];
    for (const entry of job.parts) {
      const target = resolvePath(path, entry.spec.name);
      const part = this.#mayRead(path, target) ? await this.snapshot(target) : undefined;
      if (part?.kind !== 'part') continue;
      const checked = own ? this.#judgedFor(path, part, own.shop) : part.checked;
      pieces.push({ entry, checked, quantity: entry.quantity?.value ?? part.checked.part.quantity });
    }
    return pieces;
  }

  /** What a document names and could not be had, so that it was judged without it: `the shop a.shop.yaml is not there`. */
  async lacking(snapshot: Snapshot): Promise<readonly string[]> {
    if (snapshot.kind === 'part') return lackedShop(snapshot.checked.shop);
    if (snapshot.kind === 'shop') return [];
    const { path, checked } = snapshot;
    const own = await this.#shopOfJob(path, checked.job);
    const lacked = own ? [...lackedShop(own.shop)] : [];
    for (const { spec } of checked.job.parts) {
      const target = resolvePath(path, spec.name);
      if (!this.#mayRead(path, target)) continue;
      const read = await this.read(target);
      if (typeof read === 'object') lacked.push(`the part ${spec.name} ${read.why}`);
      const part = own ? undefined : await this.snapshot(target);
      if (part?.kind === 'part') lacked.push(...lackedShop(part.checked.shop));
    }
    return [...new Set(lacked)];
  }

  #judgedFor(job: string, { path, checked }: PartSnapshot, wanted: Shop): CheckedPart {
    const known = this.#pieces.get(job) ?? new Map<string, CheckedPart>();
    const last = known.get(path);
    const shop = asBefore(wanted, last?.shop);
    if (last && last.tree === checked.tree && last.shop === shop) return last;
    const made = checked.shop === shop ? checked : new CheckedPart(checked.reading, shop);
    this.#pieces.set(job, known.set(path, made));
    return made;
  }

  /** The shop that judges all of a job's parts: the one set for all, or the one that the job names. */
  async #shopOfJob(path: string, { shopPath }: Job): Promise<FoundShop | undefined> {
    if (this.#shopOverride !== undefined) return setShop(this.#shopOverride, this.#shelf());
    return shopPath && namedShop(path, shopPath.name, this.#shelf());
  }

  async #jobShopTrouble(path: string, { job, tree }: CheckedJob): Promise<readonly Finding[]> {
    const trouble = (await this.#shopOfJob(path, job))?.trouble;
    const span = job.shopPath?.span ?? at(tree.root, 'job')?.span;
    return trouble && span ? [fault(trouble, [], span, {})] : [];
  }

  /** Beyond the open folder a document's words lead nowhere. */
  #mayRead(from: string, target: string): boolean {
    return rootOf(from, this.#roots) === undefined || rootOf(target, this.#roots) !== undefined;
  }

  async #missingSpecs(path: string, { job }: CheckedJob): Promise<Finding[]> {
    const found: Finding[] = [];
    const own = await this.#shopOfJob(path, job);
    for (const { name, spec } of job.parts) {
      const target = resolvePath(path, spec.name);
      const why =
        (await this.#unreadPart(path, spec.name, target)) ?? (own ? undefined : await this.#unreadShop(target));
      if (why !== undefined) found.push(fault(why, [name], spec.span, { path: target }));
    }
    return found;
  }

  /** Why a job's part cannot be had. */
  async #unreadPart(job: string, name: string, target: string): Promise<string | undefined> {
    if (kindOf(target) !== 'part') return `\`${name}\` is not a part file: its name must end in \`.part.yaml\`.`;
    if (!this.#mayRead(job, target))
      return `\`${name}\` lies outside the open folder, where nothing is read. Open the folder that holds both.`;
    const read = await this.read(target);
    if (read === undefined) return `There is no part file \`${name}\` (looked for ${target}). Correct the path.`;
    if (typeof read === 'object') return `The part file \`${name}\` ${read.why}.`;
    return undefined;
  }

  /** What a part's own shop takes from the job where it cannot be had. */
  async #unreadShop(path: string): Promise<string | undefined> {
    const part = await this.snapshot(path);
    if (part?.kind !== 'part' || part.checked.shop.unread === undefined) return undefined;
    const { name, unread } = part.checked.shop;
    return `The shop of this part, ${name}, ${unread}; its time and cost are in no sum.`;
  }
}

/** A shop that could not be had stays the same object while its reason is the same: then nothing is judged again. */
function asBefore(shop: Shop, before: Shop | undefined): Shop {
  return shop.unread !== undefined && before?.unread === shop.unread && before.name === shop.name ? before : shop;
}

function lackedShop({ name, unread }: Shop): readonly string[] {
  return unread === undefined ? [] : [`the shop ${name} ${unread}`];
}

function fault(message: string, of: readonly string[], span: Finding['span'], facts: Finding['facts']): Finding {
  return { rule: 'form/unknown-name', severity: 'error', message, of, span, related: [], facts };
}
