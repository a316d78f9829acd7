/** A group of features from another part's file: which ones, what they are called here, and where they lie. */
import { angle, face, list, map, name, named, optional, quantity, text } from './common';
import { position } from './places';

const place = map(
  {
    face: optional(face('The face of this part that it comes to lie on.', { fallback: 'the face that it has there' })),
    at: position('Where its middle comes to lie: the middle of that face of the other part, or the centre of `by`.'),
    by: optional(
      text('The feature of the other part whose centre comes to lie at `at`, by its name there.', {
        example: 'bore',
        fallback: 'the middle of that face of the other part',
      }),
    ),
    rotate: optional(
      angle('Turned about that point, from the first axis of the face toward the second.', {
        example: '90',
        fallback: '0',
      }),
    ),
  },
  'Where the group lies in this part: its features are then all of one face there.',
  { example: '{ face: front, at: { x: center, z: 20 } }', fallback: 'where it lies there, in the part axes' },
);

export const include = map(
  {
    from: name('file', 'The part file, from this file’s folder.', { example: 'motor-face.part.yaml' }),
    features: optional(
      list(text('A feature of that part, by its name there.', { example: 'bore' }), 'Which of its features.', {
        example: '[bore, screws]',
        fallback: 'all of them',
      }),
    ),
    prefix: optional(
      text('Stands before each of their names here.', {
        example: 'motor-',
        fallback: 'they are called here as they are there',
      }),
    ),
    rename: optional(
      named(
        text('What it is called here.', { example: 'motor-seat' }),
        'Names of their own for some, instead of the prefix.',
        {
          example: '{ bore: motor-seat }',
        },
      ),
    ),
    parameters: optional(
      named(
        quantity('The value that this parameter of that part has here; may use parameters of this part.', {
          example: '31',
          unit: 'length',
        }),
        'Other values for parameters of that part.',
        { example: '{ pitch: 31 }', fallback: 'as they are there' },
      ),
    ),
    place: optional(place),
    note: optional(text('A remark.')),
  },
  'Features from another part’s file, cut here as if they stood under `features`.',
  { example: '{ from: motor-face.part.yaml, features: [bore, screws], prefix: motor- }' },
);
