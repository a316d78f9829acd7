/** Planes that lean: given by their angle and their width or depth. */
import { type MapNode, scalarAt } from '../../text/tree';
import type { Angle, Face, FeatureBase, Length, Named } from '../base';
import { finishOf, type Head, startOf } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { beside, faceNamed } from '../resolve/places';
import { angle, face, length, map, optional } from '../schema/common';
import { kind, what, where } from './fields';
import type { FeatureKindHome } from './kind';

export interface Slope extends FeatureBase {
  readonly kind: 'slope';
  readonly along: Named & { readonly name: Face };
  /** Between the plane and `face`. */
  readonly angle: Angle;
  /** How far the cut reaches along `face` from the edge, and down the side: each follows from the other by `angle`. */
  readonly widthMm: number;
  readonly depthMm: number;
  /** The one that is written. */
  readonly given: Length;
}

const schema = map(
  {
    kind: kind('slope', 'A plane cut at an angle to the body.'),
    face: where.face,
    from: where.from,
    along: face('The side where it is deepest.', { example: 'front' }),
    angle: angle('Between the cut and the face.', { example: '15' }),
    width: optional(length('How far it reaches along the face, in from the side.', { example: '12' })),
    depth: optional(length('How far it reaches down the side.', { example: '4' })),
    ...what,
  },
  'A sloped face: given by its angle and its width or depth.',
  { one: [['width', 'depth']] },
);

function resolve(work: Evaluation, head: Head, map: MapNode): Slope | undefined {
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
  const rise = Math.tan((angle.deg * Math.PI) / 180);
  return {
    ...head,
    ...finish,
    ...start,
    kind: 'slope',
    places: [{ u: 0, v: 0, span: head.span }],
    along,
    angle,
    widthMm: width ? width.mm : given.mm / rise,
    depthMm: width ? width.mm * rise : given.mm,
    given,
  };
}

export const slope: FeatureKindHome<Slope, 'slope'> = {
  form: 'slope',
  schema,
  resolve,
  plural: 'slopes',
  snippets: [
    [
      'slope',
      'a sloping plane along an edge',
      ['kind: slope', 'face: ${2:top}', 'along: ${3:front}', 'angle: ${4:30}', 'width: ${5:8}'],
    ],
  ],
  stands: () => ({ rim: false }),
  sizes: ({ given }) => [['size', given, 'neither', 'form']],
  across: () => [],
  shapes: () => [],
  paths: () => [],
  needs: () => [],
};
