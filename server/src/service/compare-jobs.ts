/** Two revisions of a job for the editor: what changed of the job in words, and its parts, each to be compared by itself. */
import { renamesOf } from '../compare/job';
import { jobSections, jobVerdict } from '../compare/job-lines';
import { verdict } from '../compare/lines';
import { pairedBy } from '../compare/pairs';
import type { PartChange } from '../compare/part';
import { comparedJobs } from '../compare/with';
import type { Asker, OnGone } from './asker';
import type { CompareParams } from './compare-protocol';
import { resolvePath } from './documents';
import { keyOf } from './file-key';
import type { JobSnapshot, PieceSnapshot } from './snapshot';
import { placeIn } from './view/compared';
import type { ComparedPicture, CompareSide, PictureChange } from './view/protocol';
import type { Workspace } from './workspace';

interface ReadJob {
  readonly document: JobSnapshot;
  /** Where it was read. */
  readonly workspace: Workspace;
}
/** What it takes of a session. */
interface At {
  readonly asker: Asker;
  /** Of the editor, whatever the sides are read from: it knows what files are called there. */
  readonly workspace: Workspace;
}
interface ComparedPiece {
  readonly piece: string;
  readonly change: PartChange;
  readonly opens: { readonly before: CompareSide; readonly after: CompareSide };
}

export async function comparedJobPicture(
  at: At,
  [before, after]: readonly [ReadJob, ReadJob],
  params: CompareParams,
  onGone: OnGone,
): Promise<ComparedPicture> {
  const [old, now] = await Promise.all(
    [before, after].map(({ document, workspace }) => workspace.piecesOf(document.path, document.checked.job)),
  );
  const sides = {
    before: { document: before.document, pieces: old! },
    after: { document: after.document, pieces: now! },
  };
  const parts = await partsOf(at, sides, params, onGone);
  const told = { before: toldOf(sides.before), after: toldOf(sides.after), renamed: renamesOf(parts) };
  const [any] = now!;
  const change = any ? await at.asker.answer('comparedJobs', any.snapshot, told, onGone) : comparedJobs(told);
  const changes = jobSections(change).flatMap(({ title: section, entries }) =>
    entries.map(({ word = '', text, at: place }): PictureChange => {
      const range = place && placeIn(sides[place.side].document, place);
      const line = place && range && { side: place.side, range };
      return { section, word, text, before: [], after: [], ...(line && { line }) };
    }),
  );
  return {
    name: change.name,
    verdict: verdictOf(jobVerdict(change), parts),
    titles: { before: params.before.title, after: params.after.title },
    changes: [...changes, ...parts.flatMap(pieceEntry)],
  };
}

interface JobSide {
  readonly document: JobSnapshot;
  readonly pieces: readonly PieceSnapshot[];
}

/** Those that are on both sides, by name, else by the file that they are made to. */
async function partsOf(
  { asker, workspace }: At,
  { before, after }: { readonly before: JobSide; readonly after: JobSide },
  params: CompareParams,
  onGone: OnGone,
): Promise<readonly ComparedPiece[]> {
  const { pairs } = pairedBy(
    before.pieces,
    after.pieces,
    (a, b) => a.entry.name === b.entry.name,
    (a, b) => a.entry.spec.name === b.entry.spec.name,
  );
  const sideOf = ({ uri, title, ...revision }: CompareSide, { entry }: PieceSnapshot): CompareSide => {
    const file = workspace.name(resolvePath(keyOf(uri), entry.spec.name));
    return { uri: file, ...revision, title: `${entry.name}, ${title}` };
  };
  const made: ComparedPiece[] = [];
  for (const [a, b] of pairs) {
    const { path, text, checked } = a.snapshot;
    const told = { before: { path, text, shop: checked.shop, others: checked.tree.others } };
    const { change } = await asker.answer('compared', b.snapshot, told, onGone);
    const opens = { before: sideOf(params.before, a), after: sideOf(params.after, b) };
    made.push({ piece: b.entry.name, change, opens });
  }
  return made;
}

function toldOf({ document: { text, findings }, pieces }: JobSide) {
  return {
    text,
    findings,
    pieces: pieces.map(({ entry, checked, snapshot, quantity }) => ({
      name: entry.name,
      text: snapshot.text,
      shop: checked.shop,
      others: checked.tree.others,
      quantity,
    })),
  };
}

function pieceEntry({ piece, change, opens }: ComparedPiece): readonly PictureChange[] {
  if (!change.textDiffers) return [];
  const text = `part ${piece}: ${verdict(change)}`;
  return [{ section: 'Its parts', word: '', text, before: [], after: [], opens }];
}

/** Of the job itself, and how many of its parts are others. */
function verdictOf(ofJob: string, parts: readonly ComparedPiece[]): string {
  const others = parts.filter((p) => !p.change.same).length;
  if (others === 0) return ofJob;
  return `${ofJob}; ${others} of its parts ${others === 1 ? 'is' : 'are'} changed`;
}
