/** What was worked out once: the same answer at the same price, whoever asked what before. */
import assert from 'node:assert/strict';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import fc from 'fast-check';
import { CutShort, metered, spend, unitsOf, within } from '../server/src/effort';
import { Around, Later, memo, memoByValue } from '../server/src/memo';

interface Owner {
  readonly name: string;
}
const owner = (name = 'owner'): Owner => ({ name });

/** A function that counts how often it is worked out. */
function counted<A extends readonly unknown[], T>(work: (...args: A) => T) {
  const at = { times: 0 };
  const counting = (...args: A): T => {
    at.times++;
    return work(...args);
  };
  return { at, counting };
}

describe('memo', () => {
  it('works out once what is asked again of the same things', () => {
    const { at, counting } = counted((o: Owner, n: number, of: object) => ({ o, n, of }));
    const ask = memo(counting, { size: 4 });
    const [a, b, thing] = [owner(), owner(), {}];
    const first = ask(a, 1, thing);
    assert.equal(ask(a, 1, thing), first);
    assert.equal(at.times, 1);
    assert.notEqual(ask(b, 1, thing), first, 'another owner, though it looks the same');
    assert.notEqual(ask(a, 2, thing), first, 'another number');
    assert.notEqual(ask(a, 1, {}), first, 'another object, though it looks the same');
    assert.equal(ask(a, 1, thing), first);
    assert.equal(at.times, 4);
  });

  it('takes lists of the same things for the same, lists of lists too', () => {
    const { at, counting } = counted((_: Owner, list: readonly unknown[]) => list.length);
    const ask = memo(counting);
    const [o, x, y] = [owner(), {}, {}];
    ask(o, [x, [y, 1]]);
    ask(o, [x, [y, 1]]);
    assert.equal(at.times, 1);
    for (const other of [[x, [y, 2]], [x, y, 1], [[y, 1], x], [x], []]) ask(o, other);
    assert.equal(at.times, 6);
  });

  it('tells lists apart that follow each other', () => {
    const ask = memo((_: Owner, a: readonly number[], b: readonly number[]) => [a.length, b.length], { size: 9 });
    const o = owner();
    assert.deepEqual(ask(o, [1], [2, 3]), [1, 2]);
    assert.deepEqual(ask(o, [1, 2], [3]), [2, 1]);
  });

  it('keeps what is not there: undefined is an answer', () => {
    const { at, counting } = counted((_: Owner) => undefined);
    const ask = memo(counting);
    const o = owner();
    assert.equal(ask(o), undefined);
    assert.equal(ask(o), undefined);
    assert.equal(at.times, 1);
  });

  it('goes by what is said to matter', () => {
    const { at, counting } = counted((_: Owner, of: { readonly n: number; readonly m: number }) => of.n);
    const ask = memo(counting, { by: (_, of) => [of.n] });
    const o = owner();
    assert.equal(ask(o, { n: 1, m: 1 }), 1);
    assert.equal(ask(o, { n: 1, m: 2 }), 1);
    assert.equal(at.times, 1);
    assert.equal(ask(o, { n: 2, m: 2 }), 2);
  });

  it('keeps so many of each owner, those asked for last', () => {
    const { at, counting } = counted((_: Owner, n: number) => n);
    const ask = memo(counting, { size: 2 });
    const [a, b] = [owner(), owner()];
    for (const n of [1, 2, 1, 3]) ask(a, n);
    for (const n of [7, 8]) ask(b, n);
    assert.equal(at.times, 5);
    ask(a, 1);
    ask(a, 3);
    ask(b, 7);
    assert.equal(at.times, 5, 'the last two of each');
    ask(a, 2);
    assert.equal(at.times, 6, 'the one before is gone');
  });

  it('keeps any number of pairs, each as long as both live', () => {
    const { at, counting } = counted((a: Owner, b: Owner, n: number) => a.name + b.name + n);
    const ask = memo(counting, { owners: 2 });
    const many = Array.from({ length: 50 }, (_, i) => owner(`${i}`));
    for (let k = 0; k < 2; k++)
      for (const a of many) for (const b of many) assert.equal(ask(a, b, 1), `${a.name}${b.name}1`);
    assert.equal(at.times, 2500);
    assert.equal(ask(many[0]!, many[1]!, 2), '012');
    assert.equal(ask(many[0]!, many[1]!, 1), '011');
    assert.equal(at.times, 2502);
  });

  it('keeps nothing alive by itself', async () => {
    const ask = memo((o: Owner, other: Owner) => ({ o, other }));
    const pair = memo((o: Owner, other: Owner) => ({ o, other }), { owners: 2 });
    const lasting = owner();
    const refs = (() => {
      const [o, other, third] = [owner(), owner(), owner()];
      return [o, other, ask(o, other), third, pair(lasting, third)].map((x) => new WeakRef<object>(x));
    })();
    setFlagsFromString('--expose-gc');
    const collect = runInNewContext('gc') as () => void;
    for (let n = 0; n < 10 && refs.some((r) => r.deref()); n++) {
      await new Promise((resolve) => setImmediate(resolve));
      collect();
    }
    assert.deepEqual(
      refs.map((r) => r.deref()),
      refs.map(() => undefined),
    );
    assert.ok(lasting);
  });

  it('keeps no failure, and takes no room for one', () => {
    let fails = true;
    const { at, counting } = counted((_: Owner, n: number) => {
      if (fails && n === 2) throw new RangeError('not now');
      return n;
    });
    const ask = memo(counting, { size: 1 });
    const o = owner();
    ask(o, 1);
    assert.throws(() => ask(o, 2), RangeError);
    ask(o, 1);
    assert.equal(at.times, 2);
    fails = false;
    assert.equal(ask(o, 2), 2);
  });

  it('keeps nothing that was cut short', () => {
    const { at, counting } = counted((_: Owner) => {
      for (let i = 0; i < 10_000; i++) spend(1);
      return 'whole';
    });
    const ask = memo(counting);
    const o = owner();
    assert.throws(
      () =>
        metered(
          () => true,
          () => ask(o),
        ),
      CutShort,
    );
    assert.equal(ask(o), 'whole');
    assert.equal(ask(o), 'whole');
    assert.equal(at.times, 2);
  });

  it('does not try again with as little what did not reach', () => {
    const { at, counting } = counted((_: Owner) => {
      spend(100);
      return 'exact';
    });
    const ask = memo(counting);
    const o = owner();
    const asked = (left: number) =>
      within(
        { remaining: left },
        () => ask(o),
        () => 'rough',
      );
    assert.deepEqual([asked(50), asked(50), asked(40)], ['rough', 'rough', 'rough']);
    assert.equal(at.times, 1);
    assert.deepEqual([asked(100), asked(99), asked(100)], ['exact', 'rough', 'exact']);
    assert.equal(at.times, 2);
  });
});

describe('an argument that is worked out later', () => {
  it('is not part of the question where nobody looked at it', () => {
    const { at, counting } = counted((_: Owner, deep: boolean, near: Later<readonly number[]>) =>
      deep ? near.value.length : 0,
    );
    const ask = memo(counting, { size: 4 });
    const o = owner();
    let gathered = 0;
    const later = (...list: readonly number[]) =>
      new Later(() => {
        gathered++;
        return list;
      });
    assert.equal(ask(o, false, later(1, 2)), 0);
    assert.equal(ask(o, false, later(3)), 0);
    assert.deepEqual([at.times, gathered], [1, 0]);
    assert.equal(ask(o, true, later(1, 2)), 2);
    assert.equal(ask(o, true, later(1, 2)), 2);
    assert.equal(at.times, 2);
    assert.equal(ask(o, true, later(1)), 1);
    assert.equal(at.times, 3);
  });

  it('was looked at by whoever was answered from what another look had found', () => {
    const inner = memo((_: Owner, near: Later<number>) => near.value, { size: 4 });
    const outer = memo((o: Owner, near: Later<number>) => inner(o, near) * 10, { size: 4 });
    const o = owner();
    assert.equal(inner(o, new Later(() => 1)), 1);
    assert.equal(outer(o, new Later(() => 1)), 10);
    assert.equal(outer(o, new Later(() => 2)), 20);
  });
});

describe('an argument that lies round about', () => {
  /** Things on a line, by their names and how far off they lie. */
  const line = (things: Readonly<Record<string, number>>) =>
    new Around((mm) => Object.keys(things).filter((name) => things[name]! <= mm));

  it('counts as far out as it was looked at', () => {
    const { at, counting } = counted((_: Owner, far: boolean, around: Around<string>) => {
      const near = around.within(1).join();
      return far ? `${near} ${around.within(5).join()}` : near;
    });
    const ask = memo(counting, { size: 4 });
    const o = owner();
    assert.equal(ask(o, false, line({ a: 1, b: 3 })), 'a');
    assert.equal(ask(o, false, line({ a: 0.5, b: 2, c: 9 })), 'a', 'the same as near as it was looked');
    assert.equal(at.times, 1);
    assert.equal(ask(o, false, line({ a: 1, b: 1 })), 'a,b');
    assert.equal(ask(o, true, line({ a: 1, b: 3, c: 9 })), 'a a,b');
    assert.equal(ask(o, true, line({ a: 1, b: 2 })), 'a a,b');
    assert.equal(at.times, 3);
    assert.equal(ask(o, true, line({ a: 1, b: 6 })), 'a a');
    assert.equal(at.times, 4);
  });

  it('counts for whoever was answered from what was looked at before', () => {
    const inner = memo((_: Owner, around: Around<string>) => around.within(3).length, { size: 4 });
    const outer = memo((o: Owner, around: Around<string>) => inner(o, around) * 10, { size: 4 });
    const o = owner();
    assert.equal(inner(o, line({ a: 1 })), 1);
    assert.equal(outer(o, line({ a: 2, far: 4 })), 10);
    assert.equal(outer(o, line({ a: 2, far: 3 })), 20);
  });
});

describe('the same question', () => {
  /** A tower of questions, some of which answer roughly where a budget does not reach. */
  function tower() {
    const leaf = memo(
      (o: Owner, n: number) => {
        for (let i = 0; i < n; i++) spend(1);
        return `${o.name}${n}`;
      },
      { size: 2 },
    );
    const branch = memo(
      (o: Owner, list: readonly number[]): string =>
        list
          .map((n) =>
            within(
              { remaining: 25 },
              () => leaf(o, n) + leaf(o, 3),
              () => '~',
            ),
          )
          .join(),
      { size: 2 },
    );
    return (o: Owner, list: readonly number[], left: number): string =>
      within(
        { remaining: left },
        () => `${branch(o, list)};${branch(o, list.slice(1))}`,
        () => 'rough',
      );
  }

  it('has the same answer at the same price after any history', () => {
    const owners = ['a', 'b'].map((name) => owner(name));
    const question = fc.tuple(
      fc.constantFrom(...owners),
      fc.array(fc.integer({ min: 0, max: 30 }), { maxLength: 4 }),
      fc.constantFrom(10, 40, 80, 1000),
    );
    let rough = 0;
    let seen = 0;
    fc.assert(
      fc.property(fc.array(question, { minLength: 1, maxLength: 12 }), (asked) => {
        const old = tower();
        for (const q of [...asked, ...asked.toReversed()]) {
          const told = { old: '', fresh: '' };
          const units = unitsOf(() => {
            told.old = old(...q);
          });
          const fresh = unitsOf(() => {
            told.fresh = tower()(...q);
          });
          assert.deepEqual({ answer: told.old, units }, { answer: told.fresh, units: fresh });
          seen++;
          if (told.old.includes('~') || told.old === 'rough') rough++;
        }
      }),
      { seed: 1, numRuns: 300 },
    );
    assert.ok(rough > 100 && rough < seen - 100, 'both kinds of answers were met');
  });
});

describe('memo without an owner', () => {
  it('keeps so many answers, and the oldest goes', () => {
    const { at, counting } = counted((word: string) => ({ word }));
    const ask = memoByValue(counting, 2);
    const first = ask('a');
    assert.equal(ask('a'), first);
    ask('b');
    assert.equal(ask('a'), first);
    assert.equal(at.times, 2);
    ask('c');
    assert.notEqual(ask('a'), first);
    assert.equal(at.times, 4);
  });

  it('costs as much whoever asked first, and keeps no failure', () => {
    let fails = true;
    const ask = memoByValue((n: number) => {
      spend(n);
      if (fails) throw new RangeError('not now');
      return n;
    }, 4);
    assert.throws(() => ask(7), RangeError);
    fails = false;
    const price = () =>
      unitsOf(() => {
        assert.equal(ask(7), 7);
      });
    assert.deepEqual([price(), price()], [7, 7]);
  });
});
