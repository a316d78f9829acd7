/** What is passed on first: a slice waits for it, and not without end. */
import assert from 'node:assert/strict';
import { Pace } from '../../server/src/service/pace';

const turn = () => new Promise<void>((resolve) => setImmediate(resolve));

describe('a slice of work', () => {
  it('waits for what a thread is about to answer, until that is there or it is enough', async () => {
    for (const end of ['answer', 'enough'] as const) {
      const said: string[] = [];
      let enough = () => {};
      const pace = new Pace(turn, (_, work) => {
        enough = work;
        return () => {};
      });
      let answer = (_: string) => {};
      const answered = pace.first(new Promise<string>((resolve) => (answer = resolve))).then((s) => said.push(s));
      const slice = pace.pause().then(() => said.push('slice'));
      for (let i = 0; i < 3; i++) await turn();
      assert.deepEqual(said, []);
      if (end === 'enough') enough();
      else answer('answer');
      await slice;
      assert.deepEqual(said, end === 'enough' ? ['slice'] : ['answer', 'slice']);
      answer('answer');
      await answered;
    }
  });

  it('waits for nothing where nothing is owed', async () => {
    const pace = new Pace(turn, () => assert.fail('no clock is needed'));
    await pace.pause();
    await pace.first(Promise.resolve());
    await pace.pause();
  });
});
