/** Which edges a chamfer or round breaks: as written, and as resolved. */
import * as z from 'zod/mini';
import { at, type MapNode, type Span, scalarAt, type TextNode } from '../../text/tree';
import { type Face, type Named, OPPOSITE } from '../base';
import { finishOf, type Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { faceOf } from '../resolve/places';
import { face, list, map, name, noted, optional, words } from '../schema/common';

/** Which edges a chamfer or round breaks. */
export type EdgeChoice =
  | { readonly type: 'face'; readonly face: Face; readonly span: Span }
  | { readonly type: 'edge'; readonly faces: readonly [Face, Face]; readonly span: Span }
  /** `far`: where the feature comes out, on the face opposite its own. */
  | { readonly type: 'rim'; readonly feature: Named; readonly far: boolean; readonly face: Face; readonly span: Span };

const rim = map(
  {
    rim: name('feature', 'The feature whose edge is broken.', { example: 'bearing-seat' }),
    side: optional(
      words(
        { near: 'where it begins', far: 'where it comes out, on the opposite face' },
        'Which end of a through feature. `far` is a back countersink, or a hole’s edge on the other side.',
        { fallback: 'near' },
      ),
    ),
  },
  'The rim of a feature.',
  { example: '{ rim: bearing-seat }' },
);
const aFace = face('All outer edges of this face.');
const edge = noted(z.union([aFace, rim, list(face('A face.'), 'Two faces that meet: the edge between them.')]), {
  description: 'A face, a pair of faces that meet, or a rim.',
  names: 'face',
  example: 'top',
});
export const edges = noted(
  z.union([
    aFace,
    rim,
    list(edge, 'Two faces that meet: the edge between them. Otherwise: several choices, each a face, a pair or a rim.'),
  ]),
  {
    description:
      'Which edges: a face, two faces that meet, `{ rim: FEATURE }`, or a list of these. A face is all its outer edges; two opposite faces are the outer edges of both.',
    names: 'face',
    example: '[top, left]',
  },
);

/** Features whose rims are broken. */
export function rimsOf(choices: readonly EdgeChoice[]): readonly Named[] {
  return choices.flatMap((e) => (e.type === 'rim' ? [e.feature] : []));
}

export function edgeBase(work: Evaluation, head: Head, map: MapNode) {
  const finish = finishOf(work, map);
  const node = at(map, 'edges')!;
  const choices = edgesOf(work, node);
  const first = choices?.[0];
  if (!choices || !first) return undefined;
  const faceNode = scalarAt(map, 'face');
  const face = faceOf(faceNode);
  if (face && faceNode && !choices.some((c) => facesOf(c.choice, c.face).includes(face))) {
    return work.fail(
      `None of these edges belongs to ${face}. Name one that does in \`edges\`, or another \`face\`.`,
      faceNode.span,
    );
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
function edgesOf(work: Evaluation, node: TextNode): readonly Chosen[] | undefined {
  if (node.type !== 'list') {
    const one = edgeOf(work, node);
    return one && [one];
  }
  if (node.items.length === 0) return work.fail('No edges are named. Write them like `[top, left]`.', node.span);
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

function edgeOf(work: Evaluation, node: TextNode): Chosen | undefined {
  if (node.type === 'scalar') {
    const face = faceOf(node)!;
    return { choice: { type: 'face', face, span: node.span }, face };
  }
  if (node.type === 'list') {
    const pair = pairOf(node);
    if (pair) return { choice: { type: 'edge', faces: pair, span: node.span }, face: pair[0] };
    return work.fail(
      'These two faces have no edge between them. Write two faces that meet, like `[top, left]`.',
      node.span,
    );
  }
  const rim = scalarAt(node, 'rim')!;
  const found = work.feature(rim);
  if (!found) {
    if (work.circle === undefined) return undefined;
    return work.fail('This rim belongs to a feature that itself needs this one. Name another feature.', rim.span);
  }
  if (!found.stands.rim) {
    const { name, kind } = found.feature;
    const message = `\`${name}\` is a ${kind} and has no rim. Name the two faces of the edge, like \`[top, left]\`.`;
    return work.fail(message, rim.span);
  }
  const far = scalarAt(node, 'side')?.value === 'far';
  const { face, tilt } = found.feature;
  if (far && (tilt || found.stands.floor?.through !== true)) {
    const why = tilt ? 'is tilted' : 'does not go through';
    return work.fail(`\`${found.named.name}\` ${why}: it has no far edge. Delete \`side: far\`.`, node.span);
  }
  const on = far ? OPPOSITE[face] : face;
  return { choice: { type: 'rim', feature: found.named, far, face: on, span: node.span }, face: on };
}
