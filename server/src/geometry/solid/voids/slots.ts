/** Slots: straight-walled, with a tee at the bottom, dovetailed, or wider at the mouth. */

import type { Forms } from '../../../model/feature-kinds';
import { sinkDepthMm } from '../../../model/feature-kinds/slot-recess';
import { ROUNDING } from '../../../tolerance';
import { arc, line } from '../../2d/edge';
import { pathLine } from '../../2d/path-outline';
import { thickLine } from '../../2d/slot-outline';
import { fromFrame, type Size } from '../../frame';
import type { Frame, Region, Void } from '../../types';
import { add, cross, scale } from '../../vector';
import { type DepthRange, depthRange, eachPlace, floorProfile, makeVoid, STRAIGHT, type Surroundings } from './make';

const RAD = Math.PI / 180;

type Layer = Pick<Void, 'role' | 'region' | 'from' | 'to' | 'profile'>;

/** For each member the slot, or its neck and what is wider below it. None for an empty centre line. */
export function slotVoids(slot: Forms['channel'], { size }: Surroundings): readonly Void[] {
  if (slot.runOutMm !== undefined) return runOutVoids(slot, slot.runOutMm, size);
  const chain = pathLine(slot.line);
  const regions = thickLine(chain, slot.width.mm) ?? [];
  const out: Void[] = [];
  for (const region of regions) {
    const range = depthRange(slot, slot.depth, size, region);
    if (!range) continue;
    const layers = layersOf(slot, region, range, (width) => thickLine(chain, width) ?? []);
    for (const { member, frame } of eachPlace(slot, size)) {
      for (const l of layers) {
        const through = range.through && l.to >= range.to;
        out.push(
          makeVoid(slot, {
            member,
            role: l.role,
            frame,
            region: l.region,
            from: l.from,
            to: l.to,
            profile: l.profile,
            through,
          }),
        );
      }
    }
  }
  return out;
}

/**
 * `depth` is the whole depth, to the slot's floor. A tee takes the lowest `height` of it; a dovetail widens from the
 * given width at the mouth, its angle measured between flank and floor.
 */
function layersOf(
  slot: Forms['channel'],
  region: Region,
  range: DepthRange,
  wide: (width: number) => readonly Region[],
): Layer[] {
  const { from, to } = range;
  if (slot.dovetail) {
    const { deg } = slot.dovetail.angle;
    if (deg > 0 && deg < 90) {
      const out = (to - from) / Math.tan(deg * RAD);
      return [{ role: 'undercut', region, from, to, profile: { type: 'taper', insetFrom: 0, insetTo: -out } }];
    }
  }
  if (slot.tee && slot.tee.width.mm > 0 && slot.tee.height.mm > 0) {
    const neck = Math.max(from, to - slot.tee.height.mm);
    const layers: Layer[] = neck > from + ROUNDING ? [{ role: 'slot', region, from, to: neck, profile: STRAIGHT }] : [];
    for (const r of wide(slot.tee.width.mm))
      layers.push({ role: 'undercut', region: r, from: neck, to, profile: STRAIGHT });
    return layers;
  }
  const profile = floorProfile(slot.floorRadius.mm, range);
  const { counterbore, countersink } = slot;
  if (counterbore && counterbore.width.mm > slot.width.mm) {
    const seat = Math.min(to, from + counterbore.depth.mm);
    const layers = wide(counterbore.width.mm).map(
      (r): Layer => ({ role: 'slot', region: r, from, to: seat, profile: STRAIGHT }),
    );
    return to - seat > ROUNDING ? [...layers, { role: 'slot', region, from: seat, to, profile }] : layers;
  }
  const own: Layer = { role: 'slot', region, from, to, profile };
  if (!countersink || countersink.width.mm <= slot.width.mm + ROUNDING) return [own];
  // The same as a chamfer round the slot's rim.
  const beside = (countersink.width.mm - slot.width.mm) / 2;
  const cone = { type: 'taper', insetFrom: -beside, insetTo: 0 } as const;
  return [own, { role: 'countersink', region, from, to: from + sinkDepthMm(countersink, slot.width), profile: cone }];
}

/**
 * A level floor that runs out at both ends in the round of a disc: drawn from the side, and as thick as the channel is
 * wide. Of a straight line.
 */
function runOutVoids(channel: Forms['channel'], radiusMm: number, size: Size): readonly Void[] {
  const [a, b] = [channel.line[0], channel.line.at(-1)];
  const depthMm = channel.startMm + channel.depth.mm;
  if (!a || !b || depthMm <= 0 || depthMm >= radiusMm) return [];
  const half = Math.hypot(b.u - a.u, b.v - a.v) / 2;
  const run = Math.sqrt(2 * radiusMm * depthMm - depthMm ** 2);
  const [left, right] = [-half - run, half + run];
  const edges = [
    line({ u: left, v: 0 }, { u: right, v: 0 }),
    arc({ u: right, v: 0 }, { u: half, v: depthMm }, { u: half, v: depthMm - radiusMm }, true),
    line({ u: half, v: depthMm }, { u: -half, v: depthMm }),
    arc({ u: -half, v: depthMm }, { u: left, v: 0 }, { u: -half, v: depthMm - radiusMm }, true),
  ];
  const region: Region = { outer: { edges }, holes: [] };
  const width = channel.width.mm;
  return [...eachPlace(channel, size)].map(({ member, frame }) => {
    const middle = fromFrame(frame, (a.u + b.u) / 2, (a.v + b.v) / 2, 0);
    const along = scale(add(scale(frame.u, b.u - a.u), scale(frame.v, b.v - a.v)), 1 / (2 * half));
    const side: Frame = { origin: middle, u: along, v: frame.w, w: cross(along, frame.w) };
    const made = makeVoid(channel, { member, role: 'undercut', frame: side, region, from: -width / 2, to: width / 2 });
    return { ...made, endsAreWalls: true };
  });
}
