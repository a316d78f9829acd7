/** What every feature has: its name, face, where it starts and where it is. */
import { at, type MapEntry, type MapNode, mapAt, type Span, scalarAt } from '../../text/tree';
import { type Axis, FACE_AXIS, type Face, type FeatureBase, type Named } from '../base';
import { type Evaluation, type Standing, textOf } from './evaluation';
import { faceOf, placesOf } from './places';

/** Name, kind, remarks: known before anything else. */
export function headOf(entry: MapEntry, map: MapNode) {
  const note = scalarAt(map, 'note');
  return {
    name: String(entry.key.value),
    nameSpan: entry.key.span,
    span: entry.span,
    kindSpan: scalarAt(map, 'kind')!.span,
    block: entry.span.block,
    ...(note && { note: textOf(note) }),
  };
}
export type Head = ReturnType<typeof headOf>;

export function finishOf(work: Evaluation, map: MapNode): Pick<FeatureBase, 'finish'> {
  const raUm = work.number(map, 'finish', 0);
  return raUm === undefined ? {} : { finish: { raUm, span: scalarAt(map, 'finish')!.span } };
}

interface Start {
  readonly face: Face;
  readonly faceSpan: Span;
  readonly from?: Named;
  readonly startMm: number;
}

/** The face, and how far below it the feature starts. */
export function startOf(work: Evaluation, map: MapNode, head: Head): Start | undefined {
  const faceNode = scalarAt(map, 'face');
  const face = faceOf(faceNode);
  const fromNode = scalarAt(map, 'from');
  if (!fromNode) {
    if (face) return { face, faceSpan: faceNode!.span, startMm: 0 };
    return work.fail('This feature needs `face`: the face it is cut from. Write it like `face: top`.', head.nameSpan);
  }
  if (fromNode.value === head.name)
    return work.fail('A feature cannot start on its own floor. Name another in `from`, or delete it.', fromNode.span);
  const found = work.feature(fromNode);
  if (!found) {
    if (work.circle === undefined) return undefined;
    const way = work.doc.circle(`features/${work.circle}`);
    return work.fail(
      `\`from\` goes in a circle: ${way}. Delete one \`from\`, so that its feature starts on the face.`,
      fromNode.span,
    );
  }
  const below = found.feature;
  if (face && face !== below.face) {
    const message = `\`${below.name}\` is cut from ${below.face}, this feature from ${face}. Name a feature of its own face in \`from\`, or delete it.`;
    return work.fail(message, fromNode.span);
  }
  const floor = floorOf(found);
  if (typeof floor === 'string') return work.fail(floor, fromNode.span);
  return { face: below.face, faceSpan: faceNode?.span ?? fromNode.span, from: found.named, startMm: floor };
}

/** Depth of a feature's floor below its face, or why it has none. */
function floorOf({ feature: { name, kind, startMm }, stands: { floor } }: Standing): number | string {
  if (!floor) {
    const where = kind === 'groove' ? ' in a hole' : '';
    return `\`${name}\` is ${/^[aeiou]/.test(kind) ? 'an' : 'a'} ${kind}${where}, which has no floor to start on. Name another in \`from\`, or delete it.`;
  }
  if (floor.through)
    return `\`${name}\` goes through, so it has no floor to start on. Name another in \`from\`, or delete it.`;
  return startMm + floor.mm;
}

export function tiltOf(work: Evaluation, map: MapNode, face: Face): Pick<FeatureBase, 'tilt'> {
  const tilt = mapAt(map, 'tilt');
  if (!tilt) return {};
  const about = scalarAt(tilt, 'about')!;
  const axis = about.value as Axis;
  if (axis === FACE_AXIS[face].axis) {
    work.fail(
      `A feature on ${face} cannot be tilted about ${axis}: that only spins it. Use another axis, like \`about: ${axis === 'z' ? 'x' : 'z'}\`.`,
      about.span,
    );
  }
  const angle = work.angle(tilt, 'angle', -90, 90);
  return angle ? { tilt: { about: axis, angle, span: tilt.span } } : {};
}

/**
 * All that a placed feature has in common. `drawn` is the span of an outline drawn in part axes: such a feature needs no
 * `at`.
 */
export function baseOf(
  work: Evaluation,
  head: Head,
  map: MapNode,
  drawn?: Span,
): (FeatureBase & { readonly face: Face }) | undefined {
  const start = startOf(work, map, head);
  const finish = finishOf(work, map);
  if (!start) return undefined;
  const placing = placesOf(work, map, start.face, head.nameSpan, drawn);
  const tilt = tiltOf(work, map, start.face);
  if (!placing) return undefined;
  return { ...head, ...finish, ...start, ...tilt, ...placing };
}

export function drawnSpan(map: MapNode, ...keys: readonly string[]): Span | undefined {
  for (const key of keys) {
    const node = at(map, key);
    if (node) return node.span;
  }
  return undefined;
}
