/** Slots: straight-walled, with a tee at the bottom, or dovetailed. */
import type { Slot } from '../../../model/model';
import { pathLine } from '../../2d/path-outline';
import { thickLine } from '../../2d/slot-outline';
import type { Region, Void } from '../../types';
import { type DepthRange, depthRange, eachPlace, floorProfile, makeVoid, STRAIGHT, type Surroundings } from './make';

const RAD = Math.PI / 180;

type Layer = Pick<Void, 'role' | 'region' | 'from' | 'to' | 'profile'>;

/** For each member the slot, or its neck and what is wider below it. None for an empty centre line. */
export function slotVoids(slot: Slot, { size }: Surroundings): readonly Void[] {
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
        out.push(makeVoid(slot, member, l.role, frame, l.region, l.from, l.to, l.profile, through));
      }
    }
  }
  return out;
}

/**
 * `depth` is the whole depth, to the slot's floor. A tee takes the lowest `height` of it; a dovetail widens from the
 * given width at the mouth, its angle measured between flank and floor.
 */
function layersOf(slot: Slot, region: Region, range: DepthRange, wide: (width: number) => readonly Region[]): Layer[] {
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
    const layers: Layer[] = neck > from + 1e-9 ? [{ role: 'slot', region, from, to: neck, profile: STRAIGHT }] : [];
    for (const r of wide(slot.tee.width.mm))
      layers.push({ role: 'undercut', region: r, from: neck, to, profile: STRAIGHT });
    return layers;
  }
  return [{ role: 'slot', region, from, to, profile: floorProfile(slot.floorRadius.mm, range) }];
}
