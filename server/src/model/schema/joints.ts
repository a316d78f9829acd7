/** Joints as written in a job: which parts meet, and by what. */
import * as z from 'zod/mini';
import { NUTS, WASHERS } from '../../tables/fasteners';
import { length, list, map, name, named, noted, number, optional, text, words } from './common';

const HOLES =
  'a part of the job and its feature, `yoke.block-screws`; one member as `"yoke.block-screws[2]"`, in quotes inside braces and brackets';

const meeting = (description: string, example: string, more: { fallback?: string } = {}) =>
  noted(z.union([name('meeting', description, { example }), list(name('meeting', HOLES), description)]), {
    description,
    example,
    ...more,
  });

const always = {
  times: optional(
    number('How many such joints there are. A part with fewer holes is used in each of them.', {
      example: '2',
      fallback: '1',
    }),
  ),
  note: optional(text('A remark.')),
};

const washer = (description: string) =>
  optional(
    noted(
      z.union([
        words(WASHERS, description),
        map(
          {
            diameter: length('Outside diameter.', { example: '12' }),
            thickness: length('Thickness.', { example: '1.5' }),
          },
          'A washer by its own sizes.',
        ),
      ]),
      { description, example: 'ISO 7089', fallback: 'none', values: WASHERS },
    ),
  );

const screwed = map(
  {
    screw: name('screw', 'The screw: its size, and its standard, length and strength where they are settled.', {
      example: 'ISO 4762 M5x16',
    }),
    through: meeting('The holes that it goes through, from its head on: `part.feature`.', 'yoke.block-screws'),
    into: optional(
      meeting('The threaded holes that it goes into; left out where a nut holds it: `part.feature`.', 'block.mount'),
    ),
    nut: optional(words(NUTS, 'The nut that holds it.', { example: 'ISO 4032' })),
    washer: washer('Under the head.'),
    'nut-washer': washer('Under the nut.'),
    'nut-in': optional(
      name(
        'meeting',
        'The pocket or slot of the last part that the nut is let into, so that it cannot turn: `part.feature`.',
        {
          example: 'block.nut-pocket',
        },
      ),
    ),
    between: optional(
      length('Thickness of all else between the parts, such as a shim or a seal.', { example: '0.5', fallback: '0' }),
    ),
    with: optional(
      name('joint', 'Another joint of the same parts. Both hole patterns must meet in one position of the parts.', {
        example: 'dowels',
      }),
    ),
    ...always,
  },
  'Parts that screws hold together.',
  {
    title: 'screw',
    example: '{ screw: ISO 4762 M5x16, through: yoke.block-screws, into: block.mount }',
    one: [['into', 'nut']],
  },
);

const pinned = map(
  {
    pin: name('pin', 'The parallel pin: its size, and its standard, class and length where they are settled.', {
      example: 'ISO 8734 4x16',
    }),
    in: list(name('meeting', HOLES), 'The holes that it sits in: `part.feature`, from one end to the other.', {
      example: '[plate.dowels, yoke.dowels]',
    }),
    with: optional(
      name('joint', 'Another joint of the same parts. Both hole patterns must meet in one position of the parts.', {
        example: 'screws',
      }),
    ),
    ...always,
  },
  'Parts that pins keep in place.',
  { title: 'pin', example: '{ pin: ISO 8734 4x16, in: [plate.dowels, yoke.dowels] }' },
);

const FITS = {
  clearance: 'there is always play',
  transition: 'play or interference, as it comes out',
  interference: 'it is always pressed in',
} as const;
const fit = optional(words(FITS, 'What the fit is meant to be.', { example: 'clearance', fallback: 'not checked' }));

const seat = (what: string) =>
  name('meeting', `The opening that ${what} sits in: \`part.feature\`.`, { example: 'block.bearing-seat' });

const located = map(
  {
    shaft: noted(
      name('meeting', 'What sits in it: `part.feature`, `part.body` of a round body, or a size: `8 h6`.', {
        example: 'flange.spigot',
      }),
      {
        description: 'What sits in it: `part.feature`, `part.body` of a round body, or a size: `8 h6`.',
        names: 'meeting',
        example: 'flange.spigot',
      },
    ),
    seat: seat('it'),
    fit,
    ...always,
  },
  'A round thing in a round opening: a spigot, a shaft.',
  { title: 'shaft', example: '{ shaft: flange.spigot, seat: plate.bore, fit: clearance }' },
);

const bearing = map(
  {
    bearing: noted(
      z.union([
        name('bearing', 'A deep-groove ball bearing by its number, ISO 15.', { example: '608' }),
        map(
          {
            bore: length('Bore, with its limits where they are known.', { example: '8' }),
            outside: length('Outside diameter.', { example: '22' }),
            width: length('Width.', { example: '7' }),
          },
          'A bearing by its own sizes.',
        ),
      ]),
      { description: 'A bearing: its number, or its sizes.', example: '608' },
    ),
    seat: optional(seat('its outer ring')),
    shaft: optional(
      name('meeting', 'What its inner ring sits on: `part.feature`, or a size: `8 h6`.', { example: '8 h6' }),
    ),
    fit,
    ...always,
  },
  'A bearing in its seat. `fit` is that of the ring that has one in this job; the outer one, where both have.',
  { title: 'bearing', example: '{ bearing: 608, seat: block.bearing-seat }', some: [['seat', 'shaft']] },
);

const bought = map(
  {
    bought: text('What it is: one word for the list of what to buy.', { example: 'hall-sensor' }),
    size: noted(
      z.union([
        map(
          {
            diameter: length('Outside diameter.', { example: '12 h9' }),
            height: optional(length('Height, into its seat.', { example: '8', fallback: 'not checked' })),
          },
          'A round thing.',
        ),
        map(
          {
            length: length('Longer side.', { example: '20 ±0.1' }),
            width: length('Shorter side.', { example: '12 ±0.1' }),
            height: optional(length('Height, into its seat.', { example: '4', fallback: 'not checked' })),
            'corner-radius': optional(length('Radius of its own corners.', { example: '1', fallback: '0: sharp' })),
          },
          'A rectangular thing.',
        ),
      ]),
      { description: 'Its sizes, with their limits.', example: '{ length: 20 ±0.1, width: 12 ±0.1, height: 4 }' },
    ),
    seat: seat('it'),
    fit,
    ...always,
  },
  'A bought thing in its seat: a sensor, a motor, a magnet.',
  { title: 'bought', example: '{ bought: hall-sensor, size: { diameter: 12 }, seat: tray.sensor }' },
);

const stacked = map(
  {
    stack: list(
      name(
        'height',
        'A height: `part.x`, `part.y`, `part.z`, the depth of `part.feature`, or a size; `-` before it subtracts it.',
      ),
      'Heights that add up, each with its own limits or its part’s general tolerance.',
      { example: '[block.bearing-seat, -7 +0/-0.12]' },
    ),
    leaves: list(length('A limit.'), 'What may be left of it: least and most.', { example: '[0, 0.3]' }),
    note: optional(text('A remark.')),
  },
  'A stack of heights: what is left of it by the limits of all.',
  { title: 'stack', example: '{ stack: [block.bearing-seat, -7 +0/-0.12], leaves: [0, 0.3] }' },
);

/** By the key that says which. */
export const JOINTS = { screw: screwed, pin: pinned, shaft: located, bearing, bought, stack: stacked } as const;

const joint = noted(z.union([screwed, pinned, located, bearing, bought, stacked]), {
  description: 'One joint: by what is written first, `screw`, `pin`, `shaft`, `bearing`, `bought` or `stack`.',
});

export const joints = named(joint, 'Which parts meet, and by what, by name.', {
  example: '{ left: { screw: M5x16, through: yoke.block-screws, into: block.mount } }',
  keyNames: 'joint',
  defines: true,
});
