/**
 * Drawings of parts drawn at random: nothing overlaps, and what the text says of each feature is on the drawing once:
 * sizes in its note, places among the numbers at its view. `FUZZ_RUNS=125` draws a thousand.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { drawingOf } from '../../../server/src/sheet/drawing/drawing';
import { draws, patience } from '../../fuzz/runs';
import { partText } from '../../simulator/generate';
import { clashesOn } from '../clashes';

const TITLES = [
  '',
  'title: Elevation bearing block\n',
  'title: Őrségi tűzőkapocs-csapágyház nagyon hosszú megnevezéssel\n',
];

const drawnPart = fc.tuple(
  partText,
  fc.constantFrom(...TITLES),
  fc.boolean(),
  fc.constantFrom('small', 'large', undefined),
);

describe('drawings of drawn parts', function () {
  this.timeout(patience(180_000));

  it('nothing overlaps, nothing leaves the field', () => {
    fc.assert(
      fc.property(drawnPart, ([text, title, german, size]) => {
        const whole = withMore(text, title);
        const checked = checkPart(whole, builtinShop());
        const sheet = drawingOf(checked, { language: german ? 'de' : 'en', ...(size && { size: size as 'small' }) });
        const clashes = sheet.pages.flatMap((p) => clashesOn(p).map((c) => `${p.number}: ${c}`));
        assert.deepEqual(clashes, [], whole);
      }),
      draws(2317, 8),
    );
  });
});

/** With a fit, datums and frames, which the parts of the simulator have none of. */
function withMore(text: string, title: string): string {
  return `${text
    .replace(/^(part: .*\n)/m, `$1${title}`)
    .replace(/^(body:)/m, 'tolerance: ISO 2768-m\n$1')
    .replace(/diameter: 10(?=[,\s])/, 'diameter: 10 H7')
    .replace(/setups:[\s\S]*$/, '')}datums: { A: bottom, B: front, C: f1 }
tolerances:
  - { position: 0.1, of: f1, datums: [A, B] }
  - { flatness: 0.05, of: bottom }
  - { perpendicularity: 0.05, of: left, datums: [A] }
  - { parallelism: 0.05, of: top, datums: [A] }
  - { distance: 5 ±0.02, of: [left, f1], axis: x }
  - { distance: 12 ±0.05, of: [f1, right], axis: x }
  - { distance: 7 ±0.02, of: [front, f1], axis: y }
  - { distance: 9 ±0.1, of: [f1, top], axis: z }
`;
}
