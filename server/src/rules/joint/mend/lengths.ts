/** What would do where a screw or pin has the wrong length, or meets too little thread: another length, a deeper thread, both. */
import type { Pinned, Screwed } from '../../../model/joint-model';
import type { Hole } from '../../../model/model';
import { columnOf } from '../../../process/joints/layers';
import { askedHead, type Gripped, lengthHalfMm, lengthsThatDo } from '../../../process/joints/lengths';
import { lengthsOf, lengthWritten, screwText, washerOf } from '../../../tables/fasteners';
import { PIN_LENGTHS_MM, pinText, pinWritten } from '../../../tables/pins';
import { at, scalarAt } from '../../../text/tree';
import { HAIR } from '../../../tolerance';
import { setLength } from '../../kit/edits';
import type { SpanEdit } from '../../kit/rule';
import { leastThreadMm } from '../engagement';
import { pattern } from '../pattern';
import { type Assembled, assembled, gripsOf } from '../screwed';
import { inJob, joined, type Mend, type MendContext, ownHoles } from './mend';

/** So many lengths of the series are tried. */
const MOST_LENGTHS = 3;

export function* lengthMends(joint: Screwed, context: MendContext): Generator<Mend | undefined> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const all = found && gripsOf(joint, found);
  if (!found || !all || all.length === 0) return;
  const asked = askedHead(found.layers[0]!);
  const leastMm = leastThreadMm(joint, found, context) ?? joint.screw.diameterMm;
  const written = joint.screw.lengthMm;
  if (written !== undefined) {
    const near = (mm: number) => Math.abs(mm - written);
    const does = lengthsThatDo(joint, asked, all, leastMm).toSorted((a, b) => near(a) - near(b));
    const any = lengthsOf(joint.screw, asked).toSorted((a, b) => near(a) - near(b));
    for (const mm of [...does.slice(0, MOST_LENGTHS), ...any.slice(0, 1)]) yield withLength(joint, found, mm, context);
  }
  if (joint.nut) return;
  const lengths = lengthsOf(joint.screw, asked).filter((mm) => all.every((g) => mm - g.gripMm >= leastMm - HAIR));
  for (const mm of [...(written === undefined ? [] : [written]), ...lengths.slice(0, 1)])
    yield deeperFor(mm, joint, found, all, context);
  const washer = joint.washer ? undefined : washerOf('ISO 7089', joint.screw.size);
  if (washer)
    yield inJob(context, joint, ['washer', 'ISO 7089'], {
      title: `Put a washer ISO 7089 under the head, ${context.length(washer.thicknessMm)} thick`,
      safe: false,
    });
}

function withLength(joint: Screwed, { layers }: Assembled, mm: number, context: MendContext): Mend | undefined {
  const source = scalarAt(at(at(context.tree.root, 'joints'), joint.name), 'screw')?.source;
  const text = source === undefined ? undefined : lengthWritten(source, joint.screw, mm);
  const title = `Use ${screwText(joint.screw, askedHead(layers[0]!), mm)}`;
  return text === undefined || text === source
    ? undefined
    : inJob(context, joint, ['screw', text], { title, safe: true });
}

/** The thread so deep that a screw of this length is not stopped, by the limits of parts and screw. */
function deeperFor(
  lengthMm: number,
  joint: Screwed,
  found: Assembled,
  all: readonly Gripped[],
  context: MendContext,
): Mend | undefined {
  const lack = Math.max(
    ...all.map((g) => lengthMm - g.gripMm - Math.min(g.stopMm, g.threadMm) + (g.halfMm ?? 0) + lengthHalfMm(lengthMm)),
  );
  const byMm = Math.ceil((lack - HAIR) * 10) / 10;
  const last = found.layers.at(-1)!;
  if (!(byMm > 0)) return undefined;
  const edits = ownHoles(last.holes).flatMap((hole) => deeper(hole, byMm, last.piece.part) ?? []);
  const [first] = ownHoles(last.holes);
  if (edits.length === 0 || !first?.threadDepth) return undefined;
  const title = `Thread ${last.piece.name}.${first.name} ${context.length(first.threadDepth.mm + byMm)} deep`;
  const part: Mend = { title, safe: false, job: [], parts: [{ piece: last.piece, edits }] };
  if (joint.screw.lengthMm === undefined || Math.abs(joint.screw.lengthMm - lengthMm) < HAIR) return part;
  const other = withLength(joint, found, lengthMm, context);
  return joined(`${other?.title}, and thread${title.slice('Thread'.length)}`, other, part);
}

/** Thread and hole by so much. A thread that follows from the hole goes with it. */
function deeper(
  { threadDepth, depth }: Hole,
  byMm: number,
  part: Parameters<typeof setLength>[2],
): readonly SpanEdit[] | undefined {
  const hole = depth.length && setLength(depth.length, depth.length.mm + byMm, part);
  const thread = threadDepth && setLength(threadDepth, threadDepth.mm + byMm, part);
  if (depth.through) return thread && [thread];
  return hole && [hole, ...(thread ? [thread] : [])];
}

export function* pinLengthMends(joint: Pinned, context: MendContext): Generator<Mend | undefined> {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const source = scalarAt(at(at(context.tree.root, 'joints'), joint.name), 'pin')?.source;
  const { lengthMm } = joint.pin;
  if (!found || source === undefined || lengthMm === undefined) return;
  const columns = found.layers.map(({ piece, holes }) => columnOf(holes[0]!, piece));
  const allMm = columns.reduce((sum, c) => sum + (c ? c.bottomMm - c.topMm : 0), 0);
  const near = PIN_LENGTHS_MM.toSorted((a, b) => Math.abs(a - lengthMm) - Math.abs(b - lengthMm));
  const fits = near.filter((mm) => mm <= allMm + HAIR);
  for (const mm of [...fits.slice(0, 2), ...near.slice(0, 1)]) {
    yield inJob(context, joint, ['pin', pinWritten(source, mm)], {
      title: `Use ${pinText(joint.pin, mm)}`,
      safe: true,
    });
  }
}
