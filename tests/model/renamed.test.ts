/**
 * Messages name what is known: of a mention that nothing answers to, the nearest name. When that name becomes another, in a
 * shop or a job as in a part, the message follows, although the text it stands at is as it was.
 */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkJob, checkPart, checkShop } from '../../server/src/rules/check';
import type { Finding } from '../../server/src/rules/kit/rule';
import { JOB_TEXT, partTexts, shopTexts } from '../fuzz/history/world';
import { random, runs } from '../fuzz/runs';

interface Read {
  readonly findings: readonly Finding[];
}
type Check = (text: string, before?: Read) => Read;

const DOCUMENTS: readonly (readonly [what: string, texts: readonly string[], check: Check])[] = [
  ['a shop', shopTexts(), (text, before) => checkShop(text, 'mem:///s.shop.yaml', before as never)],
  ['a job', [JOB_TEXT, jobWithShop()], (text, before) => checkJob(text, before as never)],
  ['a part', partTexts(), (text, before) => checkPart(text, builtinShop(), before as never)],
];

function jobWithShop(): string {
  return `${JOB_TEXT}bars:\n  stick: { form: flat-bar, material: aluminium-6061-t6, size: { y: 60, z: 10 }, lenght: 1000 }\n`;
}

/** Keys that entries are called by, and fields. */
const KEY = /(?<=^ *|[{,] *)([a-z][\w-]*)(?=:)/gm;

/** One place at which a name stands is misspelt; then each of the places that are near it in spelling becomes another name. */
function* renamings(text: string, draw: ReturnType<typeof random>): Generator<readonly [string, string]> {
  const words = [...text.matchAll(/(?<=: |\[|, )[a-z][\w.-]*(?=\n|,|\]| \}|$)/gm), ...text.matchAll(KEY)];
  if (words.length === 0) return;
  const { index, 0: word } = draw.pick(words);
  const misspelt = `${text.slice(0, index)}${word}q${text.slice(index + word.length)}`;
  const others = [...misspelt.matchAll(new RegExp(`(?<![\\w-])${word.replace(/[.]/g, '\\.')}(?![\\w-])`, 'g'))];
  for (const other of others) {
    const renamed = `${misspelt.slice(0, other.index)}${word}-z${misspelt.slice(other.index + word.length)}`;
    yield [misspelt, renamed];
  }
}

describe('a message that names what is known', () => {
  for (const [what, texts, check] of DOCUMENTS)
    it(`follows when that is renamed, in ${what}`, () => {
      const draw = random(41);
      let renamed = 0;
      for (let i = 0; i < runs(30); i++) {
        for (const [before, after] of renamings(draw.pick(texts), draw)) {
          const first = check(before);
          const then = check(after, first);
          assert.deepEqual(then.findings, check(after).findings, after);
          assert.deepEqual(check(before, then).findings, check(before).findings, before);
          if (JSON.stringify(first.findings) !== JSON.stringify(then.findings)) renamed++;
        }
      }
      assert.ok(renamed > 5, `${renamed} made a difference`);
    }).timeout(60_000);
});
