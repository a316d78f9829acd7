/** Round work on its side in plain jaws, whatever holes it has by then. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { heldOf } from '../../../server/src/process/workholding/in-jaws';
import { checkPart } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { onlyFinding } from '../tester';

/** A wheel hub on its rim, 30 in diameter and 14 long. */
const hub = (grip: number, features: string, before: string) => `${ALUMINIUM}body: { diameter: 30, length: 14, axis: z }
stock: { form: round-bar, diameter: 30, axis: z }
features:
${features}  pinch: { kind: hole, face: right, at: { y: center, z: center }, thread: M4, depth: 9 }
setups:
${before}  side:
    up: right
    hold: { vise: mill-vise-100, jaws: [back, front], grip: ${grip}, parallels: ${32 - grip}, stop: top }
    zero: { x: parallels, y: back, z: top }
    cuts: [pinch]
`;
const BEFORE = `  ends:
    up: top
    hold: { soft-jaws: mill-vise-100, jaws: [back, front], grip: 8, parallels: 24 }
    cuts: `;
const BORE = '  axle: { kind: hole, face: top, at: { x: center, y: center }, diameter: 5, depth: through }\n';
const HOLES =
  '  lighten: { kind: hole, face: top, at: { x: 15, y: 15 }, pattern: { bolt-circle: { diameter: 18, count: 4, start: 45 } }, diameter: 3, depth: through }\n';

describe('a round bar on its side below its middle', () => {
  for (const [what, features, before] of [
    ['whole', '', ''],
    ['with a bore', BORE, `${BEFORE}[axle]\n`],
    ['with a ring of holes', HOLES, `${BEFORE}[lighten]\n`],
    ['with both', BORE + HOLES, `${BEFORE}[axle, lighten]\n`],
  ] as const) {
    it(`${what}: an error, with how far up the middle lies`, () => {
      const f = onlyFinding('hold/parallel', hub(10, features, before));
      assert.equal(f.severity, 'error', f.message);
      assert.equal(f.facts.middle_mm, 15);
      assert.equal(onlyFinding('hold/parallel', hub(18, features, before)).severity, 'warning');
    });

    it(`${what}: the jaws stand apart by its chord where they end, and by its diameter above the middle`, () => {
      for (const grip of [6, 10, 14, 18]) {
        const { part, solid } = checkPart(hub(grip, features, before), builtinShop());
        const x = heldOf({ part, solid, shop: builtinShop() }).at(-1)!;
        // A chord so far from the middle of a circle: 2 √(r² − d²).
        const chord = 2 * Math.sqrt(15 ** 2 - Math.max(0, 15 - grip) ** 2);
        assert.ok(Math.abs(x.inVise.openingMm - chord) < 1e-3, `${grip}: ${x.inVise.openingMm} for ${chord}`);
      }
    });
  }

  it('no grip below its middle is advised, whichever pair is on hand', () => {
    for (const grip of [9, 11, 13]) {
      const { message, facts } = onlyFinding('hold/parallels', hub(grip, '', '').replace(/, parallels: \d+/, ''));
      const told = String(facts.would_do_mm)
        .match(/[\d.]+/g)!
        .map(Number);
      assert.ok(told.length > 0 && told.every((mm) => mm >= 15), message);
    }
  });
});
