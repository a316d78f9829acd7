/** A bar or plate on the rack of a shop, as written. */
import { length, list, map, name, number, optional, rackForm, text } from './common';

export const rackItem = map(
  {
    form: rackForm('What it is.', { example: 'flat-bar' }),
    material: name('material', 'What it is made of.', { example: 'aluminium-6061-t6' }),
    section: optional(
      map(
        {
          width: length('Width.', { example: '40' }),
          thickness: optional(length('Thickness; left out for square bar.', { example: '16 ±0.05' })),
        },
        'Across the bar, as supplied. A tolerance may be behind each: the limits it is supplied in. For plate: the width of the plate and its thickness. For a channel or tee: along its web’s or flange’s width first, then how deep it is.',
        { example: '{ width: 40, thickness: 16 }' },
      ),
    ),
    diameter: optional(
      length('Diameter of a round bar or tube; of a bar with the limits it is supplied in.', { example: '40 h8' }),
    ),
    wall: optional(
      length(
        'Thickness of a tube’s wall, an angle’s legs, a channel’s or tee’s web, with the limits it is supplied in.',
        {
          example: '3',
        },
      ),
    ),
    flange: optional(length('Thickness of the flanges of a channel or tee.', { example: '4', fallback: 'as `wall`' })),
    lengths: optional(
      list(length('One length.'), 'The lengths it can be had in.', {
        example: '[1000, 3000]',
        fallback: 'any length up to 1 m',
      }),
    ),
    'per-metre': optional(number('Price of a metre.', { example: '9.5', fallback: 'not known' })),
    prices: optional(
      list(number('Price of one bar.'), 'Price of a whole bar of each of the `lengths`, in their order.', {
        example: '[14, 36]',
        fallback: 'by the metre',
      }),
    ),
    offcuts: optional(
      list(length('One length.'), 'Lengths in the shop, each as often as there are of it.', {
        example: '[320, 410, 410]',
        fallback: 'none',
      }),
    ),
    note: optional(text('A remark: where it is, who sells it.')),
  },
  'A bar or plate that can be had.',
  {
    one: [['section', 'diameter']],
    example: '{ form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 16 }, lengths: [1000] }',
  },
);
