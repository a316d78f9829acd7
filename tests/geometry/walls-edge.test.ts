/** Where a cut's end is just its outline's edge, rounding must not make a wall of nothing. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';

describe('walls: an island lower than its pocket', () => {
  it('leaves no wall between the pocket’s lower part and the face that its upper part has opened', () => {
    // found by generated parts: the middle of a cell falls onto the outline's own corner
    const { solid, findings } = checkPart(
      `part: proof
units: mm
material: aluminium-6061-t6
body: { x: 53.59, y: 49.92, z: 10.1 }
features:
  f1:
    kind: pocket
    face: bottom
    at: { x: 15.01, y: 37.94 }
    pattern: { bolt-circle: { diameter: 19.48, count: 3, start: 17 } }
    path:
      - { x: -8.33, y: -5.835, round: 1.66 }
      - { x: 8.33, y: -5.835, bevel: 1.66 }
      - { x: 8.33, y: 1.17 }
      - { x: 1.67, y: 1.17, round: 1.66 }
      - { x: 1.67, y: 5.835 }
      - { x: -8.33, y: 5.835, round: 1.66 }
    depth: 1.92
    islands: { post: { diameter: 3.5, at: { x: 0, y: 0 }, height: 1.63 } }
`,
      builtinShop(),
    );
    assert.deepEqual(
      solid.walls(1).map((w) => w.b),
      [],
    );
    assert.ok(!findings.some((f) => f.rule === 'wall/thin'));
  });
});

describe('walls: as thick as each other but for rounding', () => {
  it('are told once for two cuts, by the higher one, however the part lies', () => {
    const text = (x: string, start: number) => `part: proof
units: mm
material: aluminium-6061-t6
body: { x: 30, y: 24, z: 10 }
features:
  f1:
    kind: pocket
    face: top
    at: { x: ${x}, y: 2.4 }
    pattern: { bolt-circle: { diameter: 17.43, count: 2, start: ${start} } }
    diameter: 15.99
    depth: 1
    islands: { post: { diameter: 4.8, at: { x: 0, y: 0 }, height: 0.1 } }
`;
    // two discs 17.43 apart, each 15.99 across: 1.44 between them; below the islands' tops they are 0.9 high
    for (const part of [text('3', 17), text('27', 163), text('3', 197), text('27', 343)]) {
      const walls = checkPart(part, builtinShop()).solid.walls(2);
      assert.deepEqual(
        walls.map((w) => [Math.round(w.thicknessMm * 1e6) / 1e6, Math.round(w.heightMm * 1e6) / 1e6]),
        [[1.44, 0.9]],
      );
    }
  });
});

describe('walls: along the side of a third cut', () => {
  it('are none: a row of openings that run into each other and out of a face, however it lies', () => {
    for (const at of ['left: 3, front: 2.4', 'right: 3, front: 2.4', 'left: 3, back: 2.4', 'right: 3, back: 2.4']) {
      const { solid } = checkPart(
        `part: proof
units: mm
material: aluminium-6061-t6
body: { x: 30, y: 24, z: 10 }
features:
  f1:
    kind: pocket
    face: top
    at: { ${at} }
    pattern: { line: { x: 3, count: 2 } }
    size: { x: 5, y: 5 }
    depth: through
`,
        builtinShop(),
      );
      assert.deepEqual(solid.walls(3), [], at);
    }
  });
});
