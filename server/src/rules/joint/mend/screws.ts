/** What would do where a hole, a thread or a recess does not belong to the screw: the other hole's size, or another screw. */
import type { Screwed } from '../../../model/joint-model';
import type { Hole } from '../../../model/model';
import type { Layer, Piece } from '../../../process/joints/layers';
import { askedHead, headMeant, lengthsThatDo } from '../../../process/joints/lengths';
import { clearanceHole } from '../../../tables/clearance';
import { lengthWritten, screwText, standardWritten, threadWritten } from '../../../tables/fasteners';
import { counterboreFor, countersinkFor } from '../../../tables/heads';
import { at, scalarAt } from '../../../text/tree';
import { HAIR } from '../../../tolerance';
import { featureNode, nodeAt, setLength } from '../../kit/edits';
import { removeField, renameField, setField, together } from '../../kit/fields';
import type { Finding, SpanEdit } from '../../kit/rule';
import { leastThreadMm } from '../engagement';
import { pattern } from '../pattern';
import { assembled, gripsOf } from '../screwed';
import { inJob, inPart, type Mend, type MendContext, ownHoles } from './mend';

/** The layer and the features that a finding stands at. */
function here(joint: Screwed, finding: Finding, context: MendContext) {
  const found = assembled(joint, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const layer = found?.layers.find((l) =>
    l.holes.some((h) => h.meeting.span === finding.span || isAt(h.meeting.span, finding)),
  );
  if (!found || !layer) return undefined;
  return { found, layer, holes: ownHoles(layer.holes.filter((h) => isAt(h.meeting.span, finding))) };
}

function isAt(span: Finding['span'], { span: at }: Finding): boolean {
  return span.block === at.block && span.from === at.from && span.to === at.to;
}

export function* screwMends(joint: Screwed, finding: Finding, context: MendContext): Generator<Mend | undefined> {
  const at = here(joint, finding, context);
  if (!at) return;
  const { layer, holes } = at;
  const isInto = layer.holes.some((h) => joint.into.includes(h.meeting) && isAt(h.meeting.span, finding));
  const { size, thread } = joint.screw;
  for (const hole of holes) {
    const name = `${layer.piece.name}.${hole.name}`;
    if (isInto)
      yield inPart(
        layer.piece,
        `Thread ${name} ${thread.designation}`,
        asThread(hole, layer.piece, thread.designation),
      );
    else if (hole.slide) {
      const wide = clearanceHole(size)?.diameterMm;
      if (wide !== undefined)
        yield inPart(
          layer.piece,
          `Make ${name} ${context.length(wide)} wide`,
          setLength(hole.diameter, wide, layer.piece.part),
        );
      yield inPart(layer.piece, `Mill ${name} through`, setField(layer.piece.tree, hole.name, 'depth', 'through'));
    } else {
      const cleared = asClearance(hole, layer.piece, size);
      yield inPart(layer.piece, `Make ${name} a clearance hole for ${size}`, cleared);
      yield inPart(layer.piece, `Drill ${name} through`, setField(layer.piece.tree, hole.name, 'depth', 'through'));
      if (cleared && !hole.depth.through)
        yield inPart(
          layer.piece,
          `Make ${name} a clearance hole for ${size}, drilled through`,
          together(cleared, setField(layer.piece.tree, hole.name, 'depth', 'through')),
        );
    }
  }
  yield* otherScrew(joint, at.found.layers, context);
}

/** The screw that the thread is for. */
function* otherScrew(joint: Screwed, layers: readonly Layer[], context: MendContext): Generator<Mend | undefined> {
  const last = layers.at(-1)!;
  const threads = new Set(
    last.holes
      .filter((h) => joint.into.includes(h.meeting))
      .map((h) => (h.hole.thread?.spec?.screw ?? h.hole.thread?.spec)?.designation),
  );
  const [designation] = threads;
  if (threads.size !== 1 || designation === undefined || designation === joint.screw.thread.designation) return;
  const written = threadWritten(joint.screw, designation);
  yield inJob(context, joint, ['screw', written], {
    title: `Use the screw that the thread is for: ${written}`,
    safe: false,
  });
}

/** Whatever its diameter came from, it comes from the screw now. */
function asClearance(hole: Hole, { tree }: Piece, size: string): readonly SpanEdit[] | undefined {
  const { name } = hole;
  if (nodeAt(tree, name, 'clearance')) return setField(tree, name, 'clearance', size);
  const from = ['diameter', 'thread'].filter((key) => nodeAt(tree, name, key));
  if (from.length === 0) return setField(tree, name, 'clearance', size);
  const depth = nodeAt(tree, name, 'thread-depth') ? removeField(tree, name, 'thread-depth') : [];
  const [key, ...more] = from;
  return together(
    renameField(tree, name, key!, 'clearance'),
    setField(tree, name, key!, size),
    depth,
    ...more.map((k) => removeField(tree, name, k)),
  );
}

function asThread(hole: Hole, { tree }: Piece, designation: string): readonly SpanEdit[] | undefined {
  const { name } = hole;
  if (nodeAt(tree, name, 'thread')) return setField(tree, name, 'thread', designation);
  const from = ['diameter', 'clearance'].find((key) => nodeAt(tree, name, key));
  if (from === undefined) return featureNode(tree, name) && setField(tree, name, 'thread', designation);
  return together(renameField(tree, name, from, 'thread'), setField(tree, name, from, designation));
}

/** Room that a head or washer is given beside itself, of its diameter, where no table says. Common practice, no source. */
const ROOM_MM = 0.5;

export function* headMends(joint: Screwed, finding: Finding, context: MendContext): Generator<Mend | undefined> {
  const at = here(joint, finding, context);
  const meant = at && headMeant(joint, at.layer);
  if (!at || !meant) return;
  const { layer, holes } = at;
  const { piece } = layer;
  const { size } = joint.screw;
  const heightMm = meant.heightMm + (joint.washer?.thicknessMm ?? 0);
  const wideMm = Math.max(meant.diameterMm, joint.washer?.outsideMm ?? 0);
  for (const hole of holes) {
    const name = `${piece.name}.${hole.name}`;
    if (meant.type === 'flat') {
      if (countersinkFor(size))
        yield inPart(piece, `Countersink ${name} for ${size}`, setField(piece.tree, hole.name, 'countersink', size));
    } else if (hole.counterbore) yield* recess(hole, piece, { wideMm, heightMm, size }, context);
  }
  for (const other of ['ISO 10642', 'ISO 4762']) yield byStandard(joint, other, layer, context);
}

function* recess(
  { counterbore, name }: Hole,
  { tree, name: of, part }: Piece,
  { wideMm, heightMm, size }: { readonly wideMm: number; readonly heightMm: number; readonly size: string },
  { length, pieces }: MendContext,
): Generator<Mend | undefined> {
  if (!counterbore) return;
  const piece = pieces.get(of)!;
  const title = (mm: number, what: string) => `Make the counterbore of ${of}.${name} ${length(mm)} ${what}`;
  const table = counterboreFor(size);
  const enough = Math.ceil((wideMm + ROOM_MM) * 2 - HAIR) / 2;
  const deep = Number(heightMm.toFixed(2));
  if (table && table.diameterMm >= wideMm && table.depthMm >= heightMm - HAIR)
    yield inPart(piece, `Counterbore ${of}.${name} for ${size}`, setField(tree, name, 'counterbore', size));
  const wider = setLength(counterbore.diameter, enough, part);
  const deeper = counterbore.depth.mm < heightMm - HAIR ? setLength(counterbore.depth, deep, part) : undefined;
  if (counterbore.diameter.mm < wideMm + HAIR) yield inPart(piece, title(enough, 'wide'), wider);
  yield inPart(piece, title(deep, 'deep'), deeper);
  if (wider && deeper && counterbore.diameter.mm < wideMm + HAIR)
    yield inPart(piece, `${title(enough, 'wide')} and ${length(deep)} deep`, [wider, deeper]);
}

/** The screw with the head that the recess is for, as long as it then has to be. */
function byStandard(joint: Screwed, standard: string, first: Layer, context: MendContext): Mend | undefined {
  if (joint.screw.standard === standard) return undefined;
  const source = scalarAt(at(at(context.tree.root, 'joints'), joint.name), 'screw')?.source;
  if (source === undefined) return undefined;
  const other: Screwed = { ...joint, screw: { ...joint.screw, standard } };
  const found = assembled(other, context.pieces, context.joints, context.limit(pattern, 'agree'));
  const leastMm = found && leastThreadMm(other, found, context);
  const written = joint.screw.lengthMm;
  const lengths =
    found && leastMm !== undefined ? lengthsThatDo(other, askedHead(first), gripsOf(other, found), leastMm) : [];
  const mm = written === undefined || lengths.includes(written) ? written : (lengths[0] ?? written);
  const named = standardWritten(source, joint.screw, standard);
  const text = mm === undefined ? named : (lengthWritten(named, other.screw, mm) ?? named);
  return inJob(context, joint, ['screw', text], {
    title: `Use ${screwText(other.screw, askedHead(first), mm)}`,
    safe: false,
  });
}
