/**
 * Strap clamps as they stand over the work: a strap from outside over the nearest edge to where it presses, and on it the nut
 * and the end of the stud that pull it down, beyond the edge. Stud M12: nut ISO 4032 (10.8 high), washer ISO 7089 (24 wide,
 * 2.5 thick), both from memory; the strap and how far the stud shows are common sizes, no source.
 */
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_PLANE, type Hold, type Part, type Place } from '../../model/model';
import { boxOf } from './boxes';
import { round } from './round-obstacle';
import type { Obstacle, Seating } from './seating-types';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;

/** How far a strap lies on the work beyond where it presses. Common size, no source. */
export const STRAP_OVER_MM = 10;
export const STRAP_MM = { wide: 25, high: 25, over: STRAP_OVER_MM, back: 60 } as const;
export const NUT_MM = { radius: 12, high: 2.5 + 10.8 + 3.5 } as const;
/** From the edge of the work, or from where it presses, to the middle of the stud: past the washer, and no nearer. */
export const STUD_MM = { past: NUT_MM.radius + 2, back: 25 } as const;

export function clampObstacles(base: Base, { clamps = [] }: Hold, part: Part): readonly Obstacle[] {
  return clamps.flatMap((place) => strapOver(base, place, part));
}

function strapOver(base: Base, { u, v }: Place, part: Part): readonly Obstacle[] {
  const [a, b] = FACE_PLANE[base.up].map((name) => AXIS_INDEX[name]) as [AxisIndex, AxisIndex];
  const ways = [
    { axis: a, sign: -1, far: u, mid: v },
    { axis: a, sign: 1, far: part.size[a] - u, mid: v },
    { axis: b, sign: -1, far: v, mid: u },
    { axis: b, sign: 1, far: part.size[b] - v, mid: u },
  ];
  const way = ways.reduce((best, w) => (w.far < best.far ? w : best));
  const across = way.axis === a ? b : a;
  const at = way.axis === a ? u : v;
  const top = base.highestMm + base.upSign * STRAP_MM.high;
  const edge = way.sign > 0 ? base.box.max[way.axis] : base.box.min[way.axis];
  const stud = at + way.sign * Math.max(STUD_MM.back, (edge - at) * way.sign + STUD_MM.past);
  const back = Math.max(STRAP_MM.back, (stud - at) * way.sign + NUT_MM.radius);
  return [
    {
      what: 'clamp',
      box: boxOf({
        [base.upAxis]: [base.highestMm, top],
        [way.axis]: [at - way.sign * STRAP_MM.over, at + way.sign * back],
        [across]: [way.mid - STRAP_MM.wide / 2, way.mid + STRAP_MM.wide / 2],
      }),
    },
    ...round('nut', base, way.axis === a ? [stud, way.mid] : [way.mid, stud], {
      radiusMm: NUT_MM.radius,
      fromMm: top,
      toMm: top + base.upSign * NUT_MM.high,
    }),
  ];
}
