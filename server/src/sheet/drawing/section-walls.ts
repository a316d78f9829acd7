/** Where the walls of features meet a cutting plane: which are told from it, and to which point of one a note's line goes. */

import type { Edge, Point2 } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { type ByForm, ofForm } from '../../model/feature-kinds';
import { FACE_AXIS, FACE_PLANE, type Feature } from '../../model/model';
import { NEAR, SAME } from '../../tolerance';
import { inPicture, outlinesOf } from '../view/projected';
import type { Section, Through } from '../view/section';
import type { Drafted } from './callout';

/** Where a feature's wall meets the cutting plane, from its middle; undefined where it is not told from the plane. */
const REACH: ByForm<[], { readonly radius: number; readonly from: number; readonly to: number } | undefined> = {
  hole: (hole) => ({
    radius: hole.diameter.mm / 2,
    from: hole.startMm + (hole.counterbore?.depth.mm ?? 0),
    to: hole.startMm + hole.depth.mm,
  }),
  opening: ({ shape, startMm, depth }) =>
    shape.type === 'circle' ? { radius: shape.diameter.mm / 2, from: startMm, to: startMm + depth.mm } : undefined,
  channel: () => undefined,
  shoulder: () => undefined,
  outside: () => undefined,
  edge: () => undefined,
  ring: (ring) =>
    ring.in && ring.below
      ? { radius: ring.diameter.mm / 2, from: ring.below.mm, to: ring.below.mm + ring.width.mm }
      : undefined,
  letters: () => undefined,
  slope: () => undefined,
};

/** One that the plane cuts through the middle of, and whose outline there is known. */
export function onPlane(f: Feature, { through, axis, at }: Section<Through>): boolean {
  if (f.tilt || f.places.length === 0 || !ofForm(REACH, f)) return false;
  const [p, q] = [f.places[0]!, through.places[0]!];
  const along = AXIS_INDEX[FACE_PLANE[f.face][0]] === axis ? p.u : p.v;
  return Math.abs(along - at) < SAME && Math.hypot(p.u - q.u, p.v - q.v) < SAME;
}

/** Where along its depth a wall may still be there, the middle first. */
const SHARES = [0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92];

function isOn({ u, v }: Point2, { a, b }: Edge): boolean {
  const [du, dv] = [b.u - a.u, b.v - a.v];
  const long = Math.hypot(du, dv) || 1;
  const along = ((u - a.u) * du + (v - a.v) * dv) / long;
  return along > 0 && along < long && Math.abs((u - a.u) * dv - (v - a.v) * du) / long < NEAR;
}

/** On its wall on the side of the notes. */
export function wallOf(f: Feature, { view, axis, cut }: Section<Through>, of: Drafted): Point2 {
  const reach = ofForm(REACH, f)!;
  const { axis: deep, sign } = FACE_AXIS[f.face];
  const size = of.part.size;
  const [a, b] = FACE_PLANE[f.face].map((x) => AXIS_INDEX[x]) as [0 | 1 | 2, 0 | 1 | 2];
  const across = a === axis ? b : a;
  const at = (side: number, middle: number) => {
    const p: [number, number, number] = [0, 0, 0];
    p[a] = f.places[0]!.u;
    p[b] = f.places[0]!.v;
    p[AXIS_INDEX[deep]] = sign > 0 ? size[AXIS_INDEX[deep]] - middle : middle;
    p[across] += side * reach.radius;
    return inPicture(view, p);
  };
  const low = Math.min(reach.to, size[AXIS_INDEX[deep]]);
  const right = at(1, 0).u > at(-1, 0).u ? 1 : -1;
  const walls = outlinesOf(cut).flat();
  const spots = SHARES.map((share) => at(right, reach.from + (low - reach.from) * share));
  return spots.find((s) => walls.some((e) => e.type === 'line' && isOn(s, e))) ?? spots[0]!;
}
