/** Outside edges rounded over. */
import type { MapNode } from '../../text/tree';
import type { FeatureBase, Length } from '../base';
import type { Head } from '../resolve/base';
import type { Evaluation } from '../resolve/evaluation';
import { face, length, map, optional } from '../schema/common';
import { type EdgeChoice, edgeBase, edges, rimsOf } from './edges';
import { kind, what } from './fields';
import type { FeatureKindHome } from './kind';

export interface EdgeRound extends FeatureBase {
  readonly kind: 'edge-round';
  readonly edges: readonly EdgeChoice[];
  readonly radius: Length;
}

const schema = map(
  {
    kind: kind('edge-round', 'Outside edges rounded over.'),
    face: optional(face('The face it is cut from, where an edge has two.', { fallback: 'the first face named' })),
    edges,
    radius: length('Radius of the rounding.', { example: '2' }),
    ...what,
  },
  'Outside edges rounded over: needs a form cutter, or many passes.',
);

function resolve(work: Evaluation, head: Head, map: MapNode): EdgeRound | undefined {
  const edge = edgeBase(work, head, map);
  const radius = work.length(map, 'radius');
  return edge && radius && { ...edge, kind: 'edge-round', radius };
}

export const edgeRound: FeatureKindHome<EdgeRound, 'edge'> = {
  form: 'edge',
  schema,
  resolve,
  plural: 'rounded edges',
  snippets: [['edge-round', 'edges rounded', ['kind: edge-round', 'edges: [${2:top, left}]', 'radius: ${3:2}']]],
  stands: () => ({ rim: false }),
  sizes: ({ radius }) => [['radius', radius, 'neither', 'form']],
  across: () => [],
  shapes: () => [],
  paths: () => [],
  needs: ({ edges }) => rimsOf(edges),
};
