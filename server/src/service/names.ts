/**
 * Names across documents: where one is defined, where it is mentioned, and what a rename changes. Features, parameters
 * and datums belong to their part; tools, holders, vises and machines to the shop, and are mentioned by every part it judges.
 */

import type { Mention } from '../model/names';
import { NAME } from '../model/schema/common';
import { cursorAt } from './cursor';
import { kindOf, resolvePath } from './documents';
import { keyOf } from './file-key';
import { boundElsewhere, includedAt } from './included-names';
import { rangeOf } from './lsp';
import { mentionAt, mentionsOf } from './mentioned';
import type { Location, Range, WorkspaceEdit } from './shapes';
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
  const mention = mentionAt(snapshot, offset);
  if (!mention) return [];
  const found: Location[] = [];
  for (const document of await scopeOf(workspace, snapshot, mention)) {
    for (const m of mentionsIn(document, mention))
      if (withDefinition || !m.definition) found.push({ uri: document.path, range: rangeOf(document, m.span) });
  }
  return found;
}

/** The name at an offset with its place; null where there is none. */
export function prepareRename(snapshot: Snapshot, offset: number): { range: Range; placeholder: string } | null {
  const mention = mentionAt(snapshot, offset);
  return mention ? { range: rangeOf(snapshot, mention.span), placeholder: mention.name } : null;
}

/** The edits, or one sentence that says why not. */
export async function renameAt(
  workspace: Workspace,
  snapshot: Snapshot,
  offset: number,
  newName: string,
): Promise<WorkspaceEdit | string> {
  const mention = mentionAt(snapshot, offset);
  if (!mention) return 'There is no name here to change.';
  const form = mention.kind === 'datum' ? /^[A-Z]{1,2}$/ : NAME;
  if (!form.test(newName))
    return mention.kind === 'datum'
      ? `\`${newName}\` is no datum letter: one or two capital letters.`
      : `\`${newName}\` is no name: small letters, digits and dashes, a letter first.`;
  const home = await homeOf(workspace, snapshot, mention);
  const bound = home && (await boundElsewhere(workspace, home, mention));
  if (bound !== undefined) return bound;
  if (mention.kind === 'material' && !(home && mentionsIn(home, mention).some((m) => m.definition)))
    return `\`${mention.name}\` is a material of the tables. Only those under \`materials\` of a shop get another name.`;
  if (!home)
    return `\`${mention.name}\` comes from the built-in shop, which cannot be changed. Write a shop file of your own.`;
  if (
    mentionsOf(home).some(
      (m) => m.definition && m.kind === mention.kind && m.name === newName && newName !== mention.name,
    )
  )
    return `There is a ${mention.kind} \`${newName}\` already.`;
  const changes: WorkspaceEdit['changes'] = {};
  for (const document of await scopeOf(workspace, snapshot, mention)) {
    const edits = mentionsIn(document, mention).map((m) => ({ range: rangeOf(document, m.span), newText: newName }));
    if (edits.length > 0) changes[document.path] = edits;
  }
  return { changes };
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
