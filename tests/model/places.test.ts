/** Positions, patterns and depths, worked by hand on a 60 × 40 × 16 block. */
import assert from 'node:assert/strict';
import { block, feature, marked, partOf, places, round } from './read';

const HOLE = 'diameter: 3, depth: 2';
const at = (face: string, where: string) => places(feature('hole', `face: ${face}, at: ${where}, ${HOLE}`));
const pattern = (face: string, where: string) =>
  places(
    feature('hole', `face: ${face}, at: { x: 30, ${face === 'top' ? 'y: 20' : 'z: 8'} }, ${HOLE}, pattern: ${where}`),
  );

describe('a position', () => {
  it('is taken in part axes, two of them, by the face', () => {
    assert.deepEqual(at('top', '{ x: 10, y: 8 }'), [[10, 8]]);
    assert.deepEqual(at('bottom', '{ x: 10, y: 8 }'), [[10, 8]]);
    assert.deepEqual(at('front', '{ x: 10, z: 8 }'), [[10, 8]]);
    assert.deepEqual(at('back', '{ x: 10, z: 8 }'), [[10, 8]]);
    assert.deepEqual(at('left', '{ y: 10, z: 8 }'), [[10, 8]]);
    assert.deepEqual(at('right', '{ y: 10, z: 8 }'), [[10, 8]]);
  });

  it('may be the distance from a face', () => {
    assert.deepEqual(at('top', '{ right: 12, front: 8 }'), [[48, 8]]);
    assert.deepEqual(at('top', '{ left: 12, back: 8 }'), [[12, 32]]);
    assert.deepEqual(at('right', '{ back: 4, top: 3 }'), [[36, 13]]);
    assert.deepEqual(at('front', '{ left: 4, bottom: 3 }'), [[4, 3]]);
  });

  it('may be the centre, and a sum with it', () => {
    assert.deepEqual(at('top', '{ x: center, y: center }'), [[30, 20]]);
    assert.deepEqual(at('left', '{ y: center, z: center }'), [[20, 8]]);
    assert.deepEqual(at('top', '{ x: center - 5, y: body.y / 4 }'), [[25, 10]]);
  });

  it('may lie outside the body, which is for a rule to judge', () => {
    assert.deepEqual(at('top', '{ x: -5, back: -5 }'), [[-5, 45]]);
  });

  it('is centred on the envelope of a round body', () => {
    const text = `part: a
body: { diameter: 40, length: 25, axis: x }
features:
  f: { kind: hole, face: right, at: { y: center, top: 5 }, diameter: 3, depth: through }
`;
    const part = partOf(text);
    assert.deepEqual(part.size, [25, 40, 40]);
    assert.deepEqual(places(part.features[0]!), [[20, 35]]);
    assert.equal((part.features[0] as { depth?: { mm: number } }).depth?.mm, 25);
  });

  it('keeps its place in the text', () => {
    const text = block('f: { kind: hole, face: top, at: { x: 1, y: 2 }, diameter: 3, depth: 2 }');
    const { span } = partOf(text).features[0]!.places[0]!;
    assert.equal(span.to - span.from, '{ x: 1, y: 2 }'.length);
  });

  it('says what is missing, doubled or along the depth', () => {
    const problems = marked(
      block(`
        a: { kind: hole, face: top, at: «{ x: 1 }», diameter: 3, depth: 2 }
        b: { kind: hole, face: top, at: { x: 1, «left»: 4, y: 3 }, diameter: 3, depth: 2 }
        c: { kind: hole, face: top, at: { x: 1, «z»: 4 }, diameter: 3, depth: 2 }
        d: { kind: hole, face: left, at: { y: 1, «right»: 4 }, diameter: 3, depth: 2 }
        «e»: { kind: hole, face: top, diameter: 3, depth: 2 }
      `),
    );
    assert.deepEqual(
      problems.map((p) => p.message),
      [
        'This place on top needs `y`, `front` or `back`: where it is along y. Write it like `y: center`.',
        '`x` and `left` both say where it is along x. Keep one of them.',
        'A place on top is given in x and y; `z` runs along its depth. Delete it, or write `x` or `y`.',
        'A place on left is given in y and z; `right` runs along its depth. Delete it, or write `y` or `z`.',
        'This feature needs `at`: where it is on top. Write it like `at: { x: center, y: center }`.',
      ],
    );
    assert.deepEqual(
      problems.map((p) => p.of),
      ['a', 'b', 'c', 'd', 'e'],
    );
  });
});

describe('a pattern', () => {
  it('in a line is centred on `at`', () => {
    assert.deepEqual(pattern('front', '{ line: { x: 36, count: 2 } }'), [
      [12, 8],
      [48, 8],
    ]);
    assert.deepEqual(pattern('top', '{ line: { y: 10, count: 3 } }'), [
      [30, 10],
      [30, 20],
      [30, 30],
    ]);
    assert.deepEqual(pattern('top', '{ line: { x: 10, count: 1 } }'), [[30, 20]]);
  });

  it('in a grid is centred on `at`, the first axis fastest', () => {
    assert.deepEqual(pattern('top', '{ grid: { x: { pitch: 10, count: 2 }, y: { pitch: 6, count: 2 } } }'), [
      [25, 17],
      [35, 17],
      [25, 23],
      [35, 23],
    ]);
    assert.deepEqual(pattern('top', '{ grid: { y: { pitch: 6, count: 2 } } }'), [
      [30, 17],
      [30, 23],
    ]);
  });

  it('on a bolt circle is about `at`, from the first axis toward the second', () => {
    assert.deepEqual(pattern('top', '{ bolt-circle: { diameter: 20, count: 4 } }'), [
      [40, 20],
      [30, 30],
      [20, 20],
      [30, 10],
    ]);
    // 45° of a radius of 10: 7.071068 along each axis.
    assert.deepEqual(pattern('top', '{ bolt-circle: { diameter: 20, count: 2, start: 45 } }'), [
      [37.071068, 27.071068],
      [22.928932, 12.928932],
    ]);
    // On left the axes are y and z: the first lies at +y.
    const left = feature(
      'hole',
      `face: left, at: { y: 20, z: 8 }, ${HOLE}, pattern: { bolt-circle: { diameter: 8, count: 4 } }`,
    );
    assert.deepEqual(places(left), [
      [24, 8],
      [20, 12],
      [16, 8],
      [20, 4],
    ]);
  });

  it('by places needs no `at`', () => {
    const f = feature('hole', `face: top, ${HOLE}, pattern: { places: [{ x: 8, y: 8 }, { right: 8, back: 8 }] }`);
    assert.deepEqual(places(f), [
      [8, 8],
      [52, 32],
    ]);
    assert.equal(f.pattern?.type, 'places');
  });

  it('shifts a path', () => {
    const f = feature(
      'pocket',
      'face: top, path: [{ x: 2, y: 2 }, { x: 8, y: 2 }, { x: 8, y: 6 }], depth: 2, pattern: { line: { x: 20, count: 2 } }',
    );
    assert.deepEqual(places(f), [
      [-10, 0],
      [10, 0],
    ]);
  });

  it('takes its count from a parameter', () => {
    const f = feature(
      'hole',
      `face: top, at: { x: 30, y: 20 }, ${HOLE}, pattern: { line: { x: pitch, count: n } }`,
      'parameters: { n: 3, pitch: 5 }\n',
    );
    assert.deepEqual(
      places(f).map(([u]) => u),
      [25, 30, 35],
    );
  });

  it('has a number of members that can be meant', () => {
    const h = (pattern: string) => `kind: hole, face: top, at: { x: 9, y: 9 }, ${HOLE}, pattern: ${pattern}`;
    const problems = marked(
      block(`
        a: { ${h('{ line: { x: 5, count: «1e9» } }')} }
        b: { ${h('{ grid: «{ x: { pitch: 1, count: 40 }, y: { pitch: 1, count: 40 } }» }')} }
        c: { ${h('{ line: { x: 5, count: «2.5» } }')} }
        d: { ${h('{ line: { x: 5, count: «0» } }')} }
        e: { ${h('{ bolt-circle: { diameter: «0», count: 3 } }')} }
        f: { ${h('{ line: { «z»: 5, count: 2 } }')} }
        g: { ${h('{ line: { x: 5, count: «5 mm» } }')} }
        h: { ${h('{ places: «[]» }').replace('at:', '«at»:')} }
        i: { ${h('{ line: { x: 5, count: 2 }, «grid»: { x: { pitch: 1, count: 2 } } }')} }
      `),
    );
    assert.deepEqual(
      problems.map((p) => p.message.replace(/^(.*?[.;:]) .*$/, '$1')),
      [
        '`count` is 1000000000.',
        'A pattern has at most 500 members;',
        '`count` is 2.5.',
        '`count` is 0.',
        '`diameter` is 0 mm.',
        'A pattern on top runs along x or y;',
        'A length is written where a plain number is needed.',
        '`at` means nothing beside `places`, which say where each one is.',
        '`places` is empty.',
        '`pattern` can have only one of `line`, `grid`, `bolt-circle` and `places`.',
      ],
    );
  });
});

describe('a depth', () => {
  const stack = (fields: string, face = 'top') => `
    seat: { kind: hole, face: top, at: { x: 30, y: 20 }, diameter: 22, depth: 7 }
    f: { kind: hole, ${face ? `face: ${face}, ` : ''}at: { x: 30, y: 20 }, diameter: 12, ${fields} }
  `;

  it('through goes to the far side', () => {
    for (const [face, mm] of [
      ['top', 16],
      ['bottom', 16],
      ['front', 40],
      ['right', 60],
    ] as const) {
      const where = {
        top: '{ x: 5, y: 5 }',
        bottom: '{ x: 5, y: 5 }',
        front: '{ x: 5, z: 5 }',
        right: '{ y: 5, z: 5 }',
      }[face];
      const { depth } = feature('hole', `face: ${face}, at: ${where}, diameter: 3, depth: through`);
      assert.deepEqual([depth.through, depth.mm], [true, mm]);
    }
  });

  it('counts from the floor named by `from`', () => {
    const part = partOf(block(stack('from: seat, depth: through', '')));
    assert.deepEqual(part.problems, []);
    const f = part.featureByName.get('f')!;
    assert.equal(f.kind === 'hole' && f.depth.mm, 9);
    assert.equal(f.startMm, 7);
    assert.equal(f.face, 'top');
    assert.equal(f.from?.name, 'seat');
  });

  it('adds up floor on floor', () => {
    const part = partOf(
      block(`
        c: { kind: hole, from: b, at: { x: 30, y: 20 }, diameter: 4, depth: through }
        b: { kind: pocket, from: a, at: { x: 30, y: 20 }, diameter: 8, depth: 2.5 }
        a: { kind: slot, face: top, ends: [{ x: 0, y: 20 }, { x: 60, y: 20 }], width: 20, depth: 3 }
      `),
    );
    assert.deepEqual(part.problems, []);
    assert.deepEqual(
      part.features.map((f) => [f.name, f.startMm]),
      [
        ['c', 5.5],
        ['b', 3],
        ['a', 0],
      ],
    );
    assert.equal(round((part.featureByName.get('c') as { depth: { mm: number } }).depth.mm), 10.5);
  });

  it('cannot start where there is no floor', () => {
    const problems = marked(
      block(`
        thru: { kind: hole, face: top, at: { x: 5, y: 5 }, diameter: 3, depth: through }
        edge: { kind: chamfer, edges: top, size: 1 }
        deep: { kind: pocket, face: top, at: { x: 9, y: 9 }, diameter: 8, depth: 16 }
        a: { kind: hole, from: «thru», at: { x: 5, y: 5 }, diameter: 2, depth: 1 }
        b: { kind: hole, from: «edge», at: { x: 5, y: 5 }, diameter: 2, depth: 1 }
        c: { kind: hole, face: bottom, from: «deep», at: { x: 9, y: 9 }, diameter: 2, depth: 1 }
        d: { kind: hole, from: deep, at: { x: 9, y: 9 }, diameter: 2, depth: «through» }
        e: { kind: hole, from: «e», at: { x: 9, y: 9 }, diameter: 2, depth: 1 }
      `),
    );
    assert.deepEqual(
      problems.map((p) => p.message),
      [
        '`thru` goes through, so it has no floor to start on. Name another in `from`, or delete it.',
        '`edge` is a chamfer, which has no floor to start on. Name another in `from`, or delete it.',
        '`deep` is cut from top, this feature from bottom. Name a feature of its own face in `from`, or delete it.',
        'The floor it starts on is past the body’s far side: nothing is left below. Name another feature in `from`.',
        'A feature cannot start on its own floor. Name another in `from`, or delete it.',
      ],
    );
  });

  it('goes in a circle only once', () => {
    const text = block(`
      a: { kind: hole, from: b, at: { x: 5, y: 5 }, diameter: 3, depth: 2 }
      b: { kind: hole, from: c, at: { x: 5, y: 5 }, diameter: 3, depth: 2 }
      c: { kind: hole, from: «a», at: { x: 5, y: 5 }, diameter: 3, depth: 2 }
      d: { kind: hole, from: a, at: { x: 5, y: 5 }, diameter: 3, depth: 2 }
    `);
    const [problem] = marked(text);
    assert.match(problem!.message, /`a` → `b` → `c` → `a`/);
    const part = partOf(text.replace(/[«»]/g, ''));
    assert.deepEqual([...part.broken], ['a', 'b', 'c', 'd']);
  });
});
