/** Heights of the tip, one by one, from a surface down to a floor. */
import { ROUNDING, SAME } from '../../tolerance';

/**
 * Equal steps, none larger than `mostMm`, the last on the floor. Heights as the read-out shows them; nothing where there is
 * nothing to go down.
 */
export function steppedDown(topZ: number, floorZ: number, mostMm: number): readonly number[] {
  const deep = topZ - floorZ;
  if (deep <= ROUNDING) return [floorZ];
  const n = Math.max(1, Math.ceil(deep / mostMm - ROUNDING));
  return Array.from({ length: n }, (_, i) => (i === n - 1 ? floorZ : topZ - (deep * (i + 1)) / n));
}

/** From a diameter up to another in steps, none larger than `mostMm`, the last the diameter itself. */
export function steppedOut(fromMm: number, toMm: number, mostMm: number): readonly number[] {
  const n = Math.max(1, Math.ceil((toMm - fromMm) / mostMm - ROUNDING));
  return Array.from({ length: n }, (_, i) => (i === n - 1 ? toMm : fromMm + ((toMm - fromMm) * (i + 1)) / n));
}

/** A disc thinner than its slot goes along again, each time lower: from under the upper side down to the lower. */
export function sideBySide(topZ: number, floorZ: number, thickMm: number): readonly number[] {
  const first = Math.max(floorZ, topZ - thickMm);
  return first - floorZ < SAME ? [floorZ] : [first, ...steppedDown(first, floorZ, thickMm)];
}
