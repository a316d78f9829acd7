/** Edges, holes and walls that are touched: by the exact surfaces, wherever on the triangles one pressed. */
import assert from 'node:assert/strict';
import { bytesOf } from '../../../server/src/geometry/mesh/base64';
import type { Vec3 } from '../../../server/src/geometry/types';
import { pictureOfText, type Taken } from './support';

const PART = `part: t
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  bore: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 16, depth: 12, bottom: flat }
  sunk: { kind: hole, face: top, at: { x: 45, y: 28 }, diameter: 6, depth: through, countersink: { diameter: 10, angle: 90 } }
  cell: { kind: pocket, face: top, at: { x: 45, y: 10 }, size: { x: 20, y: 10 }, corner-radius: 3, depth: 8 }
  ramp: { kind: slope, face: top, along: left, width: 5, angle: 30 }
`;

/** A stretch between faces of these names, and its first point. */
function stretchOf({ picture }: Taken, one: string, other: string): { readonly stretch: number; readonly at: Vec3 } {
  const pairs = new Uint32Array(bytesOf(picture.mesh.edgeOf));
  const points = new Float32Array(bytesOf(picture.mesh.edges));
  const name = (i: number) => picture.surfaces[pairs[i]!]!.name;
  for (let i = 0; i < pairs.length / 2; i++) {
    const both = [name(2 * i), name(2 * i + 1)].sort();
    if (both.join() === [one, other].sort().join())
      return { stretch: i, at: [points[6 * i]!, points[6 * i + 1]!, points[6 * i + 2]!] };
  }
  throw new Error(`no edge between ${one} and ${other}`);
}

const face = ({ picture }: Taken, name: string) => {
  const found = picture.surfaces.findIndex((s) => s.name === name);
  assert.ok(found >= 0, `${name} is not among ${picture.surfaces.map((s) => s.name).join(', ')}`);
  return found;
};

describe('what is touched', () => {
  let taken: Taken;
  before(async () => {
    taken = (await pictureOfText(PART))!;
  });
  const measure = (asked: object) =>
    taken.pictures.measure('/p/a.part.yaml', { version: 1, a: 0, b: 0, atA: [0, 0, 0], atB: [0, 0, 0], ...asked });
  const alone = ({ stretch, at }: { stretch: number; at: Vec3 }) =>
    measure({ atA: at, atB: at, edgeA: stretch, edgeB: stretch });

  it('an edge between planes has its length, from end to end', () => {
    const edge = alone(stretchOf(taken, 'top', 'right'));
    assert.match(edge!.text, /^edge, 40 mm long$/);
    assert.ok(Math.abs(edge!.distanceMm! - 40) < 1e-6);
    // The slope's lower edge runs across the whole of left.
    assert.match(alone(stretchOf(taken, 'left', 'slope of ramp'))!.text, /^edge, 40 mm long$/);
  });

  it('a rim is a circle with its diameter, of a countersink as well', () => {
    assert.match(alone(stretchOf(taken, 'top', 'wall of bore'))!.text, /^circle, diameter 16 mm$/);
    assert.match(alone(stretchOf(taken, 'floor of bore', 'wall of bore'))!.text, /^circle, diameter 16 mm$/);
    assert.match(alone(stretchOf(taken, 'top', 'countersink of sunk'))!.text, /^circle, diameter 10 mm$/);
    const rim = alone(stretchOf(taken, 'countersink of sunk', 'wall of sunk'))!;
    assert.match(rim.text, /^circle, diameter 6 mm$/);
    // Through the axis.
    const [p, q] = rim.at!;
    assert.ok(Math.abs((p[0] + q[0]) / 2 - 45) < 1e-6 && Math.abs((p[1] + q[1]) / 2 - 28) < 1e-6);
  });

  it('two of them have what lies between: distance and angle', () => {
    const [right, rim] = [stretchOf(taken, 'top', 'right'), stretchOf(taken, 'top', 'wall of bore')];
    const both = (a: typeof right, b: typeof right) =>
      measure({ atA: a.at, atB: b.at, edgeA: a.stretch, edgeB: b.stretch });
    assert.match(both(right, stretchOf(taken, 'bottom', 'right'))!.text, /^edges 20 mm apart$/);
    // From x = 60 at z = 20 to the axis at x = 20.
    assert.match(both(right, rim)!.text, /40 mm apart, at 90°/);
    assert.match(
      both(rim, stretchOf(taken, 'top', 'countersink of sunk'))!.text,
      new RegExp(`^axes ${Number(Math.hypot(25, 8).toFixed(3))} mm apart`),
    );
    const left = face(taken, 'left');
    const edge = measure({ a: left, atA: [0, 20, 5], atB: right.at, edgeB: right.stretch })!;
    assert.match(edge.text, /^edge 60 mm from the plane$/);
    const slope = measure({
      a: face(taken, 'slope of ramp'),
      atA: [2, 20, 19],
      b: face(taken, 'bottom'),
      atB: [30, 20, 0],
    })!;
    assert.match(slope.text, /^planes at 30°$/);
  });

  it('a face alone tells how much material is behind it', () => {
    const at = (name: string, p: Vec3) => {
      const a = face(taken, name);
      return measure({ a, b: a, atA: p, atB: p })!;
    };
    assert.match(at('floor of bore', [20, 20, 8]).text, /^8 mm of material behind it$/);
    assert.match(at('wall of bore', [28, 20, 14]).text, /^diameter 16 mm, /);
    // From the bore to the front at y = 0: 20 less its radius.
    const wall = at('wall of bore', [20, 12, 14]);
    assert.match(wall.text, /^diameter 16 mm, 12 mm of material behind it$/);
    assert.ok(Math.abs(wall.distanceMm! - 12) < 1e-9);
    // Off the triangles by a chord: the answer is the exact one.
    assert.equal(at('wall of bore', [20, 12.02, 14]).text, wall.text);
    assert.match(at('front', [45, 0, 15]).text, /^5 mm of material behind it$/);
  });

  it('what is not there is null', () => {
    assert.equal(measure({ a: 999 }), null);
    assert.equal(
      measure({ edgeA: 99_999 })?.text,
      'This edge is neither straight nor a circle: press the faces beside it.',
    );
  });
});
