/** What a screw goes through: a round hole, or a straight slot, which is looked at as a hole as wide as it is, in its middle. */
import { memo } from '../../memo';
import type { Feature, Hole } from '../../model/model';

/** `slide`: half the way along a slot that its screw may take, from its middle. */
export type MetFeature = Hole & { readonly slide?: { readonly u: number; readonly v: number } };

/** Undefined for what no screw goes through. */
export function holeIn(feature: Feature): MetFeature | undefined {
  if (feature.kind === 'hole') return feature;
  return 'line' in feature && 'width' in feature ? asHole(feature) : undefined;
}

type Channel = Extract<Feature, { readonly line: unknown; readonly width: unknown }>;

const asHole = memo((slot: Channel): MetFeature | undefined => {
  const [from, to, ...more] = slot.line;
  // What is wider at its floor, or bent, holds no head and guides no screw.
  if (!from || !to || more.length > 0 || from.arc || slot.tee || slot.dovetail) return undefined;
  const { line, width, tee, dovetail, floorRadius, runOutMm, counterbore, countersink, ...base } = slot;
  const middle = { u: (from.u + to.u) / 2, v: (from.v + to.v) / 2 };
  return {
    ...base,
    kind: 'hole',
    diameter: width,
    ...(counterbore && { counterbore: { ...counterbore, diameter: counterbore.width } }),
    ...(countersink && { countersink: { ...countersink, diameter: countersink.width } }),
    diameterGiven: true,
    bottom: 'flat',
    point: { deg: 180, text: '180', span: width.span },
    places: base.places.map((p) => ({ ...p, u: p.u + middle.u, v: p.v + middle.v })),
    slide: { u: (to.u - from.u) / 2, v: (to.v - from.v) / 2 },
  };
});
