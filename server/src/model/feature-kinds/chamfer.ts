/** Outside edges broken at an angle. */
import { at, type MapNode } from '../../text/tree';
import type { Angle, FeatureBase, Length } from '../base';
import type { Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { angle, face, length, map, optional } from '../schema/common';
import { type EdgeChoice, edgeBase, edges, rimsOf } from './edges';
import { kind, what } from './fields';
import type { FeatureKindHome } from './kind';

export interface Chamfer extends FeatureBase {
  readonly kind: 'chamfer';
  readonly edges: readonly EdgeChoice[];
  readonly size: Length;
  /** Between the chamfer and `face`: 45 unless told. */
  readonly angle: Angle;
}

const schema = map(
  {
    kind: kind('chamfer', 'Outside edges broken at an angle.'),
    face: optional(
      face('The face the angle and size are measured on, where an edge has two.', {
        fallback: 'the first face named',
      }),
    ),
    edges,
    size: length('Width of the chamfer, measured on the face.', { example: '0.5' }),
    angle: optional(angle('Between the chamfer and the face.', { example: '45', fallback: '45' })),
    ...what,
  },
  'Outside edges broken at an angle.',
);

function resolve(work: Evaluation, head: Head, map: MapNode): Chamfer | undefined {
  const edge = edgeBase(work, head, map);
  const size = work.length(map, 'size');
  const angle = at(map, 'angle')
    ? work.angle(map, 'angle', 0, 90)
    : ({ deg: 45, text: '45', span: head.span, from: 'the usual chamfer' } as const);
  return edge && size && angle && { ...edge, kind: 'chamfer', size, angle };
}

export const chamfer: FeatureKindHome<Chamfer, 'edge'> = {
  form: 'edge',
  schema,
  resolve,
  plural: 'chamfers',
  snippets: [['chamfer', 'edges broken flat', ['kind: chamfer', 'edges: [${2:top}]', 'size: ${3:0.5}']]],
  stands: () => ({ rim: false }),
  sizes: ({ size }) => [['size', size, 'neither', 'form']],
  across: () => [],
  shapes: () => [],
  paths: () => [],
  needs: ({ edges }) => rimsOf(edges),
};
