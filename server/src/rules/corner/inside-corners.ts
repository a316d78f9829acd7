/** What the corner rules share: each feature's inside corners with the shop's cutters for them, and how a radius is written. */

import type { Solid } from '../../geometry/types';
import { memo } from '../../memo';
import { homeOf, isChannel } from '../../model/feature-kinds';
import type { Feature, Part, PathCorner, Shape } from '../../model/model';
import type { Mill, Shop } from '../../model/shop-model';
import { type Choice, choiceForCorner, cornerReach } from '../../process/choice';
import type { Corner } from '../../process/corners';
import { endMills, fits, SAME_REACH_MM } from '../../process/cutters';
import type { MilledVoid } from '../../process/milling';
import { type MilledInSetup, milledInSetup } from '../../process/milling-in-setup';
import type { Span } from '../../text/tree';
import { NEAR, ROUNDING, SAME } from '../../tolerance';
import { featureNode } from '../kit/edits';
import { setField, together } from '../kit/fields';
import { memberOf, roundUp } from '../kit/message';
import type { RuleContext, SpanEdit } from '../kit/rule';

/** A corner as it is when it is cut. */
export interface Judged extends MilledInSetup {
  readonly corner: Corner;
}

/** Every inside corner of the part, feature by feature; of one that two set-ups cut, where it is deepest. */
export function* cornersByFeature({ part, solid }: RuleContext): Generator<readonly [Feature, readonly Judged[]]> {
  for (const feature of part.features) {
    const deepest = deepestOf(feature, solid, part);
    if (deepest.length > 0) yield [feature, deepest];
  }
}

/** Several rules ask for the same ones. */
const deepestOf = memo(
  (feature: Feature, solid: Solid, part: Part): readonly Judged[] => {
    const deepest = new Map<string, Judged>();
    for (const m of milledInSetup(feature, part, solid)) {
      for (const corner of m.milled.corners) {
        const { u, v, radiusMm, of } = corner;
        const key = [of.member, of.role, of.from, u, v, radiusMm].join(' ');
        const known = deepest.get(key);
        if (!known || corner.floorMm > known.corner.floorMm) deepest.set(key, { ...m, corner });
      }
    }
    return [...deepest.values()];
  },
  { owners: 'second' },
);

/** One of each kind of corner: same radius, turn and depth need the same cutter, so only one of them is looked up. */
export const kindsOf = memo((judged: readonly Judged[]): readonly (readonly Judged[])[] => {
  const kinds = new Map<string, Judged[]>();
  for (const j of judged) {
    const { radiusMm, turnDeg, topMm, floorMm } = j.corner;
    // Below the face, what stands beside each may differ: such corners are looked up one by one.
    const place = topMm > SAME ? [j.corner.u, j.corner.v, j.milled.of.member] : [];
    const key = [radiusMm, turnDeg, topMm, floorMm, j.milled.widestMm, ...place].map((n) => n.toFixed(3)).join(' ');
    const same = kinds.get(key);
    if (same) same.push(j);
    else kinds.set(key, [j]);
  }
  return [...kinds.values()];
});

/** The feature's name, or a member's where only some members are meant. */
export function namesOf(feature: Feature, judged: readonly Judged[]): readonly string[] {
  const members = [...new Set(judged.map((j) => memberOf(j.milled.of)))];
  return feature.places.length > 1 && members.length < feature.places.length ? members : [feature.name];
}

/** The corner's radius is also half of the narrowest place: then the gap decides, not the corner. */
export function isEndOfGap({ milled, corner }: Judged): boolean {
  return 2 * corner.radiusMm >= milled.neckMm - 0.02;
}

/** The shop's cutters for a corner; several rules ask for the same one. */
export function choiceOf({ milled, corner, place }: Judged, { shop }: RuleContext): Choice {
  return choices(corner, shop, milled, place);
}

const choices = memo(
  (corner: Corner, shop: Shop, milled: MilledVoid, place: MilledInSetup['place']): Choice =>
    choiceForCorner(milled, corner, place, shop),
);

/**
 * Mills that pass the gap and reach the corner's foot, smallest first: each is a radius that could be had. Only those
 * with a diameter from `fromMm` to `toMm` are tried.
 */
export function millsThatReach(
  { milled, corner, place }: Judged,
  { shop }: RuleContext,
  fromMm = 0,
  toMm = Number.POSITIVE_INFINITY,
): readonly Mill[] {
  const floorRadiusMm = milled.floorRadiusMm > 0 ? Number.POSITIVE_INFINITY : 0;
  return endMills(shop)
    .filter((m) => fits(m, { radiusMm: Number.POSITIVE_INFINITY, neckMm: milled.widestMm, floorRadiusMm }))
    .filter((m) => {
      if (m.diameterMm < fromMm || m.diameterMm > toMm) return false;
      if (m.reachMm >= corner.floorMm) return true;
      // The wall of the corner itself stands beside every cutter.
      if (m.reachMm < corner.floorMm - corner.topMm - SAME) return false;
      const r = m.diameterMm / 2;
      return (
        m.reachMm >=
        cornerReach(milled, { ...corner, radiusMm: r }, place, r, Math.max(r, m.shankMm / 2)) - SAME_REACH_MM
      );
    })
    .reverse();
}

/** A radius in which this cutter rolls rather than stops: a tenth above its own, to a round number; as it is written at the mouth. */
export function rollingRadius(mill: Mill, { part }: RuleContext, feature?: Feature): number {
  return roundUp(0.55 * mill.diameterMm + (feature ? widerAtMouthMm(feature) : 0), part.units);
}

/** Walls that lean: corners are so much rounder at the mouth than at the floor, where a cutter meets them. */
export function widerAtMouthMm(feature: Feature): number {
  const lean = 'draft' in feature ? feature.draft : undefined;
  return lean && 'depth' in feature && feature.depth ? feature.depth.mm * Math.tan((lean.deg * Math.PI) / 180) : 0;
}

/** The outline whose corners a radius is written in. */
function shapesOf(feature: Feature): readonly Shape[] {
  return homeOf(feature).shapes(feature);
}

function pathOf(feature: Feature): readonly PathCorner[] | undefined {
  if (isChannel(feature)) return feature.line;
  const shapes = shapesOf(feature);
  return shapes.length === 1 && shapes[0]!.type === 'path' ? shapes[0]!.corners : undefined;
}

/** Which corner of the feature's path a corner of the outline is: by its rounding, or by where it is. */
function pathIndex(feature: Feature, corner: Corner): number | undefined {
  const path = pathOf(feature);
  if (!path) return undefined;
  if (corner.radiusMm > 0) return path[corner.path ?? -1]?.round ? corner.path : undefined;
  const shifts = feature.kind === 'contour' && feature.places.length > 0 ? feature.places : [{ u: 0, v: 0 }];
  const found = path.findIndex((c) =>
    shifts.some((s) => Math.hypot(c.u + s.u - corner.u, c.v + s.v - corner.v) < NEAR),
  );
  return found < 0 ? undefined : found;
}

/** A round cut in a square corner, of the pocket's `relief`: no outline's corner, and meant to be filled by its cutter. */
export function isRelief({ of: { region } }: Corner, feature: Feature): boolean {
  const [edge] = region.outer.edges;
  if (feature.kind !== 'pocket' || !feature.relief || region.outer.edges.length > 1) return false;
  return edge?.type === 'arc' && Math.abs(2 * edge.radius - feature.relief.diameter.mm) < ROUNDING;
}

/** The narrowest text that says a corner's radius. */
export function radiusSpan(feature: Feature, corner: Corner): Span {
  if (feature.kind === 'pocket' && feature.relief && isRelief(corner, feature)) return feature.relief.diameter.span;
  const written = pathOf(feature)?.[pathIndex(feature, corner) ?? -1];
  if (written) return written.round?.span ?? written.span;
  const shape = shapesOf(feature)[0];
  if (shape?.type === 'rectangle') return shape.cornerRadius.from ? shape.span : shape.cornerRadius.span;
  if (shape) return shape.span;
  return feature.kind === 'step' ? (feature.widths[0]?.span ?? feature.nameSpan) : feature.nameSpan;
}

/** Where the radius of some corners of a feature is written: in its `relief`, in corners of its path, or once for all (−1). */
interface WrittenRadius {
  readonly feature: string;
  readonly relief: boolean;
  readonly corners: readonly number[];
}

export function writtenIn(feature: Feature, judged: readonly Judged[]): WrittenRadius {
  const corners = judged.map((j) => j.corner);
  const others = corners.filter((c) => !isRelief(c, feature));
  return {
    feature: feature.name,
    relief: others.length < corners.length,
    corners: [...new Set(others.map((c) => pathIndex(feature, c) ?? -1))],
  };
}

/** The edits that give these corners another radius. */
export function setRadius(
  { tree, part, write }: RuleContext,
  { feature: name, relief, corners }: WrittenRadius,
  radiusMm: number,
): readonly SpanEdit[] | undefined {
  const feature = part.featureByName.get(name);
  if (!feature) return undefined;
  const reliefs = relief ? setField(tree, name, 'relief-diameter', write(2 * radiusMm)) : [];
  if (corners.length === 0) return reliefs;
  const text = write(radiusMm);
  const path = pathOf(feature);
  if (!path) {
    const rectangle = shapesOf(feature).length === 1 && shapesOf(feature)[0]!.type === 'rectangle';
    return together(reliefs, rectangle ? setField(tree, name, 'corner-radius', text) : undefined);
  }
  const key = featureNode(tree, name)?.entries.some((e) => e.key.source === 'path') ? ['path'] : ['paths', 0];
  return together(
    reliefs,
    ...corners.map((i) => (!path[i] || path[i].bevel ? undefined : setField(tree, name, 'round', text, ...key, i))),
  );
}
