/**
 * A feature as the spindle sees it when it is cut: from the face it is judged from; a leaning one with the work held at
 * its angle, so that it stands square like any other.
 */

import type { Solid } from '../../geometry/types';
import type { Feature, Hole, Part } from '../../model/model';
import { ROUNDING } from '../../tolerance';
import type { Place } from '../column';
import { type Bored, bored, boresOf } from '../drilling';
import { coreOf, fromItsSide, type MilledVoid, milledIn, milledVoids } from '../milling';
import { axesToward, seenVoid, seenWork } from '../tilted/place';
import { wantedBy } from '../tilted/spindle';

export interface Seen<T> {
  readonly all: readonly T[];
  /** What stands round it, in the same axes. */
  readonly place: Place;
  /** For a leaning one: `held at 20°`. */
  readonly how?: string;
}

export function leans(feature: Feature): boolean {
  return feature.tilt !== undefined && Math.abs(feature.tilt.angle.deg) > ROUNDING;
}

export function boresSeen(hole: Hole, part: Part, solid: Solid): Seen<Bored> {
  if (!leans(hole)) return { all: boresOf(hole, part, solid), place: solid };
  const turned = turn(hole, solid);
  if (!turned) return { all: [], place: solid };
  const { place, voids } = turned;
  const around = { body: place.body, voids: place.voids.filter((v) => v.feature !== hole.name) };
  const bores = voids.filter((v) => v.role === 'bore');
  return { all: bores.map((v) => bored(v, hole, 'top', ['top'], around)), place, how: turned.how };
}

export function milledSeen(feature: Feature, part: Part, solid: Solid): Seen<MilledVoid> {
  if (!leans(feature)) {
    const all = milledVoids(feature, part, solid);
    const place = 'draft' in feature && feature.draft ? { body: solid.body, voids: solid.voids.map(coreOf) } : solid;
    return { all: all.length > 0 ? all : fromItsSide(feature, part, solid), place };
  }
  const turned = turn(feature, solid);
  if (!turned) return { all: [], place: solid };
  const { place, voids, how } = turned;
  return { all: milledIn(feature, voids, place, part).map(fromItsMouth), place, how };
}

/**
 * Depths from the mouth of the volume itself: the corner of the turned stock says nothing, and to look at everything that
 * stands round it would take too long for each letter typed. What the set-up's tools meet, `access/*` tells.
 */
function fromItsMouth(m: MilledVoid): MilledVoid {
  const tipMm = m.of.to - m.of.from;
  return { ...m, tipMm, corners: m.corners.map((c) => ({ ...c, topMm: 0, floorMm: tipMm })) };
}

function turn(feature: Feature, solid: Solid) {
  const wanted = wantedBy(feature, solid);
  if (!wanted) return undefined;
  const axes = axesToward(wanted);
  const place = seenWork({ body: solid.body, voids: solid.voids }, axes);
  const voids = solid.voidsOf(feature.name).map((v) => seenVoid(v, axes));
  return { place, voids, how: `held at ${Number(Math.abs(feature.tilt!.angle.deg).toFixed(2))}°` };
}
