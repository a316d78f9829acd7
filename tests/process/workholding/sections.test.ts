/** Tube, angle and channel in a vise: what the jaws touch, worked by hand, and what gives way between them. */
import assert from 'node:assert/strict';
import { type Squeezed, squeezedIn, stripMm } from '../../../server/src/process/workholding/squeeze';
import { findingsOf } from '../../rules/tester';
import { near, put } from './bench';

const E = 70_000;
const BODY = '{ x: 60, y: 40, z: 40 }';
const stock = (text: string) => `stock: { ${text} }\n`;
const angle = (open: string) => stock(`form: angle, axis: x, wall: 5, open: ${open}`);

describe('sections in the vise', () => {
  it('an angle on its leg: the moving jaw touches the leg’s end alone, and only that is pressed', () => {
    // The upright leg is at the front; the other lies below and ends at the back.
    const { contact } = put({ body: BODY, tail: angle('[back, top]'), grip: 12 });
    near(contact.moving.areaMm2, 60 * 12);
    near(contact.fixed.areaMm2, 60 * 5);
    near(contact.opposed.areaMm2, 60 * 5);
  });

  it('an angle is not gripped across air: where one leg alone is between the jaws they close on that', () => {
    const { contact, inVise } = put({ body: BODY, tail: angle('[back, bottom]'), grip: 12 });
    near(Math.abs(inVise.fixedAtMm - inVise.movingAtMm), 5);
    near(contact.opposed.areaMm2, 60 * 12);
  });

  it('a channel on its side: a jaw on the open side touches the flanges alone', () => {
    const tail = stock('form: channel, axis: x, wall: 4, flange: 6, open: [back]');
    const low = put({ body: BODY, tail, grip: 12 });
    near(low.contact.fixed.areaMm2, 60 * 6);
    near(low.contact.moving.areaMm2, 60 * 12);
    // Open towards the spindle the grip is on both flanges, all of it; deep enough it takes the web in.
    const up = put({ body: BODY, tail: tail.replace('back', 'top'), grip: 12 });
    near(up.contact.opposed.areaMm2, 60 * 12);
  });

  it('a tee on its flange: both jaws touch the flange, and above it nothing', () => {
    const { contact } = put({
      body: BODY,
      tail: stock('form: tee, axis: x, wall: 6, flange: 8, open: [top]'),
      grip: 12,
    });
    near(contact.opposed.areaMm2, 60 * 8);
  });

  const only = (all: readonly Squeezed[]) => {
    assert.equal(all.length, 1);
    return all[0]!;
  };

  it('a rectangular tube gives as two strips between its other walls', () => {
    const q = only(squeezedIn(put({ body: BODY, tail: stock('form: tube, axis: x, wall: 3'), grip: 32 }), E));
    assert.equal(q.as, 'strip');
    near(q.wallMm, 3);
    near(q.spanMm, 34);
    // The jaws are 32 high: on 60 × 32 mm, each strip 34 wide.
    near(q.mmPerN, 2 * stripMm(1 / (60 * 32), 34, 3, E), 1e-9);
  });

  it('a thick tube does not: the same force moves it less than a hundredth as much', () => {
    const of = (wall: number) =>
      only(squeezedIn(put({ body: BODY, tail: stock(`form: tube, axis: x, wall: ${wall}`), grip: 32 }), E)).mmPerN;
    assert.ok(of(12) < of(3) / 100);
  });

  it('a round tube gives as a ring, standing or lying', () => {
    const round = (axis: string) => ({
      body: `{ diameter: 40, length: 60, axis: ${axis} }`,
      tail: stock('form: tube, wall: 4'),
      grip: 24,
    });
    const lying = only(squeezedIn(put(round('x')), E));
    assert.equal(lying.as, 'ring');
    near(lying.wallMm, 4);
    // 60 mm of it are pressed along two lines: ΔD = (π/4 − 2/π) F R³ / (E I), R = 18 (Roark, from memory).
    near(lying.mmPerN, ((Math.PI / 4 - 2 / Math.PI) * 18 ** 3 * 12) / (60 * E * 4 ** 3), 1e-9);
    assert.equal(only(squeezedIn(put(round('z')), E)).as, 'ring');
  });

  it('a solid bar with a small bore along it gives as strips, as ever', () => {
    const made = put({
      body: '{ diameter: 40, length: 60, axis: x }',
      features: '  bore: { kind: hole, face: left, at: { y: center, z: center }, diameter: 12, depth: through }\n',
      grip: 24,
      cuts: '[bore, spare]',
    });
    assert.equal(squeezedIn(made, E).find((q) => q.of.feature === 'bore')?.as, 'strip');
  });
});

describe('walls of a bar as supplied', () => {
  const part = (wall: string, feature = '', extra = '') => `part: piece
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
stock: { form: tube, axis: x, wall: ${wall}${extra} }
features:
  mount: { kind: hole, face: top, at: { x: 12, y: center }, diameter: 5.5, depth: through }
${feature}`;

  it('are no thin walls: nobody mills them', () => {
    assert.deepEqual(findingsOf('wall/thin', part('0.7')), []);
    assert.deepEqual(findingsOf('wall/slender', part('1.5')), []);
  });

  it('are where one side is milled, or cut into', () => {
    assert.equal(findingsOf('wall/thin', part('1.2', '', ', extra: { top: 0.7 }')).length, 1);
    const slot =
      '  groove: { kind: slot, face: top, ends: [{ x: 20, y: 20 }, { x: 40, y: 20 }], width: 6, depth: 2.5 }\n';
    const [thin] = findingsOf('wall/thin', part('3', slot));
    assert.match(thin!.message, /0\.5 mm of material is left .*the inside of the tube/);
    assert.deepEqual(thin!.of, ['groove']);
  });

  it('have no hole where the hollow is already', () => {
    const inside =
      '  seat: { kind: pocket, face: top, at: { x: 40, y: center }, size: { x: 10, y: 10 }, corner-radius: 4, depth: 4 }\n  deeper: { kind: hole, face: top, from: seat, at: { x: 40, y: center }, diameter: 5, depth: 10 }\n';
    const [nothing] = findingsOf('form/removes-nothing', part('3', inside));
    assert.match(nothing!.message, /deeper cuts nothing.*the inside of the tube/);
  });
});
