/** Where the walls of features meet a cutting plane: which are told from it, and to which point of one a note's line goes. */

import { line } from '../../geometry/2d/edge';
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

/** A point of the cutting plane: so far to a side of a feature's axis, so deep below its face. */
function inCut(f: Feature, { view, axis }: Section<Through>, of: Drafted): (aside: number, deep: number) => Point2 {
  const { axis: down, sign } = FACE_AXIS[f.face];
  const size = of.part.size[AXIS_INDEX[down]];
  const [a, b] = FACE_PLANE[f.face].map((x) => AXIS_INDEX[x]) as [0 | 1 | 2, 0 | 1 | 2];
  return (aside, deep) => {
    const p: [number, number, number] = [0, 0, 0];
    p[a] = f.places[0]!.u;
    p[b] = f.places[0]!.v;
    p[AXIS_INDEX[down]] = sign > 0 ? size - deep : deep;
    p[a === axis ? b : a] += aside;
    return inPicture(view, p);
  };
}

/** On its wall on the side of the notes. */
export function wallOf(f: Feature, section: Section<Through>, of: Drafted): Point2 {
  const reach = ofForm(REACH, f)!;
  const at = inCut(f, section, of);
  const low = Math.min(reach.to, of.part.size[AXIS_INDEX[FACE_AXIS[f.face].axis]]);
  const right = at(reach.radius, 0).u > at(-reach.radius, 0).u ? reach.radius : -reach.radius;
  const walls = outlinesOf(section.cut).flat();
  const spots = SHARES.map((share) => at(right, reach.from + (low - reach.from) * share));
  return spots.find((s) => walls.some((e) => e.type === 'line' && isOn(s, e))) ?? spots[0]!;
}

/** ISO 6410-1: cut along its axis, a thread's own diameter is a narrow line on each side, as far as the thread is full. */
export function threadLines(f: Feature, section: Section<Through>, of: Drafted): readonly Edge[] {
  const reach = ofForm(REACH, f);
  if (!reach || !('thread' in f) || !f.thread?.spec || 'shapes' in f) return [];
  const half = f.thread.spec.diameterMm / 2;
  const start = 'startMm' in f ? f.startMm : 0;
  const to = Math.min(reach.to, f.threadDepth ? start + f.threadDepth.mm : reach.to);
  const at = inCut(f, section, of);
  return [half, -half].map((aside) => line(at(aside, reach.from), at(aside, to)));
}
