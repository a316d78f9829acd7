/**
 * Names across documents: where one is defined, where it is mentioned, and what a rename changes. Features, parameters
 * and datums belong to their part; tools, holders, vises and machines to the shop, and are mentioned by every part it judges.
 */

import type { Mention } from '../model/names';
import { NAME } from '../model/schema/common';
import { type Span, scalarAt } from '../text/tree';
import { cursorAt } from './cursor';
import { kindOf, resolvePath } from './documents';
import { keyOf } from './file-key';
import { calledAnew, includedAt, isTaken, originOf, renamedAt, takersOf, thereAt } from './included-names';
import { rangeOf } from './lsp';
import { mentionAt, mentionsOf } from './mentioned';
import type { Location, Range, TextEdit, WorkspaceEdit } from './shapes';
import type { Snapshot } from './snapshot';
import type { Workspace } from './workspace';

const OF_SHOP: ReadonlySet<string> = new Set([
  'tool',
  'holder',
  'vise',
  'v-block',
  'angle-plate',
  'machine',
  'material',
]);

/** Where the name at an offset is defined, in this file or its shop; null where there is neither name nor file. */
export async function definitionAt(workspace: Workspace, snapshot: Snapshot, offset: number): Promise<Location | null> {
  const file = (await fileAt(workspace, snapshot, offset)) ?? includedAt(workspace, snapshot, offset);
  if (file) return file;
  const mention = mentionAt(snapshot, offset);
  if (!mention) return null;
  const home = await homeOf(workspace, snapshot, mention);
  const definition = home && mentionsIn(home, mention).find((m) => m.definition);
  return home && definition ? { uri: home.path, range: rangeOf(home, definition.span) } : null;
}

export async function referencesAt(
  workspace: Workspace,
  snapshot: Snapshot,
  offset: number,
  withDefinition: boolean,
): Promise<Location[]> {
  const start = await startAt(workspace, snapshot, offset);
  if (!start) return [];
  const { mention, home } = start;
  const isFeature = home && mention.kind === 'feature';
  const origin = isFeature ? await originOf(workspace, home, mention.name) : { home, name: mention.name };
  const found: Location[] = [];
  const from = { ...mention, name: origin.name };
  for (const place of await placesOf(workspace, { snapshot, home: origin.home, mention: from, after: from.name }))
    if (typeof place !== 'string' && (withDefinition || !place.definition))
      found.push({ uri: place.document.path, range: rangeOf(place.document, place.span) });
  return found;
}

/** A name at an offset: one that the document mentions, or that stands in another file; with the document that it belongs to. */
async function startAt(workspace: Workspace, snapshot: Snapshot, offset: number) {
  const there = thereAt(snapshot, offset);
  const file = there && scalarAt(there.map, 'from');
  if (file) {
    const { kind, name, span } = there;
    const home = await workspace.snapshot(resolvePath(snapshot.path, String(file.value)));
    return home && { mention: { kind, name, span, definition: false } satisfies Mention, home };
  }
  const mention = renamedAt(snapshot, offset) ?? mentionAt(snapshot, offset);
  return mention && { mention, home: await homeOf(workspace, snapshot, mention) };
}

/** The name at an offset with its place; null where there is none. */
export function prepareRename(snapshot: Snapshot, offset: number): { range: Range; placeholder: string } | null {
  const mention = thereAt(snapshot, offset) ?? renamedAt(snapshot, offset) ?? mentionAt(snapshot, offset);
  return mention ? { range: rangeOf(snapshot, mention.span), placeholder: mention.name } : null;
}

/** The edits, or one sentence that says why not. */
export async function renameAt(
  workspace: Workspace,
  snapshot: Snapshot,
  offset: number,
  newName: string,
): Promise<WorkspaceEdit | string> {
  const start = await startAt(workspace, snapshot, offset);
  if (!start) return 'There is no name here to change.';
  const { mention, home } = start;
  const form = mention.kind === 'datum' ? /^[A-Z]{1,2}$/ : NAME;
  if (!form.test(newName))
    return mention.kind === 'datum'
      ? `\`${newName}\` is no datum letter: one or two capital letters.`
      : `\`${newName}\` is no name: small letters, digits and dashes, a letter first.`;
  if (mention.kind === 'material' && !(home && mentionsIn(home, mention).some((m) => m.definition)))
    return `\`${mention.name}\` is a material of the tables. Only those under \`materials\` of a shop get another name.`;
  if (!home)
    return `\`${mention.name}\` comes from the built-in shop, which cannot be changed. Write a shop file of your own.`;
  const isKnown = mentionsOf(home).some((m) => m.definition && m.kind === mention.kind && m.name === newName);
  const isOther = newName !== mention.name;
  if (isOther && (isKnown || (mention.kind === 'feature' && home.kind === 'part' && isTaken(home, newName))))
    return `There is a ${mention.kind} \`${newName}\` already.`;
  const changes: WorkspaceEdit['changes'] = {};
  const change = ({ path }: Snapshot, edits: readonly TextEdit[]) => {
    if (edits.length > 0) changes[path] = [...(changes[path] ?? []), ...edits];
  };
  for (const place of await placesOf(workspace, { snapshot, home, mention, after: newName })) {
    if (typeof place === 'string') return place;
    const { document, span, after } = place;
    if (after !== undefined) change(document, [{ range: rangeOf(document, span), newText: after }]);
  }
  if (mention.kind === 'feature') change(home, calledAnew(home, mention.name, newName) ?? []);
  return { changes };
}

/** Where a name stands, and what stands there once it is called otherwise; undefined where that stays. */
interface Place {
  readonly document: Snapshot;
  readonly span: Span;
  readonly definition: boolean;
  readonly after?: string;
}

interface Naming {
  readonly snapshot: Snapshot;
  readonly home: Snapshot | undefined;
  readonly mention: Mention;
  /** What it will be called. */
  readonly after: string;
  /** Names of documents passed on the way here: those that go in a circle end. */
  readonly passed?: Set<string>;
}

/** More names than that are a circle of files, each with a prefix of its own. */
const MOST_PASSED = 200;

/** A name everywhere: in its own documents, and in those that include its file, by what they call it. Or why that cannot be. */
async function placesOf(workspace: Workspace, naming: Naming): Promise<readonly (Place | string)[]> {
  const { snapshot, home, mention, after, passed = new Set() } = naming;
  const key = `${home?.path} ${mention.name}`;
  if (passed.size >= MOST_PASSED || passed.has(key)) return [];
  passed.add(key);
  const found: (Place | string)[] = [];
  for (const document of await scopeOf(workspace, home?.kind === 'part' ? home : snapshot, mention))
    for (const { span, definition } of mentionsIn(document, mention)) found.push({ document, span, definition, after });
  for (const { part, spans, called } of home ? await takersOf(workspace, home, mention, after) : []) {
    for (const span of spans) found.push({ document: part, span, definition: false, after });
    for (const here of called) {
      if (here.own) found.push({ document: part, span: here.own, definition: true });
      const isSame = here.before === here.after;
      if (!isSame && isTaken(part, here.after)) return [`${part.path} has \`${here.after}\` already.`];
      const own: Mention = { ...mention, name: here.before, definition: false };
      const next = { snapshot: part, home: part, mention: own, after: here.after, passed };
      const inner = await placesOf(workspace, next);
      // what keeps its name there stays as it is
      found.push(...inner.map((p) => (isSame && typeof p !== 'string' ? without(p) : p)));
    }
  }
  return found;
}

function without({ document, span, definition }: Place): Place {
  return { document, span, definition };
}

/** A document in which a name is looked for; of a job, only what it says of that part. */
type Scope = Snapshot & { readonly as?: readonly string[] };

function mentionsIn(document: Scope, { kind, name }: Mention): readonly Mention[] {
  const { as } = document;
  return mentionsOf(document).filter(
    (m) => m.kind === kind && m.name === name && (as === undefined || m.of === undefined || as.includes(m.of)),
  );
}

/** The document that defines a name; undefined for the built-in shop's. */
async function homeOf(workspace: Workspace, snapshot: Snapshot, mention: Mention): Promise<Snapshot | undefined> {
  if (snapshot.kind === 'job' && mention.of !== undefined) {
    const entry = snapshot.checked.job.parts.find((p) => p.name === mention.of);
    return entry && workspace.snapshot(resolvePath(snapshot.path, entry.spec.name));
  }
  if (!OF_SHOP.has(mention.kind) || snapshot.kind !== 'part') return snapshot;
  return snapshot.shopPath === undefined ? undefined : workspace.snapshot(snapshot.shopPath);
}

/** Every document that may mention a name. */
async function scopeOf(workspace: Workspace, snapshot: Snapshot, mention: Mention): Promise<readonly Scope[]> {
  const home = await homeOf(workspace, snapshot, mention);
  if (home?.kind === 'part' && mention.kind === 'feature') return [home, ...(await jobsNaming(workspace, home))];
  if (!OF_SHOP.has(mention.kind) || !home) return [snapshot];
  const found: Snapshot[] = [home];
  for (const path of await workspace.paths('part')) {
    const part = await workspace.snapshot(path);
    if (part?.kind === 'part' && part.shopPath && keyOf(part.shopPath) === keyOf(home.path)) found.push(part);
  }
  return found;
}

/** The jobs that make a part, each with what it calls it. */
async function jobsNaming(workspace: Workspace, { path }: Snapshot): Promise<readonly Scope[]> {
  const jobs = await workspace.jobsOf(path);
  return jobs.map((job) => {
    const own = job.checked.job.parts.filter((p) => resolvePath(job.path, p.spec.name) === keyOf(path));
    return { ...job, findings: [], as: own.map((p) => p.name) };
  });
}

/** Where a `shop:`, `spec:` or `from:` path leads. */
async function fileAt(workspace: Workspace, snapshot: Snapshot, offset: number): Promise<Location | null> {
  const { path, scalar, onKey } = cursorAt(snapshot.checked.tree, offset);
  const isFile =
    (path.length === 1 && path[0] === 'shop' && snapshot.kind !== 'shop') ||
    (snapshot.kind === 'job' && path.at(-1) === 'spec') ||
    (snapshot.kind === 'part' && path.length === 3 && path[0] === 'include' && path[2] === 'from');
  if (!isFile || !scalar || onKey) return null;
  const target = resolvePath(snapshot.path, scalar.source);
  if (!kindOf(target) || (await workspace.text(target)) === undefined) return null;
  return { uri: workspace.name(target), range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } };
}
