/** What of the features a view dimensions: middles of holes, sides of what is milled, and the outline. */

import type { Drawn } from '../../export/flat/lines';
import type { View } from '../../export/flat/view';
import { distanceTo } from '../../geometry/2d/edge';
import { fromFrame } from '../../geometry/frame';
import { standing } from '../../geometry/solid/section';
import type { Solid } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_PLANE, type Feature, type Part } from '../../model/model';
import { NEAR, SAME } from '../../tolerance';
import { locatedBy } from '../part/located';
import { num } from '../part/numbers';
import { inPicture } from './projected';

/** In the picture's own millimetres, along its right and its up axis. */
interface Place1 {
  readonly at: number;
  readonly label: string;
  /** The outline, what the part is located by, middles, sides. */
  readonly rank: number;
}
interface Places {
  readonly right: readonly Place1[];
  readonly up: readonly Place1[];
}

export function placesIn(view: View, features: readonly Feature[], part: Part, solid: Solid): Places {
  const datums = new Set([...part.datums.values()].map((d) => d.target.name));
  const found = { right: [] as Place1[], up: [] as Place1[] };
  const add = (along: 'right' | 'up', partMm: number, rank: number) => {
    const { axis, sign } = view[along];
    const size = solid.body.box.max[AXIS_INDEX[axis]];
    if (partMm < -SAME || partMm > size + SAME) return;
    found[along].push({ at: sign > 0 ? partMm : size - partMm, label: num(partMm, part.units), rank });
  };
  for (const along of ['right', 'up'] as const) {
    add(along, 0, 0);
    add(along, solid.body.box.max[AXIS_INDEX[view[along].axis]], 0);
  }
  for (const feature of features) {
    if (locatedBy(feature).view === 'nothing') continue;
    const rank = datums.has(feature.name) ? 1 : locatedBy(feature).view === 'middles' ? 2 : 3;
    for (const along of ['right', 'up'] as const)
      for (const mm of along1(feature, view, along, solid)) add(along, mm, rank);
  }
  return found;
}

function along1(feature: Feature, view: View, along: 'right' | 'up', solid: Solid): readonly number[] {
  const { axis } = view[along];
  if (locatedBy(feature).view === 'middles')
    return feature.places.map((p) => (FACE_PLANE[feature.face][0] === axis ? p.u : p.v));
  const i = AXIS_INDEX[axis];
  return solid.voidsOf(feature.name).flatMap(({ bounds }) => [bounds.min[i], bounds.max[i]]);
}

/** Where a feature's letter belongs: the middle and reach of its members in the picture. */
export function spotsIn(view: View, feature: Feature, solid: Solid): readonly { u: number; v: number; r: number }[] {
  const members = new Map<number, { u: number; v: number; r: number }>();
  for (const { member, bounds } of solid.voidsOf(feature.name)) {
    const [p, q] = [inPicture(view, bounds.min), inPicture(view, bounds.max)];
    const [u0, u1] = clipped(p.u, q.u, view.width);
    const [v0, v1] = clipped(p.v, q.v, view.height);
    const spot = { u: (u0 + u1) / 2, v: (v0 + v1) / 2, r: Math.min(u1 - u0, v1 - v0) / 2 };
    const known = members.get(member);
    if (!known || known.r < spot.r) members.set(member, spot);
  }
  return [...members.values()].filter((s) => s.r > 0);
}

/** Of an outline that stays: the middle of its longest straight side that is seen; undefined for every other feature. */
export function onOutline({ view, visible }: Drawn, feature: Feature, solid: Solid): Spot | undefined {
  const sides = solid.voidsOf(feature.name).flatMap((v) => {
    if (v.role !== 'contour' || standing(v, view.axis) !== 'along') return [];
    return v.region.holes.flatMap((h) =>
      h.edges.flatMap((e) => {
        if (e.type !== 'line') return [];
        const [a, b] = [e.a, e.b].map((p) => inPicture(view, fromFrame(v.frame, p.u, p.v, v.from))) as [Spot, Spot];
        const at = { u: (a.u + b.u) / 2, v: (a.v + b.v) / 2 };
        const isSeen = visible.some((s) => s.type === 'line' && distanceTo(s, at.u, at.v) < NEAR);
        return isSeen ? [{ at, long: Math.hypot(a.u - b.u, a.v - b.v) }] : [];
      }),
    );
  });
  return sides.reduce<(typeof sides)[number] | undefined>((m, s) => (!m || s.long > m.long + SAME ? s : m), undefined)
    ?.at;
}

interface Spot {
  readonly u: number;
  readonly v: number;
}

function clipped(a: number, b: number, size: number): readonly [number, number] {
  return [Math.max(0, Math.min(a, b)), Math.min(size, Math.max(a, b))];
}
