/**
 * Round work in a V: where it touches, how high it lies, which diameters go in, and the block itself as boxes. Of a V of
 * included angle 2 a a bar of radius r touches both sides at r cos a from the middle, its axis r / sin a from where the sides
 * would meet. Plain geometry.
 */

import type { BodyShape, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, type AxisIndex } from '../../geometry/vector';
import { FACE_AXIS, FACE_PLANE, type Hold } from '../../model/model';
import type { Shop, VBlock } from '../../model/shop-model';
import { SAME } from '../../tolerance';
import { boxOf } from './boxes';
import type { InVise, Obstacle, Seating, Span1 } from './seating-types';

type Base = Omit<Seating, 'held' | 'obstacles' | 'avoided'>;

/** Body of the block beyond its V, to either side. Common size, no source. */
const CHEEK_MM = 6;

function half({ angleDeg }: VBlock): number {
  return (angleDeg * Math.PI) / 360;
}

function deepMm(v: VBlock): number {
  return v.widthMm / 2 / Math.tan(half(v));
}

/** From the axis of the bar to where the V's sides would meet. */
function axisToVertexMm(v: VBlock, radiusMm: number): number {
  return radiusMm / Math.sin(half(v));
}

/** The thinnest bar that stands out of the V, and the thickest that touches its sides, as diameters. */
export function diametersIn(v: VBlock): readonly [number, number] {
  const a = half(v);
  return [(2 * deepMm(v)) / (1 / Math.sin(a) + 1), v.widthMm / Math.cos(a)];
}

export function fitsIn(v: VBlock, diameterMm: number): boolean {
  const [least, most] = diametersIn(v);
  return diameterMm > least - SAME && diameterMm < most + SAME;
}

export function vBlockOf(hold: Pick<Hold, 'vBlock'> | undefined, shop: Shop): VBlock | undefined {
  return shop.vBlocks.find((v) => v.name === hold?.vBlock?.name);
}

export interface RoundBar {
  readonly axis: AxisIndex;
  readonly radiusMm: number;
  /** Its axis, in part axes; what lies along it says nothing. */
  readonly middle: readonly [number, number, number];
}

/** The outside of round stock, which no cut of another shape replaces. */
export function roundBarOf(body: BodyShape): RoundBar | undefined {
  if (body.form !== 'round') return undefined;
  const { axis, box, radius } = body;
  const middle = [0, 1, 2].map((i) => (box.min[i]! + box.max[i]!) / 2) as [number, number, number];
  return { axis, radiusMm: radius, middle };
}

/** Where blocks stand along the bar: under the outermost clamps; one in the middle where two would want the same place. */
export function blocksAlong(base: Pick<Base, 'up'>, hold: Hold, v: VBlock, bar: RoundBar): readonly Span1[] {
  const first = AXIS_INDEX[FACE_PLANE[base.up][0]] === bar.axis;
  const at = (hold.clamps ?? []).map((c) => (first ? c.u : c.v));
  if (at.length === 0) return [];
  const span = (x: number): Span1 => [x - v.lengthMm / 2, x + v.lengthMm / 2];
  const [low, high] = [Math.min(...at), Math.max(...at)];
  return high - low < v.lengthMm ? [span((low + high) / 2)] : [span(low), span(high)];
}

/** From what the block stands on up to the lowest place of the bar in it. */
export function underBarMm(v: VBlock, bar: RoundBar): number {
  return v.heightMm - deepMm(v) + axisToVertexMm(v, bar.radiusMm) - bar.radiusMm;
}

/** A block that lies with its V open toward `sign` along an axis. */
interface Lies {
  readonly open: AxisIndex;
  readonly sign: 1 | -1;
  /** Along the V. */
  readonly along: AxisIndex;
  readonly span: Span1;
}

/** So many steps stand for a side of the V: each as wide as the side is at its foot. */
const STEPS = 6;

function veeBoxes(v: VBlock, bar: RoundBar, { open, sign, along, span }: Lies): readonly Obstacle[] {
  const across = (3 - open - along) as AxisIndex;
  const vertex = bar.middle[open] - sign * axisToVertexMm(v, bar.radiusMm);
  const foot = vertex - sign * (v.heightMm - deepMm(v));
  const out = v.widthMm / 2 + CHEEK_MM;
  const one = (from: number, to: number, side: Span1): Obstacle => ({
    what: 'V-block',
    box: boxOf({
      [open]: [from, to],
      [along]: span,
      [across]: [bar.middle[across] + side[0], bar.middle[across] + side[1]],
    }),
  });
  const step = deepMm(v) / STEPS;
  const sides = Array.from({ length: STEPS }, (_, i) => {
    const inner = i * step * Math.tan(half(v));
    const at = [vertex + sign * i * step, vertex + sign * (i + 1) * step] as const;
    return [one(...at, [-out, -inner]), one(...at, [inner, out])];
  });
  return [one(foot, vertex, [-out, out]), ...sides.flat()];
}

/** A block as its cross-section drawn out along the V: in the two other axes, in their order. */
interface Vee {
  readonly along: AxisIndex;
  readonly span: Span1;
  readonly outline: readonly (readonly [number, number])[];
}

function veeOf(v: VBlock, bar: RoundBar, { open, sign, along, span }: Lies): Vee {
  const across = (3 - open - along) as AxisIndex;
  const vertex = bar.middle[open] - sign * axisToVertexMm(v, bar.radiusMm);
  const [foot, top] = [vertex - sign * (v.heightMm - deepMm(v)), vertex + sign * deepMm(v)];
  const middle = bar.middle[across];
  const [inner, out] = [v.widthMm / 2, v.widthMm / 2 + CHEEK_MM];
  const points = [
    [foot, -out],
    [foot, out],
    [top, out],
    [top, inner],
    [vertex, 0],
    [top, -inner],
    [top, -out],
  ] as const;
  const outline = points.map(([at, side]) =>
    open < across ? ([at, middle + side] as const) : ([middle + side, at] as const),
  );
  return { along, span, outline };
}

/** The blocks of a hold as they are, not as the boxes that stand for them; those of `obstaclesOf`, no others. */
export function veesOf(base: Base, held: InVise | undefined, hold: Hold, shop: Shop): readonly Vee[] {
  const [v, bar] = [vBlockOf(hold, shop), roundBarOf(base.of.before.body)];
  if (!v || !bar) return [];
  return (held ? liesInVise(base, held, v, bar) : liesUnder(base, hold, v, bar)).map((lies) => veeOf(v, bar, lies));
}

/** Lying on the table or a plate. */
export function underBar(base: Base, hold: Hold, shop: Shop): readonly Obstacle[] {
  const [v, bar] = [vBlockOf(hold, shop), roundBarOf(base.of.before.body)];
  return v && bar ? liesUnder(base, hold, v, bar).flatMap((lies) => veeBoxes(v, bar, lies)) : [];
}

function liesUnder(base: Base, hold: Hold, v: VBlock, bar: RoundBar): readonly Lies[] {
  if (bar.axis === base.upAxis) return [];
  const { upAxis: open, upSign: sign } = base;
  return blocksAlong(base, hold, v, bar).map((span) => ({ open, sign, along: bar.axis, span }));
}

/** Between the moving jaw and round work that stands upright: as high as the block is long. */
export function inVise(base: Base, h: InVise, hold: Hold, shop: Shop): readonly Obstacle[] {
  const [v, bar] = [vBlockOf(hold, shop), roundBarOf(base.of.before.body)];
  return v && bar ? liesInVise(base, h, v, bar).flatMap((lies) => veeBoxes(v, bar, lies)) : [];
}

function liesInVise(base: Base, h: InVise, v: VBlock, bar: RoundBar): readonly Lies[] {
  if (bar.axis !== base.upAxis) return [];
  const span: Span1 = [base.lowestMm, base.lowestMm + base.upSign * v.lengthMm];
  return [{ open: h.jawAxis, sign: -FACE_AXIS[h.moving].sign as 1 | -1, along: base.upAxis, span }];
}

/** How much farther apart the jaws stand for a V-block between one of them and the work. */
export function blockAddsMm(base: Base, hold: Hold | undefined, shop: Shop): number {
  const [v, bar] = [vBlockOf(hold, shop), roundBarOf(base.of.before.body)];
  if (!v || !bar || bar.axis !== base.upAxis) return 0;
  return v.heightMm - deepMm(v) + axisToVertexMm(v, bar.radiusMm) - bar.radiusMm;
}

/** How far inside the bar a place is taken, and how many along a block. */
const INSIDE_MM = 0.05;
const LOOKS = 9;

/** Places just inside the two lines along which a bar touches the V of a block on the table; those beyond its ends left out. */
export function placesTouched(base: Base, v: VBlock, bar: RoundBar, [from, to]: Span1): readonly Vec3[] {
  const across = (3 - bar.axis - base.upAxis) as AxisIndex;
  const r = bar.radiusMm - INSIDE_MM;
  const { min, max } = base.of.before.body.box;
  return Array.from({ length: LOOKS }, (_, i) => from + ((i + 0.5) / LOOKS) * (to - from))
    .filter((x) => x > min[bar.axis] && x < max[bar.axis])
    .flatMap((x) =>
      [-1, 1].map((side): Vec3 => {
        const p: [number, number, number] = [0, 0, 0];
        p[bar.axis] = x;
        p[across] = bar.middle[across] + side * r * Math.cos(half(v));
        p[base.upAxis] = bar.middle[base.upAxis] - base.upSign * r * Math.sin(half(v));
        return p;
      }),
    );
}
