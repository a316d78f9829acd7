/**
 * Cuts that touch and do not overlap: between them stands a web of nothing, which a cutter leaves as a foil or tears. Found as
 * a wall a hair thick between the one and the other made a hair smaller, so that everything that holds for walls holds for it.
 */

import { heed, spend } from '../../effort';
import { memo } from '../../memo';
import { HAIR } from '../../tolerance';
import { insetRegion } from '../2d/offset';
import { bodyDepths } from '../distance/section';
import { solidsApart } from '../distance/solids';
import { nearIn } from '../solid/near';
import { boundsOf, holds } from '../solid/prism';
import type { BodyShape, Solid, Vec3, Void, Wall } from '../types';
import { boxesMeet, boxesNear } from '../vector';
import { wallsBetween } from './';
import { compareVoids, sameCut } from './order';

/** Walls thinner than this are looked for, mm. */
const THIN = 3 * HAIR;
/** So far under a face a cut is in the body, mm. */
const SKIN = 0.01;
/** Nearer than this is touching, mm; of less shared volume than this, mm³, no overlap. */
const TOUCH_MM = 1e-6;
const SHARED_MM3 = 1e-3;
/** Pairs that are looked at in one part: what is drawn into one place a thousand times over is another rule's. */
const MOST = 400;
const LOOK = 200;

const KINDS: ReadonlySet<Void['role']> = new Set<Void['role']>([
  'pocket',
  'slot',
  'step',
  'bore',
  'counterbore',
  'contour',
]);

/** One for each pair of cuts; of no thickness. A cut that begins where another ends opens into it, and touches nothing. */
export function touchingCuts(solid: Solid): readonly Wall[] {
  const { body, voids } = solid;
  const found: Wall[] = [];
  let looks = 0;
  voids.forEach((a, i) => {
    if (!isStraight(a)) return;
    heed(voids.length - i);
    for (const k of nearIn(voids, a.bounds, TOUCH_MM)) {
      const b = voids[k]!;
      if (k <= i || !boxesNear(a.bounds, b.bounds, TOUCH_MM) || !isStraight(b) || sameCut(a, b) || ++looks > MOST)
        continue;
      spend(LOOK);
      if (!touch(a, b) || overlap(a, b, solid)) continue;
      const [one, other] = compareVoids(a, b) <= 0 ? [a, b] : [b, a];
      const wall = keptBetween(one, other, body, voids);
      if (wall) found.push(wall);
    }
  });
  return found;
}

function isStraight({ role, profile }: Void): boolean {
  return KINDS.has(role) && profile.type === 'straight';
}

const touch = memo(
  (a: Void, b: Void) => (solidsApart(a, b, 2 * TOUCH_MM)?.mm ?? Number.POSITIVE_INFINITY) <= TOUCH_MM,
  { owners: 2 },
);

function keptBetween(a: Void, b: Void, body: BodyShape, voids: readonly Void[]): Wall | undefined {
  const near = voids.filter(
    (v) => v !== a && v !== b && boxesNear(v.bounds, a.bounds, 1) && boxesNear(v.bounds, b.bounds, 1),
  );
  return wallBetween(a, b, body, near);
}

const wallBetween = memo(
  (a: Void, b: Void, body: BodyShape, near: readonly Void[]) =>
    touchWithin(body, a, b) ? between(a, b, body, near) : undefined,
  { owners: 2 },
);

/** False where two cuts come together only where one of them runs out of the body: nothing stands there. */
function touchWithin(body: BodyShape, a: Void, b: Void): boolean {
  const meet = (x: Void, y: Void) => solidsApart(x, y, 2 * THIN) !== undefined;
  return meet(withoutSkin(a, body), b) && meet(a, withoutSkin(b, body));
}

/** A cut as far as it lies under the body's faces. What lies in them alone is left as it is. */
function withoutSkin(v: Void, body: BodyShape): Void {
  const depths = bodyDepths(v.frame, body);
  const [from, to] = [Math.max(v.from, depths.from + SKIN), Math.min(v.to, depths.to - SKIN)];
  if (to <= from || (from === v.from && to === v.to)) return v;
  return { ...v, from, to, bounds: boundsOf(v.frame, v.region, from, to, v.profile) };
}

/** Two cuts open into each other wherever any volume of the one, the point of a drill too, reaches into the other. */
function overlap(a: Void, b: Void, solid: Solid): boolean {
  const [ofA, ofB] = [a, b].map((v) => [v, ...solid.voidsOf(v.feature).filter((o) => o !== v && sameCut(o, v))]) as [
    Void[],
    Void[],
  ];
  return ofA.some((x) => ofB.some((y) => boxesMeet(x.bounds, y.bounds) && solid.sharedMm3(x, y) > SHARED_MM3));
}

/** Whichever of the two is made smaller, a wall stands: where one opens into the other its mouth still lies on it. */
function between(a: Void, b: Void, body: BodyShape, near: readonly Void[]): Wall | undefined {
  let found: Wall | undefined;
  for (const [kept, less] of [
    [a, b],
    [b, a],
  ] as const) {
    // An outline that cannot be made smaller says nothing.
    const small = smaller(less);
    if (!small) continue;
    const wall = parted(kept, less, small, body, near);
    if (!wall) return undefined;
    found ??= wall;
  }
  return found;
}

function parted(kept: Void, less: Void, small: Void, body: BodyShape, near: readonly Void[]): Wall | undefined {
  const now = [...near, kept, small];
  const isMaterial = (p: Vec3) => inBody(body, p) && !now.some((v) => holds(v, p));
  const walls = wallsBetween([kept, small], body, now, THIN, isMaterial);
  const wall = walls.find((w) => (w.a === kept && w.b === small) || (w.a === small && w.b === kept));
  if (!wall) return undefined;
  const at = wall.a === kept ? wall.at : ([wall.at[1], wall.at[0]] as const);
  return { ...wall, thicknessMm: 0, a: kept, b: less, at };
}

function inBody({ box }: BodyShape, p: Vec3): boolean {
  return ([0, 1, 2] as const).every((i) => p[i] >= box.min[i] && p[i] <= box.max[i]);
}

/** All round and at its floor, but not at its mouth. */
function smaller(v: Void): Void | undefined {
  const [region, ...more] = insetRegion(v.region, HAIR) ?? [];
  if (!region || more.length > 0) return undefined;
  const to = v.through ? v.to : v.to - HAIR;
  if (to <= v.from) return undefined;
  return { ...v, region, to, bounds: boundsOf(v.frame, region, v.from, to, v.profile) };
}
