/** Facing in its set-up: from above with the end of a wide cutter, or with the side of a mill. */

import type { Box, Vec3, Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { memo } from '../../memo';
import { FACE_AXIS, FACE_PLANE, type Face, type Part, type Setup } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { isFacer } from '../../model/tool-kinds';
import { SAME } from '../../tolerance';
import { depthBelow, inward } from '../column';
import type { Operation } from '../operations';
import { facingCuts } from '../operations/facing';
import { add } from '../section';
import { boxWithin } from '../stock/band';
import type { Cut } from '../stock/types';
import { facersFor } from './candidates';
import type { Case } from './case';
import { alongSpindle, roundMm, standsIn } from './cutter-locations';
import { type Task, troubleOf, tryTools } from './try-tools';
import type { Verdict } from './verdict';

export function facing(c: Case, face: Face): Verdict {
  const { cut, up, shop, asked } = c;
  const none: Verdict = { cut, up, uses: [], asked: asked !== undefined };
  const left = leftOver(cut);
  if (!left) return none;
  const v = narrowed(cut.removes[0]!, left);
  const mills = asked && isFacer(asked) ? [asked] : facersFor(face, up, shop);
  if (mills.length === 0) return none;
  const tipMm = Math.max(depthBelow(cut.before, up, v.bounds.min), depthBelow(cut.before, up, v.bounds.max));
  const task: Task = {
    up,
    get place() {
      return c.place;
    },
    body: cut.before.body,
    obstacles: c.obstacles,
    topMm: c.topMm,
    tipMm,
    does: 'face',
    leastReachMm: 0,
    stands: (radiusMm) =>
      face === up
        ? [...rimOf(c, tipMm, radiusMm), ...onTop(c, tipMm)]
        : standsIn(alongSpindle(v, up), c.placesWithin(roundMm(radiusMm)).place, up, radiusMm, { free: true }),
  };
  const tried = tryTools(mills, task, shop);
  if (tried.use) return { ...none, uses: [tried.use] };
  return { ...none, ...troubleOf(tried, mills, 'end mill', tipMm - c.topMm) };
}

/**
 * The box round what still stands over the face: contours and steps may have taken some of it, and farther down than that
 * no cutter need go. Undefined where nothing is left.
 */
export function leftOver({ removes: [v], before }: Cut): Box | undefined {
  if (!v) return undefined;
  const axis = ([0, 1, 2] as const).find((i) => Math.abs(v.frame.w[i]) > 0.5)!;
  const { min, max } = boxWithin(before, v.bounds);
  return max[axis] - min[axis] > SAME ? { min, max } : undefined;
}

/** The cuts that take off what still stands over a face when its turn comes; none where nothing does. */
export function facingInSetup(cut: Cut, setup: Setup, part: Part, shop: Shop): readonly Operation[] {
  const left = leftOver(cut);
  return left ? facingCuts(cut.name, setup, part, shop, left) : [];
}

/** The slab only as far as something is left of it; the same object as long as that is the same. */
const narrowed = memo((v: Void, bounds: Box): Void => ({ ...v, bounds }), { by: (_, { min, max }) => [min, max] });

/** Where a cutter of this radius stands while it faces, its tip at the finished face; none where nothing is left to face. */
export function faceStands(c: Pick<Case, 'cut' | 'up'>, radiusMm: number): readonly Vec3[] {
  const { cut, up } = c;
  const [v] = cut.removes;
  const left = leftOver(cut);
  if (!v || !left || !cut.face) return [];
  const tipMm = Math.max(depthBelow(cut.before, up, left.min), depthBelow(cut.before, up, left.max));
  if (cut.face === up) return rimOf(c, tipMm, radiusMm);
  const around = alongSpindle(narrowed(v, left), up);
  return standsIn(around, cut.before, up, radiusMm, { free: true }).map((p) =>
    add(p, inward(up), tipMm - depthBelow(cut.before, up, p)),
  );
}

/** A cutter goes over all of a face that it mills from above: over the heads of screws that hold the work there too. */
function onTop({ up, obstacles, cut }: Case, tipMm: number): readonly Vec3[] {
  const { box } = cut.before.body;
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const level = sign > 0 ? box.max[i] - tipMm : box.min[i] + tipMm;
  return obstacles
    .filter((o) => o.what === 'screw')
    .map(({ box: { min, max } }) => {
      const p = [0, 1, 2].map((k) => (min[k]! + max[k]!) / 2) as [number, number, number];
      p[i] = level;
      return p;
    });
}

/** Where a cutter of this radius stands so that it just covers the middles of the four sides of what is faced. */
function rimOf({ cut, up }: Pick<Case, 'cut' | 'up'>, tipMm: number, radiusMm: number): readonly Vec3[] {
  const { box } = cut.before.body;
  const [a, b] = FACE_PLANE[up].map((n) => AXIS_INDEX[n]) as [0 | 1 | 2, 0 | 1 | 2];
  const { axis, sign } = FACE_AXIS[up];
  const i = AXIS_INDEX[axis];
  const level = sign > 0 ? box.max[i] - tipMm : box.min[i] + tipMm;
  const place = (u: number, v: number): Vec3 => {
    const p = [0, 0, 0] as [number, number, number];
    p[a] = u;
    p[b] = v;
    p[i] = level;
    return p;
  };
  const inset = (k: 0 | 1 | 2) => Math.min(0.95 * radiusMm, (box.max[k] - box.min[k]) / 2);
  const [ma, mb] = [(box.min[a] + box.max[a]) / 2, (box.min[b] + box.max[b]) / 2];
  return [
    place(box.min[a] + inset(a), mb),
    place(box.max[a] - inset(a), mb),
    place(ma, box.min[b] + inset(b)),
    place(ma, box.max[b] - inset(b)),
  ];
}
