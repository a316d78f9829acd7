/**
 * The search alone, on abstract parts: what a pose can cut is a table. Compared with brute force over every order of
 * poses and every assignment, so that "no plan has fewer" is a statement that can be wrong.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import type { Vise } from '../../server/src/model/shop-model';
import { DIRECTIONS, fewestDirections, maskOf } from '../../server/src/planning/directions';
import type { Item } from '../../server/src/planning/item';
import type { Pose } from '../../server/src/planning/poses';
import { type Ask, type Move, search } from '../../server/src/planning/search';

const VISE = { name: 'vise' } as Vise;
const POSES: readonly Pose[] = DIRECTIONS.map((up) => ({
  up,
  bit: maskOf([up]),
  jaws: up === 'front' || up === 'back' ? ['left', 'right'] : ['front', 'back'],
  vise: VISE,
}));
const item = (index: number, from: number, after: readonly number[] = []): Item => ({
  index,
  name: `i${index}`,
  from,
  after,
  stage: 0,
  volumeMm3: 0,
});
const LIMITS = { mostSetups: 6, mostPlans: 4, mostAttempts: 5000, mostAfter: 5000 };

/** A world in which some pairs (pose, item) fail until another item is cut, and some poses fail once an item is gone. */
interface World {
  readonly items: readonly Item[];
  /** `needs.get('top:3')` = 1: item 3 is cut with top up only once item 1 is gone. */
  readonly needs: ReadonlyMap<string, number>;
  /** A pose that cannot hold once this item is gone. */
  readonly spoils: ReadonlyMap<string, number>;
}

function attemptIn(world: World) {
  return (ask: Ask<null>): Move<null> | undefined => {
    const spoiler = world.spoils.get(ask.pose.up);
    if (spoiler !== undefined && ask.done.has(spoiler)) return undefined;
    const cut = ask.candidates.filter((i) => {
      const need = world.needs.get(`${ask.pose.up}:${i.index}`);
      return need === undefined || ask.done.has(need);
    });
    return cut.length > 0 ? { pose: ask.pose, cut, made: null } : undefined;
  };
}

/** Breadth first over all states, each pose with every subset of what it can cut. */
function bruteFewest(world: World): number | undefined {
  const all = (1 << world.items.length) - 1;
  let states = new Set([0]);
  for (let n = 0; n <= 6; n++) {
    if (states.has(all)) return n;
    const next = new Set<number>();
    for (const state of states)
      for (const pose of POSES) {
        const spoiler = world.spoils.get(pose.up);
        if (spoiler !== undefined && state & (1 << spoiler)) continue;
        const can = world.items.filter((i) => {
          const need = world.needs.get(`${pose.up}:${i.index}`);
          return !(state & (1 << i.index)) && i.from & pose.bit && (need === undefined || state & (1 << need));
        });
        for (let set = 1; set < 1 << can.length; set++) {
          let to = state;
          can.forEach((i, k) => {
            if (set & (1 << k)) to |= 1 << i.index;
          });
          next.add(to);
        }
      }
    states = next;
  }
  return undefined;
}

describe('the search for the fewest setups', () => {
  it('finds what brute force over all orders and assignments finds', () => {
    const world = fc
      .record({
        from: fc.array(fc.integer({ min: 1, max: 63 }), { minLength: 1, maxLength: 5 }),
        needs: fc.array(fc.tuple(fc.nat(5), fc.nat(4), fc.nat(4)), { maxLength: 3 }),
        spoils: fc.array(fc.tuple(fc.nat(5), fc.nat(4)), { maxLength: 2 }),
      })
      .map(({ from, needs, spoils }): World => {
        const n = from.length;
        return {
          items: from.map((f, i) => item(i, f)),
          needs: new Map(
            needs.flatMap(([d, i, k]) => (i < n && k < n && i !== k ? [[`${DIRECTIONS[d]}:${i}`, k] as const] : [])),
          ),
          spoils: new Map(spoils.flatMap(([d, i]) => (i < n ? [[DIRECTIONS[d]!, i] as const] : []))),
        };
      });
    fc.assert(
      fc.property(world, (w) => {
        const found = search(w.items, POSES, attemptIn(w), LIMITS);
        const fewest = bruteFewest(w);
        assert.equal(found.plans[0]?.length, fewest);
        assert.ok(found.bound <= (fewest ?? 6));
        for (const plan of found.plans) {
          const cut = plan.flatMap((m) => m.cut.map((i) => i.index)).sort();
          assert.deepEqual(
            cut,
            w.items.map((i) => i.index),
          );
        }
      }),
      { seed: 20261125, numRuns: 250 },
    );
  });

  it('keeps what comes first first, across setups', () => {
    const items = [item(0, maskOf(['top'])), item(1, maskOf(['front']), [0])];
    const { plans } = search(items, POSES, attemptIn({ items, needs: new Map(), spoils: new Map() }), LIMITS);
    for (const plan of plans)
      assert.deepEqual(
        plan.map((m) => m.pose.up),
        ['top', 'front'],
      );
  });

  it('proves by the bound where directions alone need as many', () => {
    const items = DIRECTIONS.map((f, i) => item(i, maskOf([f])));
    const found = search(items, POSES, attemptIn({ items, needs: new Map(), spoils: new Map() }), LIMITS);
    assert.equal(found.proof, 'bound');
    assert.equal(found.plans[0]?.length, fewestDirections(items.map((i) => i.from)).count);
  });

  it('leaves for later what would spoil a setup, and says that all was tried', () => {
    // With the top cut first the front cannot be held; from the back 0 can be cut as well.
    const items = [item(0, maskOf(['top', 'back'])), item(1, maskOf(['top'])), item(2, maskOf(['front']))];
    const world = { items, needs: new Map([['top:1', 2]]), spoils: new Map([['front', 0]]) };
    const found = search(items, POSES, attemptIn(world), LIMITS);
    assert.equal(found.plans[0]?.length, bruteFewest(world));
  });

  it('gives up with what it could cut, and says so', () => {
    const items = [item(0, maskOf(['top'])), item(1, maskOf(['left']))];
    const never = search(
      items,
      POSES,
      (ask: Ask<null>) => (ask.pose.up === 'left' ? undefined : { pose: ask.pose, cut: ask.candidates, made: null }),
      LIMITS,
    );
    assert.deepEqual(never.plans, []);
    assert.equal(never.proof, 'tried');
    assert.deepEqual(
      never.furthest.map((m) => m.pose.up),
      ['top'],
    );
    const few = search(items, POSES, () => undefined, { ...LIMITS, mostAttempts: 1 });
    assert.equal(few.proof, 'open');
  });
});
