/** How long the edges are that a chamfer or round breaks. */
import { lengthOf } from '../../geometry/2d/edge';
import { regionEdges } from '../../geometry/2d/moments';
import type { Solid, Void } from '../../geometry/types';
import type { Feature } from '../../model/model';

/** Along a sweep, or round an outline, mm. */
export function edgeWayOf(v: Void): number {
  // A chamfer along an edge is a triangle swept along it; round a rim it is a taper whose outline is the rim.
  if (v.role === 'edge' && v.profile.type === 'straight') return v.to - v.from;
  return regionEdges(v.region).reduce((way, e) => way + lengthOf(e), 0);
}

/** All of a feature's edges together. */
export function wayOf(feature: Feature, solid: Solid): number {
  return solid.voidsOf(feature.name).reduce((sum, v) => sum + edgeWayOf(v), 0);
}
