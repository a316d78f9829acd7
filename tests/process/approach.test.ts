/** From which faces a feature can be cut. */
import assert from 'node:assert/strict';
import { approachesOf, endsThrough } from '../../server/src/process/approach';
import { facesToJudge } from '../../server/src/process/milling';
import { make } from './parts';

const FEATURES: readonly (readonly [what: string, fields: string, faces: string])[] = [
  [
    'a blind pocket',
    'kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 20, y: 10 }, corner-radius: 3, depth: 5',
    'top',
  ],
  [
    'a through pocket',
    'kind: pocket, face: front, at: { x: 30, z: 10 }, size: { x: 20, z: 10 }, corner-radius: 3, depth: through',
    'front back',
  ],
  [
    'a through pocket with a filleted foot',
    'kind: pocket, face: top, at: { x: 30, y: 20 }, size: { x: 20, y: 10 }, corner-radius: 3, depth: 5, floor-radius: 1',
    'top',
  ],
  ['a blind hole', 'kind: hole, face: left, at: { y: 20, z: 10 }, diameter: 5, depth: 8', 'left'],
  ['a through hole', 'kind: hole, face: left, at: { y: 20, z: 10 }, diameter: 5, depth: through', 'left right'],
  [
    'a hole as deep as the body',
    'kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5, bottom: flat, depth: 20',
    'top bottom',
  ],
  [
    'a through hole with a counterbore',
    'kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5, counterbore: { diameter: 9, depth: 4 }, depth: through',
    'top',
  ],
  [
    'a leaning hole',
    'kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5, depth: 8, tilt: { about: y, angle: 15 }',
    '',
  ],
  ['a step', 'kind: step, face: top, along: front, width: 6, depth: 4', 'top front'],
  ['a corner step', 'kind: step, face: top, along: [front, left], width: 6, depth: 4', 'top front left'],
  [
    'a through contour',
    'kind: contour, face: top, at: { x: 30, y: 20 }, size: { x: 50, y: 30 }, depth: through',
    'top bottom',
  ],
  ['a blind contour', 'kind: contour, face: top, at: { x: 30, y: 20 }, size: { x: 50, y: 30 }, depth: 6', 'top'],
  ['a closed slot', 'kind: slot, face: top, ends: [{ x: 20, y: 20 }, { x: 40, y: 20 }], width: 6, depth: 5', 'top'],
  [
    'a slot open at one end',
    'kind: slot, face: top, ends: [{ x: -9, y: 20 }, { x: 40, y: 20 }], width: 6, depth: 5',
    'top',
  ],
  // Along it a mill would leave its own radius between wall and floor.
  [
    'a slot open at both, its floor square',
    'kind: slot, face: top, ends: [{ x: -9, y: 20 }, { x: 69, y: 20 }], width: 6, depth: 5',
    'top',
  ],
  [
    'a slot open at both, its floor rounded',
    'kind: slot, face: top, ends: [{ x: -9, y: 20 }, { x: 69, y: 20 }], width: 6, depth: 5, floor-radius: 3',
    'top left right',
  ],
  [
    'a slot open at both, without a floor',
    'kind: slot, face: top, ends: [{ x: -9, y: 20 }, { x: 69, y: 20 }], width: 6, depth: through',
    'top bottom left right',
  ],
  [
    'an open slot across',
    'kind: slot, face: front, ends: [{ x: 30, z: -9 }, { x: 30, z: 29 }], width: 6, depth: 5, floor-radius: 2',
    'front bottom top',
  ],
  [
    'a slanting open slot',
    'kind: slot, face: top, ends: [{ x: -9, y: 10 }, { x: 69, y: 20 }], width: 6, depth: 5',
    'top',
  ],
  ['a ring on a face', 'kind: groove, face: top, at: { x: 30, y: 20 }, diameter: 12, width: 3, depth: 2', 'top'],
  ['letters', 'kind: engraving, face: back, at: { x: 30, z: 10 }, text: A, height: 4, depth: 0.3', 'back'],
  ['one edge broken', 'kind: chamfer, edges: [[top, front]], size: 1', 'top front left right'],
  [
    'the four corners of an outline',
    'kind: edge-round, edges: [[left, front], [right, front], [left, back], [right, back]], radius: 3',
    'bottom top',
  ],
  ['the edges of a face', 'kind: edge-round, edges: bottom, radius: 1', 'bottom'],
];

describe('approaches', () => {
  for (const [what, fields, faces] of FEATURES) {
    it(`${what}: ${faces || 'none of the six'}`, () => {
      const { part, solid } = make('{ x: 60, y: 40, z: 20 }', `  f: { ${fields} }\n`);
      const found = approachesOf(part.features[0]!, part, solid);
      assert.deepEqual([...found].sort(), faces.split(' ').filter(Boolean).sort());
      if (faces) assert.equal(found[0], faces.split(' ')[0]);
    });
  }

  it('a groove in a hole is cut from where the hole is', () => {
    const { part, solid, feature } = make(
      '{ x: 60, y: 40, z: 20 }',
      '  bore: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 20, depth: through }\n  ring: { kind: groove, in: bore, diameter: 22, width: 1.6, below: 5 }\n  rim: { kind: chamfer, edges: { rim: bore }, size: 0.5 }\n',
    );
    assert.deepEqual(approachesOf(feature('ring', 'groove'), part, solid), ['top', 'bottom']);
    assert.deepEqual(approachesOf(feature('rim', 'chamfer'), part, solid), ['top']);
    assert.ok(endsThrough('bore', solid));
  });

  it('the set-ups that cut it narrow the choice, where they can cut it at all', () => {
    const setups = (up: string) => `setups:\n  a: { up: ${up}, cuts: [h] }\n`;
    const made = (up: string) =>
      make(
        '{ x: 60, y: 40, z: 20 }',
        '  h: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 5, depth: through }\n',
        setups(up),
      );
    const faces = ({ part, solid, feature }: ReturnType<typeof make>) =>
      facesToJudge(feature('h', 'hole'), part, solid);
    assert.deepEqual(faces(made('bottom')), ['bottom']);
    assert.deepEqual(faces(made('front')), ['top', 'bottom']);
  });
});
