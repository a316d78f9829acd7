/** Every dimension of a part that says where something is and carries a tolerance of its own. */
import { type Axis, FACE_AXIS, FACE_PLANE, type Feature, type Length, type Part } from '../../model/model';
import { axisOfDistance } from './distance-axis';
import { coordinateOf, HIGH, LOW, middleAlong } from './drawn';
import type { Toleranced } from './types';

/** In text order: the body, features, then distances. Classes whose limits are not known are left out. */
export function* tolerancedOf(part: Part): Generator<Toleranced> {
  yield* ofBody(part);
  for (const feature of part.features) {
    yield* ofPlace(feature, part);
    yield* ofPitch(feature);
    yield* ofDepth(feature);
  }
  for (const tolerance of part.tolerances) {
    const { characteristic, of, value } = tolerance;
    const [a, b] = of;
    const axis = characteristic === 'distance' ? axisOfDistance(tolerance, part) : undefined;
    if (!axis || !a || !b || of.length !== 2 || a.name === b.name) continue;
    yield* made('distance', axis, [a.name, b.name], value);
  }
}

function* made(
  given: Toleranced['given'],
  axis: Axis,
  ends: Toleranced['ends'],
  { mm, tolerance, text, span }: Length,
): Generator<Toleranced> {
  const { upperMm, lowerMm } = tolerance ?? {};
  if (upperMm === undefined || lowerMm === undefined) return;
  const limitsMm = [mm + lowerMm, mm + upperMm] as const;
  yield { given, axis, ends, nominalMm: mm, limitsMm, allowedMm: (upperMm - lowerMm) / 2, text, span };
}

function* ofBody({ body }: Part): Generator<Toleranced> {
  if (body?.form === 'box') {
    for (const axis of ['x', 'y', 'z'] as const) yield* made('body', axis, [LOW[axis], HIGH[axis]], body[axis]);
  } else if (body) yield* made('body', body.axis, [LOW[body.axis], HIGH[body.axis]], body.length);
}

/** `at: { left: 20 ±0.02 }`. */
function* ofPlace(feature: Feature, part: Part): Generator<Toleranced> {
  for (const axis of FACE_PLANE[feature.face]) {
    const written = coordinateOf(feature, axis);
    if (!written) continue;
    const from = written.key === HIGH[axis] ? HIGH[axis] : LOW[axis];
    const atMm = middleAlong(feature, axis);
    const mm = from === HIGH[axis] ? part.size['xyz'.indexOf(axis)]! - atMm : atMm;
    yield* made('at', axis, [from, feature.name], { ...written.length, mm });
  }
}

/** `line: { x: 36 ±0.02, count: 2 }`, `grid: { x: { pitch: 36 ±0.02, … } }`: from one place to the next, both cut by themselves. */
function* ofPitch({ name, face, places, pattern }: Feature): Generator<Toleranced> {
  for (const axis of FACE_PLANE[face]) {
    const pitch = pattern?.pitch?.[axis];
    if (!pitch) continue;
    const of = FACE_PLANE[face][0] === axis ? 'u' : 'v';
    const [first, second] = [...new Set(places.map((p) => Number(p[of].toFixed(6))))].sort((a, b) => a - b);
    if (first === undefined || second === undefined) continue;
    const memberAt = (mm: number) => `${name}[${places.findIndex((p) => Math.abs(p[of] - mm) < 1e-5) + 1}]`;
    yield* made('pitch', axis, [memberAt(first), memberAt(second)], { ...pitch, mm: second - first });
  }
}

/** A floor below what it starts on; a step's wall from the side that it runs along. */
function* ofDepth(feature: Feature): Generator<Toleranced> {
  if (feature.tilt && feature.tilt.angle.deg !== 0) return;
  const { axis } = FACE_AXIS[feature.face];
  const length = 'depth' in feature ? feature.depth?.length : undefined;
  if (length) yield* made('depth', axis, [feature.from?.name ?? feature.face, feature.name], length);
  if (feature.kind !== 'step') return;
  for (const [i, along] of feature.along.entries()) {
    const width = feature.widths[i];
    if (width) yield* made('width', FACE_AXIS[along.name].axis, [along.name, feature.name], width);
  }
}
