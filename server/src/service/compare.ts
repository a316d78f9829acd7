/** Two revisions of a part, or of a job, for the editor: each read where it is and judged by its own shop; what takes long is worked out beside. */
import { sectionsOf } from '../compare/entries';
import type { ComparedPart } from '../compare/json';
import { verdict } from '../compare/lines';
import type { Asker, OnGone } from './asker';
import { comparedJobPicture } from './compare-jobs';
import type { CompareAnswer, CompareParams, CompareSide } from './compare-protocol';
import { keyOf } from './file-key';
import type { Host, OldFiles } from './host';
import { NO_GIT, UNTRUSTED } from './revisions';
import type { JobSnapshot, PartSnapshot } from './snapshot';
import { touchesOf } from './touches';
import { changesOf, comparedPicture, type Sides, shapesOf } from './view/compared';
import type { ComparedPicture } from './view/protocol';
import { Workspace } from './workspace';

/** What it takes of a session. */
interface At {
  readonly workspace: Workspace;
  readonly host: Host;
  readonly asker: Asker;
}

interface Read<S extends PartSnapshot | JobSnapshot = PartSnapshot> {
  readonly document: S;
  /** Where a revision was read. */
  readonly old?: { readonly workspace: Workspace; readonly files: OldFiles };
}

export async function compareAnswer(at: At, params: CompareParams, onGone: OnGone): Promise<CompareAnswer> {
  const before = await sideOf(at, params.before, params.trusted);
  if (typeof before === 'string') return { trouble: before };
  const after = await sideOf(at, params.after, params.trusted);
  if (typeof after === 'string') return { trouble: after };
  const texts = {
    ...(before.old && { before: { newText: before.document.text } }),
    ...(after.old && { after: { newText: after.document.text } }),
  };
  if (isPart(before) && isPart(after))
    return { compared: await partsCompared(at, [before, after], params, onGone), texts };
  if (isPart(before) || isPart(after))
    return { trouble: `${params.before.title} and ${params.after.title} are a part and a job: compare two of a kind.` };
  const read = ({ document, old }: Read<PartSnapshot | JobSnapshot>) => ({
    document: document as JobSnapshot,
    workspace: old?.workspace ?? at.workspace,
  });
  return { compared: await comparedJobPicture(at, [read(before), read(after)], params, onGone), texts };
}

function isPart(read: Read<PartSnapshot | JobSnapshot>): read is Read {
  return 'solid' in read.document.checked;
}

async function partsCompared(
  at: At,
  [before, after]: readonly [Read, Read],
  params: CompareParams,
  onGone: OnGone,
): Promise<ComparedPicture> {
  const sides: Sides = { before: before.document, after: after.document };
  const compared = await comparedOf(at, [before, after], params, onGone);
  const shapes = at.host.meshes ? await shapesOf(sides, at.host.meshes, `compare ${keyOf(params.after.uri)}`) : {};
  const titles = { before: params.before.title, after: params.after.title };
  const changes = changesOf(sectionsOf(compared), sides);
  return comparedPicture(sides, shapes, { titles, verdict: verdict(compared.change), changes });
}

async function comparedOf(
  { workspace, asker }: At,
  [before, after]: readonly [Read, Read],
  { after: { uri } }: CompareParams,
  onGone: OnGone,
): Promise<ComparedPart> {
  const { path, text, checked } = before.document;
  // The shop as it is now has a word to say where the new side's own is an old one.
  const now = after.old ? await workspace.snapshot(uri) : undefined;
  const told = {
    before: { path, text, shop: checked.shop, others: checked.tree.others },
    ...(now?.kind === 'part' && { today: now.checked.shop }),
  };
  const { change, today } = await asker.answer('compared', after.document, told, onGone);
  const home = after.old ?? { workspace };
  const isChanged = async (other: string) => {
    const there = before.old?.files.pathOf(other);
    if (!before.old || there === undefined) return undefined;
    return (await before.old.workspace.text(there)) !== (await home.workspace.text(other));
  };
  const touches = change.same ? [] : await touchesOf(change, keyOf(after.document.path), home.workspace, isChanged);
  return {
    path: after.document.path,
    change,
    ...(today && { today }),
    ...(touches.length > 0 && { touches }),
  };
}

/** Or why there is none. */
async function sideOf(
  { workspace, host }: At,
  side: CompareSide,
  trusted = false,
): Promise<Read<PartSnapshot | JobSnapshot> | string> {
  const { uri, revision, title } = side;
  if (revision === undefined) return documentOf(workspace, uri, title);
  if (!trusted) return UNTRUSTED;
  const files = await host.revision?.(uri, revision);
  if (!files) return NO_GIT;
  if ('why' in files) return `${title}: ${files.why}.`;
  const path = files.pathOf(uri);
  if (path === undefined) return NO_GIT;
  const old = { workspace: new Workspace(files.host), files };
  const read = await documentOf(old.workspace, path, title);
  return typeof read === 'string' ? read : { ...read, old };
}

async function documentOf(
  workspace: Workspace,
  path: string,
  title: string,
): Promise<Read<PartSnapshot | JobSnapshot> | string> {
  const document = await workspace.snapshot(path);
  if (document?.kind === 'part' || document?.kind === 'job') return { document };
  return `${title}: ${(await workspace.unread(path)) ?? 'it is neither a part nor a job'}.`;
}
