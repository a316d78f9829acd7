/** Holes: drilled, threaded, counterbored, countersunk. */
import { findThread, nearestThread, type Thread } from '../../../tables/threads';
import { writeLength } from '../../../text/format';
import { at, type MapNode, scalarAt } from '../../../text/tree';
import type { Angle, Depth, Hole, Length } from '../../model';
import { baseOf, type Head } from '../base';
import { textOf, type Work } from '../evaluation';
import { unwritten } from '../outline';
import { depthOf } from '../places';
import { quote, replace } from '../problem';
import { clearanceIn, counterboreOf, countersinkOf } from './hole-screws';

/** A plug tap's chamfer: so many threads at its tip are not full. Common practice, no source. */
const PLUG_CHAMFER_PITCHES = 4;
const POINT_DEG = 118;

export function hole(work: Work, head: Head, map: MapNode): Hole | undefined {
  const base = baseOf(work, head, map);
  const thread = threadOf(work, map);
  const given = at(map, 'diameter') !== undefined;
  const clearance = given || thread ? undefined : clearanceIn(work, map);
  const diameter = given ? work.length(map, 'diameter') : (tapDrill(work, thread) ?? clearance?.hole);
  judgeSizes(work, map, head);
  const point: Angle | undefined = at(map, 'point')
    ? work.angle(map, 'point', 0, 180)
    : { deg: POINT_DEG, text: String(POINT_DEG), span: head.span, from: 'the usual drill point' };
  const depth = depthOf(work, map, base);
  const written = work.length(map, 'thread-depth');
  if (written && !thread) work.remark('`thread-depth` means nothing without a `thread`.', written.span);
  const counterbore = counterboreOf(work, map, diameter);
  const countersink = countersinkOf(work, map, head, diameter);
  if (!base || !diameter || !point || !depth || work.broken) return undefined;
  const bottom = scalarAt(map, 'bottom');
  const threadDepth = thread && (written ?? depthOfThread(thread.spec, depth, head));
  return {
    ...base,
    kind: 'hole',
    diameter,
    diameterGiven: given,
    ...(thread && { thread }),
    ...(clearance && { clearance: clearance.clearance }),
    depth,
    bottom: bottom?.value === 'flat' ? 'flat' : 'cone',
    ...(bottom && { bottomSpan: bottom.span }),
    point,
    ...(threadDepth && { threadDepth }),
    ...(counterbore && { counterbore }),
    ...(countersink && { countersink }),
  };
}

/** A hole's width is said once: by its diameter, its thread, or the screw it clears. */
function judgeSizes(work: Work, map: MapNode, head: Head): void {
  const said = (['diameter', 'thread', 'clearance'] as const).filter((key) => at(map, key));
  const clearance = scalarAt(map, 'clearance');
  if (clearance && said.length > 1) {
    const other = said[0]!;
    const why = other === 'thread' ? 'a hole is tapped, or it lets the screw through' : 'both say how wide the hole is';
    work.remark(`\`clearance\` beside \`${other}\` counts for nothing: ${why}. Leave one of them out.`, clearance.span);
  }
  if (said.length > 0 || scalarAt(map, 'counterbore') || scalarAt(map, 'countersink')) return;
  const recess = at(map, 'counterbore') ?? at(map, 'countersink');
  work.fail(
    'A hole needs `diameter`, `thread` or `clearance`; only a counterbore or countersink that names a screw (`counterbore: M5`) says it too.',
    recess?.span ?? head.span,
  );
}

function threadOf(work: Work, map: MapNode): Hole['thread'] {
  const node = scalarAt(map, 'thread');
  if (!node) return undefined;
  const designation = textOf(node);
  const spec = findThread(designation);
  if (!spec) {
    const like = nearestThread(designation);
    const message = `There is no thread ${quote(designation)} in the tables (ISO 261, ASME B1.1)${like ? `; \`${like.designation}\` is the nearest.` : '. They are written like `M5`, `M8x1`, `10-24 UNC`.'}`;
    work.remark(message, node.span, like ? { fixes: [replace(node.span, like.designation)] } : {}, 'thread/unknown');
    if (!at(map, 'diameter')) work.broken = true;
  }
  return { designation, span: node.span, ...(spec && { spec }) };
}

function tapDrill(work: Work, thread: Hole['thread']): Length | undefined {
  if (!thread?.spec) return undefined;
  const { tapDrillMm, tapDrillName } = thread.spec;
  const named = tapDrillName ? ` (${tapDrillName})` : '';
  const from = `tap drill of ${thread.designation}${named}`;
  return { mm: tapDrillMm, text: writeLength(tapDrillMm, work.doc.units), span: thread.span, from };
}

function depthOfThread(spec: Thread | undefined, depth: Depth, head: Head): Length {
  if (depth.through) return unwritten(depth.mm, head.span, 'no `thread-depth` is given: all of the through hole');
  const full = spec ? depth.mm - PLUG_CHAMFER_PITCHES * spec.pitchMm : 0;
  if (full <= 0) return unwritten(depth.mm, head.span, 'no `thread-depth` is given: the depth of the hole');
  const from = `no \`thread-depth\` is given: as deep as a plug tap cuts full thread, ${PLUG_CHAMFER_PITCHES} pitches short of the bottom`;
  return unwritten(full, head.span, from);
}
