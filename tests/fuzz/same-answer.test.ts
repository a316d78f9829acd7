/**
 * The same text, the same answer, whatever was asked before: a service that has seen many edits of several documents with
 * shops in common finds, offers and measures what a new one does.
 */
import assert from 'node:assert/strict';
import { Session, shrunk } from './history/session';
import { patience, runs } from './runs';

/** `FUZZ_RUNS=400` comes to 20,000 edits. */
const SESSIONS = 2;
const EDITS = 25;

describe('after many edits', function () {
  this.timeout(patience(60_000));

  for (let seed = 1; seed <= runs(SESSIONS); seed++)
    it(`a service answers as a new one does (${seed})`, async () => {
      const session = new Session(seed);
      try {
        await session.run(EDITS);
      } catch (failure) {
        const steps = process.env.FUZZ_SHRINK ? await shrunk(session.steps) : session.steps.slice(-3);
        const told = steps
          .map((step) => JSON.stringify(step).slice(0, process.env.FUZZ_SHRINK ? 4000 : 300))
          .join('\n');
        assert.fail(`${(failure as Error).message}\n\nafter ${session.steps.length} steps, ending in\n${told}`);
      }
    });
});
