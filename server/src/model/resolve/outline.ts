/** Outlines in a face's plane: rectangles, circles and paths with rounded or bevelled corners and arcs. */

import {
  at,
  entry,
  type ListNode,
  type MapEntry,
  type MapNode,
  mapAt,
  type Span,
  type TextNode,
} from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import { FACE_AXIS, FACE_PLANE, type Face, type Length, type PathCorner, type Place, type Shape } from '../base';
import type { Head } from './base';
import type { Evaluation } from './evaluation';
import { checkPath } from './path-check';
import { MOST, positionOf } from './places';
import { replace } from './problem';

/** A value that nobody wrote. */
export function unwritten(mm: number, span: Span, from: string): Length {
  return { mm, text: String(Number(mm.toFixed(4))), span, from };
}

/** The shape that `size`, `diameter` or `path` of this map give; exactly one of them is there. */
export function shapeOf(work: Evaluation, map: MapNode, face: Face, whole: Span): Shape | undefined {
  const size = mapAt(map, 'size');
  if (size) return rectangle(work, map, size, face, whole);
  for (const key of ['corner-radius', 'rotate'] as const) {
    const odd = entry(map, key);
    if (odd)
      work.remark(`\`${key}\` belongs to an outline with a \`size\`; here it means nothing. Delete it.`, odd.key.span);
  }
  if (at(map, 'diameter')) {
    const diameter = work.length(map, 'diameter');
    return diameter && { type: 'circle', diameter, span: diameter.span };
  }
  const path = at(map, 'path');
  return path?.type === 'list' ? pathShape(work, path, face) : undefined;
}

/** A closed path; undefined, its problems told, where its corners make no outline. */
export function pathShape(work: Evaluation, path: ListNode, face: Face): Shape | undefined {
  const corners = cornersOf(work, path, face, true);
  return corners && { type: 'path', corners, span: path.span };
}

function rectangle(work: Evaluation, map: MapNode, size: MapNode, face: Face, whole: Span): Shape | undefined {
  const [first, second] = FACE_PLANE[face];
  const normal = FACE_AXIS[face].axis;
  const deep = entry(size, normal);
  if (deep)
    return work.fail(
      `A size on ${face} is given in ${first} and ${second}; ${normal} is its \`depth\`.`,
      deep.key.span,
      otherAxis(size, deep, [first, second]),
    );
  for (const axis of [first, second]) {
    if (!at(size, axis))
      work.fail(`The size on ${face} needs \`${axis}\` too. Write it like \`${axis}: 20\`.`, size.span);
  }
  const u = work.length(size, first);
  const v = work.length(size, second);
  const cornerRadius = at(map, 'corner-radius')
    ? work.length(map, 'corner-radius', 'from-zero')
    : unwritten(0, whole, 'no `corner-radius` is given: square corners');
  const rotate = at(map, 'rotate') ? work.angle(map, 'rotate', -360.001, 360.001) : { deg: 0 };
  if (!u || !v || !cornerRadius || !rotate) return undefined;
  const most = Math.min(u.mm, v.mm) / 2;
  if (cornerRadius.mm > most * (1 + ROUNDING)) {
    const message = `\`corner-radius\` ${cornerRadius.text} is more than half the shorter side. Make it \`${number(most / work.doc.unitMm)}\` or less.`;
    return work.fail(message, cornerRadius.span);
  }
  return { type: 'rectangle', u, v, cornerRadius, rotateDeg: rotate.deg, span: size.span };
}

/** The face was changed, and the size left as it was: the axis that is missing is meant. */
function otherAxis(size: MapNode, { key }: MapEntry, axes: readonly string[]) {
  const [open, more] = axes.filter((axis) => !at(size, axis));
  return open && !more ? { fixes: [replace(key.span, open)] } : {};
}

/** Corners of a path in the face's plane. A closed one has three, or two with an arc; an open one two. */
export function cornersOf(work: Evaluation, path: ListNode, face: Face, closed: boolean): PathCorner[] | undefined {
  const was = work.broken;
  work.broken = false;
  const items = path.items.slice(0, MOST).map((item) => cornerOf(work, item, face));
  const failed = work.broken;
  work.broken ||= was;
  if (failed) return undefined;
  if (path.items.length > MOST) {
    return work.fail(
      `A path has at most ${MOST.toLocaleString('en')} corners; this has ${path.items.length}.`,
      path.span,
    );
  }
  const corners = items as PathCorner[];
  const curved = corners.some((c) => c.arc);
  const least = closed && !curved ? 3 : 2;
  if (corners.length < least) {
    const kind = closed ? 'A closed path' : 'A centre line';
    return work.fail(
      `${kind} needs at least ${least} corners; this has ${corners.length}. Add corners like \`{ x: 40, y: 0 }\`.`,
      path.span,
    );
  }
  return checkPath(work, corners, closed) ? corners : undefined;
}

function cornerOf(work: Evaluation, item: TextNode, face: Face): PathCorner | undefined {
  const map = item as MapNode;
  const place = positionOf(work, map, face);
  const round = work.length(map, 'round', 'from-zero');
  const bevel = work.length(map, 'bevel', 'from-zero');
  if (round && bevel)
    return work.fail('A corner is either rounded or bevelled. Keep one of them.', entry(map, 'bevel')!.key.span);
  const through = mapAt(map, 'arc');
  const arc = through && positionOf(work, through, face);
  if (!place || (through && !arc)) return undefined;
  return {
    u: place.u,
    v: place.v,
    ...(round && round.mm > 0 && { round }),
    ...(bevel && bevel.mm > 0 && { bevel }),
    ...(arc && { arc }),
    span: map.span,
  };
}

/** A place as seen from another, mm. */
export function relativeTo(place: Place, to: Place): Place {
  return { u: place.u - to.u, v: place.v - to.v, span: place.span };
}

function number(value: number): string {
  return String(Number(value.toFixed(4)));
}

export function floorRadiusOf(work: Evaluation, map: MapNode, head: Head): Length | undefined {
  if (!at(map, 'floor-radius')) return unwritten(0, head.span, 'no `floor-radius` is given: a sharp floor');
  return work.length(map, 'floor-radius', 'from-zero');
}
