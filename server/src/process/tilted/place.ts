/**
 * Work held at an angle as the spindle sees it: turned so that the spindle looks down along z. The stock, no longer square
 * to the axes, is its box there with everything outside it taken away, so that columns, sections and outlines work on it
 * as on work that lies flat.
 */

import { circleEdge } from '../../geometry/2d/edge';
import { rectLoop } from '../../geometry/2d/shape-outline';
import { boundsOf } from '../../geometry/solid/prism';
import type { BodyShape, Frame, Region, Vec3, Void } from '../../geometry/types';
import { cross, dot, length, scale } from '../../geometry/vector';
import { memo, memoByValue } from '../../memo';
import { DIGITS } from '../../tolerance';
import type { Cut, Workpiece } from '../stock/types';

/** Three unit vectors in part axes: the turned x, y and, toward the spindle, z. */
export type Axes = readonly [Vec3, Vec3, Vec3];

/** As many directions as one sitting asks for; the same object for the same one, for what is kept by it. */
const DIRECTIONS = 64;

export const axesToward = (toward: Vec3): Axes => axesKept(toward.join());

/** From the part axis that the direction leans away from most, so that a lean about one axis keeps that axis. */
const axesKept = memoByValue((direction: string): Axes => {
  const toward = direction.split(',').map(Number) as unknown as Vec3;
  const least = [0, 1, 2].reduce((k, i) => (Math.abs(toward[i]!) < Math.abs(toward[k]!) ? i : k), 0);
  const unit: Vec3 = [least === 0 ? 1 : 0, least === 1 ? 1 : 0, least === 2 ? 1 : 0];
  const b = cross(toward, unit);
  const second = scale(b, 1 / length(b));
  return [cross(second, toward), second, toward];
}, DIRECTIONS);

/** A point or direction of the part as the spindle sees it. */
export function seen(p: Vec3, [a, b, c]: Axes): Vec3 {
  return [clean(dot(p, a)), clean(dot(p, b)), clean(dot(p, c))];
}

/** The other way. */
export function inPart(p: Vec3, [a, b, c]: Axes): Vec3 {
  return [0, 1, 2].map((i) => p[0] * a[i]! + p[1] * b[i]! + p[2] * c[i]!) as unknown as Vec3;
}

/** What should be square or along is, to the last digit. */
function clean(x: number): number {
  const near = Math.round(x);
  return Math.abs(x - near) < DIGITS ? near : x;
}

/** What was turned for one lie is asked for again for that lie; a planner compares two. */
const LIES = 2;

export const seenVoid = memo(
  (v: Void, axes: Axes): Void => {
    const frame: Frame = {
      origin: seen(v.frame.origin, axes),
      u: seen(v.frame.u, axes),
      v: seen(v.frame.v, axes),
      w: seen(v.frame.w, axes),
    };
    // A plane cut across the spindle is milled as a step is.
    const role = v.role === 'slope' ? 'step' : v.role;
    return { ...v, role, frame, bounds: boundsOf(frame, v.region, v.from, v.to, v.profile) };
  },
  { size: LIES },
);

export function seenWork(w: Workpiece, axes: Axes): Workpiece {
  const { body, around } = seenOutside(w.body, axes);
  return { body, voids: [...around, ...w.voids.map((v) => seenVoid(v, axes))] };
}

const seenOutside = memo(outsideOf, { size: LIES });

export function seenCut(cut: Cut, axes: Axes): Cut {
  return {
    ...cut,
    removes: cut.removes.map((v) => seenVoid(v, axes)),
    before: seenWork(cut.before, axes),
    after: seenWork(cut.after, axes),
  };
}

/** The box round the turned stock, and volumes that take away what of it is not stock. */
function outsideOf(stock: BodyShape, axes: Axes): { readonly body: BodyShape; readonly around: readonly Void[] } {
  const { min, max } = stock.box;
  const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((k) =>
    seen([k & 1 ? max[0] : min[0], k & 2 ? max[1] : min[1], k & 4 ? max[2] : min[2]], axes),
  );
  const low = [0, 1, 2].map((i) => Math.min(...corners.map((c) => c[i]!))) as unknown as Vec3;
  const high = [0, 1, 2].map((i) => Math.max(...corners.map((c) => c[i]!))) as unknown as Vec3;
  const far = 2 * Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]) + 1;
  const middle = [0, 1, 2].map((i) => (min[i]! + max[i]!) / 2) as unknown as Vec3;
  const wide: Region = { outer: rectLoop(-far, -far, far, far), holes: [] };
  const around: Void[] = [];
  const add = (frame: Frame, region: Region, from: number, to: number) => {
    const turned: Frame = {
      origin: seen(frame.origin, axes),
      u: seen(frame.u, axes),
      v: seen(frame.v, axes),
      w: seen(frame.w, axes),
    };
    const profile = { type: 'straight' } as const;
    const bounds = boundsOf(turned, region, from, to, profile);
    const own = { feature: '', member: 0, role: 'contour', through: true } as const;
    around.push({ ...own, frame: turned, region, from, to, profile, bounds });
  };
  const unit = (i: number, by = 1): Vec3 => [i === 0 ? by : 0, i === 1 ? by : 0, i === 2 ? by : 0];
  for (const i of [0, 1, 2] as const) {
    const round = stock.form === 'round';
    if (round && i !== stock.axis) continue;
    const [a, b] = [(i + 1) % 3, (i + 2) % 3];
    for (const by of [1, -1]) {
      const half = (max[i] - min[i]) / 2;
      const frame = { origin: middle, u: unit(a, by), v: unit(b), w: unit(i, by) };
      add(frame, wide, half, half + far);
    }
    if (!round) continue;
    const ring: Region = {
      outer: wide.outer,
      holes: [{ edges: [circleEdge({ u: 0, v: 0 }, stock.radius, false)] }],
    };
    add({ origin: middle, u: unit(a), v: unit(b), w: unit(i) }, ring, -far, far);
  }
  return { body: { form: 'box', box: { min: low, max: high } }, around };
}
