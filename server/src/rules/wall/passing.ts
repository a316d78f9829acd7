/** Walls that stand only for a while: cut on both sides, and taken away, or made lower, by a later cut of the set-ups. */
import { heed } from '../../effort';
import { holds } from '../../geometry/solid/prism';
import type { BodyShape, Vec3, Void, Wall } from '../../geometry/types';
import { boxesMeet, boxesNear, sharedBox } from '../../geometry/vector';
import { wallsBetween } from '../../geometry/walls';
import { compareVoids, sameCut } from '../../geometry/walls/order';
import { memo } from '../../memo';
import { isMaterial } from '../../process/stock/in-process-stock';
import type { Cut } from '../../process/stock/types';
import { change } from '../kit/changes';
import type { Fix, RuleContext } from '../kit/rule';
import { reordered, setupsIn } from '../kit/setups';
import { isVoid, type WallBetween } from './walls';

interface PassingWall {
  readonly wall: Wall;
  /** The cut that takes it away, or some of its height. */
  readonly until: Cut;
  /** It is gone where it is thinnest; else it is only lowered. */
  readonly gone: boolean;
}

const SIDES: ReadonlySet<Void['role']> = new Set<Void['role']>([
  'pocket',
  'slot',
  'step',
  'contour',
  'bore',
  'counterbore',
]);
const TAKERS: ReadonlySet<Void['role']> = new Set<Void['role']>(['pocket', 'slot', 'step', 'contour', 'counterbore']);

/** Thinner than `belowMm` just before a cut that takes some of it. A wall that two cuts take from is told at the first. */
export function* passingWalls(context: RuleContext, belowMm: number): Generator<PassingWall> {
  const { featureByName } = context.part;
  for (const { cuts } of setupsIn(context)) {
    for (const until of cuts) {
      const takes = until.removes.filter((v) => TAKERS.has(v.role) || until.face);
      if (takes.length === 0) continue;
      const near = until.before.voids.filter(
        (v) =>
          SIDES.has(v.role) &&
          featureByName.has(v.feature) &&
          takes.some((t) => boxesNear(v.bounds, t.bounds, belowMm)),
      );
      heed(near.length * near.length);
      for (const [i, a] of near.entries()) {
        for (const b of near.slice(i + 1)) {
          if (sameCut(a, b) || !boxesNear(a.bounds, b.bounds, belowMm)) continue;
          yield* between(compareVoids(a, b) <= 0 ? [a, b] : [b, a], takes, until, belowMm);
        }
      }
    }
  }
}

function* between(
  [a, b]: readonly [Void, Void],
  takes: readonly Void[],
  until: Cut,
  belowMm: number,
): Generator<PassingWall> {
  const gap = sharedBox(a.bounds, b.bounds, belowMm);
  const taking = takes.filter((t) => boxesMeet(t.bounds, gap));
  if (taking.length === 0) return;
  const { body, voids } = until.before;
  const near = voids.filter((v) => boxesNear(v.bounds, gap, 0));
  for (const { wall, gone } of takenFrom(a, b, { body, near, taking, belowMm })) yield { wall, until, gone };
}

interface Then {
  readonly body: BodyShape;
  readonly near: readonly Void[];
  readonly taking: readonly Void[];
  readonly belowMm: number;
}

const takenFrom = memo(
  (a: Void, b: Void, { body, near, taking, belowMm }: Then): readonly Omit<PassingWall, 'until'>[] => {
    const isThere = (p: Vec3) => isMaterial({ body, voids: near }, p);
    return wallsBetween([a, b], body, near, belowMm, isThere).flatMap((wall) => {
      const taken = (p: Vec3) => taking.some((t) => holds(t, p));
      const gone = taken(middleOf(wall));
      return gone || upright(wall).some((p) => taken(p) && isThere(p)) ? [{ wall, gone }] : [];
    });
  },
  { owners: 2, size: 4, by: (_, __, { body, near, taking, belowMm }) => [body, near, taking, belowMm] },
);

function middleOf({ at: [p, q] }: Wall): Vec3 {
  return [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2];
}

/** Looks up and down the wall where it is thinnest. */
const LOOKS = 16;

function upright(wall: Wall): readonly Vec3[] {
  const { w } = wall.a.frame;
  const m = middleOf(wall);
  const by = (t: number): Vec3 => [m[0] + t * w[0], m[1] + t * w[1], m[2] + t * w[2]];
  return Array.from({ length: LOOKS }, (_, i) => by(wall.heightMm * ((2 * (i + 0.5)) / LOOKS - 1)));
}

/** What takes it away cut before both of its sides are, where one set-up does both. */
export function* takenFirst(name: string, sides: readonly string[], context: RuleContext): Generator<Fix | undefined> {
  for (const { setup } of setupsIn(context)) {
    const taker = setup.cuts.find((c) => c.name === name);
    const side = setup.cuts.findLast((c) => sides.includes(c.name));
    if (!taker || !side || setup.cuts.indexOf(taker) < setup.cuts.indexOf(side)) continue;
    const rest = setup.cuts.filter((c) => c !== taker);
    yield change(
      `Cut ${name} before ${side.name}`,
      reordered(setup, rest.toSpliced(rest.indexOf(side), 0, taker), context),
    );
  }
}

/** The features on both sides of a wall. */
export function sidesNamed({ a, b }: WallBetween): readonly string[] {
  return [a, b].flatMap((v) => (isVoid(v) ? [v.feature] : []));
}

/** The same of every wall between two features. */
export function pairName({ a, b }: WallBetween): string {
  return [a.feature, isVoid(b) ? b.feature : b].sort().join(' ');
}
