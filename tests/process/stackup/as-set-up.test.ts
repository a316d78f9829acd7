/**
 * Chains as set up, by hand: what each link is and what they come to. The machine's `zero-error` and the errors of the cut
 * and the seat are set, so that every number can be followed. Sums: closed form; the rule that a dimension cut from its
 * own datum has the error of the process alone, and every change of datum adds its own: G. Britton, Notes on Tolerance
 * Planning and Control, 2000.
 */
import assert from 'node:assert/strict';
import { resolveShop } from '../../../server/src/model/shop';
import { chainsOf, likelyMm, worstMm } from '../../../server/src/process/stackup';
import { checkPart } from '../../../server/src/rules/check';
import { readText } from '../../../server/src/text/read';
import { near } from '../../oracle/near';

const SHOP = resolveShop(
  readText(`shop: bench
machines:
  mill: { travel: { x: 400, y: 220, z: 380 }, spindle: { rpm: [150, 5000], power: 1.1 kW }, zero-error: { edge-finder: 0.02, probe: 0.01, tool-edge: 0.08, indicator: 0.012, stop: 0.03 } }
vises: { vise: { jaw: { width: 100, height: 32 }, opens: 110, force: 15 kN } }
parallels: [22]
tools:
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10 }
limits:
  tol/as-set-up: { cut: 0.005, seat: 0.007, sawn: 0.4 }
`),
  'bench.shop.yaml',
);

interface Case {
  readonly head?: string;
  readonly features?: string;
  readonly distance?: string;
  readonly of?: string;
  readonly first?: string;
  readonly second?: string;
}

const setup = (name: string, body: string) =>
  `  ${name}:\n    up: top\n    hold: { vise: vise, jaws: [back, front], grip: 10, parallels: 22, stop: left }\n${body}\n`;

function chains({ head = '', features, distance, of = 'a, b', first, second }: Case) {
  const text = `part: p
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
${head || 'stock: { form: flat-bar }'}
features:
${features ?? '  a: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 6, depth: through }\n  b: { kind: hole, face: top, at: { x: 40, y: center }, diameter: 6, depth: through }'}
${distance ? `tolerances:\n  - { distance: ${distance}, of: [${of}], axis: x }` : ''}
setups:
${first ? setup('first', first) : ''}${second ? setup('second', second) : ''}`;
  const { part, solid } = checkPart(text, SHOP);
  assert.deepEqual(part.problems, []);
  return chainsOf(part, solid, SHOP);
}

const zero = (x: string, cuts: string, method = 'edge-finder', z = 'parallels') =>
  `    zero: { x: ${x}, y: back, z: ${z} }\n    method: ${method}\n    cuts: [${cuts}]`;
const links = (c: Case) => chains(c)[0]?.asSetUp?.map((l) => [l.what, l.halfMm]);

describe('chains as set up', () => {
  it('one set-up for both ends: the two cuts are all there is', () => {
    assert.deepEqual(links({ distance: '20 ±0.02', first: zero('left', 'a, b') }), [
      ['a cut in first', 0.005],
      ['b cut in first', 0.005],
    ]);
  });

  it('two places of one pattern: each is cut by itself', () => {
    const features =
      '  a: { kind: hole, face: top, at: { x: center, y: center }, pattern: { line: { x: 20, count: 2 } }, diameter: 6, depth: through }';
    const found = chains({ features, distance: '20 ±0.02', of: '"a[1]", "a[2]"', first: zero('left', 'a') });
    assert.deepEqual(
      found[0]?.asSetUp?.map((l) => [l.what, l.halfMm]),
      [
        ['a[1] cut in first', 0.005],
        ['a[2] cut in first', 0.005],
      ],
    );
  });

  it('the pitch of a line or a grid is a dimension between two of its places', () => {
    const pattern = (text: string) =>
      `  a: { kind: hole, face: top, at: { x: center, y: center }, pattern: { ${text} }, diameter: 6, depth: through }`;
    const [line] = chains({ features: pattern('line: { x: 20 ±0.02, count: 3 }'), first: zero('left', 'a') });
    assert.deepEqual([line!.of.given, line!.of.ends, line!.of.allowedMm], ['pitch', ['a[1]', 'a[2]'], 0.02]);
    near(likelyMm(line!.asSetUp!), 0.005 * Math.SQRT2, 1e-12);
    const grid = pattern('grid: { x: { pitch: 20 ±0.05, count: 2 }, y: { pitch: 10 ±0.04, count: 2 } }');
    const both = chains({ features: grid, first: zero('left', 'a') });
    assert.deepEqual(
      both.map((c) => [c.of.axis, c.of.nominalMm, c.of.allowedMm]),
      [
        ['x', 20, 0.05],
        ['y', 10, 0.04],
      ],
    );
  });

  it('two set-ups from one face as supplied: both zeros are found from it', () => {
    const [chain] = chains({ distance: '20 ±0.02', first: zero('left', 'a'), second: zero('left', 'b', 'probe') });
    assert.deepEqual(
      chain?.asSetUp?.map((l) => [l.what, l.halfMm, l.source]),
      [
        ['a cut in first', 0.005, 'set in bench'],
        ['zero of first from left', 0.02, 'edge-finder, by the shop'],
        ['zero of second from left', 0.01, 'probe, by the shop'],
        ['b cut in second', 0.005, 'set in bench'],
      ],
    );
    near(worstMm(chain!.asSetUp!), 0.04, 1e-12);
    near(likelyMm(chain!.asSetUp!), Math.sqrt(0.02 ** 2 + 0.01 ** 2 + 2 * 0.005 ** 2), 1e-12);
  });

  it('from a face that the first set-up cut: the first zero moves both and drops out', () => {
    const head = 'stock: { form: flat-bar, extra: { right: 2 } }';
    assert.deepEqual(
      links({ head, distance: '20 ±0.02', first: zero('left', 'right, a'), second: zero('right', 'b') }),
      [
        ['a cut in first', 0.005],
        ['right cut in first', 0.005],
        ['zero of second from right', 0.02],
        ['b cut in second', 0.005],
      ],
    );
  });

  it('from the other feature itself: one zero, and b’s own cut', () => {
    assert.deepEqual(links({ distance: '20 ±0.02', first: zero('left', 'a'), second: zero('a', 'b', 'indicator') }), [
      ['zero of second from a', 0.012],
      ['b cut in second', 0.005],
    ]);
  });

  it('from the two sides of the bar: its own size stands between; 60 mm extruded is ±0.6 by EN 755-5', () => {
    const found = links({ distance: '20 ±0.02', first: zero('left', 'a'), second: zero('right', 'b') });
    assert.deepEqual(found?.[2], ['the bar from left to right', 0.6]);
    assert.equal(found?.length, 5);
    const sawn = 'stock: { form: flat-bar, sawn: [left, right] }';
    const rough = links({ head: sawn, distance: '20 ±0.02', first: zero('left', 'a'), second: zero('right', 'b') });
    assert.deepEqual(rough?.[2], ['the sawn length from left to right', 0.4]);
  });

  it('a batch against the stop is as good as the stop; a method that is named touches off every piece', () => {
    const at = '  a: { kind: hole, face: top, at: { left: 20 ±0.05, y: center }, diameter: 6, depth: through }';
    const batch = 'quantity: 5\nstock: { form: flat-bar }';
    const bare = zero('left', 'a').replace('    method: edge-finder\n', '');
    assert.deepEqual(links({ head: batch, features: at, first: bare })?.[0], ['zero of first from left', 0.03]);
    // A single piece, no method written: with an edge finder.
    assert.deepEqual(links({ features: at, first: bare })?.[0], ['zero of first from left', 0.02]);
    assert.deepEqual(links({ head: batch, features: at, first: zero('left', 'a') })?.[0], [
      'zero of first from left',
      0.02,
    ]);
  });

  it('a depth from the face above, zero at the parallels: the thickness of the bar is in it', () => {
    const pocket = (depth: string) =>
      `  a: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 20, y: 20 }, corner-radius: 6, depth: ${depth} }`;
    assert.deepEqual(links({ features: pocket('5 ±0.05'), first: zero('left', 'a') }), [
      ['the bar from top to bottom', 0.3],
      ['bottom on the parallels', 0.007],
      ['zero of first on the parallels', 0.02],
      // IT9 at 5 mm, ISO 286-1: 0.030. tol/process judges the depth by the same.
      ['milling a from top, IT9', 0.015],
    ]);
    // Faced in the same set-up, nothing but the process is left.
    const head = 'stock: { form: flat-bar, extra: { top: 1 } }';
    assert.deepEqual(links({ head, features: pocket('5 ±0.05'), first: zero('left', 'top, a') }), [
      ['milling a from top, IT9', 0.015],
    ]);
  });

  it('is not told where a zero, a cut or the bar is not known', () => {
    const distance = '20 ±0.02';
    assert.equal(links({ distance, first: zero('left', 'a') }), undefined, 'b is cut in no set-up');
    const block = 'stock: { form: block }';
    assert.equal(
      links({ head: block, distance, first: zero('left', 'a'), second: zero('right', 'b') }),
      undefined,
      'nobody knows a block’s size',
    );
    assert.equal(chains({ distance })[0]?.asSetUp, undefined, 'no set-ups');
  });

  // A two-block stack of published lecture slides: 1.000 ±0.005 twice; asked for 2.000 ±0.005 both ways of adding fail.
  it('the published stack of two blocks: ±0.010 at worst, ±0.00707 by root of sum of squares', () => {
    const block = { what: 'block', halfMm: 0.005, source: 'slides', by: 'drawn' } as const;
    near(worstMm([block, block]), 0.01, 1e-12);
    near(likelyMm([block, block]), 0.00707, 5e-6);
  });

  // Independent errors add by their squares: three uniform ones drawn 20,000 times have the spread that the formula says.
  it('the root of the sum of squares is what independent errors do', () => {
    let seed = 1;
    const random = () => {
      seed = (seed * 48271) % 2147483647;
      return seed / 2147483647;
    };
    const halves = [0.02, 0.01, 0.03];
    let sum = 0;
    const runs = 20000;
    for (let i = 0; i < runs; i++) sum += halves.reduce((s, h) => s + h * (2 * random() - 1), 0) ** 2;
    const made = halves.map((halfMm) => ({ what: '', halfMm, source: '', by: 'zero' }) as const);
    near(Math.sqrt(sum / runs) * Math.sqrt(3), likelyMm(made), 0.0006);
  });
});
