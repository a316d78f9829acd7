/** What is cut along the body's edges: steps, inclines, chamfers, rounds. */
import { at, entry, type MapNode, type ScalarNode, scalarAt, type TextNode } from '../../../text/tree';
import {
  type Chamfer,
  type EdgeChoice,
  FACE_AXIS,
  type Face,
  type Feature,
  type Incline,
  type Length,
  OPPOSITE,
  type Round,
  type Step,
} from '../../model';
import { finishOf, type Head, startOf, tiltOf } from '../base';
import { faceNamed } from '../body';
import { itemsOf, type Work } from '../evaluation';
import { depthOf, faceOf } from '../places';
import { floorRadiusOf } from './pocket';

export function step(work: Work, head: Head, map: MapNode): Step | undefined {
  const start = startOf(work, map, head);
  const finish = finishOf(work, map);
  const along = itemsOf(at(map, 'along')).map(faceNamed);
  const widths = itemsOf(at(map, 'width')).map((node) => work.lengthOf(node as ScalarNode, 'width'));
  const floorRadius = floorRadiusOf(work, map, head);
  const depth = depthOf(work, map, start);
  if (!start) return undefined;
  const tilt = tiltOf(work, map, start.face);
  for (const side of along) beside(work, side.name, start.face, side.span);
  const [first, second] = along;
  if (along.length < 1 || along.length > 2) {
    work.fail('A step runs along one side, or along two that meet in a corner.', entry(map, 'along')!.key.span);
  } else if (second && (first!.name === second.name || OPPOSITE[first!.name] === second.name)) {
    work.fail(`${first!.name} and ${second.name} do not meet in a corner.`, second.span);
  } else if (widths.length !== 1 && widths.length !== along.length) {
    work.fail('Give one width, or one for each side of `along`.', at(map, 'width')!.span);
  }
  if (work.broken || !depth || !floorRadius) return undefined;
  return {
    ...head,
    ...finish,
    ...start,
    ...tilt,
    kind: 'step',
    places: [{ u: 0, v: 0, span: head.span }],
    along,
    widths: along.map((_, i) => widths[widths.length === 1 ? 0 : i]) as Length[],
    depth,
    floorRadius,
  };
}

export function incline(work: Work, head: Head, map: MapNode): Incline | undefined {
  const start = startOf(work, map, head);
  const finish = finishOf(work, map);
  const along = faceNamed(scalarAt(map, 'along'));
  const angle = work.angle(map, 'angle', 0, 90);
  const width = work.length(map, 'width');
  const depth = work.length(map, 'depth');
  const given = width ?? depth;
  if (!start) return undefined;
  beside(work, along.name, start.face, along.span);
  if (!angle || !given || work.broken) return undefined;
  const slope = Math.tan((angle.deg * Math.PI) / 180);
  return {
    ...head,
    ...finish,
    ...start,
    kind: 'incline',
    places: [{ u: 0, v: 0, span: head.span }],
    along,
    angle,
    widthMm: width ? width.mm : given.mm / slope,
    depthMm: width ? width.mm * slope : given.mm,
    given,
  };
}

function beside(work: Work, side: Face, face: Face, span: ScalarNode['span']): void {
  if (FACE_AXIS[side].axis !== FACE_AXIS[face].axis) return;
  const sides = Object.entries(FACE_AXIS).filter(([, a]) => a.axis !== FACE_AXIS[face].axis);
  work.fail(`${side} is no side of ${face}: its sides are ${sides.map(([f]) => f).join(', ')}.`, span);
}

export function chamfer(work: Work, head: Head, map: MapNode): Chamfer | undefined {
  const edge = edgeBase(work, head, map);
  const size = work.length(map, 'size');
  const angle = at(map, 'angle')
    ? work.angle(map, 'angle', 0, 90)
    : ({ deg: 45, text: '45', span: head.span, from: 'the usual chamfer' } as const);
  return edge && size && angle && { ...edge, kind: 'chamfer', size, angle };
}

export function round(work: Work, head: Head, map: MapNode): Round | undefined {
  const edge = edgeBase(work, head, map);
  const radius = work.length(map, 'radius');
  return edge && radius && { ...edge, kind: 'round', radius };
}

function edgeBase(work: Work, head: Head, map: MapNode) {
  const finish = finishOf(work, map);
  const node = at(map, 'edges')!;
  const choices = edgesOf(work, node);
  const first = choices?.[0];
  if (!choices || !first) return undefined;
  const faceNode = scalarAt(map, 'face');
  const face = faceOf(faceNode);
  if (face && faceNode && !choices.some((c) => facesOf(c.choice, c.face).includes(face))) {
    return work.fail(`None of these edges belongs to ${face}.`, faceNode.span);
  }
  return {
    ...head,
    ...finish,
    face: face ?? first.face,
    faceSpan: faceNode?.span ?? node.span,
    startMm: 0,
    places: [{ u: 0, v: 0, span: node.span }],
    edges: choices.map((c) => c.choice),
  };
}

interface Chosen {
  readonly choice: EdgeChoice;
  readonly face: Face;
}

function facesOf(choice: EdgeChoice, face: Face): readonly Face[] {
  return choice.type === 'edge' ? choice.faces : [face];
}

/** One choice, a pair of faces that meet, or a list of choices. */
function edgesOf(work: Work, node: TextNode): readonly Chosen[] | undefined {
  if (node.type !== 'list') {
    const one = edgeOf(work, node);
    return one && [one];
  }
  if (node.items.length === 0) return work.fail('No edges are named.', node.span);
  const pair = pairOf(node);
  if (pair) return [{ choice: { type: 'edge', faces: pair, span: node.span }, face: pair[0] }];
  const chosen = node.items.map((item) => edgeOf(work, item));
  return work.broken ? undefined : (chosen as Chosen[]);
}

/** Two faces that meet. Two opposite ones are no pair: they are each a face. */
function pairOf(node: TextNode): readonly [Face, Face] | undefined {
  if (node.type !== 'list' || node.items.length !== 2) return undefined;
  const [a, b] = node.items.map((item) => (item.type === 'scalar' ? faceOf(item) : undefined));
  return a && b && a !== b && OPPOSITE[a] !== b ? [a, b] : undefined;
}

function edgeOf(work: Work, node: TextNode): Chosen | undefined {
  if (node.type === 'scalar') {
    const face = faceOf(node)!;
    return { choice: { type: 'face', face, span: node.span }, face };
  }
  if (node.type === 'list') {
    const pair = pairOf(node);
    if (pair) return { choice: { type: 'edge', faces: pair, span: node.span }, face: pair[0] };
    return work.fail('An edge lies between two faces that meet, for example `[top, left]`.', node.span);
  }
  const rim = scalarAt(node, 'rim')!;
  const found = work.feature(rim);
  if (!found) {
    if (work.circle === undefined) return undefined;
    return work.fail('The rim of a feature that itself needs this one: a circle.', rim.span);
  }
  const why = noRim(found.feature);
  if (why) return work.fail(why, rim.span);
  return { choice: { type: 'rim', feature: found.named, span: node.span }, face: found.feature.face };
}

function noRim(f: Feature): string | undefined {
  if (f.kind === 'hole' || f.kind === 'pocket' || f.kind === 'slot' || f.kind === 'contour') return undefined;
  if (f.kind === 'groove' && !f.in) return undefined;
  return `\`${f.name}\` is a ${f.kind} and has no rim. Holes, pockets, slots, contours and ring grooves have one; for others name the two faces of the edge.`;
}
