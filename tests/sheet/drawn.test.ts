/**
 * Sheets of parts drawn at random, in both languages: nothing overlaps, nothing leaves the field. `FUZZ_RUNS=125` draws a
 * thousand; each has a title, a quantity, a fit and a datum that vary too.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { readPart } from '../../server/src/rules/check';
import { sheetOf } from '../../server/src/sheet/sheet';
import { draws, patience } from '../fuzz/runs';
import { partText } from '../simulator/generate';
import { clashesOn } from './clashes';

const TITLES = [
  '',
  'title: Elevation bearing block\n',
  'title: "Ρουλεμάν άξονα – βάση"\n',
  'title: Łożysko osi głównej, wersja zewnętrzna z uchwytem\n',
  'title: Őrségi tűzőkapocs-csapágyház nagyon hosszú megnevezéssel a próbához\n',
  'title: 機械の台座 with letters that no font of ours has\n',
];

describe('sheets of drawn parts', function () {
  this.timeout(patience(180_000));

  it('nothing overlaps, nothing leaves the field', () => {
    const part = fc.tuple(partText, fc.constantFrom(...TITLES), fc.constantFrom(1, 2, 3, 7, 40), fc.boolean());
    fc.assert(
      fc.property(part, ([text, title, quantity, german]) => {
        const whole = text
          .replace(/^(part: .*\n)/m, `$1${title}`)
          .replace(/^quantity: .*\n/m, '')
          .replace(/^(body:)/m, `quantity: ${quantity}\ntolerance: ISO 2768-m\n$1`)
          .replace(/diameter: 10(?=[,\s])/, 'diameter: 10 H7');
        const checked = readPart(`${whole}datums: { A: bottom, B: front, C: f1 }\n`, builtinShop());
        const request = { checked, file: `${'drawn-'.repeat(quantity)}1.part.yaml`, mark: '1a2b3c4d', creator: 'test' };
        const sheet = sheetOf({ ...request, when: new Date(2026, 10, 29) }, { language: german ? 'de' : 'en' });
        const clashes = sheet.pages.flatMap((p) => clashesOn(p).map((c) => `${p.number}: ${c}`));
        assert.deepEqual(clashes, [], whole);
      }),
      draws(1541, 8),
    );
  });
});
