/** What hands must know when they put the workpiece in: whether it is square yet, which bore to go by, a height from a tilted face. */

import type { Solid, Vec3 } from '../../geometry/types';
import { AXIS_INDEX, dot } from '../../geometry/vector';
import { FACE_AXIS, type Face, type Feature, type Hole, type Part } from '../../model/model';
import { SAME } from '../../tolerance';
import type { PartInShop } from '../part-in-shop';
import { timelineOf } from '../stock';
import type { SetupInTime } from '../stock/types';
import { spindleOf } from '../tilted/spindle';
import { inJaws } from './in-jaws';
import { isFace, stateOf } from './references';

type State = ReturnType<typeof stateOf>;

/** Faces that are flat and square to what they are beside. */
const TRUE: ReadonlySet<State> = new Set(['cut', 'supplied']);

/** Two faces that are parallel close a vise flat; a round bar at the moving jaw lets the fixed jaw alone tell. Common practice, no source. */
export function needsRoundBar(fixed: State, moving: State): boolean {
  return fixed !== moving || !TRUE.has(fixed);
}

export interface SquaredUp {
  readonly fixed: Face;
  readonly moving: Face;
  readonly fixedState: State;
  readonly movingState: State;
}

/** Undefined where both faces in the jaws are square, or no plain vise holds it. */
export function squaredUp(s: SetupInTime, { part, solid, shop }: PartInShop): SquaredUp | undefined {
  const x = s.setup.hold?.type === 'vise' && s.before.body.form === 'box' ? inJaws(s, part, shop) : undefined;
  if (!x) return undefined;
  const { fixed, moving } = x.inVise;
  const state = (face: Face) => stateOf(face, s, 0, part, solid);
  const [fixedState, movingState] = [state(fixed), state(moving)];
  // Cut against drawn is as parallel as drawn: only a face that is rough tells nothing.
  if (TRUE.has(fixedState) && TRUE.has(movingState)) return undefined;
  return { fixed, moving, fixedState, movingState };
}

/** A bore cut before that something is now bored on the same axis as, and that zero is not taken from yet. */
export function boreToIndicate(s: SetupInTime, part: Part, solid: Solid): Hole | undefined {
  if (!s.up) return undefined;
  const up = AXIS_INDEX[FACE_AXIS[s.up].axis];
  const zeros = Object.values(s.setup.zero).map((z) => z.name);
  const before = timelineOf(part, solid)
    .setups.slice(0, s.index)
    .flatMap((o) => o.cuts.flatMap((c) => c.feature ?? []));
  const single = (f: Feature | undefined): f is Hole =>
    f?.kind === 'hole' && f.places.length === 1 && !f.tilt && AXIS_INDEX[FACE_AXIS[f.face].axis] === up;
  const middle = (f: Hole) => {
    const b = solid.voidsOf(f.name)[0]?.bounds;
    return b && [0, 1, 2].map((i) => (b.min[i]! + b.max[i]!) / 2);
  };
  const bores = before.filter(single).filter((f) => f.depth.through && !zeros.includes(f.name));
  const here = s.cuts.flatMap((c) => c.feature ?? []).filter(single);
  return bores.find((bore) => {
    const at = middle(bore);
    return here.some((f) => {
      const on = middle(f);
      return at && on && f !== bore && [0, 1, 2].every((i) => i === up || Math.abs(at[i]! - on[i]!) < SAME);
    });
  });
}

export interface OverTilted {
  /** What zero is set on. */
  readonly on: string;
  readonly deg: number;
}

/** The least tilt that counts, and the most over which a ball still lies, degrees. */
const [LEAST_DEG, MOST_DEG] = [0.05, 85];

/** Zero along the spindle from a plane that is tilted to it: a face of work held at an angle, or a milled slope. */
export function tiltedZero(s: SetupInTime, part: Part): OverTilted | undefined {
  if (!s.up) return undefined;
  const zero = s.setup.zero[FACE_AXIS[s.up].axis];
  if (!zero) return undefined;
  const deg = leanOf(zero.name, spindleOf(s.setup, part)?.toward ?? outward(s.up), part);
  return deg !== undefined && deg > LEAST_DEG ? { on: zero.name, deg } : undefined;
}

/** By how much a face or slope leans to the spindle, where a ball lies on it; undefined for what is no plane, or too steep. */
export function leanOf(name: string, toward: Vec3, part: Pick<Part, 'featureByName'>): number | undefined {
  const normal = normalOf(name, part);
  if (!normal) return undefined;
  const deg = (Math.acos(Math.min(1, Math.abs(dot(normal, toward)))) * 180) / Math.PI;
  return deg < MOST_DEG ? deg : undefined;
}

export function normalOf(name: string, { featureByName }: Pick<Part, 'featureByName'>): Vec3 | undefined {
  if (isFace(name)) return outward(name);
  const feature = featureByName.get(name);
  if (feature?.kind !== 'slope') return undefined;
  const a = (feature.angle.deg * Math.PI) / 180;
  const [n, side] = [outward(feature.face), outward(feature.along.name)];
  return [0, 1, 2].map((i) => n[i]! * Math.cos(a) + side[i]! * Math.sin(a)) as unknown as Vec3;
}

function outward(face: Face): Vec3 {
  const { axis, sign } = FACE_AXIS[face];
  return [0, 1, 2].map((i) => (i === AXIS_INDEX[axis] ? sign : 0)) as unknown as Vec3;
}

/** How far the top of a ball or pin that lies on a tilted plane is above that plane, measured along the spindle: r + r / cos a. */
export function ballTopMm(radiusMm: number, deg: number): number {
  return radiusMm + radiusMm / Math.cos((deg * Math.PI) / 180);
}
