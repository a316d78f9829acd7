/** What hands are told of a set-up besides its numbers. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { ballTopMm } from '../../server/src/process/workholding/square-up';
import { setUpNotes } from '../../server/src/report/set-up-notes';
import { checkPart } from '../../server/src/rules/check';

const notes = (text: string) => setUpNotes(checkPart(`part: p\nmaterial: aluminium-6061-t6\n${text}`, builtinShop()));

describe('what hands are told of a set-up', () => {
  const sawn = (stock: string) => `body: { x: 60, y: 40, z: 20 }
stock: { form: block, ${stock} }
features:
  a: { kind: hole, face: top, at: { x: 20, y: center }, diameter: 6, depth: 12 }
setups:
  one: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [top, a] }
  two: { up: front, hold: { vise: mill-vise-100, jaws: [top, bottom], grip: 10 }, cuts: [front] }
  three: { up: back, hold: { vise: mill-vise-100, jaws: [top, bottom], grip: 10 }, cuts: [back] }
`;
  it('the first set-up from sawn stock squares up, and so does a milled face against a sawn one', () => {
    const [one, two] = notes(sawn('sawn: [top, bottom, front, back], extra: { top: 2, bottom: 2, front: 2, back: 2 }'));
    assert.match(one![0]!, /^Squares up: back is sawn, front sawn\. A round bar between front and the moving jaw/);
    assert.match(two![0]!, /^Squares up: top is milled, bottom sawn\. .*, so that top lies flat on the fixed jaw/);
  });
  it('faces as supplied are square', () => {
    assert.deepEqual(notes(sawn('extra: { top: 2 }')), [[], [], []]);
  });
  it('bored from the other side on the axis of a bore: indicate that, unless zero is on it', () => {
    const seats = (zero: string) => `body: { x: 60, y: 40, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 16, depth: through }
  seat: { kind: hole, face: bottom, at: { x: center, y: center }, diameter: 22 H7, depth: 7, bottom: flat }
setups:
  one: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, cuts: [bore] }
  two: { up: bottom, hold: { vise: mill-vise-100, jaws: [back, front], grip: 10 }, zero: { ${zero} }, cuts: [seat] }
`;
    assert.match(notes(seats('x: left, y: back, z: parallels'))[1]![0]!, /^Indicate the bore bore/);
    assert.deepEqual(notes(seats('x: bore, y: bore, z: parallels'))[1], []);
  });
  it('a height from a tilted face is touched off on a ball, with its sum', () => {
    const [one] = notes(`body: { x: 60, y: 40, z: 20 }
features:
  a: { kind: hole, face: top, at: { x: 30, y: 20 }, tilt: { about: y, angle: 20 }, diameter: 5, depth: 8 }
setups:
  one: { up: top, hold: { angle: 20, about: y, vise: mill-vise-100, jaws: [back, front], grip: 10 }, zero: { z: top }, cuts: [a] }
`);
    // 5 + 5 / cos 20°, by hand: cos 20° = 0.9396926.
    assert.match(one!.at(-1)!, /^Zero on top, tilted by 20°.* 10\.321 mm above the plane there, 5 \+ 5 \/ cos 20°/);
  });
  it('the top of a ball on a plane, by its distance from that plane', () => {
    for (const deg of [0, 10, 45, 70]) {
      const a = (deg * Math.PI) / 180;
      // Down from its top by what is told, the place is on the plane: so far from the centre, along the plane's normal, is the radius.
      const down = ballTopMm(4, deg) - 4;
      assert.ok(Math.abs(down * Math.cos(a) - 4) < 1e-9);
    }
  });
});
