/** Budgets decide what an answer is; meters only where it is worked out. */
import assert from 'node:assert/strict';
import { atOnce, CutShort, metered, spend, steps, within } from '../server/src/effort';

const work = (units: number) => {
  for (let i = 0; i < units; i++) spend(1);
  return 'done';
};

describe('effort', () => {
  it('lets work without meter or budget go on', () => {
    assert.equal(work(1e6), 'done');
  });

  it('answers otherwise where a budget does not reach, and takes what was spent from it', () => {
    const budget = { remaining: 100 };
    assert.equal(
      within(
        budget,
        () => work(60),
        () => 'rough',
      ),
      'done',
    );
    assert.equal(budget.remaining, 40);
    assert.equal(
      within(
        budget,
        () => work(60),
        () => 'rough',
      ),
      'rough',
    );
    assert.equal(budget.remaining, 0);
    assert.equal(work(1e5), 'done');
  });

  it('throws where the meter is over, and watches no longer than its work', () => {
    let looks = 0;
    assert.throws(
      () =>
        metered(
          () => ++looks > 3,
          () => work(1e6),
        ),
      CutShort,
    );
    assert.equal(looks, 4);
    assert.equal(work(1e6), 'done');
  });

  it('keeps an outer meter watching through an inner one, and after it', () => {
    let stop = false;
    assert.throws(
      () =>
        metered(
          () => stop,
          () => {
            assert.equal(
              metered(
                () => false,
                () => work(5000),
              ),
              'done',
            );
            stop = true;
            assert.throws(
              () =>
                metered(
                  () => false,
                  () => work(5000),
                ),
              CutShort,
            );
            work(5000);
          },
        ),
      CutShort,
    );
  });

  it('passes a budget by: work cut short is not answered roughly, and costs the budget nothing', () => {
    const budget = { remaining: 1e6 };
    assert.throws(
      () =>
        metered(
          () => true,
          () =>
            within(
              budget,
              () => work(1e5),
              () => 'rough',
            ),
        ),
      CutShort,
    );
    assert.equal(budget.remaining, 1e6);
  });

  it('is answered by the smaller of two budgets: what is part of a question has no answer of its own when that runs out', () => {
    const ask = (outer: number, inner: number) =>
      within(
        { remaining: outer },
        () =>
          within(
            { remaining: inner },
            () => work(100),
            () => 'inner',
          ),
        () => 'outer',
      );
    assert.equal(ask(1000, 1000), 'done');
    assert.equal(ask(1000, 50), 'inner');
    assert.equal(ask(50, 1000), 'outer');
  });

  it('does steps one after the other, or one at a time', () => {
    function* counting() {
      for (let i = 0; i < 3; i++) yield;
      return 'counted';
    }
    assert.equal(atOnce(counting()), 'counted');
    assert.equal(atOnce(steps(() => 7)), 7);
  });

  it('looks again at once where somebody took the cut for something else', () => {
    const swallow = () => {
      try {
        return work(1e4);
      } catch {
        return spend(1);
      }
    };
    assert.throws(() => metered(() => true, swallow), CutShort);
  });
});
