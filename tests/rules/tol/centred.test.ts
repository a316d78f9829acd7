/** Symmetry and run-out by ISO 2768-2, tables 3 and 4: sums by hand over what the set-ups leave between. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';

const SHOP = builtinShop();
/** The cutter's edge touched on paper: the built-in shop's figure for it. */
const TOUCHED = 0.08;
const CUT = 0.01;
/** How far a drill starts beside its place: common practice, no source. */
const DRILLED = 0.05;

interface Asked {
  readonly tolerance?: string;
  readonly features: string;
  readonly stock?: string;
  readonly first: string;
  readonly second?: string;
  readonly more?: string;
}
const hold = '{ vise: mill-vise-100, jaws: [back, front], grip: 10, parallels: 22 }';
const textOf = ({
  tolerance = 'ISO 2768-mH',
  features,
  stock = '{ form: flat-bar }',
  first,
  second,
  more = '',
}: Asked) =>
  `part: fork
units: mm
material: aluminium-6061-t6
tolerance: ${tolerance}
body: { x: 60, y: 40, z: 30 }
stock: ${stock}
${more}features:
${features}setups:
  first: { up: top, hold: ${hold}, method: tool-edge, ${first} }
${second ? `  second: { up: bottom, hold: ${hold}, method: tool-edge, ${second} }\n` : ''}`;
const found = (asked: Asked) => checkPart(textOf(asked), SHOP).findings.filter((f) => f.rule === 'tol/centred');
const near = (actual: unknown, expected: number) =>
  assert.ok(Math.abs(Number(actual) - expected) < 1.1e-3, `${actual}, expected ${expected}`);

const SEATS = `  seat: { kind: hole, face: top, at: { x: 20, y: 10 }, diameter: 12, depth: 14 }
  back-seat: { kind: hole, face: bottom, at: { x: 20, y: 10 }, diameter: 16, depth: 14 }
`;

describe('tol/centred: holes in line', () => {
  it('bored from the same faces in two set-ups take twice what both zeros and cuts come to along two axes', () => {
    const [f, ...more] = found({
      features: SEATS,
      first: 'zero: { x: left, y: back, z: parallels }, cuts: [seat]',
      second: 'zero: { x: left, y: back, z: parallels }, cuts: [back-seat]',
    });
    assert.deepEqual(more, []);
    assert.equal(f?.facts.characteristic, 'run-out');
    // ISO 2768-2 table 4: 0.1 for H.
    assert.equal(f.facts.zone_mm, 0.1);
    // The 12 is drilled, the 16 is milled round.
    const axis = Math.hypot(CUT, TOUCHED, DRILLED, TOUCHED, CUT);
    near(f.facts.taken_mm, 2 * Math.hypot(axis, axis));
    assert.equal(f.severity, 'warning');
  });

  it('are in line by class L, and bored in one set-up by every class', () => {
    const first = 'zero: { x: left, y: back, z: parallels }, cuts: [seat]';
    const second = 'zero: { x: left, y: back, z: parallels }, cuts: [back-seat]';
    assert.deepEqual(found({ tolerance: 'ISO 2768-mL', features: SEATS, first, second }), []);
    assert.deepEqual(found({ tolerance: 'ISO 2768-m', features: SEATS, first, second }), []);
    const through = SEATS.replace('face: bottom', 'face: top').replace('depth: 14 }\n  back', 'depth: 10 }\n  back');
    assert.deepEqual(found({ features: through, first: first.replace('[seat]', '[seat, back-seat]') }), []);
  });

  it('with a tolerance of their own are left to it', () => {
    const own = 'tolerances:\n  - { position: 0.3, of: back-seat, to: seat }\n';
    const asked = {
      features: SEATS,
      first: 'zero: { x: left, y: back, z: parallels }, cuts: [seat]',
      second: 'zero: { x: left, y: back, z: parallels }, cuts: [back-seat]',
    };
    assert.equal(found(asked).length, 1);
    assert.deepEqual(found({ ...asked, more: own }), []);
  });
});

/** Where every error counts in full. */
const WORST = { ...SHOP, limits: new Map([['tol/as-set-up', new Map([['worst-case', 1]])]]) };
const atWorst = (text: string) => checkPart(text, WORST).findings.filter((f) => f.rule === 'tol/centred');

describe('tol/centred: in the middle', () => {
  const slot = '  fork: { kind: slot, face: top, ends: [{ x: -10, y: 20 }, { x: 70, y: 20 }], width: 8, depth: 12 }\n';
  const first = 'zero: { x: left, y: back, z: parallels }, cuts: [fork]';

  it('of a bar whose far side is as it came, half of the bar’s limits count', () => {
    // Square bar EN 755: ±0.4 at 40 mm in group I, as stock/as-supplied has it; symmetry H 0.5 (table 3).
    const [f] = found({ features: slot, first, tolerance: 'ISO 2768-mH' });
    assert.equal(f, undefined);
    const worst = atWorst(textOf({ features: slot, first }));
    const bar =
      worst[0] &&
      Number(
        Object.entries(worst[0].facts)
          .find(([k, v]) => /^link_\d+$/.test(k) && /bar/.test(String(v)))?.[0]
          .slice(5),
      );
    assert.equal(worst[0]?.facts.zone_mm, 0.5);
    near(worst[0].facts[`link_${bar}_mm`], 0.2);
    near(worst[0].facts.taken_mm, 2 * (CUT + TOUCHED + 0.2));
    assert.match(worst[0].message, /in the middle of front and back/);
  });

  it('with both sides cut in the same set-up it lies there', () => {
    const stock = '{ form: flat-bar, extra: { front: 1, back: 1 } }';
    const text = textOf({
      features: slot,
      stock,
      first: 'zero: { x: left, y: back, z: parallels }, cuts: [back, front, fork]',
    });
    assert.deepEqual(atWorst(text), []);
  });

  it('what is beside the middle, or runs through both sides, is asked nothing', () => {
    const beside = slot.replaceAll('y: 20', 'y: 19');
    for (const features of [beside, slot.replace('width: 8', 'width: 50')])
      assert.deepEqual(atWorst(textOf({ features, first })), []);
  });

  it('a broken edge lies where its hole does, and a name is nowhere in particular: the hole alone is told of', () => {
    const eye = '  eye: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 20, depth: through }\n';
    const more =
      '  rim: { kind: chamfer, on: eye, size: 1 }\n  mark: { kind: engraving, face: top, at: { x: 50, y: 20 }, text: A, height: 5, depth: 0.3 }\n';
    const all = first.replace('[fork]', '[eye, rim, mark]');
    assert.deepEqual(
      atWorst(textOf({ features: eye + more, first: all })).map((f) => f.of),
      [['eye']],
    );
  });
});
