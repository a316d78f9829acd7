/** Where things are and what outline they have, as written: positions, patterns, paths, sizes, depth, tilt. */
import * as z from 'zod/mini';
import { angle, axis, length, list, map, noted, number, optional } from './common';

const coordinate = (axisWord: string) =>
  optional(
    length(`Part axis ${axisWord}, from the body’s left-front-bottom corner; or \`center\`.`, {
      example: 'center',
      values: { center: 'the middle of the body along this axis' },
    }),
  );
const distance = (face: string) =>
  optional(length(`Distance from the ${face} face, into the body.`, { example: '12' }));

/** One of each pair for the two axes of the face; the axis normal to the face is not given. */
export const position = (description: string) =>
  map(
    {
      x: coordinate('x, to the right'),
      y: coordinate('y, to the back'),
      z: coordinate('z, up'),
      left: distance('left'),
      right: distance('right'),
      front: distance('front'),
      back: distance('back'),
      bottom: distance('bottom'),
      top: distance('top'),
    },
    description,
    { example: '{ x: center, front: 8 }', title: 'position' },
  );

const count = (what: string) => number(`How many ${what}, 1 to 500.`, { example: '4' });
const row = (axisWord: string) =>
  map(
    { pitch: length('Distance from one to the next.', { example: '15' }), count: count('along this axis') },
    `Along ${axisWord}.`,
    { example: '{ pitch: 15, count: 3 }' },
  );

export const pattern = map(
  {
    line: optional(
      map(
        {
          x: optional(length('Pitch along x.', { example: '36' })),
          y: optional(length('Pitch along y.', { example: '36' })),
          z: optional(length('Pitch along z.', { example: '36' })),
          count: count('members'),
        },
        'A row, centred on `at`.',
        { one: [['x', 'y', 'z']], example: '{ x: 36, count: 2 }' },
      ),
    ),
    grid: optional(
      map(
        { x: optional(row('x')), y: optional(row('y')), z: optional(row('z')) },
        'Rows and columns along the two axes of the face, centred on `at`.',
        { example: '{ x: { pitch: 15, count: 3 }, y: { pitch: 10, count: 2 } }' },
      ),
    ),
    'bolt-circle': optional(
      map(
        {
          diameter: length('Diameter of the circle through the centres.', { example: '30' }),
          count: count('around the circle'),
          start: optional(
            angle(
              'Where the first one is: from the first axis of the face toward the second. The first is x, or y on left and right.',
              {
                example: '45',
                fallback: '0',
              },
            ),
          ),
        },
        'Equally spaced on a circle about `at`.',
        { example: '{ diameter: 30, count: 4 }' },
      ),
    ),
    places: optional(
      list(position('Where one of them is.'), 'Each one placed by itself; `at` is then not needed.', {
        example: '[{ x: 8, y: 8 }, { x: 52, y: 8 }]',
      }),
    ),
  },
  'The same feature several times. Members are called `NAME[1]`, `NAME[2]`, …',
  { one: [['line', 'grid', 'bolt-circle', 'places']], example: '{ line: { x: 36, count: 2 } }', title: 'pattern' },
);

const corner = position('One corner.').shape;
const pathCorner = map(
  {
    ...corner,
    round: optional(length('This corner rounded with a radius.', { example: '6' })),
    bevel: optional(length('This corner cut off, so far along both sides.', { example: '2' })),
    arc: optional(position('A point that the arc from this corner to the next passes through.')),
  },
  'One corner: its place, and `round` or `bevel` for the corner, `arc` for the way to the next.',
  { example: '{ x: 40, y: 0, round: 6 }', title: 'corner of a path' },
);
export const path = (description: string) =>
  list(pathCorner, description, {
    example: '[{ x: 0, y: 0 }, { x: 40, y: 0, round: 6 }, { x: 40, y: 25 }]',
    title: 'path',
  });

export const size = map(
  {
    x: optional(length('Size along x.', { example: '14' })),
    y: optional(length('Size along y.', { example: '24' })),
    z: optional(length('Size along z.', { example: '10' })),
  },
  'Size of a rectangle along the two axes of the face.',
  { example: '{ x: 14, y: 24 }', title: 'size' },
);

export const depth = (description: string, more: { example?: string } = {}) =>
  length(description, { example: '7', values: { through: 'to the far side of the body' }, ...more });

export const tilt = map(
  {
    about: axis('The part axis it is tilted about.'),
    angle: angle('How far it is tilted. Positive is counter-clockwise when the axis points at you.', { example: '10' }),
  },
  'The whole feature is tilted: it needs a tilted set-up or a fourth axis.',
  { example: '{ about: y, angle: 10 }', title: 'tilt' },
);

export const bodySchema = noted(
  z.union([
    map(
      {
        x: length('Size to the right.', { example: '60' }),
        y: length('Size to the back.', { example: '40' }),
        z: length('Size up.', { example: '16' }),
      },
      'A box.',
    ),
    map(
      {
        diameter: length('Diameter of the round body.', { example: '40' }),
        length: length('Length along its axis.', { example: '25' }),
        axis: optional(axis('Which way the axis lies.', { fallback: 'z' })),
      },
      'A round body.',
    ),
  ]),
  {
    description: 'The finished outside: `{ x, y, z }`, or `{ diameter, length, axis }` for a round body.',
    example: '{ x: 60, y: 40, z: 16 }',
  },
);
