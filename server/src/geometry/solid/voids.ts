/**
 * The volumes a feature removes. Kept by feature object: an unchanged feature in an unchanged setting answers the very
 * same voids, so everything worked out from them is kept too.
 */
import { memo } from '../../memo';
import { type ByForm, breaksEdges, homeOf, ofForm } from '../../model/feature-kinds';
import type { Feature, Part } from '../../model/model';
import type { Void } from '../types';
import { contourVoids } from './voids/contours';
import { edgeVoids } from './voids/edges';
import { engravingVoids } from './voids/engraving';
import { edgeMovers } from './voids/face-outline';
import { grooveVoids, holeVoids } from './voids/holes';
import type { Surroundings } from './voids/make';
import { pocketVoids } from './voids/pockets';
import { slotVoids } from './voids/slots';
import { slopeVoids, stepVoids } from './voids/steps';

/** The voids of one feature, in part axes. None where the body is unknown or the feature has nothing to remove. */
export function voidsOfFeature(feature: Feature, part: Part): readonly Void[] {
  return voidsWithin(feature, part, new Set());
}

/** An edge on the edge of itself asks in a circle; what an edge leaves has no rim, so that it is the same whoever asks. */
function voidsWithin(feature: Feature, part: Part, asking: ReadonlySet<Feature>): readonly Void[] {
  return part.body && !asking.has(feature) ? madeVoids(feature, part, asking) : [];
}

const madeVoids = memo(
  (feature: Feature, part: Part, asking: ReadonlySet<Feature>): readonly Void[] => {
    const deeper = new Set(asking).add(feature);
    return ofForm(VOIDS, feature, { part, size: part.size, voidsOf: (other) => voidsWithin(other, part, deeper) });
  },
  { by: (feature, part) => [part.body?.form, part.size, dependencies(feature, part)] },
);

/** Other features that a feature's voids are shaped by. */
function dependencies(feature: Feature, part: Part): readonly unknown[] {
  const needs = homeOf(feature).needs(feature);
  const others = needs.map((n) => part.featureByName.get(n.name));
  // A rim's own surroundings: the hole that a groove is in.
  const behind = others.flatMap((o) => (o && !breaksEdges(o) ? dependencies(o, part) : []));
  const movers = breaksEdges(feature) && feature.edges.some((e) => e.type !== 'rim') ? edgeMovers(part) : [];
  return [...others, ...behind, ...movers];
}

const VOIDS: ByForm<[Surroundings], readonly Void[]> = {
  hole: holeVoids,
  opening: pocketVoids,
  channel: slotVoids,
  shoulder: stepVoids,
  outside: contourVoids,
  edge: edgeVoids,
  ring: grooveVoids,
  letters: engravingVoids,
  slope: slopeVoids,
};
