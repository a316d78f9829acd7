/**
 * What a cut sweeps away from its walls: where it comes out at the side of the work, the cutter's edge goes to that side,
 * however far off its walls stand; and right beside it the jaws and the stop end, as near below as the cut goes deep, or a
 * clamp's strap stands, whatever cutter comes.
 */
import { inward } from '../../geometry/frame';
import type { Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../model/model';
import { ROUNDING, SAME } from '../../tolerance';
import { isMaterial } from '../stock/in-process-stock';
import type { Near, Standing } from './collision';
import { isAhead, isAlsoCut } from './other-piece';
import type { Places } from './surroundings';

/** Looks along the edge of what is passed, so far apart; and so far beside it and over the floor of the cut, mm. */
const STEP_MM = 1.5;
const BESIDE_MM = 0.02;
/** Nearer to the margin than this is the margin, mm. */
const TOUCH_MM = 0.01;

/** The nearest below or beside the floor of a cut, where that is nearer than the margin; `floors`: depths of its volumes from the stock's own plane. */
export function sweptOver(
  { place, was }: Places,
  up: Face,
  floors: readonly number[],
  obstacles: readonly Standing[],
  marginMm: number,
): Near | undefined {
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const { min, max } = was.body.box;
  let nearest: Near | undefined;
  for (const obstacle of obstacles) {
    if (obstacle.axes || obstacle.what === 'parallel') continue;
    const { box } = obstacle;
    const top = sign > 0 ? max[i] - box.max[i] : box.min[i] - min[i];
    for (const floor of floors) {
      const aboveMm = top - floor;
      // What stands higher than the floor is touched where the cut takes what is right beside it. Of jaws hold/in-the-cut tells that.
      if (aboveMm < -SAME && obstacle.what.endsWith('jaw')) continue;
      const clearMm = Math.max(0, aboveMm);
      if (clearMm >= (nearest ? nearest.clearMm - ROUNDING : marginMm - TOUCH_MM)) continue;
      const at = besideIt(box, i).find((p) => {
        const q: [number, number, number] = [...p];
        q[i] = (sign > 0 ? max[i] : min[i]) + inward(up)[i] * (floor - BESIDE_MM);
        if (isAlsoCut(obstacle) && !isAhead(obstacle, q, up, 0)) return false;
        return isMaterial(was, q) && !isMaterial(place, q);
      });
      if (at) nearest = { with: obstacle, by: 'cutter', at, heightAboveMm: aboveMm, clearMm };
    }
  }
  return nearest;
}

/** Places in plan all along a box, just outside it. */
function besideIt({ min, max }: Standing['box'], up: AxisIndex): readonly Vec3[] {
  const [a, b] = ([0, 1, 2] as const).filter((k) => k !== up) as [AxisIndex, AxisIndex];
  return [
    [a, b],
    [b, a],
  ].flatMap(([along, across]) => {
    const n = Math.max(1, Math.ceil((max[along!]! - min[along!]!) / STEP_MM));
    return [min[across!]! - BESIDE_MM, max[across!]! + BESIDE_MM].flatMap((beside) =>
      Array.from({ length: n }, (_, k): Vec3 => {
        const p: [number, number, number] = [0, 0, 0];
        p[along!] = min[along!]! + ((max[along!]! - min[along!]!) * (k + 0.5)) / n;
        p[across!] = beside;
        return p;
      }),
    );
  });
}
