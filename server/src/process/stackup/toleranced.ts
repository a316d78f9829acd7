/** Every dimension of a part that says where something is and carries a tolerance of its own. */
import { type Axis, FACE_AXIS, FACE_PLANE, type Feature, type Length, type Part } from '../../model/model';
import { at, type TextTree } from '../../text/tree';
import { coordinateOf, HIGH, LOW, placeNode, writtenLimits } from './drawn';
import type { Toleranced } from './types';

/** In text order: the body, features, then distances. Classes whose limits are not known are left out. */
export function* tolerancedOf(part: Part, tree: TextTree): Generator<Toleranced> {
  yield* ofBody(part);
  for (const feature of part.features) {
    yield* ofPlace(feature, part, tree);
    yield* ofPitch(feature, part, tree);
    yield* ofDepth(feature);
  }
  for (const { characteristic, axis, of, value } of part.tolerances) {
    const [a, b] = of;
    if (characteristic !== 'distance' || !axis || !a || !b || of.length !== 2 || a.name === b.name) continue;
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
  yield { given, axis, ends, nominalMm: mm, allowedMm: (upperMm - lowerMm) / 2, text, span };
}

function* ofBody({ body }: Part): Generator<Toleranced> {
  if (body?.form === 'box') {
    for (const axis of ['x', 'y', 'z'] as const) yield* made('body', axis, [LOW[axis], HIGH[axis]], body[axis]);
  } else if (body) yield* made('body', body.axis, [LOW[body.axis], HIGH[body.axis]], body.length);
}

/** `at: { left: 20 ±0.02 }`: the tolerance is in the text only. */
function* ofPlace(feature: Feature, part: Part, tree: TextTree): Generator<Toleranced> {
  const place = placeNode(feature.name, tree);
  if (!place || feature.places.length === 0) return;
  for (const axis of FACE_PLANE[feature.face]) {
    const entry = coordinateOf(place, axis);
    if (entry?.value?.type !== 'scalar') continue;
    const limits = writtenLimits(entry.value.source, part);
    if (!limits) continue;
    const from = entry.key.source === HIGH[axis] ? HIGH[axis] : LOW[axis];
    const n = feature.places.length;
    const first = FACE_PLANE[feature.face][0] === axis;
    const atMm = feature.places.reduce((sum, p) => sum + (first ? p.u : p.v), 0) / n;
    yield {
      given: 'at',
      axis,
      ends: [from, feature.name],
      nominalMm: from === HIGH[axis] ? part.size['xyz'.indexOf(axis)]! - atMm : atMm,
      allowedMm: (limits.upper - limits.lower) / 2,
      text: entry.value.source,
      span: entry.value.span,
    };
  }
}

/** `line: { x: 36 ±0.02, count: 2 }`, `grid: { x: { pitch: 36 ±0.02, … } }`: from one place to the next, both cut by themselves. */
function* ofPitch(feature: Feature, part: Part, tree: TextTree): Generator<Toleranced> {
  if (feature.pattern?.type !== 'line' && feature.pattern?.type !== 'grid') return;
  const pattern = at(at(at(tree.root, 'features'), feature.name), 'pattern');
  for (const axis of FACE_PLANE[feature.face]) {
    const node = at(at(pattern, feature.pattern.type), axis);
    const pitch = feature.pattern.type === 'grid' ? at(node, 'pitch') : node;
    const limits = pitch?.type === 'scalar' ? writtenLimits(pitch.source, part) : undefined;
    if (pitch?.type !== 'scalar' || !limits) continue;
    const first = FACE_PLANE[feature.face][0] === axis;
    const along = [...new Set(feature.places.map((p) => Number((first ? p.u : p.v).toFixed(6))))].sort((a, b) => a - b);
    if (along.length < 2) continue;
    const next = feature.places.findIndex((p) => Math.abs((first ? p.u : p.v) - along[1]!) < 1e-5);
    const one = feature.places.findIndex((p) => Math.abs((first ? p.u : p.v) - along[0]!) < 1e-5);
    yield {
      given: 'pitch',
      axis,
      ends: [`${feature.name}[${one + 1}]`, `${feature.name}[${next + 1}]`],
      nominalMm: along[1]! - along[0]!,
      allowedMm: (limits.upper - limits.lower) / 2,
      text: pitch.source,
      span: pitch.span,
    };
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
