/**
 * Volume and centroid of the finished part with overlaps counted once, and the share of each void.
 *
 * What is removed is summed void by void: each counts what it takes from the body that no earlier neighbour took. A
 * void that meets no other and lies in the body is closed form. Each answer is kept with the void and the neighbours
 * it was worked out against, so an edit costs only the voids it touches.
 */

import { type Budget, within } from '../../effort';
import { memo } from '../../memo';
import { DIGITS } from '../../tolerance';
import type { BodyShape, Measures, Vec3, Void } from '../types';
import { boxesMeet } from '../vector';
import { bodyPrism } from './body';
import { holds, liesIn, type Prism } from './prism';
import { type Amount, amountOf, NOTHING, plus, wholeOf } from './volume-integral';

/** What the void takes from the body that none of the others takes. */
export function remainderOf(v: Void, others: readonly Void[], body: BodyShape, budget: Budget): Amount {
  const inside = liesIn(body, v.bounds);
  if (others.length === 0 && inside) return wholeOf(v);
  if (!boxesMeet(v.bounds, body.box)) return NOTHING;
  const also = inside ? [] : [bodyPrism(body)];
  return within(
    budget,
    () => exactRemainder(v, also, others),
    () => roughRemainder(v, also, others, samplesFor(budget, 1 + also.length + others.length)),
  );
}

/** A few answers for each void: alone, after its earlier neighbours, inside the body. */
const exactRemainder = memo(
  (v: Prism, also: readonly Prism[], outside: readonly Prism[]) => amountOf([v, ...also], outside),
  { size: 4 },
);
const roughRemainder = memo(
  (v: Prism, also: readonly Prism[], outside: readonly Prism[], samples: number) =>
    sampled([v, ...also], outside, samples),
  { size: 4 },
);

/** The finished part: the body less the union of the voids. `meets` lists for each void those it may share volume with. */
export function measurePart(
  body: BodyShape,
  voids: readonly Void[],
  meets: readonly (readonly number[])[],
  budget: Budget,
): Measures {
  let left = wholeOf(bodyPrism(body));
  for (let i = 0; i < voids.length; i++) {
    const earlier = meets[i]!.filter((k) => k < i).map((k) => voids[k]!);
    left = plus(left, remainderOf(voids[i]!, earlier, body, budget), -1);
  }
  const { volumeMm3, first, exact } = left;
  const { max } = body.box;
  if (volumeMm3 <= DIGITS) return { volumeMm3: 0, centroid: [max[0] / 2, max[1] / 2, max[2] / 2], exact };
  return { volumeMm3, centroid: [first[0] / volumeMm3, first[1] / volumeMm3, first[2] / volumeMm3], exact };
}

/** Volume inside both voids and the body, mm³. */
export function commonVolume(a: Void, b: Void, body: BodyShape, budget: Budget): number {
  if (!boxesMeet(a.bounds, b.bounds)) return 0;
  const also = liesIn(body, a.bounds) || liesIn(body, b.bounds) ? [] : [bodyPrism(body)];
  return within(
    budget,
    () => exactCommon(a, b, also),
    () => roughCommon(a, b, also, samplesFor(budget, 2 + also.length)),
  ).volumeMm3;
}

const exactCommon = memo((a: Prism, b: Prism, also: readonly Prism[]) => amountOf([a, b, ...also], []), { owners: 2 });
const roughCommon = memo(
  (a: Prism, b: Prism, also: readonly Prism[], samples: number) => sampled([a, b, ...also], [], samples),
  { owners: 2 },
);

/** Looks at a volume that all rough answers to one question may cost, about; and samples along each axis of one of them. */
const ROUGH_LOOKS = 2e5;
const LEAST_SAMPLES = 7;
const MOST_SAMPLES = 32;

/**
 * By samples: for outlines that cross too often to be followed. Off by a few thousandths of the volume asked for as a
 * rule, by a few hundredths where very many are asked for.
 */
function samplesFor(budget: Budget, volumes: number): number {
  budget.rough = (budget.rough ?? 0) + 1;
  const each = ROUGH_LOOKS / budget.rough / volumes;
  return Math.max(LEAST_SAMPLES, Math.min(MOST_SAMPLES, Math.floor(Math.cbrt(each))));
}

function sampled(inside: readonly Prism[], outside: readonly Prism[], samples: number): Amount {
  const box = sharedBox(inside);
  const size = [0, 1, 2].map((a) => (box.max[a]! - box.min[a]!) / samples);
  const cell = size[0]! * size[1]! * size[2]!;
  const sums = { volume: 0, x: 0, y: 0, z: 0 };
  for (let n = 0; n < samples ** 3; n++) {
    const at = [n % samples, Math.floor(n / samples) % samples, Math.floor(n / samples ** 2)];
    const p = [0, 1, 2].map((a) => box.min[a]! + (at[a]! + 0.5) * size[a]!) as unknown as Vec3;
    if (inside.some((o) => !holds(o, p)) || outside.some((o) => holds(o, p))) continue;
    sums.volume += cell;
    sums.x += cell * p[0];
    sums.y += cell * p[1];
    sums.z += cell * p[2];
  }
  return { volumeMm3: sums.volume, first: [sums.x, sums.y, sums.z], exact: false };
}

/** Where all of them may be; empty where they are apart. */
function sharedBox(prisms: readonly Prism[]): { readonly min: readonly number[]; readonly max: readonly number[] } {
  const axes = [0, 1, 2] as const;
  const min = axes.map((a) => Math.max(...prisms.map((p) => p.bounds.min[a])));
  return { min, max: axes.map((a) => Math.max(min[a]!, Math.min(...prisms.map((p) => p.bounds.max[a])))) };
}
