/** Positions, patterns and depths of a feature, in the two axes of its face's plane. */

import { at, entry, type MapNode, mapAt, type ScalarNode, type Span, scalarAt } from '../../text/tree';
import { DIGITS } from '../../tolerance';
import {
  type Axis,
  type Coordinate,
  type Depth,
  FACE_AXIS,
  FACE_PLANE,
  FACES,
  type Face,
  type Length,
  type Named,
  type Pattern,
  type Place,
} from '../base';
import { type Evaluation, itemsOf } from './evaluation';
import { code, listed, replace } from './problem';

/** Members of one pattern, corners of one path: more is a slip of the pen. */
export const MOST = 500;

const FACES_OF: Readonly<Record<Axis, readonly [Face, Face]>> = {
  x: ['left', 'right'],
  y: ['front', 'back'],
  z: ['bottom', 'top'],
};

/** A position on a face: each of the plane's two axes by its own name, or by the distance from a face. */
export function positionOf(work: Evaluation, node: MapNode, face: Face): Place | undefined {
  const [first, second] = FACE_PLANE[face];
  const normal = FACE_AXIS[face].axis;
  for (const key of [normal, ...FACES_OF[normal]]) {
    const wrong = entry(node, key);
    if (!wrong) continue;
    const message = `A place on ${face} is given in ${first} and ${second}; \`${key}\` runs along its depth. Delete it, or write \`${first}\` or \`${second}\`.`;
    const open = [first, second].filter((axis) => ![axis, ...FACES_OF[axis]].some((k) => at(node, k)));
    const out = { title: `Delete \`${key}\``, edits: [], without: [[node, wrong] as const] };
    // The face was changed, and its place left as it was: the other axis is meant.
    const other = open.length === 1 && key === normal ? replace(wrong.key.span, open[0]!) : undefined;
    const fixes = open.length === 0 ? [out] : other ? [other] : [];
    return work.fail(message, wrong.key.span, fixes.length > 0 ? { fixes } : {});
  }
  const u = coordinate(work, node, first, face);
  const v = coordinate(work, node, second, face);
  return u && v && { u: u.mm, v: v.mm, written: [u.written, v.written], span: node.span };
}

interface Placed {
  /** Along the axis, from the part's origin. */
  readonly mm: number;
  readonly written: Coordinate;
}

function coordinate(work: Evaluation, node: MapNode, axis: Axis, face: Face): Placed | undefined {
  const [low, high] = FACES_OF[axis];
  const given = ([axis, low, high] as const).filter((key) => at(node, key));
  if (given.length === 0) {
    const ways = listed(code([axis, low, high]));
    return work.fail(
      `This place on ${face} needs ${ways}: where it is along ${axis}. Write it like \`${axis}: center\`.`,
      node.span,
    );
  }
  if (given.length > 1) {
    const message = `\`${given[0]}\` and \`${given[1]}\` both say where it is along ${axis}. Keep one of them.`;
    return work.fail(message, entry(node, given[1]!)!.key.span);
  }
  const key = given[0]!;
  const length = work.coordinate(scalarAt(node, key) as ScalarNode, axis);
  if (!length) return undefined;
  const written = { key, keySpan: entry(node, key)!.key.span, length };
  if (key !== high) return { mm: length.mm, written };
  const size = work.sizeOf(axis);
  return size === undefined ? undefined : { mm: size - length.mm, written };
}

interface Placing {
  readonly places: readonly Place[];
  readonly pattern?: Pattern;
}

/**
 * The places of a feature. `origin` is where it is when nothing is said (features drawn in part axes); without it, a
 * missing `at` is a fault, told at `whole`.
 */
export function placesOf(work: Evaluation, map: MapNode, face: Face, whole: Span, origin?: Span): Placing | undefined {
  const pattern = mapAt(map, 'pattern');
  const written = mapAt(map, 'at');
  const each = pattern && at(pattern, 'places');
  if (each) {
    if (written)
      work.remark(
        '`at` means nothing beside `places`, which say where each one is. Delete `at`.',
        entry(map, 'at')!.key.span,
      );
    const items = itemsOf(each);
    if (items.length === 0)
      return work.fail('`places` is empty. Write at least one place, like `{ x: 10, y: 10 }`.', each.span);
    if (items.length > MOST) return tooMany(work, items.length, each.span);
    const places = items.map((item) => positionOf(work, item as MapNode, face));
    return work.broken ? undefined : { places: places as Place[], pattern: { type: 'places', span: pattern.span } };
  }
  const [first, second] = FACE_PLANE[face];
  if (!written && !origin) {
    const message = `This feature needs \`at\`: where it is on ${face}. Write it like \`at: { ${first}: center, ${second}: center }\`.`;
    return work.fail(message, whole);
  }
  const centre: Place | undefined = written ? positionOf(work, written, face) : { u: 0, v: 0, span: origin! };
  if (!centre) {
    // What is wrong in the pattern is told in the same breath.
    if (pattern) offsetsOf(work, pattern, face);
    return undefined;
  }
  if (!pattern) return { places: [centre] };
  const found = offsetsOf(work, pattern, face);
  if (!found) return undefined;
  const places = found.offsets.map(([du, dv]) => ({ ...centre, u: centre.u + du, v: centre.v + dv }));
  const { type, pitch } = found;
  return { places, pattern: { type, ...(pitch && { pitch }), span: pattern.span } };
}

interface Offsets {
  readonly type: Pattern['type'];
  readonly pitch?: Pattern['pitch'];
  readonly offsets: readonly (readonly [number, number])[];
}

function offsetsOf(work: Evaluation, pattern: MapNode, face: Face): Offsets | undefined {
  const line = mapAt(pattern, 'line');
  if (line) return lineOf(work, line, face);
  const grid = mapAt(pattern, 'grid');
  if (grid) return gridOf(work, grid, face);
  const circle = mapAt(pattern, 'bolt-circle');
  return circle && boltCircleOf(work, circle);
}

function lineOf(work: Evaluation, line: MapNode, face: Face): Offsets | undefined {
  if (offPlane(work, line, face)) return undefined;
  const axis = FACE_PLANE[face].find((a) => at(line, a));
  const pitch = axis && work.length(line, axis);
  const count = work.count(line, 'count', MOST);
  if (!pitch || count === undefined) return undefined;
  const along = steps(pitch.mm, count);
  return {
    type: 'line',
    pitch: { [axis]: pitch },
    offsets: along.map((d) => (axis === FACE_PLANE[face][0] ? [d, 0] : [0, d])),
  };
}

function gridOf(work: Evaluation, grid: MapNode, face: Face): Offsets | undefined {
  if (offPlane(work, grid, face)) return undefined;
  const pitches: Partial<Record<Axis, Length>> = {};
  const [us, vs] = FACE_PLANE[face].map((axis) => {
    const row = mapAt(grid, axis);
    if (!row) return [0];
    const pitch = work.length(row, 'pitch');
    const count = work.count(row, 'count', MOST);
    if (pitch) pitches[axis] = pitch;
    return pitch && count !== undefined ? steps(pitch.mm, count) : [];
  }) as [number[], number[]];
  if (work.broken) return undefined;
  if (grid.entries.length === 0)
    return work.fail(
      'A grid needs a pitch and a count along an axis. Write them like `{ pitch: { x: 20 }, count: { x: 3 } }`.',
      grid.span,
    );
  if (us.length * vs.length > MOST) return tooMany(work, us.length * vs.length, grid.span);
  return { type: 'grid', pitch: pitches, offsets: vs.flatMap((v) => us.map((u) => [u, v] as const)) };
}

function boltCircleOf(work: Evaluation, circle: MapNode): Offsets | undefined {
  const diameter = work.length(circle, 'diameter');
  const count = work.count(circle, 'count', MOST);
  const start = at(circle, 'start') ? work.angle(circle, 'start', -360.001, 360.001) : { deg: 0 };
  if (!diameter || count === undefined || !start) return undefined;
  const offsets = Array.from({ length: count }, (_, i) => {
    const turn = ((start.deg + (360 * i) / count) * Math.PI) / 180;
    return [clean((diameter.mm / 2) * Math.cos(turn)), clean((diameter.mm / 2) * Math.sin(turn))] as const;
  });
  return { type: 'bolt-circle', offsets };
}

function offPlane(work: Evaluation, map: MapNode, face: Face): boolean {
  const normal = FACE_AXIS[face].axis;
  const wrong = entry(map, normal);
  if (!wrong) return false;
  const [first, second] = FACE_PLANE[face];
  work.fail(
    `A pattern on ${face} runs along ${first} or ${second}; ${normal} is its depth. Write \`${first}\` or \`${second}\`.`,
    wrong.key.span,
  );
  return true;
}

function tooMany(work: Evaluation, count: number, span: Span): undefined {
  return work.fail(
    `A pattern has at most ${MOST.toLocaleString('en')} members; this has ${count.toLocaleString('en')}.`,
    span,
  );
}

/** `count` places `pitch` apart about 0, from the least up. */
function steps(pitch: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * pitch);
}

/** Quarter turns land on the axes, not 1e-16 beside them. */
function clean(value: number): number {
  return Math.abs(value) < DIGITS ? 0 : value;
}

/**
 * `depth`: a length, or all that is left of the body below where the feature starts. Read even where that is not known,
 * for what may be wrong in it.
 */
export function depthOf(
  work: Evaluation,
  map: MapNode,
  start: { readonly face: Face; readonly startMm: number } | undefined,
): Depth | undefined {
  const node = scalarAt(map, 'depth');
  if (!node) return undefined;
  if (node.value !== 'through') {
    const length = work.lengthOf(node, 'depth');
    return length && { through: false, mm: length.mm, length, span: node.span };
  }
  if (!start) return undefined;
  const { face, startMm } = start;
  const size = work.sizeOf(FACE_AXIS[face].axis);
  if (size === undefined) return undefined;
  if (size - startMm <= 0)
    return work.fail(
      'The floor it starts on is past the body’s far side: nothing is left below. Name another feature in `from`.',
      node.span,
    );
  return { through: true, mm: size - startMm, span: node.span };
}

export function faceOf(node: ScalarNode | undefined): Face | undefined {
  return FACES.find((f) => f === node?.value);
}

export function faceNamed(node: unknown): Named & { readonly name: Face } {
  const scalar = node as ScalarNode;
  return { name: scalar.value as Face, span: scalar.span };
}

/** Tells a side that is none of the face. */
export function beside(work: Evaluation, side: Face, face: Face, span: ScalarNode['span']): void {
  if (FACE_AXIS[side].axis !== FACE_AXIS[face].axis) return;
  const sides = Object.entries(FACE_AXIS).filter(([, a]) => a.axis !== FACE_AXIS[face].axis);
  work.fail(`${side} is not a side of ${face}. Write ${listed(code(sides.map(([f]) => f)))}.`, span);
}
