/** Through cuts over parallels: where the pair lies, and where it could lie, worked out by hand. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { resolveShop } from '../../../server/src/model/shop';
import { placesFor } from '../../../server/src/process/workholding/parallels-position';
import { readText } from '../../../server/src/text/read';
import { ALUMINIUM } from '../parts';
import { findingsOf, onlyFinding } from '../tester';

const RULE = 'hold/drills-the-parallels';
const part = (holes: string, body = '{ x: 60, y: 40, z: 20 }', more = '') =>
  `${ALUMINIUM}body: ${body}
features:
${holes}setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [${[...holes.matchAll(/^ {2}([a-z]+):/gm)].map((m) => m[1]).join(', ')}] }
${more}`;
const hole = (name: string, y: number, diameter: number, x = 30) =>
  `  ${name}: { kind: hole, face: top, at: { x: ${x}, y: ${y} }, diameter: ${diameter}, depth: through }\n`;
/** The built-in shop with other parallels. */
const shop = (limits: string) => {
  const base = builtinShop();
  return { ...base, limits: resolveShop(readText(`shop: s\nlimits: { ${RULE}: { ${limits} } }\n`)).limits };
};

describe('hold/drills-the-parallels', () => {
  it('a tenth of a millimetre over is over, however near to a tangent; a tenth beside is not', () => {
    // The parallel ends 6 mm from the front: the hole begins at 5.9, at 6.1.
    const found = onlyFinding(RULE, part(hole('tie', 5.9 + 4, 8)));
    assert.equal(found.facts.over_mm, 0.1);
    assert.deepEqual(findingsOf(RULE, part(hole('tie', 6.1 + 4, 8))), []);
  });

  it('is found for every hole that reaches over, and for none that does not', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 37, noNaN: true }),
        fc.constantFrom(3.3, 5, 6.8, 10),
        fc.integer({ min: 10, max: 50 }),
        (y, d, x) => {
          const at = Math.round(y * 1000) / 1000;
          const over = Math.max(
            Math.min(6, at + d / 2) - Math.max(0, at - d / 2),
            Math.min(40, at + d / 2) - Math.max(34, at - d / 2),
          );
          if (Math.abs(over - 0.01) < 2e-3 || at - d / 2 < 0.5 || at + d / 2 > 39.5) return;
          assert.equal(
            findingsOf(RULE, part(hole('tie', at, d, x))).length,
            over > 0.01 ? 1 : 0,
            `${at} ${d}: ${over}`,
          );
        },
      ),
      { numRuns: 12, seed: 7 },
    );
  });

  it('one hole near the front: the pair is moved in there, and stays against the other jaw', () => {
    const found = onlyFinding(RULE, part(hole('tie', 6, 5)));
    assert.equal(found.severity, 'hint');
    // The hole takes 3.5 to 8.5: half a millimetre beside it the parallel begins, at 9 from the front.
    assert.deepEqual([found.facts.meets, found.facts.fixed_mm, found.facts.moving_mm], ['moved', 0, 9]);
  });

  it('narrow parallels fit between the jaw and the hole', () => {
    const found = findingsOf(RULE, part(hole('tie', 6, 5)), shop('width: 3'));
    assert.deepEqual(found, []);
  });

  it('rows of holes that leave no place: a warning that tells how narrow a pair would do', () => {
    // 20 between the jaws; holes of 5 from 3 to 8 and from 12 to 17: clear by half a millimetre 0–2.5, 8.5–11.5, 17.5–20.
    const holes = hole('near', 5.5, 5, 20) + hole('far', 14.5, 5, 40);
    const found = findingsOf(RULE, part(holes, '{ x: 60, y: 20, z: 20 }'));
    assert.deepEqual(
      found.map((f) => [f.severity, f.facts.meets, f.facts.would_do_mm]),
      [
        ['warning', 'parallel', 2.5],
        ['warning', 'parallel', 2.5],
      ],
    );
  });

  it('on the bed: parallels are said only where they lie clear', () => {
    const onBed = (y: number) =>
      onlyFinding(
        RULE,
        part(hole('tie', y, 5), '{ x: 60, y: 40, z: 50 }').replace('grip: 10', 'grip: 32, parallels: 0'),
      );
    assert.match(onBed(20).message, /Put parallels under the workpiece\.$/);
    // The hole begins 1.5 mm from the front jaw: a pair would have to be moved in.
    assert.match(onBed(4).message, /Put parallels under the workpiece, moved in clear of it\.$/);
  });

  it('what stands out of the jaws meets no parallel', () => {
    assert.deepEqual(findingsOf(RULE, part(hole('tie', 4, 5, 140), '{ x: 150, y: 40, z: 20 }')), []);
  });
});

describe('two places for a pair', () => {
  it('are clear of all spans, in order, apart, and the outermost on a fine raster', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 8 }),
        fc.array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 1, max: 12 })), { maxLength: 4 }),
        fc.integer({ min: 0, max: 3 }),
        (wide, holes, clear) => {
          const taken = holes.map(([a, l]) => [a, a + l] as const);
          const free = (a: number) =>
            a >= 0 && a + wide <= 60 && taken.every(([p, q]) => a + wide <= p - clear || a >= q + clear);
          // Whole numbers all through: the outermost places are whole too.
          const all = Array.from({ length: 61 }, (_, a) => a).filter(free);
          const [first, last] = [all[0], all[all.length - 1]];
          const want =
            first === undefined || last === undefined || last + wide - first < Math.max(24, 2 * wide)
              ? undefined
              : [
                  [first, first + wide],
                  [last, last + wide],
                ];
          assert.deepEqual(placesFor(wide, taken, [0, 60], clear, 24), want);
        },
      ),
      { numRuns: 400, seed: 11 },
    );
  });
});
