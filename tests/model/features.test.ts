/** The other kinds of feature, worked by hand on a 60 × 40 × 16 block. */
import assert from 'node:assert/strict';
import type { Shape } from '../../server/src/model/model';
import { block, feature, marked, partOf, places, round } from './read';

const corners = (shape: Shape) => (shape.type === 'path' ? shape.corners.map((c) => [c.u, c.v]) : []);
const messages = (text: string) => marked(block(text)).map((p) => p.message);

describe('a pocket', () => {
  it('is a rectangle with square corners unless told', () => {
    const f = feature('pocket', 'face: bottom, at: { x: 14, y: center }, size: { x: 14, y: 24 }, depth: 9');
    assert.equal(f.shape.type, 'rectangle');
    if (f.shape.type !== 'rectangle') return;
    assert.deepEqual([f.shape.u.mm, f.shape.v.mm, f.shape.cornerRadius.mm, f.shape.rotateDeg], [14, 24, 0, 0]);
    assert.ok(f.shape.cornerRadius.from);
    assert.deepEqual([f.depth.mm, f.floorRadius.mm, f.islands.length], [9, 0, 0]);
    assert.equal(f.relief, undefined);
  });

  it('takes its size in the axes of its face', () => {
    const f = feature(
      'pocket',
      'face: right, at: { y: 20, z: 8 }, size: { y: 10, z: 4 }, corner-radius: 2, rotate: 30, depth: 3, floor-radius: 0.5',
    );
    assert.deepEqual(places(f), [[20, 8]]);
    if (f.shape.type !== 'rectangle') assert.fail();
    assert.deepEqual([f.shape.u.mm, f.shape.v.mm, f.shape.cornerRadius.mm, f.shape.rotateDeg], [10, 4, 2, 30]);
    assert.equal(f.floorRadius.mm, 0.5);
  });

  it('has reliefs of a quarter of its smaller side, 6 mm at most, unless told', () => {
    const relief = (fields: string) => feature('pocket', `face: top, depth: 3, relief: corner, ${fields}`).relief!;
    const sized = (u: number, v: number, more = '') =>
      relief(`at: { x: 20, y: 20 }, size: { x: ${u}, y: ${v} }${more}`);
    assert.deepEqual([sized(30, 20).style, sized(30, 20).diameter.mm], ['corner', 5]);
    assert.equal(sized(60, 40).diameter.mm, 6);
    assert.match(sized(60, 40).diameter.from ?? '', /no `relief-diameter` is given/);
    // Twice the floor's radius, for its cutter, but no more than half the pocket.
    assert.equal(sized(30, 20, ', floor-radius: 4').diameter.mm, 8);
    assert.equal(sized(30, 6, ', floor-radius: 2.5').diameter.mm, 3);
    const given = sized(30, 20, ', relief-diameter: 1/8 in').diameter;
    assert.deepEqual([given.mm, given.text, given.from], [3.175, '1/8 in', undefined]);
    // Of a path: of the rectangle round it, 12 × 9.
    assert.equal(relief('path: [{ x: 0, y: 0 }, { x: 12, y: 0, round: 2 }, { x: 6, y: 9 }]').diameter.mm, 2.25);
  });

  it('has no relief where there is nothing to relieve', () => {
    const at = 'kind: pocket, face: top, at: { x: 20, y: 20 }, depth: 3';
    assert.deepEqual(
      messages(`
        a: { ${at}, size: { x: 12, y: 10 }, «relief-diameter»: 3 }
        b: { ${at}, size: { x: 12, y: 10 }, relief: corner, relief-diameter: «11 mm» }
        c: { ${at}, size: { x: 12, y: 10 }, corner-radius: 2, relief: «corner» }
        d: { ${at}, diameter: 12, relief: «corner» }
        e: { ${at}, size: { x: 12, y: 10 }, relief: corner, relief-diameter: «0» }
      `),
      [
        '`relief-diameter` is the size of a `relief`; without one it means nothing. Delete it.',
        'A relief of 11 mm is wider than the pocket, which has a width of 10 mm there. Make it smaller.',
        '`relief` cuts into square corners, and this outline has none. Delete it.',
        '`relief` cuts into square corners, and this outline has none. Delete it.',
        '`relief-diameter` is 0 mm. Make it more than 0, like `5`.',
      ],
    );
    assert.equal(
      feature('pocket', 'face: top, at: { x: 20, y: 20 }, size: { x: 9, y: 9 }, depth: 1').relief,
      undefined,
    );
  });

  it('is round, or along a path', () => {
    const disc = feature('pocket', 'face: top, at: { x: 20, y: 20 }, diameter: 12 H8, depth: 3');
    assert.equal(disc.shape.type === 'circle' && disc.shape.diameter.mm, 12);
    const path = feature(
      'pocket',
      'face: top, depth: 3, path: [{ x: 0, y: 0 }, { x: 40, y: 0, round: 6 }, { x: 40, y: 25, bevel: 2 }, { x: 0, y: 25, arc: { x: -4, y: 12 } }]',
    );
    assert.deepEqual(corners(path.shape), [
      [0, 0],
      [40, 0],
      [40, 25],
      [0, 25],
    ]);
    if (path.shape.type !== 'path') assert.fail();
    assert.equal(path.shape.corners[1]?.round?.mm, 6);
    assert.equal(path.shape.corners[2]?.bevel?.mm, 2);
    assert.deepEqual([path.shape.corners[3]?.arc?.u, path.shape.corners[3]?.arc?.v], [-4, 12]);
    assert.deepEqual(places(path), [[0, 0]]);
  });

  it('leaves islands, placed from the pocket’s own place', () => {
    const f = feature(
      'pocket',
      `face: top, at: { x: 30, y: 20 }, size: { x: 40, y: 30 }, depth: 6, islands: { post: { diameter: 8, at: { x: 25, y: 22 }, height: 4 }, rib: { size: { x: 3, y: 10 }, at: { x: 40, y: center } }, tri: { path: [{ x: 20, y: 10 }, { x: 24, y: 10 }, { x: 22, y: 13 }] } }`,
    );
    const [post, rib, tri] = f.islands;
    assert.deepEqual([post?.name, post?.place.u, post?.place.v, post?.height.mm], ['post', -5, 2, 4]);
    assert.deepEqual([rib?.place.u, rib?.place.v, rib?.height.mm], [10, 0, 6]);
    assert.ok(rib?.height.from);
    // A path without `at` stands where it is drawn: its own origin, seen from the pocket's place.
    assert.deepEqual([tri?.place.u, tri?.place.v], [-30, -20]);
  });

  it('tells what cannot be', () => {
    const p = 'kind: pocket, face: top, at: { x: 20, y: 20 }';
    assert.deepEqual(
      messages(`
        a: { ${p}, size: { x: 10, «z»: 4 }, depth: 3 }
        b: { ${p}, size: «{ x: 10 }», depth: 3 }
        c: { ${p}, size: { x: 10, y: 8 }, corner-radius: «6», depth: 3 }
        d: { ${p}, diameter: 8, «corner-radius»: 6, depth: 3 }
        e: { ${p}, size: { x: 1, y: 1 }, «diameter»: 8, depth: 3 }
        «f»: { ${p}, depth: 3 }
        g: { ${p}, diameter: 20, depth: 3, islands: { «i»: { diameter: 3 } } }
        h: { ${p}, diameter: 20, depth: 3, islands: { i: { diameter: 3, at: { x: 20, y: 20 }, height: «4» } } }
      `),
      [
        'A size on top is given in x and y; z is its `depth`.',
        'The size on top needs `y` too. Write it like `y: 20`.',
        '`corner-radius` 6 is more than half the shorter side. Make it `4` or less.',
        '`corner-radius` belongs to an outline with a `size`; here it means nothing. Delete it.',
        'A pocket can have only one of `size`, `diameter` and `path`. Delete `size` or `diameter`.',
        'A pocket needs `size`, `diameter` or `path`. Write it like `size: { x: 14, y: 24 }`.',
        'An island needs `at`: where its centre is. Write it like `at: { x: 30, y: 20 }`.',
        'This island is higher than the pocket is deep. Make its `height` smaller.',
      ],
    );
  });
});

describe('a path', () => {
  const path = (list: string) => `{ kind: contour, face: top, depth: 3, path: ${list} }`;

  it('tells a corner that is there twice, too few, or an arc that is none', () => {
    assert.deepEqual(
      messages(`
        a: ${path('«[{ x: 1, y: 1 }, { x: 5, y: 1 }]»')}
        b: ${path('[{ x: 1, y: 1 }, { x: 5, y: 1 }, «{ x: 5, y: 1 }», { x: 1, y: 6 }]')}
        c: ${path('[{ x: 1, y: 1 }, { x: 5, y: 1 }, { x: 1, y: 6 }, «{ x: 1, y: 1 }»]')}
        d: ${path('[{ x: 1, y: 1, arc: «{ x: 3, y: 1 }» }, { x: 5, y: 1 }, { x: 1, y: 6 }]')}
        e: ${path('[{ x: 1, y: 1, round: 1, «bevel»: 1 }, { x: 5, y: 1 }, { x: 1, y: 6 }]')}
        f: ${path('[{ x: 1, y: 1 }, «5», { x: 1, y: 6 }]')}
      `),
      [
        'A closed path needs at least 3 corners; this has 2. Add corners like `{ x: 40, y: 0 }`.',
        'This corner is in the same place as the one before it. Delete it, or move it.',
        'This corner is the first one again. A closed path closes by itself. Delete this corner.',
        'This point is on the straight line between the two corners, so there is no arc. Move it off the line, or delete `arc`.',
        'A corner is either rounded or bevelled. Keep one of them.',
        'Item 2 of `path` is `5`. Write entries like `{ x: 40, y: 0, round: 6 }`.',
      ],
    );
  });

  it('may be two corners with an arc', () => {
    const f = feature(
      'contour',
      'face: top, depth: 3, path: [{ x: 20, y: 20, arc: { x: 30, y: 30 } }, { x: 40, y: 20 }]',
    );
    assert.equal(corners(f.shapes[0]!).length, 2);
  });

  it('has room for its roundings', () => {
    // A right angle: a radius takes its own length of each side. 11 > 10; 6 + 6 > 10; 5 + 5 = 10 just fits.
    const square = (a: string, b: string) =>
      path(`[{ x: 0, y: 0, ${a} }, { x: 10, y: 0, ${b} }, { x: 10, y: 30 }, { x: 0, y: 30 }]`);
    assert.deepEqual(
      messages(`
        a: ${square('round: «11»', 'round: 0')}
        b: ${square('round: «6»', 'bevel: 6')}
        c: ${square('round: 5', 'round: 5')}
      `),
      [
        'This rounding does not fit. It needs 11 of a side that is 10 long. Make it smaller.',
        'This rounding does not fit. It needs 6 of a side that is 10 long; the corner beside it needs 6. Make it smaller.',
      ],
    );
  });

  it('knows how far a rounding reaches in a sharp corner', () => {
    // An equilateral corner of 60°: r / tan 30° = r·√3; r = 10 on sides of 20 takes 17.3205, and two of them do not fit.
    const tri = (r: string) => path(`[{ x: 0, y: 0, round: ${r} }, { x: 20, y: 0 }, { x: 10, y: 10 * sqrt(3) }]`);
    assert.deepEqual(messages(`a: ${tri('11.5')}\n        b: ${tri('«11.6»')}`), [
      'This rounding does not fit. It needs 20.092 of a side that is 20 long. Make it smaller.',
    ]);
  });
});

describe('a slot', () => {
  it('has two ends or a path', () => {
    const f = feature('slot', 'face: top, ends: [{ x: 10, y: 20 }, { right: 10, y: 20 }], width: 8, depth: 5');
    assert.deepEqual(
      f.line.map((c) => [c.u, c.v]),
      [
        [10, 20],
        [50, 20],
      ],
    );
    assert.deepEqual([f.width.mm, f.depth.mm, places(f)], [8, 5, [[0, 0]]]);
    const bent = feature(
      'slot',
      'face: top, path: [{ x: 10, y: 5 }, { x: 30, y: 5, round: 6 }, { x: 30, y: 30 }], width: 4, depth: 2',
    );
    assert.equal(bent.line[1]?.round?.mm, 6);
  });

  it('is shifted by `at`', () => {
    const f = feature(
      'slot',
      'face: top, at: { x: 1, y: 2 }, ends: [{ x: 0, y: 0 }, { x: 9, y: 0 }], width: 3, depth: 2',
    );
    assert.deepEqual(places(f), [[1, 2]]);
    assert.deepEqual([f.line[1]?.u, f.line[1]?.v], [9, 0]);
  });

  it('may be a tee or a dovetail', () => {
    const line = 'face: top, ends: [{ x: 0, y: 20 }, { x: 60, y: 20 }], width: 8, depth: 10';
    const tee = feature('slot', `${line}, tee: { width: 14, height: 5 }`);
    assert.deepEqual([tee.tee?.width.mm, tee.tee?.height.mm], [14, 5]);
    assert.equal(feature('slot', `${line}, dovetail: { angle: 60 }`).dovetail?.angle.deg, 60);
    assert.deepEqual(
      messages(`
        a: { kind: slot, ${line}, tee: { width: «8», height: 5 } }
        b: { kind: slot, ${line}, tee: { width: 14, height: «10» } }
        c: { kind: slot, ${line}, tee: { width: 14, height: 5 }, dovetail: «{ angle: 60 }» }
        d: { kind: slot, face: top, ends: «[{ x: 0, y: 20 }]», width: 8, depth: 10 }
        e: { kind: slot, face: top, ends: [{ x: 0, y: 20 }, «{ left: 0, y: 20 }»], width: 8, depth: 10 }
      `),
      [
        'The tee is not wider than the slot’s neck. Make the tee’s `width` larger.',
        'The tee is as high as the slot is deep, so no neck is left. Make the tee’s `height` smaller.',
        'A slot has a tee or a dovetail, not both. Delete one of them.',
        'A slot has two ends; this gives 1. Write two, or `path` for a bent slot.',
        'This corner is in the same place as the one before it. Delete it, or move it.',
      ],
    );
  });
});

describe('a step', () => {
  it('runs along one side, or along two', () => {
    const one = feature('step', 'face: top, along: front, width: 8, depth: 4');
    assert.deepEqual([one.along.map((a) => a.name), one.widths.map((w) => w.mm), one.depth.mm], [['front'], [8], 4]);
    const two = feature('step', 'face: top, along: [front, left], width: [8, 5], depth: through, floor-radius: 1');
    assert.deepEqual(
      [two.along.map((a) => a.name), two.widths.map((w) => w.mm), two.depth.mm],
      [['front', 'left'], [8, 5], 16],
    );
    assert.deepEqual(
      feature('step', 'face: top, along: [front, left], width: 8, depth: 4').widths.map((w) => w.mm),
      [8, 8],
    );
  });

  it('tells sides that are none', () => {
    assert.deepEqual(
      messages(`
        a: { kind: step, face: top, along: «bottom», width: 3, depth: 2 }
        b: { kind: step, face: top, along: [left, «right»], width: 3, depth: 2 }
        c: { kind: step, face: top, along: [left, front], width: «[3, 4, 5]», depth: 2 }
        d: { kind: step, face: top, «along»: [left, front, right], width: 3, depth: 2 }
        e: { kind: step, face: top, along: «upper», width: 3, depth: 2 }
      `),
      [
        'bottom is not a side of top. Write `left`, `right`, `front` or `back`.',
        'left and right do not meet in a corner. Write two sides that meet, like `[left, front]`.',
        'The number of widths is not that of the sides. Write one `width`, or one for each side of `along`.',
        'A step runs along one side, or along two that meet in a corner. Write one or two, like `[left, front]`.',
        '`along` cannot be `upper`. Did you mean `top`?',
      ],
    );
  });
});

describe('a contour', () => {
  it('keeps one outline or several', () => {
    const several = feature(
      'contour',
      'face: top, depth: 4, paths: [[{ x: 1, y: 1 }, { x: 9, y: 1 }, { x: 1, y: 9 }], [{ x: 20, y: 1 }, { x: 29, y: 1 }, { x: 20, y: 9 }]]',
    );
    assert.equal(several.shapes.length, 2);
    const boss = feature('contour', 'face: top, depth: 4, at: { x: center, y: center }, diameter: 20');
    assert.equal(boss.shapes[0]?.type, 'circle');
    assert.deepEqual(places(boss), [[30, 20]]);
    const plate = feature(
      'contour',
      'face: top, depth: through, at: { x: center, y: center }, size: { x: 50, y: 30 }, corner-radius: 4',
    );
    assert.equal(plate.shapes[0]?.type === 'rectangle' && plate.shapes[0].cornerRadius.mm, 4);
    assert.deepEqual(messages('a: { kind: contour, face: top, depth: 4, paths: «[]» }'), [
      '`paths` is empty. Write at least one outline, like `[[{ x: 0, y: 0 }, …]]`.',
    ]);
  });
});

describe('a chamfer or round', () => {
  const edges = (text: string) => {
    const part = partOf(
      block(`
        seat: { kind: hole, face: front, at: { x: 30, z: 8 }, diameter: 6, depth: 7 }
        f: { kind: chamfer, edges: ${text}, size: 0.5 }
      `),
    );
    assert.deepEqual(part.problems, []);
    const f = part.featureByName.get('f');
    if (f?.kind !== 'chamfer') assert.fail();
    return {
      face: f.face,
      edges: f.edges.map((e) =>
        e.type === 'face' ? e.face : e.type === 'edge' ? e.faces.join('+') : `rim ${e.feature.name}`,
      ),
    };
  };

  it('chooses edges by face, by pair, by rim, or several', () => {
    assert.deepEqual(edges('top'), { face: 'top', edges: ['top'] });
    assert.deepEqual(edges('[top, left]'), { face: 'top', edges: ['top+left'] });
    assert.deepEqual(edges('[top, bottom]'), { face: 'top', edges: ['top', 'bottom'] });
    assert.deepEqual(edges('{ rim: seat }'), { face: 'front', edges: ['rim seat'] });
    assert.deepEqual(edges('[[left, top], { rim: seat }, bottom]'), {
      face: 'left',
      edges: ['left+top', 'rim seat', 'bottom'],
    });
    assert.deepEqual(edges('[top, front, back]'), { face: 'top', edges: ['top', 'front', 'back'] });
  });

  it('is 45° unless told, and counted from the face named', () => {
    const f = feature('chamfer', 'edges: [top, left], size: 2, angle: 30, face: left');
    assert.deepEqual([f.size.mm, f.angle.deg, f.face], [2, 30, 'left']);
    assert.equal(feature('chamfer', 'edges: top, size: 2').angle.deg, 45);
    assert.equal(feature('edge-round', 'edges: top, radius: 2').radius.mm, 2);
  });

  it('tells edges that are none', () => {
    assert.deepEqual(
      messages(`
        a: { kind: chamfer, edges: «[]», size: 1 }
        b: { kind: chamfer, edges: { rim: «nope» }, size: 1 }
        c: { kind: edge-round, edges: [top, «[left, right]»], radius: 2 }
        d: { kind: chamfer, edges: { rim: «f» }, size: 1 }
        e: { kind: chamfer, edges: [top, left], size: 1, face: «front» }
        f: { kind: step, face: top, along: front, width: 3, depth: 2 }
        g: { kind: chamfer, edges: top, size: 1, angle: «90» }
      `).map((m) => m.replace(/\. .*/, '.')),
      [
        'No edges are named.',
        'There is no feature `nope`.',
        'These two faces have no edge between them.',
        '`f` is a step and has no rim.',
        'None of these edges belongs to front.',
        '`angle` is 90°.',
      ],
    );
  });
});

describe('a groove', () => {
  it('is a ring on a face', () => {
    const f = feature('groove', 'face: top, at: { x: 30, y: 20 }, diameter: 20, width: 2, depth: 1.5');
    assert.deepEqual([f.diameter.mm, f.width.mm, f.depth?.mm, f.in], [20, 2, 1.5, undefined]);
  });

  it('is where its hole is', () => {
    const part = partOf(
      block(`
        seat: { kind: hole, face: front, at: { x: 30, z: 8 }, diameter: 10, depth: 12, pattern: { line: { x: 20, count: 2 } } }
        f: { kind: groove, in: seat, below: 5, width: 1.3, diameter: 10.4 }
      `),
    );
    assert.deepEqual(part.problems, []);
    const f = part.featureByName.get('f')!;
    if (f.kind !== 'groove') assert.fail();
    assert.deepEqual([f.face, f.below?.mm, f.in?.name, f.depth], ['front', 5, 'seat', undefined]);
    assert.deepEqual(places(f), [
      [20, 8],
      [40, 8],
    ]);
  });

  it('tells what it cannot be in', () => {
    assert.deepEqual(
      messages(`
        slit: { kind: slot, face: top, ends: [{ x: 5, y: 5 }, { x: 9, y: 5 }], width: 3, depth: 2 }
        seat: { kind: hole, face: front, at: { x: 30, z: 8 }, diameter: 10, depth: 12 }
        a: { kind: groove, in: «slit», below: 1, width: 1, diameter: 9 }
        b: { kind: groove, in: seat, below: 1, width: 1, diameter: «10» }
        «c»: { kind: groove, in: seat, width: 1, diameter: 12 }
        «d»: { kind: groove, face: top, at: { x: 9, y: 9 }, width: 1, diameter: 12 }
        e: { kind: groove, face: top, at: { x: 9, y: 9 }, width: 1, diameter: 12, depth: 1, «below»: 3 }
      `),
      [
        '`slit` is not a round hole, and a ring is cut only in one. Name a hole in `in`.',
        'The groove is not wider than the hole it is in. Make its `diameter` larger.',
        'A groove inside a hole needs `below`: how far under the face it begins. Write it like `below: 3`.',
        'A groove on a face needs `depth`. Write it like `depth: 1.5`; one inside a hole needs `in` and `below`.',
        '`below` is for a groove inside a hole. Name the hole with `in`, as `in: bore`, or delete `below`.',
      ],
    );
  });
});

describe('an engraving', () => {
  it('has its text, and a stroke of an eighth of its height', () => {
    const f = feature('engraving', 'face: top, at: { x: 30, y: 5 }, text: 007, height: 4, depth: 0.3');
    assert.deepEqual([f.text, f.height.mm, f.depth.mm, f.stroke.mm], ['007', 4, 0.3, 0.5]);
    assert.ok(f.stroke.from);
    assert.deepEqual(
      messages(`a: { kind: engraving, face: top, at: { x: 30, y: 5 }, text: «"  "», height: 4, depth: «through» }`),
      [
        'There is nothing to engrave. Write it like `text: A1`.',
        'Text is engraved to a depth, not through. Write it like `depth: 0.3`.',
      ],
    );
  });
});

describe('a slope', () => {
  it('is given by its angle and its width or depth', () => {
    // tan 45° = 1; tan 30° = 0.577350.
    const wide = feature('slope', 'face: top, along: front, angle: 30, width: 12');
    assert.deepEqual([wide.widthMm, round(wide.depthMm)], [12, 6.928203]);
    const deep = feature('slope', 'face: top, along: front, angle: 45, depth: 4');
    assert.deepEqual([round(deep.widthMm), deep.depthMm, deep.given.mm], [4, 4, 4]);
    assert.deepEqual(
      messages(`
        a: { kind: slope, face: top, along: front, angle: «95», width: 3 }
        «b»: { kind: slope, face: top, along: front, angle: 15 }
        c: { kind: slope, face: top, along: «top», angle: 15, width: 3 }
      `),
      [
        '`angle` is 95°. Make it between 0° and 90°, like `75 deg`.',
        'A slope needs `width` or `depth`. Write it like `width: 12`.',
        'top is not a side of top. Write `left`, `right`, `front` or `back`.',
      ],
    );
  });
});
