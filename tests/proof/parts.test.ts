/** A generator whose parts are never whole proves nothing: most of what is drawn of each kind is cut. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { solidOf } from '../../server/src/geometry/part-solid';
import { resolvePart } from '../../server/src/model/part';
import { readText } from '../../server/src/text/read';
import { KINDS, partTexts } from './parts';

const DRAWN = 24;
const LEAST = 0.7;

describe('proof: the parts that are drawn', () => {
  for (const kind of Object.keys(KINDS))
    it(`are understood, and something is cut: ${kind}`, () => {
      let cut = 0;
      for (const { text } of fc.sample(partTexts(1, [kind]), { seed: 7, numRuns: DRAWN })) {
        const part = resolvePart(readText(text));
        const bare = resolvePart(readText(text.replace(/^ {2}f1: .*$/m, '')));
        const taken = solidOf(bare).measures.volumeMm3 - solidOf(part).measures.volumeMm3;
        if (part.problems.length === 0 && part.features.length === 1 && taken > 1e-3) cut++;
      }
      assert.ok(cut >= LEAST * DRAWN, `${cut} of ${DRAWN}`);
    });
});
