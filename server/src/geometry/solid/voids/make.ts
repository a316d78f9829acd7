/** How every feature kind makes its voids: what it is given, and the one place where a void is put together. */

import type { Feature, Part } from '../../../model/model';
import { ROUNDING } from '../../../tolerance';
import { rectOf } from '../../2d/inside';
import { extentBelow, featureFrame, type Size } from '../../frame';
import type { Frame, Point2, Profile, Region, Void } from '../../types';
import { boundsOf } from '../prism';

/** What a maker may look at besides its feature. Whatever it looks at must be among the feature's dependencies. */
export interface Surroundings {
  readonly part: Part;
  readonly size: Size;
  /** Voids of another feature, for rims and grooves in holes. */
  voidsOf(feature: Feature): readonly Void[];
}

export const STRAIGHT: Profile = { type: 'straight' };

/** Puts a void together and measures its bounds. `from` and `to` are depths along the frame's w, mm. */
export function makeVoid(feature: Feature, cut: Cut): Void {
  const { member, role, frame, region, from, to, profile = STRAIGHT, through = false } = cut;
  const bounds = boundsOf(frame, region, from, to, profile);
  return { feature: feature.name, member, role, frame, region, from, to, profile, through, bounds };
}

/** Straight, and not through, where nothing is said. */
interface Cut extends Pick<Void, 'member' | 'role' | 'frame' | 'region' | 'from' | 'to'> {
  readonly profile?: Profile | undefined;
  readonly through?: boolean;
}

/** 0 for a lone feature, else 1, 2, … */
export function memberOf(feature: Feature, index: number): number {
  return feature.pattern || feature.places.length > 1 ? index + 1 : 0;
}

/** The frame at each place, with its member number. */
export function* eachPlace(feature: Feature, size: Size): Iterable<{ member: number; frame: Frame; place: Point2 }> {
  for (let i = 0; i < feature.places.length; i++) {
    const place = feature.places[i]!;
    yield { member: memberOf(feature, i), frame: featureFrame(feature, size, place), place };
  }
}

export interface DepthRange {
  readonly from: number;
  readonly to: number;
  readonly through: boolean;
}

/**
 * From where to where along w. A leaning feature starts above its face and, when through, ends beyond the body, by as
 * much as its outline needs to clear them.
 */
export function depthRange(
  feature: Feature,
  depth: { readonly through: boolean; readonly mm: number },
  size: Size,
  region: Region,
): DepthRange | undefined {
  const start = feature.startMm;
  const extent = extentBelow(feature.face, size);
  const lean = feature.tilt?.angle.deg ?? 0;
  let from = start;
  let to = depth.through ? extent : start + depth.mm;
  if (lean !== 0) {
    const cos = Math.max(0.1, Math.abs(Math.cos((lean * Math.PI) / 180)));
    const clear = reachFromAxis(region) * Math.min(10, Math.abs(Math.tan((lean * Math.PI) / 180)));
    from = start / cos - clear;
    to = depth.through ? extent / cos + clear : start / cos + depth.mm;
  }
  return to - from > ROUNDING ? { from, to, through: depth.through } : undefined;
}

function reachFromAxis(region: Region): number {
  const r = rectOf(region.outer.edges);
  return Math.max(Math.abs(r.u0), Math.abs(r.u1), Math.abs(r.v0), Math.abs(r.v1));
}

/** The profile of a pocket's lowest layer: with a fillet where the floor has one. */
export function floorProfile(radiusMm: number, range: DepthRange): Profile {
  if (range.through || !(radiusMm > 0)) return STRAIGHT;
  return { type: 'floor', radius: Math.min(radiusMm, range.to - range.from) };
}
