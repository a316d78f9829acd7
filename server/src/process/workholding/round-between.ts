/** A round bar that lies between the jaws: they touch it along a line each, and below its middle they push it out. */
import { SAME } from '../../tolerance';
import type { Workpiece } from '../stock/types';
import type { InVise, Seating } from './seating-types';

/** Its middle over the surface that it lies on, mm; undefined where no round side lies between the jaws, or it stands upright. */
export function roundMiddleMm(seating: Seating, h: InVise): number | undefined {
  const { body } = seating.of.before;
  if (body.form !== 'round' || !isRoundBetween(seating, h) || body.axis === seating.upAxis) return undefined;
  const middle = (body.box.min[seating.upAxis] + body.box.max[seating.upAxis]) / 2;
  return (middle - seating.lowestMm) * seating.upSign;
}

export function isRoundBetween({ of: { before } }: Seating, h: InVise): boolean {
  return before.body.form === 'round' && before.body.axis !== h.jawAxis && !onFlats(before, h);
}

/** Flats were milled on the bar, and the jaws are on them. */
function onFlats({ voids }: Workpiece, h: InVise): boolean {
  const [low, high] = [Math.min(h.fixedAtMm, h.movingAtMm), Math.max(h.fixedAtMm, h.movingAtMm)];
  const ends = (end: 'min' | 'max', at: number) => voids.some((v) => Math.abs(v.bounds[end][h.jawAxis] - at) < SAME);
  // On the inner side of what was taken: at its mouth there is none.
  return ends('max', low) && ends('min', high);
}
