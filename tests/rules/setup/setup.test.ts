/**
 * Set-ups: order, zero, batches, tolerances between two of them. The textbook rules that these follow: group by the
 * direction a tool comes from, then by tolerance; datums first; precedence decides the sequence (Hazarika and Dixit,
 * Setup Planning for Machining, 2015, chapter 2); a dimension cut from its own datum has the error of the process alone,
 * every change of datum adds its own (Britton, Notes on Tolerance Planning and Control, 2000).
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';
import { checkMarked } from '../marked';
import { ALUMINIUM } from '../parts';
import { findingsOf, mended, onlyFinding } from '../tester';

const FEATURES = `  seat: { kind: pocket, face: top, at: { x: 30, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
  bore: { kind: hole, face: top, from: seat, at: { x: 30, y: center }, diameter: 8, depth: 10 }
  ring: { kind: groove, in: bore, below: 3, diameter: 11, width: 2, face: top }
  rim: { kind: chamfer, edges: [{ rim: seat }], size: 0.5 }
  pivot: { kind: hole, face: top, at: { x: 8, y: center }, diameter: 6, depth: through }
  under: { kind: pocket, face: bottom, at: { x: 48, y: center }, size: { x: 12, y: 14 }, corner-radius: 5, depth: 3 }
`;
const HOLD = '{ vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }';

interface One {
  readonly name?: string;
  readonly up?: string;
  readonly hold?: string;
  readonly zero?: string;
  readonly method?: string;
  readonly cuts: string;
}

function part(setups: readonly One[], more = '', head = ALUMINIUM, features = FEATURES): string {
  const text = setups
    .map(
      ({ name, up = 'top', hold = HOLD, zero = '{ x: left, y: back, z: parallels }', method, cuts }, i) =>
        `  ${name ?? ['first', 'second', 'third'][i]}:\n    up: ${up}\n    hold: ${hold}\n    zero: ${zero}\n${method ? `    method: ${method}\n` : ''}    cuts: [${cuts}]\n`,
    )
    .join('');
  return `${head}body: { x: 60, y: 40, z: 20 }\n${more}features:\n${features}setups:\n${text}`;
}
const WHOLE = [{ cuts: 'seat, bore, ring, rim, pivot' }, { up: 'bottom', cuts: 'under' }] as const;

describe('setup: a careful plan raises nothing', () => {
  it('two set-ups, one zero, everything once', () => {
    checkMarked(part(WHOLE, '', `${ALUMINIUM}quantity: 6\n`), { topics: ['setup'], hints: true });
  });
  it('nothing without set-ups', () => {
    const text = part(WHOLE);
    const bare = text.slice(0, text.indexOf('setups:'));
    const found = checkPart(bare, builtinShop()).findings.filter((f) => f.rule.startsWith('setup/'));
    assert.deepEqual(found, []);
  });
});

describe('setup/order', () => {
  it('what it stands on, lies in, or breaks the rim of comes first', () => {
    const found = findingsOf('setup/order', part([{ cuts: 'ring, rim, bore, seat, pivot' }, WHOLE[1]]));
    assert.deepEqual(
      found.map((f) => [f.of[0], f.facts.waits_for, f.severity]),
      [
        ['ring', 'bore', 'error'],
        ['rim', 'seat', 'error'],
        ['bore', 'seat', 'warning'],
      ],
    );
  });

  it('every order that keeps precedence passes, every other is told', () => {
    const names = ['seat', 'bore', 'ring', 'rim', 'pivot'];
    const before = [
      ['seat', 'bore'],
      ['bore', 'ring'],
      ['seat', 'rim'],
    ] as const;
    fc.assert(
      fc.property(fc.shuffledSubarray(names, { minLength: 5 }), (order) => {
        const broken = before.filter(([a, b]) => order.indexOf(a) > order.indexOf(b)).length;
        assert.equal(
          findingsOf('setup/order', part([{ cuts: order.join(', ') }, WHOLE[1]])).length,
          broken,
          order.join(' '),
        );
      }),
      { numRuns: 10, seed: 3 },
    );
  });

  it('across set-ups as well, and is cured by cutting it there first', () => {
    const text = part([{ cuts: 'bore, ring, pivot' }, { cuts: 'seat, rim' }, WHOLE[1]]);
    assert.equal(onlyFinding('setup/order', text).of[0], 'bore');
    const cured = mended('setup/order', text, /Cut seat in first/);
    assert.match(cured, /cuts: \[seat, bore, ring, pivot]\n/);
    assert.deepEqual(findingsOf('setup/order', cured), []);
    const lines = text.replace(
      'cuts: [bore, ring, pivot]',
      'cuts:\n      - bore # on the seat\n      - ring\n      - pivot',
    );
    assert.match(mended('setup/order', lines, /Cut seat in first/), /cuts:\n {6}- seat\n {6}- bore # on the seat\n/);
  });

  it('zero from a bore that only a later set-up cuts', () => {
    const text = part([
      { up: 'bottom', zero: '{ x: pivot, y: back, z: parallels }', cuts: 'under' },
      { cuts: 'seat, bore, ring, rim, pivot' },
    ]);
    assert.equal(onlyFinding('setup/order', text).severity, 'error');
    const turned = part([WHOLE[0], { up: 'bottom', zero: '{ x: pivot, y: pivot, z: parallels }', cuts: 'under' }]);
    assert.deepEqual(findingsOf('setup/order', turned), []);
  });

  it('zero from a face with stock on it, where the opposite is final', () => {
    const text = part(
      [WHOLE[0], { up: 'bottom', cuts: 'left, under' }],
      'stock: { form: flat-bar, extra: { left: 2 } }\n',
    );
    const f = onlyFinding('setup/order', text);
    assert.equal(f.facts.better, 'right');
    assert.match(mended('setup/order', text), /zero: \{ x: right, y: back, z: parallels }\n {4}cuts: \[seat/);
  });
});

describe('setup/unassigned and setup/twice', () => {
  it('a forgotten feature and a face with stock on it, each with where it can go', () => {
    const text = part([{ cuts: 'seat, bore, ring, rim' }, WHOLE[1]], 'stock: { form: flat-bar, extra: { top: 1 } }\n');
    const found = findingsOf('setup/unassigned', text);
    assert.deepEqual(found.map((f) => f.of[0]).sort(), ['pivot', 'top']);
    assert.match(mended('setup/unassigned', text, /in first/), /top|pivot/);
    const { facts } = found.find((f) => f.of[0] === 'top')!;
    assert.deepEqual([facts.left_mm, facts.comes_out_mm, facts.body_mm], [1, 21, 20]);
  });
  it('stock over a face that another cut takes off is no stock left; what of it stands on is', () => {
    const features = `  rim: { kind: contour, face: top, path: [{ x: 0, y: 0 }, { x: 60, y: 0 }, { x: 60, y: 40 }, { x: 0, y: 40 }], depth: PATH }\n`;
    const text = (depth: string) =>
      part(
        [{ cuts: 'rim', hold: '{ screws: [rim], to: plate }' }],
        'stock: { form: flat-bar, extra: { left: 2, right: 1 } }\n',
        ALUMINIUM,
        features.replace('PATH', depth),
      );
    assert.deepEqual(findingsOf('setup/unassigned', text('through')), []);
    const halfway = findingsOf('setup/unassigned', text('12'));
    assert.deepEqual(
      halfway.map((f) => [f.of[0], f.facts.left_mm, f.facts.comes_out_mm]),
      [
        ['left', 2, 63],
        ['right', 1, 63],
      ],
    );
  });
  it('what no set-up could take is told by access/no-setup alone', () => {
    const text = part([WHOLE[0]]);
    assert.deepEqual(findingsOf('setup/unassigned', text), []);
    assert.equal(onlyFinding('access/no-setup', text).of[0], 'under');
  });
  it('a through hole from both sides, and edges all round from both, are not twice', () => {
    const edges = `${FEATURES}  edge: { kind: chamfer, edges: [top, bottom], size: 0.5 }\n`;
    const text = part(
      [{ cuts: 'seat, bore, ring, rim, pivot, edge' }, { up: 'bottom', cuts: 'under, pivot, edge' }],
      '',
      ALUMINIUM,
      edges,
    );
    assert.deepEqual(findingsOf('setup/twice', text), []);
  });
  it('the same pocket twice is', () => {
    const text = part([WHOLE[0], { cuts: 'seat' }, WHOLE[1]]);
    assert.equal(onlyFinding('setup/twice', text).facts.first, 'first');
  });
});

describe('setup/zero-lost', () => {
  it('a face that nothing is left of', () => {
    const features = `${FEATURES}  ledge: { kind: step, face: top, along: left, width: 3, depth: through }\n`.replace(
      'x: 8,',
      'x: 12,',
    );
    const text = part(
      [{ zero: '{ x: right, y: back, z: parallels }', cuts: 'seat, bore, ring, rim, pivot, ledge' }, WHOLE[1]],
      '',
      ALUMINIUM,
      features,
    );
    const f = onlyFinding('setup/zero-lost', text);
    assert.deepEqual([f.facts.why, f.facts.set_up], ['gone', 'second']);
    assert.match(mended('setup/zero-lost', text), /up: bottom\n.*\n {4}zero: \{ x: right/);
  });
  it('a height taken from the top that is faced later goes to the parallels', () => {
    const text = part(
      [{ zero: '{ x: left, y: back, z: top }', cuts: 'pivot, top, seat, bore, ring, rim' }, WHOLE[1]],
      'stock: { form: flat-bar, extra: { top: 1 } }\n',
    );
    assert.equal(onlyFinding('setup/zero-lost', text).facts.why, 'cut');
    assert.match(mended('setup/zero-lost', text, /parallels/), /z: parallels/);
    assert.match(mended('setup/zero-lost', text, /first/), /cuts: \[top, pivot, seat/);
  });
  it('a sawn end: a hint', () => {
    const f = findingsOf('setup/zero-lost', part(WHOLE, 'stock: { form: flat-bar, sawn: [left] }\n'));
    assert.deepEqual(
      f.map((x) => [x.severity, x.facts.why]),
      [
        ['hint', 'sawn'],
        ['hint', 'sawn'],
      ],
    );
    assert.match(f[0]!.message, /Face it first, or set x zero on right\.$/);
    const [both] = findingsOf('setup/zero-lost', part(WHOLE, 'stock: { form: flat-bar, sawn: [left, right] }\n'));
    assert.match(both!.message, /Face it first\.$/);
  });
});

describe('setup/zero-per-piece', () => {
  const batch = (one: One, quantity = 6) => part([{ ...one }, WHOLE[1]], '', `${ALUMINIUM}quantity: ${quantity}\n`);
  const cuts = WHOLE[0].cuts;
  it('height from the top, zero from the moving jaw, no stop: each told, each mended', () => {
    for (const [one, why, wanted] of [
      [{ zero: '{ x: left, y: back, z: top }', cuts }, 'height', /z: parallels/],
      [{ zero: '{ x: left, y: front, z: parallels }', cuts }, 'moving', /jaws: \[front, back]/],
      [{ hold: '{ vise: mill-vise-100, jaws: [back, front], grip: 10 }', cuts }, 'stop', /stop: left/],
    ] as const) {
      const f = onlyFinding('setup/zero-per-piece', batch(one));
      assert.equal(f.facts.why, why);
      assert.match(mended('setup/zero-per-piece', batch(one)), wanted);
      assert.deepEqual(findingsOf('setup/zero-per-piece', batch(one, 1)), [], 'one piece needs none of it');
    }
  });
});

describe('setup/across', () => {
  const tol = (tolerance: string) => `tolerances:\n  - ${tolerance}\n`;
  const two = (tolerance: string, method = 'edge-finder', zero = '{ x: left, y: back, z: parallels }') =>
    part(
      [
        { cuts: 'seat, bore, ring, rim, pivot', method },
        { up: 'bottom', zero, cuts: 'under', method },
      ],
      tol(tolerance),
    );

  it('√(0.02² + 0.02²) against half the tolerance', () => {
    const f = onlyFinding('setup/across', two('{ distance: 40 ±0.028, of: [under, pivot], axis: x }'));
    assert.equal(f.facts.relocating_mm, Math.round(Math.hypot(0.02, 0.02) * 1000) / 1000);
    assert.equal(f.facts.allowed_mm, 0.028);
    assert.deepEqual(findingsOf('setup/across', two('{ distance: 40 ±0.029, of: [under, pivot], axis: x }')), []);
  });
  it('without a method an edge finder is taken, not the finest way that anybody might have', () => {
    const text = two('{ distance: 40 ±0.02, of: [under, pivot], axis: x }').replaceAll(/ *method: edge-finder\n/g, '');
    const f = onlyFinding('setup/across', text);
    assert.equal(f.facts.methods, 'edge-finder edge-finder');
    assert.match(mended('setup/across', text, /probe|indicator/), /method: (probe|indicator)/);
  });

  it('turned over about a bore right through: indicate it; about one that is blind, there is nothing to indicate', () => {
    const hub = (depth: string) => `part: hub
material: aluminium-6061-t6
body: { x: 70, y: 70, z: 24 }
features:
  upper: { kind: hole, face: top, at: { x: center, y: center }, diameter: 20 H7, depth: ${depth}, bottom: flat }
  lower: { kind: hole, face: bottom, at: { x: center, y: center }, diameter: 26 H7, depth: 8, bottom: flat }
datums: { B: upper }
tolerances:
  - { concentricity: 0.03, of: lower, datums: [B] }
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }, zero: { x: left, y: back, z: parallels }, cuts: [upper] }
  second: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10, stop: left }, zero: { x: left, y: back, z: parallels }, cuts: [lower] }
`;
    assert.match(onlyFinding('setup/across', hub('through')).message, /Indicate upper in second/);
    const cured = mended('setup/across', hub('through'), /Indicate upper/);
    assert.match(cured, /zero: \{ x: upper, y: upper, z: parallels }/);
    assert.deepEqual(findingsOf('setup/across', cured), []);
    assert.doesNotMatch(onlyFinding('setup/across', hub('7')).message, /Indicate/);
  });

  it('a probe finds it better', () => {
    assert.deepEqual(
      findingsOf('setup/across', two('{ distance: 40 ±0.02, of: [under, pivot], axis: x }', 'probe')),
      [],
    );
    assert.match(
      mended('setup/across', two('{ distance: 40 ±0.02, of: [under, pivot], axis: x }'), /probe|indicator/),
      /method: (probe|indicator)/,
    );
  });
  it('zero taken from the datum itself: one error, not two', () => {
    const tolerance = '{ distance: 40 ±0.025, of: [under, pivot], axis: x }';
    assert.equal(findingsOf('setup/across', two(tolerance)).length, 1);
    assert.deepEqual(
      findingsOf('setup/across', two(tolerance, 'edge-finder', '{ x: pivot, y: back, z: parallels }')),
      [],
    );
  });
  it('both in one set-up: none', () => {
    assert.deepEqual(findingsOf('setup/across', two('{ distance: 22 ±0.005, of: [seat, pivot], axis: x }')), []);
  });
  it('is monotonous: a wider tolerance is never told where a tighter one is not', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 60 }), (um) => {
        const found = findingsOf(
          'setup/across',
          two(`{ distance: 40 ±${um / 1000}, of: [under, pivot], axis: x }`),
        ).length;
        assert.equal(found, um / 1000 < Math.hypot(0.02, 0.02) ? 1 : 0);
      }),
      { numRuns: 8, seed: 8 },
    );
  });
});

describe('setup/opposite-zero', () => {
  it('zero from the other side of the bar: says what carries it over', () => {
    const text = part([WHOLE[0], { up: 'bottom', zero: '{ x: right, y: back, z: parallels }', cuts: 'under' }]);
    const f = onlyFinding('setup/opposite-zero', text);
    assert.equal(f.facts.carries, 'pivot');
    assert.match(mended('setup/opposite-zero', text, /zero on pivot/), /zero: \{ x: pivot/);
  });
  it('a face that the earlier set-up cut carries it over', () => {
    const text = part(
      [
        { cuts: 'right, seat, bore, ring, rim, pivot' },
        { up: 'bottom', zero: '{ x: right, y: back, z: parallels }', cuts: 'under' },
      ],
      'stock: { form: flat-bar, extra: { right: 2 } }\n',
    );
    assert.deepEqual(findingsOf('setup/opposite-zero', text), []);
  });
});

describe('setup/tilts', () => {
  const FACED = `  pivot: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 8, depth: through }\n`;
  const faced = (tolerance: string, jaws = '[back, front]', body = '{ x: 60, y: 40, z: 20 }', shop = '') =>
    `${ALUMINIUM}${shop}body: ${body}
stock: { form: block, extra: { top: 1, bottom: 1, right: 1 } }
features:
${FACED}datums: { A: top, B: bottom }
tolerances:
  - ${tolerance}
setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: ${jaws}, grip: 10, parallels: 22 }, cuts: [top, pivot] }
  second: { up: bottom, hold: { vise: mill-vise-100, jaws: ${jaws}, grip: 10, parallels: 22 }, cuts: [bottom] }
  third: { up: right, hold: { vise: mill-vise-100, jaws: [back, front], grip: 26, parallels: 6 }, cuts: [right] }
`;

  it('of a face that lies on the other: 0.01 over each length of the seat, once', () => {
    // Along the jaws 61 of the work (1 mm of stock at the right) carry it, across them the pair, 40 from outside to outside.
    const hand = Math.hypot((0.01 * 60) / 61, (0.01 * 40) / 40);
    const f = onlyFinding('setup/tilts', faced(`{ parallelism: 0.01, of: bottom, datums: [A] }`));
    assert.equal(f.facts.tilt_mm, Math.round(hand * 1000) / 1000);
    assert.deepEqual(findingsOf('setup/tilts', faced(`{ parallelism: 0.0142, of: bottom, datums: [A] }`)), []);
  });

  it('square to it: only the one way that the two can tilt against each other, and for both set-ups', () => {
    // right is cut standing up, its datum in the first: there about y over 61, here about y over the 20 + 0 of the pair's way.
    const found = findingsOf('setup/tilts', faced(`{ perpendicularity: 0.001, of: right, datums: [A] }`));
    assert.equal(found.length, 1);
    // About y: first along the jaws, 61 long; third along the jaws too (they close on y), where 20 of the work lie in them.
    const hand = Math.hypot((0.01 * 20) / 61, (0.01 * 20) / 20);
    assert.equal(found[0]!.facts.tilt_mm, Math.round(hand * 1000) / 1000);
  });

  it('both in one set-up: none', () => {
    assert.deepEqual(findingsOf('setup/tilts', faced(`{ perpendicularity: 0.001, of: pivot, datums: [A] }`)), []);
  });

  it('of a hole to the face that it is put back on: over its own depth', () => {
    const text = faced(`{ perpendicularity: 0.006, of: pivot, datums: [B] }`);
    // Drilled before the bottom is cut, and that is cut lying on top: two turns of 20 in length.
    const turn = Math.hypot((0.01 * 20) / 61, (0.01 * 20) / 40);
    assert.equal(onlyFinding('setup/tilts', text).facts.tilt_mm, Math.round(Math.hypot(turn, turn) * 1000) / 1000);
  });
});
