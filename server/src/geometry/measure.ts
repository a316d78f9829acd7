/**
 * Volume and centroid of the finished part with overlaps counted once, and the share of each void.
 *
 * What is removed is summed void by void: each counts what it takes from the body that no earlier neighbour took. A
 * void that meets no other and lies in the body is closed form. Each answer is kept with the void and the neighbours
 * it was worked out against, so an edit costs only the voids it touches.
 */
import { type Amount, amountOf, NOTHING, plus, wholeOf } from './amount';
import { bodyPrism, sameBody } from './body';
import { liesIn } from './prism';
import type { BodyShape, Measures, Void } from './types';
import { boxesMeet } from './vector';

interface Kept {
  readonly body: BodyShape;
  readonly others: readonly Void[];
  readonly amount: Amount;
}
/** A few answers for each void: alone, after its earlier neighbours, inside the body. */
const remainders = new WeakMap<Void, Kept[]>();
const KEEP = 4;

/** What the void takes from the body that none of the others takes. */
export function remainderOf(v: Void, others: readonly Void[], body: BodyShape): Amount {
  const inside = liesIn(body, v.bounds);
  if (others.length === 0 && inside) return wholeOf(v);
  let known = remainders.get(v);
  const hit = known?.find((k) => sameList(k.others, others) && sameBody(k.body, body));
  if (hit) return hit.amount;
  const amount = boxesMeet(v.bounds, body.box) ? amountOf(inside ? [v] : [v, bodyPrism(body)], others) : NOTHING;
  if (!known) {
    known = [];
    remainders.set(v, known);
  }
  if (known.length >= KEEP) known.shift();
  known.push({ body, others, amount });
  return amount;
}

function sameList(a: readonly Void[], b: readonly Void[]): boolean {
  return a === b || (a.length === b.length && a.every((x, i) => x === b[i]));
}

/** The finished part: the body less the union of the voids. `meets` lists for each void those it may share volume with. */
export function measurePart(body: BodyShape, voids: readonly Void[], meets: readonly (readonly number[])[]): Measures {
  let left = wholeOf(bodyPrism(body));
  for (let i = 0; i < voids.length; i++) {
    const earlier = meets[i]!.filter((k) => k < i).map((k) => voids[k]!);
    left = plus(left, remainderOf(voids[i]!, earlier, body), -1);
  }
  const { volumeMm3, first, exact } = left;
  const { max } = body.box;
  if (volumeMm3 <= 1e-12) return { volumeMm3: 0, centroid: [max[0] / 2, max[1] / 2, max[2] / 2], exact };
  return { volumeMm3, centroid: [first[0] / volumeMm3, first[1] / volumeMm3, first[2] / volumeMm3], exact };
}

const commons = new WeakMap<Void, WeakMap<Void, { body: BodyShape; mm3: number }>>();

/** Volume inside both voids and the body, mm³. */
export function commonVolume(a: Void, b: Void, body: BodyShape): number {
  if (!boxesMeet(a.bounds, b.bounds)) return 0;
  let of = commons.get(a);
  if (!of) {
    of = new WeakMap();
    commons.set(a, of);
  }
  const known = of.get(b);
  if (known && sameBody(known.body, body)) return known.mm3;
  const inside = liesIn(body, a.bounds) || liesIn(body, b.bounds);
  const mm3 = amountOf(inside ? [a, b] : [a, b, bodyPrism(body)], []).volumeMm3;
  of.set(b, { body, mm3 });
  return mm3;
}
