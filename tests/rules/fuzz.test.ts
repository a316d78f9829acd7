/** Mangled examples: whatever is typed, nothing is thrown, every finding is sound, every fix leaves a text that reads. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart, fixAllSafe, fixesFor } from '../../server/src/rules/check';
import { RULES } from '../../server/src/rules/registry';
import { commentsOf } from '../../server/src/text/comments';
import { applyEdits } from '../../server/src/text/edit';
import { readText } from '../../server/src/text/read';
import { withoutHidden } from '../../server/src/text/shown';
import { assertSound, fixed } from './tester';

const shop = builtinShop();
const EXAMPLES = RULES.flatMap((r) => [r.good, r.bad]);
const SEED = 20261125;

/** One small mishap: a line gone or doubled, a number changed, a word cut, a stray character, a piece of another part. */
function mishap(text: string, kind: number, where: number, amount: number): string {
  const lines = text.split('\n');
  const i = where % lines.length;
  const line = lines[i]!;
  switch (kind) {
    case 0:
      lines.splice(i, 1);
      break;
    case 1:
      lines.splice(i, 0, line);
      break;
    case 2:
      lines[i] = line.replace(/-?\d+(\.\d+)?/, String(Math.round((amount - 50) * 7.3) / 10));
      break;
    case 3:
      lines[i] = line.slice(0, amount % (line.length + 1));
      break;
    case 4:
      lines[i] =
        `${line.slice(0, amount % (line.length + 1))}${':{}[]#"\'&*!|>%@,- \t'[amount % 19]}${line.slice(amount % (line.length + 1))}`;
      break;
    case 5:
      lines[i] = line.replace(
        /\b(top|bottom|front|left|right|back|through|center|hole|pocket)\b/,
        ['top', 'front', 'through', 'slot', '0', 'center'][amount % 6]!,
      );
      break;
    default:
      lines[i] = EXAMPLES[amount % EXAMPLES.length]!.split('\n')[i] ?? line;
  }
  return lines.join('\n');
}

const mangled = fc
  .tuple(
    fc.nat(EXAMPLES.length - 1),
    fc.array(fc.tuple(fc.nat(6), fc.nat(40), fc.nat(100)), { minLength: 1, maxLength: 3 }),
  )
  .map(([example, mishaps]) => mishaps.reduce((text, [k, w, a]) => mishap(text, k, w, a), EXAMPLES[example]!));

describe('mangled parts', function () {
  this.timeout(120000);

  it('are judged without a crash, each finding sound', () => {
    fc.assert(
      fc.property(mangled, (text) => {
        const checked = checkPart(text, shop);
        for (const finding of checked.findings) {
          assert.equal(finding.facts.failed_rule, undefined, finding.message);
          assert.ok(!/failed on this part/.test(finding.message), finding.message);
          assertSound(finding, checked);
        }
      }),
      { seed: SEED, numRuns: 150 },
    );
  });

  it('are the same whether or not something came before', () => {
    fc.assert(
      fc.property(fc.nat(EXAMPLES.length - 1), fc.nat(6), fc.nat(40), fc.nat(100), (example, kind, where, amount) => {
        const before = checkPart(EXAMPLES[example]!, shop);
        const text = mishap(EXAMPLES[example]!, kind, where, amount);
        const plain = (c: typeof before) => c.findings.map((f) => [f.rule, f.message, f.of, c.tree.locate(f.span)]);
        assert.deepEqual(plain(checkPart(text, shop, before)), plain(checkPart(text, shop)));
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('are mended into texts that read, with every comment', () => {
    fc.assert(
      fc.property(mangled, (text) => {
        const checked = checkPart(text, shop);
        const syntax = checked.tree.problems.length;
        for (const finding of checked.findings.slice(0, 4)) {
          for (const fix of fixesFor(checked, finding)) {
            const after = fixed(checked, fix);
            assert.ok(readText(after).problems.length <= syntax, `${fix.title}\n${after}`);
          }
        }
      }),
      { seed: SEED, numRuns: 40 },
    );
  });

  it('end at a text with nothing safe left to mend', () => {
    fc.assert(
      fc.property(mangled, (text) => {
        const checked = checkPart(text, shop);
        const after = applyEdits(text, fixAllSafe(checked));
        const again = checkPart(after, shop);
        assert.deepEqual(fixAllSafe(again), []);
        const comments = commentsOf(after);
        for (const c of commentsOf(text))
          assert.ok(
            comments.includes(c) || comments.includes(withoutHidden(c)) || after.includes(JSON.stringify(c)),
            c,
          );
      }),
      { seed: SEED, numRuns: 40 },
    );
  });
});
