/** What a part is cut from, as written. */
import type * as z from 'zod/mini';
import { axis, FACE_WORDS, face, length, list, map, name, number, optional, stockForm } from './common';

const extras = Object.fromEntries(
  Object.keys(FACE_WORDS).map((f) => [f, optional(length(`Material outside the ${f} face.`, { example: '1.5' }))]),
) as Record<keyof typeof FACE_WORDS, z.ZodMiniOptional<ReturnType<typeof length>>>;

export const stock = map(
  {
    form: stockForm('What it is cut from.', { example: 'flat-bar' }),
    sawn: optional(
      list(face('A sawn face.'), 'Sawn faces; the others are as supplied and of known size.', {
        example: '[left, right]',
      }),
    ),
    extra: optional(
      map(
        extras,
        'Material outside the body, face by face; none where not named. Of a blank: where it lies round the body; by its sizes where not named, half on each side.',
        {
          example: '{ left: 1.5, right: 1.5 }',
        },
      ),
    ),
    from: optional(
      name('file', 'The part file whose finished body a blank is, from this file’s folder.', {
        example: 'plate-blank.part.yaml',
      }),
    ),
    turned: optional(
      map(
        {
          top: optional(face('The blank’s face at the top of this part.', { fallback: 'by the shortest turn' })),
          front: optional(face('The blank’s face at the front of this part.', { fallback: 'by the shortest turn' })),
        },
        'How a blank is turned: which of its faces lies at the top and the front of this part.',
        { example: '{ top: right }', fallback: 'as it is drawn' },
      ),
    ),
    allowance: optional(
      length('Material outside each face of a casting that `extra` does not name.', {
        example: '3',
        fallback: '0: as cast',
      }),
    ),
    grade: optional(
      number('Tolerance grade of a casting, DCTG 1 to 16 of ISO 8062-3.', {
        example: '9',
        fallback: '11, usual for moulds of sand',
      }),
    ),
    diameter: optional(length('Diameter of a round bar or tube.', { example: '40' })),
    axis: optional(
      axis('Which way a bar lies that is not flat or square.', {
        fallback: 'z for a round one, else where it is sawn or longest',
      }),
    ),
    wall: optional(
      length('Thickness of a tube’s wall, an angle’s legs, a channel’s or tee’s web.', {
        example: '3',
      }),
    ),
    flange: optional(length('Thickness of the flanges of a channel or tee.', { example: '4', fallback: 'as `wall`' })),
    root: optional(
      length('Radius of the inside corners of a section; its outside corners are taken as sharp.', {
        example: '5',
        fallback: 'sharp',
      }),
    ),
    open: optional(
      list(
        face('A face without wall.'),
        'Where a section is open. Of an angle: the two faces at its empty corner. Of a channel: its open side. Of a tee: the side that its web points to.',
        { example: '[back, top]' },
      ),
    ),
    thickness: optional(
      length('Thickness of a flat bar or plate as supplied, with the limits it is known to have.', {
        example: '10 ±0.05',
        fallback: 'by the body and `extra`, with the limits of the rack or a standard',
      }),
    ),
    width: optional(
      length('Width of a flat or square bar as supplied, with the limits it is known to have.', {
        example: '40 h9',
        fallback: 'by the body and `extra`, with the limits of the rack or a standard',
      }),
    ),
    flatness: optional(
      length('How flat its faces as supplied are, over the part.', { example: '0.1', fallback: 'not known' }),
    ),
  },
  'What the part is cut from. Left out: a block of exactly the body’s size.',
  { example: '{ form: flat-bar, sawn: [left, right], extra: { left: 1.5, right: 1.5 } }' },
);
