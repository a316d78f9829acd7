/** Leaning holes as their drill meets them in the finished part, seen along the drill. */
import type { Solid, Void } from '../../geometry/types';
import { scale } from '../../geometry/vector';
import { memo } from '../../memo';
import type { Hole } from '../../model/model';
import { type Bored, bored, without } from '../drilling';
import { axesToward, inPart, seen, seenVoid, seenWork } from './place';

/** One for each member; none for a hole that stands square. Depths count along the drill; `axis` and rim in part axes. */
export const leaningBores = memo(
  (hole: Hole, solid: Solid): readonly Bored[] => {
    if (!hole.tilt || hole.tilt.angle.deg === 0) return [];
    return solid.voidsOf(hole.name).flatMap((v) => (v.role === 'bore' ? [work(hole, v, solid)] : []));
  },
  { owners: 'second' },
);

function work(hole: Hole, v: Void, solid: Solid): Bored {
  const axes = axesToward(scale(v.frame.w, -1));
  const own = seenVoid(v, axes);
  const whole = seenWork(solid, axes);
  const place = without({ ...solid, ...whole }, hole.name, own);
  const made = bored(own, hole, 'top', ['top'], place);
  const back = made.rim.map((r) => ({ ...r, at: inPart(r.at, axes) }));
  // Depths from where the hole's place on its face lies, so that they compare with what is written.
  const level = place.body.box.max[2] - seen(v.frame.origin, axes)[2];
  const shift = <T extends { readonly from: number; readonly to: number }>(s: readonly T[]) =>
    s.map((x) => ({ ...x, from: x.from - level, to: x.to - level }));
  return {
    ...made,
    of: v,
    about: without(solid, hole.name, v),
    face: hole.face,
    faces: [hole.face],
    axis: inPart(made.axis, axes),
    startMm: made.startMm - level,
    endMm: made.endMm - level,
    core: shift(made.core),
    rim: back.map((r) => ({ ...r, material: shift(r.material) })),
  };
}
