/**
 * The documents being worked on and what is known of them. Keeps one checked snapshot a document, so that an edit costs
 * what changed; finds the shop each part is judged by; tells which documents a changed file touches.
 */

import type { Job } from '../model/job-model';
import type { Shop } from '../model/shop-model';
import { type JobPiece, jobFindings } from '../planning/job';
import { judgeRecord } from '../report/record/record';
import { type CheckedJob, checkJob, checkRecord, workingOut } from '../rules/check';
import { CheckedPart } from '../rules/checked-part';
import type { Finding } from '../rules/kit/rule';
import { linesOf } from '../text/lines';
import { at } from '../text/tree';
import { type DocumentKind, foldersUp, kindOf, resolvePath, rootOf } from './documents';
import { asBefore, fault, lackedShop, same } from './faults';
import { childOf, keyOf } from './file-key';
import type { FileText, Host } from './host';
import { includedKeys, type OtherDoor, othersOf, unreadPart } from './included';
import { Pace } from './pace';
import { priced } from './priced';
import { recordFindings } from './record';
import { type FoundShop, NOT_THERE, namedShop, readShop, type Shelf, setShop, shopOf, shopTrouble } from './shop-of';
import {
  type JobRead,
  type JobSnapshot,
  type PartSnapshot,
  type PieceSnapshot,
  type RecordSnapshot,
  type ShopSnapshot,
  type Snapshot,
  wholePart,
} from './snapshot';
import { type Disk, Texts } from './texts';
import { pieceOf, strangeIn } from './variants';

/** Documents that are not open but were asked for, by a job or a rename: so many are kept. */
const MOST_CLOSED = 40;
export interface WorkspaceOptions {
  readonly roots?: readonly string[];
  /** A shop file to judge every part by. */
  readonly shop?: string;
  readonly pace?: Pace;
  /** Whether files change, and somebody tells of it; left out: they do not. */
  readonly disk?: Disk;
}

export class Workspace {
  readonly #texts: Texts;
  readonly #shopOverride: string | undefined;
  /** What an editor says a document is, where its name does not tell (a new one, not saved yet). */
  readonly #told = new Map<string, DocumentKind>();
  /** This and what follows: by the documents' keys. */
  readonly #snapshots = new Map<string, Snapshot>();
  /** The parts of a job as its own shop judges them, where it names one: by the job's path, then the part's. */
  readonly #pieces = new Map<string, Map<string, CheckedPart>>();
  /** By part: keys of the documents that it includes features of. */
  readonly #included = new Map<string, ReadonlySet<string>>();
  /** Parts being read, so that whoever asks meanwhile waits for the same reading. */
  readonly #reading = new Map<string, { readonly text: string; readonly part: Promise<PartSnapshot | undefined> }>();
  readonly #pace: Pace;
  readonly #door: OtherDoor = {
    name: (key) => this.#texts.name(key),
    read: (key) => this.#texts.read(key),
    mayRead: (from, target) => this.#mayRead(from, target),
  };

  constructor(host: Host, options: WorkspaceOptions = {}) {
    this.#pace = options.pace ?? new Pace();
    this.#texts = new Texts(host, options.roots ?? [], options.disk ?? 'still');
    this.#shopOverride = options.shop === undefined ? undefined : keyOf(options.shop);
  }

  setRoots(roots: readonly string[]): void {
    this.#texts.setRoots(roots);
  }

  /** Takes (or replaces) the text of a document that an editor holds. */
  open(path: string, text: string, told?: DocumentKind): void {
    this.#texts.open(path, text);
    if (this.isIncluded(path)) this.#reading.clear();
    if (told) this.#told.set(keyOf(path), told);
  }

  /** An editor holds it no more: it is as on disk, or not there. */
  close(path: string): void {
    this.#texts.close(path);
    for (const kept of [this.#told, this.#snapshots, this.#pieces, this.#included]) kept.delete(keyOf(path));
  }

  /** What the editor calls a document that is open; else its key. */
  name(path: string): string {
    return this.#texts.name(keyOf(path));
  }

  isOpen(path: string): boolean {
    return this.#texts.held(keyOf(path)) !== undefined;
  }

  /** Every document there is, or those of a kind: below the roots, and open. */
  async paths(kind?: DocumentKind): Promise<readonly string[]> {
    return (await this.#texts.all()).filter((p) => !kind || kindOf(p) === kind);
  }

  /** What is known of a document that no editor holds is let go of. */
  leave(path: string): void {
    if (!this.isOpen(path)) this.#snapshots.delete(keyOf(path));
  }

  /** Takes the same text read anew in the place of what is known, or answers false: it was changed meanwhile. */
  exchange(before: PartSnapshot, after: PartSnapshot): boolean {
    const key = keyOf(before.path);
    if (this.#snapshots.get(key) !== before) return false;
    this.#snapshots.set(key, after);
    this.#pieces.clear();
    return true;
  }

  /** A file or folder was made, changed or removed outside the editor. Answers whether anybody looked at it. */
  fileChanged(path: string): boolean {
    return this.#texts.changed(keyOf(path));
  }

  /** The text as the editor has it, or as the file has it; else why there is none. */
  async read(path: string): Promise<FileText> {
    return this.#texts.read(keyOf(path));
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
    const key = keyOf(path);
    for (;;) {
      const kind = kindOf(key) ?? this.#told.get(key);
      const text = kind && (await this.text(key));
      if (!kind || text === undefined) return undefined;
      const before = this.#snapshots.get(key);
      const last = before?.kind === kind && before.path === this.#texts.name(key) ? before : undefined;
      const made = await this.#make(key, kind, text, last);
      // Only the newest text may be remembered: an older answer can arrive late.
      if (made && !this.#isGone(key, text)) this.#remember(key, made);
      if (made) return made;
    }
  }

  /** Whether an editor holds another text by now. */
  #isGone(key: string, text: string): boolean {
    return (this.#texts.held(key) ?? text) !== text;
  }

  #remember(key: string, made: Snapshot): void {
    this.#snapshots.delete(key);
    this.#snapshots.set(key, made);
    const closed = [...this.#snapshots].filter(([k, s]) => s.kind !== 'shop' && this.#texts.held(k) === undefined);
    for (const [old] of closed.slice(0, Math.max(0, closed.length - MOST_CLOSED))) this.#snapshots.delete(old);
  }

  /** Undefined where the text was changed on the way. */
  async #make(
    key: string,
    kind: DocumentKind,
    text: string,
    before: Snapshot | undefined,
  ): Promise<Snapshot | undefined> {
    if (kind === 'part') return this.#part(key, text, before?.kind === 'part' ? before : undefined);
    const path = this.#texts.name(key);
    const lines = before?.text === text ? before.lines : linesOf(text);
    if (before?.text === text && kind === 'shop') return before;
    if (kind === 'shop')
      return readShop({ path, text, lines }, before?.kind === 'shop' ? before : undefined, this.#snapshots.values());
    if (kind === 'record') return this.#record({ path, text, lines }, before?.kind === 'record' ? before : undefined);
    const job = await this.#readJob(key, text, before?.kind === 'job' ? before : undefined);
    const { checked, pieces } = job;
    return {
      ...job,
      findings: [
        ...checked.findings,
        ...(await this.#jobShopTrouble(key, checked)),
        ...(await this.#missingSpecs(key, checked)),
        ...(await this.#jobFindings(checked, pieces)),
      ],
    };
  }

  /** Beside its part as that is now. */
  async #record(
    of: Pick<RecordSnapshot, 'path' | 'text' | 'lines'>,
    before: RecordSnapshot | undefined,
  ): Promise<RecordSnapshot> {
    const checked = checkRecord(of.text, before?.checked);
    const named = checked.record.part;
    const key = keyOf(of.path);
    const target = named && resolvePath(key, named.name);
    const read = target !== undefined && this.#mayRead(key, target) ? await this.snapshot(target) : undefined;
    const part = read?.kind === 'part' ? read : undefined;
    if (named && target !== undefined && !part) {
      const why = await unreadPart(this.#door, key, named.name, target);
      return {
        ...of,
        kind: 'record',
        checked,
        findings: [...checked.findings, ...(why ? [fault(why, [], named.span, {})] : [])],
      };
    }
    if (!part) return { ...of, kind: 'record', checked, findings: checked.findings };
    const judged = judgeRecord(checked.record, part.checked, '');
    return { ...of, kind: 'record', checked, part, judged, findings: recordFindings(checked, judged) };
  }

  async #readJob(key: string, text: string, before: JobSnapshot | undefined): Promise<JobRead> {
    const checked = checkJob(text, before?.checked);
    const lines = before?.text === text ? before.lines : linesOf(text);
    return {
      path: this.#texts.name(key),
      kind: 'job',
      text,
      lines,
      checked,
      pieces: await this.piecesOf(key, checked.job),
    };
  }

  /** The jobs that make a part: those in the folders above it, as its shop is looked for. */
  async jobsOf(path: string): Promise<readonly JobRead[]> {
    const key = keyOf(path);
    const found: JobRead[] = [];
    const folders = foldersUp(key, this.#texts.roots);
    const lists = await Promise.all(folders.map((folder) => this.#texts.list(folder)));
    for (const [i, folder] of folders.entries()) {
      for (const name of lists[i]!.names.filter((n) => kindOf(n) === 'job').sort()) {
        const home = childOf(folder, name);
        const text = await this.text(home);
        const before = this.#snapshots.get(home);
        if (text === undefined) continue;
        const { job } = checkJob(text, before?.kind === 'job' ? before.checked : undefined);
        if (!job.parts.some((p) => resolvePath(home, p.spec.name) === key)) continue;
        found.push(await this.#readJob(home, text, before?.kind === 'job' ? before : undefined));
      }
    }
    return found;
  }

  async #part(key: string, text: string, last: PartSnapshot | undefined): Promise<PartSnapshot | undefined> {
    const known = this.#reading.get(key);
    if (known?.text === text) return known.part;
    const reading = { text, part: this.#readPart(key, text, last) };
    this.#reading.set(key, reading);
    try {
      return await reading.part;
    } finally {
      if (this.#reading.get(key) === reading) this.#reading.delete(key);
    }
  }

  async #readPart(key: string, text: string, last: PartSnapshot | undefined): Promise<PartSnapshot | undefined> {
    const others = await othersOf(key, text, this.#door, last?.checked.tree);
    this.#included.set(key, new Set(includedKeys(key, others)));
    const working = workingOut(text, last?.checked.against(text), others);
    const read = await this.#pace.through(working, () => this.#isGone(key, text));
    if (!read) return undefined;
    const found = await shopOf(key, read, this.#shelf());
    const shop = asBefore(found.shop, last?.checked.shop);
    const besides = shopTrouble(read, found);
    const isRead = last?.text === text && last.checked.tree.others === others;
    const isSame = isRead && last.checked.shop === shop && last.shopPath === found.path;
    if (isSame && same(last.besides, besides)) return last;
    const lines = last?.text === text ? last.lines : linesOf(text);
    const checked = last ? last.checked.next(read, shop) : new CheckedPart(read, shop);
    return wholePart({ path: this.#texts.name(key), text, lines, checked, shopPath: found.path, besides });
  }

  /** Whether a part that was read includes features of this document. */
  isIncluded(path: string): boolean {
    const key = keyOf(path);
    return [...this.#included.values()].some((keys) => keys.has(key));
  }

  #shelf(): Shelf {
    return {
      roots: this.#texts.roots,
      ...(this.#shopOverride !== undefined && { set: this.#shopOverride }),
      list: (folder) => this.#texts.list(folder),
      shop: (path) => this.#shopAt(path),
    };
  }

  async #shopAt(path: string): Promise<ShopSnapshot | string> {
    const known = await this.snapshot(path);
    if (known?.kind === 'shop') return known;
    return (await this.unread(path)) ?? NOT_THERE;
  }

  /** What the job's parts come to, as far as they can be read. */
  async #jobFindings({ job }: CheckedJob, pieces: readonly JobPiece[]): Promise<readonly Finding[]> {
    for (const { checked } of pieces) await this.price(checked);
    return [...strangeIn(job, pieces), ...jobFindings(job, pieces, pieces.length === job.parts.length)];
  }

  /** Works out what a piece weighs and takes. */
  async price(checked: CheckedPart): Promise<void> {
    await priced(checked, this.#pace);
  }

  /** Those of a job's parts that can be read, each as it is now, judged by the job's shop where it names one. */
  async piecesOf(name: string, job: Job): Promise<readonly PieceSnapshot[]> {
    const path = keyOf(name);
    const own = await this.#shopOfJob(path, job);
    const pieces: PieceSnapshot[] = [];
    for (const entry of job.parts) {
      const target = resolvePath(path, entry.spec.name);
      const part = this.#mayRead(path, target) ? await this.snapshot(target) : undefined;
      if (part?.kind !== 'part') continue;
      pieces.push(pieceOf(part, own ? this.#judgedFor(path, part, own.shop) : part.checked, entry, job));
    }
    return pieces;
  }

  /** What a document names and could not be had, so that it was judged without it: `the shop a.shop.yaml is not there`. */
  async lacking(snapshot: Snapshot): Promise<readonly string[]> {
    if (snapshot.kind === 'part') return lackedShop(snapshot.checked.shop);
    if (snapshot.kind === 'shop' || snapshot.kind === 'record') return [];
    const { checked } = snapshot;
    const path = keyOf(snapshot.path);
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
    const { roots } = this.#texts;
    return rootOf(from, roots) === undefined || rootOf(target, roots) !== undefined;
  }

  async #missingSpecs(path: string, { job }: CheckedJob): Promise<Finding[]> {
    const found: Finding[] = [];
    const own = await this.#shopOfJob(path, job);
    for (const { name, spec } of job.parts) {
      const target = resolvePath(path, spec.name);
      const why =
        (await unreadPart(this.#door, path, spec.name, target)) ?? (own ? undefined : await this.#unreadShop(target));
      if (why !== undefined) found.push(fault(why, [name], spec.span, { path: target }));
    }
    return found;
  }

  /** What a part's own shop takes from the job where it cannot be had. */
  async #unreadShop(path: string): Promise<string | undefined> {
    const part = await this.snapshot(path);
    if (part?.kind !== 'part' || part.checked.shop.unread === undefined) return undefined;
    const { name, unread } = part.checked.shop;
    return `The shop of this part, ${name}, ${unread}; its time and cost are in no sum.`;
  }
}
