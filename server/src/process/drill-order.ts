/**
 * In which order a workshop drills holes that run into each other, where no set-ups say: holes on one axis in one go, the
 * widest of them first, and what crosses them later; of two that cross the larger first, and what is tapped last.
 */

import { heed } from '../effort';
import type { Solid, Void } from '../geometry/types';
import { memo } from '../memo';
import type { Forms } from '../model/feature-kinds';
import type { Hole, Part } from '../model/model';
import { SAME } from '../tolerance';
import type { Place } from './column';
import { parallel } from './drilling';
import { add, dot, minus, ofFrame } from './section';

/** Axes nearer than this are one: no drill centres itself better, mm. */
const ONE_AXIS = 0.05;

const boresOf = (hole: Hole, solid: Solid): readonly Void[] =>
  solid.voidsOf(hole.name).filter((v) => v.role === 'bore');

function isCoaxial(a: Void, b: Void): boolean {
  if (!parallel(a, b)) return false;
  const [p, q] = [a, b].map((v) => {
    const edge = v.region.outer.edges[0];
    return ofFrame(v.frame, edge?.type === 'arc' ? edge.centre.u : 0, edge?.type === 'arc' ? edge.centre.v : 0, v.from);
  }) as [Void['frame']['w'], Void['frame']['w']];
  const off = minus(q, p);
  return Math.hypot(...add(off, a.frame.w, -dot(off, a.frame.w))) < ONE_AXIS;
}

/** On one axis, hole by hole or in some of their places. */
export function areInLine(a: Hole, b: Hole, solid: Solid): boolean {
  const [own, theirs] = [boresOf(a, solid), boresOf(b, solid)];
  heed(own.length * theirs.length);
  return own.some((v) => theirs.some((w) => isCoaxial(v, w)));
}

/** Of the widest hole on its axis, mm: they are drilled with one setting of the machine. */
function widestOnAxisMm(hole: Hole, part: Part, solid: Solid): number {
  const own = boresOf(hole, solid);
  let widest = hole.diameter.mm;
  for (const other of part.features) {
    if (other.kind !== 'hole' || other.tilt || other.diameter.mm <= widest) continue;
    const theirs = boresOf(other, solid);
    heed(own.length * theirs.length);
    if (own.some((a) => theirs.some((b) => isCoaxial(a, b)))) widest = other.diameter.mm;
  }
  return widest;
}

/** Of two holes that cross: whether the first is drilled before the second. */
export function isDrilledBefore(a: Hole, b: Hole, part: Part, solid: Solid): boolean {
  const tapped = Number(a.thread !== undefined) - Number(b.thread !== undefined);
  if (tapped !== 0) return tapped < 0;
  const wider = widestOnAxisMm(a, part, solid) - widestOnAxisMm(b, part, solid);
  if (Math.abs(wider) > SAME) return wider > 0;
  return part.features.indexOf(a) < part.features.indexOf(b);
}

/** The part with holes still undrilled that cross this one and that a workshop drills after it; itself where there are none. */
export function beforeCrossing(hole: Hole, part: Part, solid: Solid): Place {
  const own = boresOf(hole, solid);
  const later = new Set<string>();
  for (const other of ofOtherDirections(own, part, solid)) {
    if (other === hole) continue;
    const theirs = boresOf(other, solid);
    heed(own.length * theirs.length);
    if (!theirs.some((b) => own.some((a) => !parallel(a, b) && meet(a, b)))) continue;
    if (isDrilledBefore(hole, other, part, solid)) later.add(other.name);
  }
  return later.size === 0 ? solid : { body: solid.body, voids: solid.voids.filter((v) => !later.has(v.feature)) };
}

/** Holes that stand square, but for those whose bores all run along all of these: most parts have no others. */
function ofOtherDirections(own: readonly Void[], part: Part, solid: Solid): readonly Hole[] {
  return byDirection(solid, part).flatMap(({ along, holes }) =>
    along && own.every((v) => parallel(v, along)) ? [] : holes,
  );
}

interface Drilled {
  /** One of the bores, where all run one way. */
  readonly along?: Void;
  readonly holes: Hole[];
}

const byDirection = memo((solid: Solid, part: Part): readonly Drilled[] => {
  const groups: Drilled[] = [];
  for (const hole of part.features) {
    if (hole.kind !== 'hole' || hole.tilt) continue;
    const bores = boresOf(hole, solid);
    const [along] = bores;
    if (!along) continue;
    const one = bores.every((b) => isSameWay(b, along));
    const known = one && groups.find((g) => g.along && isSameWay(g.along, along));
    if (known) known.holes.push(hole);
    else groups.push({ ...(one && { along }), holes: [hole] });
  }
  return groups;
});

/** Not only nearly: what is parallel to the one is so to the other. */
function isSameWay(a: Void, b: Void): boolean {
  const [v, w] = [a.frame.w, b.frame.w];
  return v.every((c, i) => c === w[i]) || v.every((c, i) => c === -w[i]!);
}

function meet(a: Void, b: Void): boolean {
  return ([0, 1, 2] as const).every((i) => a.bounds.max[i] > b.bounds.min[i] && b.bounds.max[i] > a.bounds.min[i]);
}

/** A slit is so much narrower than the bore that it opens. Common practice, no source: of clamps 1 to 3 mm. */
const SLIT = 0.5;

/**
 * A slit from a bore to the outside: narrow, it meets the one and runs out of the body; along the bore's axis, as deep as half
 * of it, or from beside, as long as half of it.
 */
export function opensBore(slit: Forms['channel'], bore: Hole, solid: Solid): boolean {
  if (slit.width.mm > SLIT * bore.diameter.mm) return false;
  const { min, max } = solid.body.box;
  const bores = boresOf(bore, solid);
  return solid.voidsOf(slit.name).some((v) => {
    const level = v.frame.w.map((c) => Math.abs(c) < 0.5);
    const out = level.some((is, i) => is && (v.bounds.min[i]! < min[i]! + SAME || v.bounds.max[i]! > max[i]! - SAME));
    const along = (b: Void) => Math.abs(dot(v.frame.w, b.frame.w)) > 1 - SAME && v.to - v.from > (b.to - b.from) / 2;
    return out && bores.some((b) => (along(b) || beside(v, b)) && solid.sharedMm3(v, b) > 0);
  });
}

/** It comes in square to the bore and goes along it. */
function beside({ frame, bounds: s }: Void, { frame: bore, bounds: b }: Void): boolean {
  const axis = bore.w.findIndex((c) => Math.abs(c) > 1 - SAME);
  if (axis < 0 || Math.abs(frame.w[axis]!) > SAME) return false;
  const long = Math.min(s.max[axis]!, b.max[axis]!) - Math.max(s.min[axis]!, b.min[axis]!);
  return long > (b.max[axis]! - b.min[axis]!) / 2;
}
