/**
 * Work clamped against the upright side of an angle plate: where the plate stands, how far the work stands out above it, and
 * what of plate and clamps is in a tool's way. Straps lie across the work from its nearer end, with a stud through the plate's
 * slots beyond it. Common practice, no source.
 */

import type { Box } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Face, type Hold, OPPOSITE } from '../../model/model';
import type { AnglePlate, Shop } from '../../model/shop-model';
import { SAME } from '../../tolerance';
import { boxOf } from './boxes';
import type { Obstacle, Seating } from './seating-types';
import { NUT_MM, STRAP_MM, STUD_MM } from './straps';

type Base = Pick<Seating, 'upAxis' | 'upSign' | 'highestMm' | 'heightMm' | 'box'>;

export interface AtPlate {
  readonly plate: AnglePlate;
  readonly against: Face;
  /** Level along the way to the plate, where the work touches it. */
  readonly atMm: number;
  /** How far the work stands out above it: negative where the plate is the higher. */
  readonly outMm: number;
  /** Lower than the table that the plate stands on: the work hangs over an edge of it. */
  readonly hangs: boolean;
  /** What of the plate's side is there for the work, as a box without thickness. */
  readonly side: Box;
}

export function atPlate(base: Base, hold: Hold | undefined, shop: Shop): AtPlate | undefined {
  const plate = shop.anglePlates.find((p) => p.name === hold?.anglePlate?.name);
  if (!plate || !hold?.against) return undefined;
  const against = hold.against.name;
  const axis = AXIS_INDEX[FACE_AXIS[against].axis];
  if (axis === base.upAxis) return undefined;
  const atMm = FACE_AXIS[against].sign > 0 ? base.box.max[axis] : base.box.min[axis];
  const outMm = hold.out?.mm ?? base.heightMm - plate.heightMm;
  const top = base.highestMm - base.upSign * outMm;
  const along = (3 - axis - base.upAxis) as AxisIndex;
  const middle = (base.box.min[along] + base.box.max[along]) / 2;
  const side = boxOf({
    [axis]: [atMm, atMm],
    [base.upAxis]: [top - base.upSign * plate.heightMm, top],
    [along]: [middle - plate.widthMm / 2, middle + plate.widthMm / 2],
  });
  return { plate, against, atMm, outMm, hangs: base.heightMm - outMm > plate.heightMm + SAME, side };
}

export function plateObstacles(base: Base, hold: Hold, shop: Shop): readonly Obstacle[] {
  const at = atPlate(base, hold, shop);
  if (!at) return [];
  const axis = AXIS_INDEX[FACE_AXIS[at.against].axis];
  const { sign } = FACE_AXIS[at.against];
  const { min, max } = at.side;
  const plate = boxOf({
    0: [min[0], max[0]],
    1: [min[1], max[1]],
    2: [min[2], max[2]],
    [axis]: [at.atMm, at.atMm + sign * at.plate.thicknessMm],
  });
  return [{ what: 'angle plate', box: plate }, ...(hold.clamps ?? []).flatMap((c) => strap(base, at.against, c))];
}

/** Across the face opposite the plate, from the end that is nearer. */
function strap(base: Base, against: Face, { u, v }: { readonly u: number; readonly v: number }): readonly Obstacle[] {
  const face = OPPOSITE[against];
  const axis = AXIS_INDEX[FACE_AXIS[face].axis];
  const { sign } = FACE_AXIS[face];
  const along = (3 - axis - base.upAxis) as AxisIndex;
  const first = AXIS_INDEX[FACE_PLANE[face][0]] === along;
  const [x, high] = first ? [u, v] : [v, u];
  const [low, end] = [base.box.min[along], base.box.max[along]];
  const way = x - low <= end - x ? -1 : 1;
  const edge = way > 0 ? end : low;
  const stud = x + way * Math.max(STUD_MM.back, (edge - x) * way + STUD_MM.past);
  const back = Math.max(STRAP_MM.back, (stud - x) * way + NUT_MM.radius);
  const on = sign > 0 ? base.box.max[axis] : base.box.min[axis];
  const outer = on + sign * STRAP_MM.high;
  const around = (mid: number, r: number) => [mid - r, mid + r] as const;
  return [
    {
      what: 'clamp',
      box: boxOf({
        [axis]: [on, outer],
        [along]: [x - way * STRAP_MM.over, x + way * back],
        [base.upAxis]: around(high, STRAP_MM.wide / 2),
      }),
    },
    {
      what: 'nut',
      box: boxOf({
        [axis]: [outer, outer + sign * NUT_MM.high],
        [along]: around(stud, NUT_MM.radius),
        [base.upAxis]: around(high, NUT_MM.radius),
      }),
    },
  ];
}
