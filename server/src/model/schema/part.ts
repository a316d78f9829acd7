/** A part document as written: header, body, stock, features, tolerances, setups, accepted findings. */
import * as z from 'zod/mini';
import { feature } from '../feature-kinds';
import {
  angle,
  axis,
  FACE_WORDS,
  face,
  length,
  list,
  map,
  name,
  named,
  noted,
  number,
  optional,
  quantity,
  text,
  units,
  words,
} from './common';
import { cuts } from './cuts';
import { include } from './include';
import { bodySchema, position } from './places';
import { requirements } from './requirements';
import { stock } from './stock';
import { tolerance } from './tolerance';
import { variants } from './variants';

const jaws = list(face('A face that a jaw touches.'), 'The two opposite faces in the jaws: fixed, moving.', {
  example: '[front, back]',
});
const grip = length('Height of the workpiece in the jaws.', { example: '6' });
const parallels = length('Height of the parallels under the workpiece.', {
  example: '26',
  fallback: 'chosen from the shop',
});
const stop = name('zero', 'The face (or feature) against the stop.', { example: 'left' });
const vise = name('vise', 'Which vise of the shop.', { example: 'mill-vise-100' });
const vBlock = name('v-block', 'Which V-block of the shop.', { example: 'v-block-45' });
const vBlockInVise = name('v-block', 'A V-block of the shop between the moving jaw and round work.', {
  example: 'v-block-45',
  fallback: 'none',
});
const apart = length('Two such vises in line along the workpiece: distance from middle to middle.', {
  example: '200',
  fallback: 'one vise',
});
const twoPieces = {
  pieces: optional(
    number('Pieces in the jaws at the same time, one beside the other along them: 2.', {
      fallback: '1',
      example: '2',
    }),
  ),
  gap: optional(
    length('Distance between the two pieces along the jaws.', { fallback: '0: they touch', example: '14' }),
  ),
  pad: optional(
    length('Thickness of a soft strip between the moving jaw and the pieces: it takes up what they differ by.', {
      fallback: 'none',
      example: '1',
    }),
  ),
};
const overhangs = Object.fromEntries(
  Object.keys(FACE_WORDS).map((f) => [f, optional(length(`Overhang on the ${f}.`, { example: '6' }))]),
) as Record<keyof typeof FACE_WORDS, z.ZodMiniOptional<ReturnType<typeof length>>>;
const overhang = map(overhangs, 'Overhang of the workpiece at one end of the jaws, as it is put in.', {
  example: '{ left: 6 }',
  fallback: 'the middle of the jaws. Without a stop: 3 mm at an end that is milled or cut back in the jaws',
});
const inJaws = {
  jaws: optional(jaws),
  grip: optional(grip),
  parallels: optional(parallels),
  stop: optional(stop),
  overhang: optional(overhang),
};
const BASES = { table: 'the machine’s table', plate: 'a fixture plate' } as const;

const HOLDS = {
  'v-block': map(
    {
      'v-block': vBlock,
      clamps: list(
        position('Where a clamp presses on the round work, on the side that is up.'),
        'Where the clamps press, over the V-blocks.',
        {
          example: '[{ x: 20, y: center }, { x: 100, y: center }]',
        },
      ),
      on: optional(words(BASES, 'What the V-blocks are on.', { fallback: 'table' })),
      stop: optional(stop),
    },
    'Round work lying in a V-block or a pair of them, which stand under the outermost clamps.',
  ),
  'angle-plate': map(
    {
      'angle-plate': name('angle-plate', 'Which angle plate of the shop.', { example: 'angle-plate-100' }),
      against: face('The face that lies against the plate.'),
      clamps: list(position('Where a clamp presses, on the face opposite the plate.'), 'Where the clamps press.', {
        example: '[{ x: 20, z: 30 }, { x: 60, z: 30 }]',
      }),
      out: optional(
        length('Height of the workpiece above the plate.', {
          example: '12',
          fallback: 'as it stands on the table beside the plate’s foot',
        }),
      ),
      stop: optional(stop),
    },
    'Clamped against the upright side of an angle plate.',
  ),
  vise: map(
    { vise, ...inJaws, jaws, grip, 'v-block': optional(vBlockInVise), apart: optional(apart), ...twoPieces },
    'In a vise with plain jaws, or in two of them in line.',
  ),
  clamps: map(
    {
      clamps: list(position('Where a clamp presses, on the face that is up.'), 'Where the clamps press.', {
        example: '[{ left: 6, y: center }]',
      }),
      on: optional(words(BASES, 'What it is clamped to.', { fallback: 'table' })),
      stop: optional(stop),
    },
    'Clamped down on the table or a plate.',
  ),
  screws: map(
    {
      screws: list(name('feature', 'A hole of the part.'), 'Holes of the part that screws go through.', {
        example: '[mount]',
      }),
      to: optional(words(BASES, 'What it is screwed to.', { fallback: 'plate' })),
      stop: optional(stop),
    },
    'Screwed to a plate through its own holes.',
  ),
  tabs: map(
    {
      tabs: map(
        {
          count: number('How many.', { example: '4' }),
          width: length('Width of one.', { example: '5' }),
          height: length('Height left standing.', { example: '1' }),
        },
        'Bridges left to the stock, cut and filed off afterwards.',
      ),
      on: optional(words(BASES, 'What the stock is clamped to.', { fallback: 'table' })),
    },
    'Held in its stock by tabs.',
  ),
  'soft-jaws': map(
    {
      'soft-jaws': text('The vise that carries them, or `true`: jaws milled to the part’s own shape.', {
        example: 'mill-vise-100',
        names: 'vise',
      }),
      ...inJaws,
    },
    'In jaws milled to the part’s own shape.',
  ),
  angle: map(
    {
      angle: angle(
        'How far the workpiece is tilted, counted as the `tilt` of what is cut there. Positive is counter-clockwise when the axis points at you.',
        { example: '20' },
      ),
      about: optional(axis('The part axis it is tilted about. Left out: the axis of the first tilted cut.')),
      vise: optional(vise),
      ...inJaws,
    },
    'Tilted: on an angle plate, sine bar or tilting vise.',
  ),
} as const;
const hold = noted(
  z.union([
    HOLDS.vise,
    HOLDS['v-block'],
    HOLDS['angle-plate'],
    HOLDS.clamps,
    HOLDS.screws,
    HOLDS.tabs,
    HOLDS['soft-jaws'],
    HOLDS.angle,
  ]),
  {
    description:
      'How the workpiece is held: a vise, V-blocks, an angle plate, clamps, screws, tabs, soft jaws, or tilted.',
    example: '{ vise: mill-vise-100, jaws: [front, back], grip: 6, stop: left }',
  },
);

const METHODS = {
  'edge-finder': 'a turning finder touched against the side',
  probe: 'a touch probe in the spindle',
  'tool-edge': 'the cutter itself, touched on paper or a block',
  indicator: 'a dial indicator swept round a bore or along a face',
  stop: 'the vise stop, where the last one lay',
} as const;
const zeroOf = (what: string, more = {}) =>
  optional(name('zero', `What ${what} is set from: a face, or a feature.`, { example: 'left', ...more }));
const PARALLELS = { values: { parallels: 'the top of the parallels, or the vise bed' } };
const method = optional(
  words(METHODS, 'How zero is found; its repeatability comes from the shop. Left out: an edge finder.'),
);

export const setup = map(
  {
    up: face('The face that is up, toward the spindle.'),
    hold: optional(hold),
    zero: optional(
      map({ x: zeroOf('x'), y: zeroOf('y'), z: zeroOf('z', PARALLELS), method }, 'What each axis is set from.', {
        example: '{ x: left, y: back, z: parallels }',
      }),
    ),
    method,
    clock: optional(
      map(
        {
          indicator: optional(name('cut', 'A feature or face that a dial indicator is run along.', { example: 'key' })),
          pin: optional(name('feature', 'A hole with a pin in it, set level or against a jaw.', { example: 'cross' })),
          square: optional(name('cut', 'A feature or face that a square stands against.', { example: 'flat' })),
        },
        'What locates it in rotation, where no flat at the fixed jaw and no stop does. For round stock, and under clamps.',
        { one: [['indicator', 'pin', 'square']], example: '{ indicator: key }' },
      ),
    ),
    cuts,
    machine: optional(name('machine', 'Which machine of the shop.', { fallback: 'chosen from the shop' })),
    tools: optional(
      named(name('tool', 'Which tool of the shop.', { example: 'em-10' }), 'A tool for a feature, where it matters.', {
        keyNames: 'feature',
        fallback: 'chosen from the shop',
        example: '{ bearing-seat: em-10 }',
      }),
    ),
    note: optional(text('A remark for whoever sets it up.')),
  },
  'One clamping: what is up, how it is held, where zero is, what is cut.',
);

export const accept = map(
  {
    rule: name('rule', 'The rule whose finding is accepted.', { example: 'hole/depth-ratio' }),
    of: optional(
      name('cut', 'Only for this feature (or member, or face).', {
        example: 'mount',
        fallback: 'for all',
      }),
    ),
    because: optional(text('Why it is all right.', { example: 'long-series drill is borrowed' })),
  },
  'A finding that is known and accepted.',
);

export const partSchema = map(
  {
    part: text('Name of the part: lower-case, words joined by `-`.', { example: 'bearing-block' }),
    title: optional(text('Title as on the drawing.')),
    revision: optional(text('Revision letter or number.', { example: 'B' })),
    shop: optional(
      name('file', 'The shop file, from this file’s folder.', {
        example: '../campus.shop.yaml',
        fallback: 'the nearest `*.shop.yaml` going up the folders, or the built-in shop',
      }),
    ),
    units: optional(units()),
    material: optional(name('material', 'What it is made of.', { example: 'aluminium-6061-t6' })),
    quantity: optional(number('How many are wanted.', { example: '4', fallback: '1' })),
    tolerance: optional(
      text(
        'What an untoleranced dimension gets. `ISO 2768-m` by class; `ISO 22081 ±0.1` one for all; `.X ±0.1, .XX ±0.01` by decimals, in inches.',
        {
          example: 'ISO 2768-m',
          fallback: 'none',
          values: {
            'ISO 2768-f': 'fine',
            'ISO 2768-m': 'medium',
            'ISO 2768-c': 'coarse',
            'ISO 2768-v': 'very coarse',
          },
        },
      ),
    ),
    ...requirements,
    parameters: optional(
      named(
        quantity('A length, an angle or a number; may use other parameters and `body.x`.', {
          example: '36',
          unit: 'length',
        }),
        'Values with a name, used in dimensions.',
        { keyNames: 'parameter', defines: true },
      ),
    ),
    variants,
    body: bodySchema,
    stock: optional(stock),
    features: optional(named(feature, 'What is cut, in order, by name.', { keyNames: 'feature', defines: true })),
    include: optional(
      named(include, 'Groups of features from other parts’ files, cut here as well, by name.', {
        example: '{ motor: { from: motor-face.part.yaml, prefix: motor- } }',
      }),
    ),
    datums: optional(
      named(
        name('cut', 'A face or feature.', { example: 'bottom' }),
        'Datum letters and the face or feature each is.',
        {
          example: '{ A: bottom, B: front }',
          keyNames: 'datum',
          defines: true,
        },
      ),
    ),
    tolerances: optional(list(tolerance, 'Geometric tolerances, and toleranced distances between features.')),
    setups: optional(named(setup, 'How it is set up, in order. Left out: the planner finds a plan.')),
    accept: optional(list(accept, 'Findings that are known and accepted.')),
  },
  'A part: its finished body, stock, features, tolerances, and how it is set up.',
  { title: 'Part' },
);
