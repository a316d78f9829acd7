/**
 * Names across documents: where one is defined, where it is mentioned, and what a rename changes. Features, parameters
 * and datums belong to their part; tools, holders, vises and machines to the shop, and are mentioned by every part it judges.
 */

import type { Mention } from '../model/names';
import { NAME } from '../model/schema/common';
import { scalarAt } from '../text/tree';
import { cursorAt } from './cursor';
import { kindOf, resolvePath } from './documents';
import { calledAnew, includedAt, isTaken, originOf, renamedAt, thereAt } from './included-names';
import { rangeOf } from './lsp';
import { mentionAt, mentionsOf } from './mentioned';
import { homeOf, mentionsIn, placesOf } from './named-places';
import type { Location, Range, TextEdit, WorkspaceEdit } from './shapes';
import type { Snapshot } from './snapshot';
import type { Workspace } from './workspace';

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

/** Where a `shop:`, `spec:` or `from:` path leads. */
async function fileAt(workspace: Workspace, snapshot: Snapshot, offset: number): Promise<Location | null> {
  const { path, scalar, onKey } = cursorAt(snapshot.checked.tree, offset);
  const isFile =
    (path.length === 1 && path[0] === 'shop' && snapshot.kind !== 'shop') ||
    (snapshot.kind === 'job' && path.at(-1) === 'spec') ||
    (snapshot.kind === 'part' && path.length === 3 && path[0] === 'include' && path[2] === 'from') ||
    (snapshot.kind === 'part' && path.length === 2 && path[0] === 'stock' && path[1] === 'from');
  if (!isFile || !scalar || onKey) return null;
  const target = resolvePath(snapshot.path, scalar.source);
  if (!kindOf(target) || (await workspace.text(target)) === undefined) return null;
  return { uri: workspace.name(target), range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } };
}
