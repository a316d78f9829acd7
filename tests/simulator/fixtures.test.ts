/**
 * Every way to hold, with one fault planted in a plan that comes out right: a rule names it, and the field notices. What
 * lies under a clamp or a nut, over a head of a screw, beside a V-block or a jaw of either of two vises.
 */
import assert from 'node:assert/strict';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { SHOP } from './defects';
import { simulate } from './simulate';

const bench = checkShop(
  SHOP.replace(
    'vises: {',
    'v-blocks: { vee: { width: 32, height: 35, length: 45, count: 2 } }\nangle-plates: { plate: { width: 100, height: 100, thickness: 12 } }\nvises: {',
  ).replace('force: 15 kN }', 'force: 15 kN, count: 2 }'),
);

interface Case {
  readonly what: string;
  readonly rule: string;
  readonly body: string;
  readonly features: string;
  readonly setups: string;
  /** What is written instead, and what that makes of it. */
  readonly instead: readonly [good: string, bad: string];
}
const hole = (at: string, depth: string | number = 6, face = 'top') =>
  `  h: { kind: hole, face: ${face}, at: { ${at} }, diameter: 5, depth: ${depth} }\n`;

const PAIR = 'vise: vise, jaws: [back, front], grip: 10, stop: left, pieces: 2, pad: 6';

const CASES: readonly Case[] = [
  {
    what: 'clamps: a hole under a strap',
    rule: 'access/jaw',
    body: '{ x: 120, y: 40, z: 12 }',
    features: hole('x: 60, y: center'),
    setups: '  one: { up: top, hold: { clamps: [{ left: 8, y: center }, { right: 8, y: center }] }, cuts: [h] }\n',
    instead: ['x: 60', 'x: 12'],
  },
  {
    what: 'screws: a step cut where a head is',
    rule: 'access/jaw',
    body: '{ x: 80, y: 50, z: 12 }',
    features:
      '  m: { kind: hole, face: top, at: { x: center, y: 8 }, pattern: { line: { x: 50, count: 2 } }, diameter: 6.6, depth: through }\n  s: { kind: step, face: top, along: back, width: 6, depth: 5 }\n',
    setups:
      '  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [m] }\n  two: { up: top, hold: { screws: [m] }, cuts: [s] }\n',
    instead: ['along: back', 'along: front'],
  },
  {
    what: 'overhang: a step at an end that stands out too little',
    rule: 'access/jaw',
    body: '{ x: 60, y: 40, z: 24 }',
    features: '  s: { kind: step, face: top, along: left, width: 6, depth: 16 }\n',
    setups:
      '  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, overhang: { left: 9 } }, cuts: [s] }\n',
    instead: ['left: 9', 'left: 1'],
  },
  {
    what: 'angle plate: a step cut below its top',
    rule: 'access/jaw',
    body: '{ x: 60, y: 20, z: 130 }',
    features: '  s: { kind: step, face: top, along: back, width: 4, depth: 20 }\n',
    setups:
      '  one: { up: top, hold: { angle-plate: plate, against: back, out: 40, clamps: [{ x: 10, z: 60 }, { x: 50, z: 60 }] }, cuts: [s] }\n',
    instead: ['out: 40', 'out: 10'],
  },
  {
    what: 'V-blocks: a hole under a clamp',
    rule: 'access/jaw',
    body: '{ diameter: 40, length: 160, axis: x }',
    features: hole('x: 80, y: center'),
    setups:
      '  one: { up: top, hold: { v-block: vee, clamps: [{ x: 30, y: center }, { x: 130, y: center }] }, cuts: [h] }\n',
    instead: ['x: 80', 'x: 34'],
  },
  {
    what: 'tabs: a frame that the cutter eats',
    rule: 'hold/cut-free',
    body: '{ x: 60, y: 40, z: 6 }\nstock: { form: plate, extra: { left: 12, right: 12, front: 12, back: 12 } }',
    features:
      '  c: { kind: contour, face: top, size: { x: 60, y: 40 }, at: { x: center, y: center }, corner-radius: 6, depth: through }\n',
    setups:
      '  one: { up: top, hold: { tabs: { count: 4, width: 5, height: 1 }, on: plate }, cuts: [c], tools: { c: em-6 } }\n',
    instead: ['c: em-6', 'c: em-10'],
  },
  {
    what: 'held at an angle: a hole that comes out where a jaw is',
    rule: 'access/jaw',
    body: '{ x: 60, y: 40, z: 24 }',
    features:
      '  h: { kind: hole, face: top, at: { x: center, y: 32 }, tilt: { about: x, angle: 30 }, diameter: 5, depth: 6 }\n',
    setups: '  one: { up: top, hold: { angle: 30, about: x, vise: vise, jaws: [back, front], grip: 10 }, cuts: [h] }\n',
    instead: ['depth: 6', 'depth: through'],
  },
  {
    what: 'held at an angle: a pocket milled deeper than its cutter',
    rule: 'access/no-tool',
    body: '{ x: 36, y: 30, z: 32 }',
    features:
      '  p: { kind: pocket, face: top, at: { x: 18, y: 15 }, tilt: { about: x, angle: 15 }, size: { x: 14, y: 10 }, corner-radius: 3.4, depth: 6 }\n',
    setups: '  one: { up: top, hold: { angle: 15, about: x, vise: vise, jaws: [back, front], grip: 10 }, cuts: [p] }\n',
    instead: ['depth: 6', 'depth: 22'],
  },
  {
    what: 'held at an angle: a pocket that runs out where a jaw is',
    rule: 'access/jaw',
    body: '{ x: 36, y: 30, z: 32 }',
    features:
      '  p: { kind: pocket, face: top, at: { x: 18, y: 28 }, tilt: { about: x, angle: 15 }, size: { x: 16, y: 12 }, corner-radius: 5.5, depth: 14 }\n',
    setups: '  one: { up: top, hold: { angle: 15, about: x, vise: vise, jaws: [back, front], grip: 10 }, cuts: [p] }\n',
    instead: ['grip: 10', 'grip: 22'],
  },
  {
    what: 'sawn off: nothing to saw in',
    rule: 'setup/sawn-off',
    body: '{ x: 30, y: 20, z: 14 }\nstock: { form: flat-bar, sawn: [left, right], extra: { left: 40 } }',
    features: hole('x: 20, y: center'),
    setups:
      '  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 6, overhang: { right: 34 } }, cuts: [h, { cut: left, by: saw }] }\n',
    instead: ['left: 40', 'left: 1.5'],
  },
  {
    what: 'half from each side: the second half not cut',
    rule: 'setup/unassigned',
    body: '{ x: 60, y: 40, z: 40 }',
    features:
      '  w: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 30, y: 20 }, corner-radius: 6, depth: through }\n',
    setups:
      '  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10 }, cuts: [{ cut: w, depth: half }] }\n  two: { up: bottom, hold: { vise: vise, jaws: [back, front], grip: 10 }, cuts: [w] }\n',
    instead: [', cuts: [w]', ', cuts: [{ cut: w, depth: 15 }]'],
  },
  {
    what: 'two vises: a window at the edge over a jaw, not between them',
    rule: 'access/jaw',
    body: '{ x: 240, y: 40, z: 24 }',
    features:
      '  p: { kind: pocket, face: top, path: [{ x: 105, y: -10 }, { x: 135, y: -10 }, { x: 135, y: 8, round: 5 }, { x: 105, y: 8, round: 5 }], depth: 17 }\n',
    setups: '  one: { up: top, hold: { vise: vise, jaws: [back, front], grip: 10, apart: 140 }, cuts: [p] }\n',
    instead: ['apart: 140', 'apart: 76'],
  },
  {
    what: 'two pieces: a slot that comes out into the other, which has none there',
    rule: 'access/jaw',
    body: '{ x: 26, y: 30, z: 24 }\nquantity: 2',
    features:
      '  s: { kind: slot, face: top, ends: [{ x: -8, y: center }, { x: 34, y: center }], width: 10, depth: 6 }\n',
    setups: `  one: { up: top, hold: { ${PAIR} }, zero: { x: left, y: back, z: parallels }, cuts: [s] }\n`,
    instead: ['{ x: -8, y', '{ x: 9, y'],
  },
  {
    what: 'two pieces: a step along the row, and one at the end that faces the other',
    rule: 'access/jaw',
    body: '{ x: 26, y: 30, z: 24 }\nquantity: 2',
    features: '  s: { kind: step, face: top, along: back, width: 2, depth: 5 }\n',
    setups: `  one: { up: top, hold: { ${PAIR} }, zero: { x: left, y: back, z: parallels }, cuts: [s] }\n`,
    instead: ['along: back', 'along: right'],
  },
  {
    what: 'two pieces: so far apart that a cutter goes between, and too near',
    rule: 'access/jaw',
    body: '{ x: 26, y: 30, z: 24 }\nquantity: 2',
    features: '  s: { kind: step, face: top, along: right, width: 2, depth: 5 }\n',
    setups: `  one: { up: top, hold: { ${PAIR}, gap: 14 }, zero: { x: left, y: back, z: parallels }, cuts: [s] }\n`,
    instead: ['gap: 14', 'gap: 0.5'],
  },
  {
    what: 'two pieces: both half between the jaws, and not',
    rule: 'hold/pieces',
    body: '{ x: 40, y: 30, z: 24 }\nquantity: 2',
    features: hole('x: 20, y: center'),
    setups: `  one: { up: top, hold: { ${PAIR}, gap: 10 }, zero: { x: left, y: back, z: parallels }, cuts: [h] }\n`,
    instead: ['gap: 10', 'gap: 34'],
  },
  {
    what: 'a sloped face cut level with work that leans, and with work that leans too little',
    rule: 'access/angle',
    body: '{ x: 36, y: 30, z: 32 }',
    features: '  s: { kind: slope, face: top, along: front, angle: 20, width: 12 }\n',
    setups: '  one: { up: top, hold: { angle: 20, about: x, vise: vise, jaws: [back, front], grip: 10 }, cuts: [s] }\n',
    instead: ['angle: 20, about', 'angle: 8, about'],
  },
];

describe('a fault in how it is held', () => {
  it('the shop has none', () => assert.deepEqual(bench.findings, []));

  for (const { what, rule, body, features, setups, instead } of CASES)
    it(what, function () {
      this.timeout(60_000);
      const good = `part: piece\nmaterial: aluminium-6061-t6\nbody: ${body}\nfeatures:\n${features}setups:\n${setups}`;
      const clean = checkPart(good, bench.shop);
      assert.deepEqual(
        clean.findings.filter((f) => f.severity === 'error').map((f) => `${f.rule}: ${f.message}`),
        [],
      );
      const made = simulate(clean.part, bench.shop, { fineMm: 0.6, asWritten: true });
      assert.ok(made.right, JSON.stringify(made));
      assert.ok(good.includes(instead[0]));
      const faulty = checkPart(good.replace(instead[0], instead[1]), bench.shop);
      const found = faulty.findings.filter((f) => f.severity !== 'hint').map((f) => f.rule);
      assert.ok(found.includes(rule), found.join());
      const failed = simulate(faulty.part, bench.shop, { fineMm: 0.6, asWritten: true });
      assert.equal(failed.right, false, JSON.stringify(failed));
    });
});
