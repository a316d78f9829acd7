/** `cuts` of a set-up: features and faces in the order cut, each all of it, only so far down, or sawn off. */
import * as z from 'zod/mini';
import { length, list, map, name, noted, optional, words } from './common';

/** One entry of `cuts` that says more than what is cut: only so far down, or sawn off. */
const partOfACut = map(
  {
    cut: name('cut', 'A feature, or a face that is faced down to the body.', { example: 'window' }),
    depth: optional(
      length('How far down it is cut here, from where it begins on the side that is up.', {
        example: 'half',
        values: { half: 'to a little beyond the middle of its depth; the rest is cut from the other side' },
      }),
    ),
    by: optional(
      words(
        { saw: 'sawn off the bar that holds it, after all other cuts of the set-up' },
        'How it is cut, where that is not on the mill.',
      ),
    ),
    leave: optional(
      length('How much the saw leaves on the face, to be milled off in a later set-up.', {
        fallback: 'nothing: the face stays as sawn',
        example: '1',
      }),
    ),
  },
  'Part of a cut: only so far down in this set-up. Or, as the last cut, a face at which the part is sawn off its bar.',
  { one: [['depth', 'by']], example: '{ cut: window, depth: half }' },
);

export const cuts = list(
  noted(z.union([name('cut', 'A feature, or a face that is faced down to the body.'), partOfACut]), {
    description:
      'A feature, or a face that is faced down to the body. A name alone means all of it that is left. Named in two set-ups with opposite faces up: each cuts half its depth.',
  }),
  'Features and faces in the order cut. Edges of 1 mm or less may be left out: they are broken with a file where no set-up breaks them.',
  {
    example: '[bearing-seat, right]',
  },
);
