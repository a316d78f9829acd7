/** Holes: drilled, threaded, counterbored, countersunk. */
import { counterboreFor, countersinkFor, screwSizes } from '../../../reference/heads';
import { findThread, nearestThread, type Thread } from '../../../reference/threads';
import { writeLength } from '../../../text/format';
import { at, type MapNode, mapAt, type ScalarNode, scalarAt } from '../../../text/tree';
import type { Angle, Depth, Hole, Length } from '../../model';
import { baseOf, type Head } from '../base';
import { unwritten } from '../outline';
import { depthOf } from '../places';
import { nearest, quote, replace } from '../problem';
import { textOf, type Work } from '../work';

/** A plug tap's chamfer: so many threads at its tip are not full. Common practice, no source. */
const PLUG_CHAMFER_PITCHES = 4;
const POINT_DEG = 118;

export function hole(work: Work, head: Head, map: MapNode): Hole | undefined {
  const base = baseOf(work, head, map);
  const thread = threadOf(work, map);
  const diameter = at(map, 'diameter') ? work.length(map, 'diameter') : tapDrill(work, thread);
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
    diameterGiven: at(map, 'diameter') !== undefined,
    ...(thread && { thread }),
    depth,
    bottom: bottom?.value === 'flat' ? 'flat' : 'cone',
    ...(bottom && { bottomSpan: bottom.span }),
    point,
    ...(threadDepth && { threadDepth }),
    ...(counterbore && { counterbore }),
    ...(countersink && { countersink }),
  };
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

function counterboreOf(work: Work, map: MapNode, hole: Length | undefined): Hole['counterbore'] {
  const own = mapAt(map, 'counterbore');
  const screw = scalarAt(map, 'counterbore');
  if (screw) {
    const found = counterboreFor(String(screw.value));
    if (!found) return noScrew(work, screw, 'counterbore', '{ diameter: 10, depth: 5.5 }');
    const from = `counterbore for a ${found.screw} cap screw (${found.source})`;
    const value = (mm: number) => ({ mm, text: writeLength(mm, work.doc.units), span: screw.span, from });
    narrow(work, found.diameterMm, hole, screw, 'counterbore');
    return { diameter: value(found.diameterMm), depth: value(found.depthMm), screw: found.screw, span: screw.span };
  }
  const diameter = work.length(own, 'diameter');
  const depth = work.length(own, 'depth');
  if (!own || !diameter || !depth) return undefined;
  narrow(work, diameter.mm, hole, scalarAt(own, 'diameter')!, 'counterbore');
  return { diameter, depth, span: own.span };
}

function countersinkOf(work: Work, map: MapNode, head: Head, hole: Length | undefined): Hole['countersink'] {
  const own = mapAt(map, 'countersink');
  const screw = scalarAt(map, 'countersink');
  if (screw) {
    const found = countersinkFor(String(screw.value));
    if (!found) return noScrew(work, screw, 'countersink', '{ diameter: 10, angle: 90 }');
    const from = `countersink for a ${found.screw} flat head (${found.source})`;
    narrow(work, found.diameterMm, hole, screw, 'countersink');
    const { units } = work.doc;
    return {
      diameter: { mm: found.diameterMm, text: writeLength(found.diameterMm, units), span: screw.span, from },
      angle: { deg: found.angleDeg, text: String(found.angleDeg), span: screw.span, from },
      screw: found.screw,
      span: screw.span,
    };
  }
  const diameter = work.length(own, 'diameter');
  const angle: Angle | undefined =
    own && at(own, 'angle')
      ? work.angle(own, 'angle', 0, 180)
      : { deg: 90, text: '90', span: head.span, from: 'the usual countersink angle' };
  if (!own || !diameter || !angle) return undefined;
  narrow(work, diameter.mm, hole, scalarAt(own, 'diameter')!, 'countersink');
  return { diameter, angle, span: own.span };
}

function narrow(work: Work, mm: number, hole: Length | undefined, node: ScalarNode, what: string): void {
  if (!hole || mm > hole.mm) return;
  const length = (value: number) => writeLength(value, work.doc.units);
  work.remark(`The ${what} (${length(mm)}) is no wider than the hole (${length(hole.mm)}).`, node.span);
}

function noScrew(work: Work, node: ScalarNode, what: string, own: string): undefined {
  const text = String(node.value);
  const like = /^[\d.]/.test(text) ? undefined : nearest(text, screwSizes());
  const rest = like
    ? `; \`${like}\` is meant, perhaps.`
    : `. Name a screw like \`M5\`, or give the sizes: \`${what}: ${own}\`.`;
  const fixes = like ? { fixes: [replace(node.span, like)] } : {};
  return work.fail(
    `There is no ${what} for ${quote(text)} in the tables${rest}`,
    node.span,
    fixes,
    'form/unknown-name',
  );
}
