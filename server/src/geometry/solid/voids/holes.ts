/** Holes: bore, drill point, counterbore, countersink; and grooves, on a face or in a hole. */

import type { Groove, Hole } from '../../../model/model';
import { ROUNDING } from '../../../tolerance';
import { reversedLoop } from '../../2d/assemble-loops';
import { circleLoop } from '../../2d/shape-outline';
import { featureFrame } from '../../frame';
import type { Region, Void } from '../../types';
import { depthRange, eachPlace, makeVoid, memberOf, type Surroundings } from './make';

const RAD = Math.PI / 180;

/** A full circle about the origin; undefined for a radius of 0 or less (mm). */
function disc(radius: number): Region | undefined {
  const outer = circleLoop({ u: 0, v: 0 }, radius);
  return outer && { outer, holes: [] };
}

/** For each member: bore, drill point below a blind one, counterbore, countersink, as far as the hole has them. */
export function holeVoids(hole: Hole, { size }: Surroundings): readonly Void[] {
  const radius = hole.diameter.mm / 2;
  const region = disc(radius);
  if (!region) return [];
  const widest = Math.max(radius, (hole.counterbore?.diameter.mm ?? 0) / 2, (hole.countersink?.diameter.mm ?? 0) / 2);
  const range = depthRange(hole, hole.depth, size, disc(widest)!);
  if (!range) return [];
  const mouth = entry(hole, radius, range.from, range.to);
  const out: Void[] = [];
  for (const { member, frame } of eachPlace(hole, size)) {
    for (const m of mouth.voids) {
      out.push(
        makeVoid(hole, {
          member,
          role: m.role,
          frame,
          region: m.region,
          from: m.from,
          to: m.to,
          profile: m.profile,
          through: range.through && m.to >= range.to,
        }),
      );
    }
    if (range.to - mouth.end > ROUNDING) {
      out.push(
        makeVoid(hole, { member, role: 'bore', frame, region, from: mouth.end, to: range.to, through: range.through }),
      );
    }
    if (!range.through && hole.bottom === 'cone' && hole.point.deg > 0 && hole.point.deg < 180) {
      const length = radius / Math.tan((hole.point.deg / 2) * RAD);
      const profile = { type: 'taper', insetFrom: 0, insetTo: radius } as const;
      out.push(
        makeVoid(hole, { member, role: 'point', frame, region, from: range.to, to: range.to + length, profile }),
      );
    }
  }
  return out;
}

type Mouth = Pick<Void, 'role' | 'region' | 'from' | 'to'> & { readonly profile?: Void['profile'] };

/**
 * What widens the hole at its entry, and where the bore proper begins below it. A countersink wider than the
 * counterbore breaks the counterbore's edge; a narrower one sits on its floor.
 */
function entry(hole: Hole, radius: number, from: number, to: number): { voids: readonly Mouth[]; end: number } {
  const voids: Mouth[] = [];
  let end = from;
  const bore = hole.counterbore;
  const boreRadius = bore && bore.diameter.mm / 2 > radius + ROUNDING ? bore.diameter.mm / 2 : 0;
  // depths count from where the feature starts, not from where a leaning one begins to cut
  const lead = hole.tilt ? hole.startMm / Math.abs(Math.cos(hole.tilt.angle.deg * RAD)) : hole.startMm;
  const sink = hole.countersink;
  const sinkRadius = sink ? sink.diameter.mm / 2 : 0;
  const cone = (base: number, start: number) => {
    const region = disc(base);
    const half = sink!.angle.deg / 2;
    if (!region || sinkRadius <= base + ROUNDING || !(half > 0 && half < 90)) return start;
    const length = half === 45 ? sinkRadius - base : (sinkRadius - base) / Math.tan(half * RAD);
    const profile = { type: 'taper', insetFrom: base - sinkRadius, insetTo: 0 } as const;
    if (start < lead) {
      // above the start plane of a leaning hole the tool has been as wide as the cone's mouth
      voids.push({ role: 'countersink', region: disc(sinkRadius)!, from: start, to: lead });
    }
    const top = Math.max(start, lead);
    voids.push({ role: 'countersink', region, from: top, to: top + length, profile });
    return top + length;
  };
  if (sink && sinkRadius > boreRadius) end = cone(boreRadius || radius, from);
  if (bore && boreRadius > 0) {
    const floor = lead + bore.depth.mm;
    if (floor > end + ROUNDING) {
      voids.push({ role: 'counterbore', region: disc(boreRadius)!, from: end, to: floor });
      end = floor;
    }
    if (sink && sinkRadius <= boreRadius) end = cone(radius, end);
  }
  return { voids, end: Math.min(end, Math.max(end, to)) };
}

/** A ring on a face, or a wider disc inside a hole at each of the hole's places. */
export function grooveVoids(groove: Groove, around: Surroundings): readonly Void[] {
  const { size, part } = around;
  if (groove.in) {
    const hole = part.featureByName.get(groove.in.name);
    const region = disc(groove.diameter.mm / 2);
    if (hole?.kind !== 'hole' || !region || !(groove.width.mm > 0)) return [];
    const from = groove.below?.mm ?? 0;
    return hole.places.map((place, i) =>
      makeVoid(groove, {
        member: memberOf(hole, i),
        role: 'groove',
        frame: featureFrame(hole, size, place),
        region,
        from,
        to: from + groove.width.mm,
      }),
    );
  }
  const inner = circleLoop({ u: 0, v: 0 }, groove.diameter.mm / 2);
  const outer = circleLoop({ u: 0, v: 0 }, groove.diameter.mm / 2 + groove.width.mm);
  if (!outer || !groove.depth || !(groove.width.mm > 0)) return [];
  const region: Region = { outer, holes: inner ? [reversedLoop(inner)] : [] };
  const range = depthRange(groove, groove.depth, size, region);
  if (!range) return [];
  const out: Void[] = [];
  for (const { member, frame } of eachPlace(groove, size)) {
    out.push(
      makeVoid(groove, {
        member,
        role: 'groove',
        frame,
        region,
        from: range.from,
        to: range.to,
        through: range.through,
      }),
    );
  }
  return out;
}
